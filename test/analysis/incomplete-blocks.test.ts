import { expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { blockAnalysis } from "../../src/analysis/blocks.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { openParts } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan } from "../design/scenario.ts";
import { blockSet } from "./block-data.ts";
import { lineRecord } from "./study-records.ts";

// Seven products, three a tray. The effects are those of Li 1964, Table 27.2 (in blocks-by-r, where R has its F too): here they
// only give marks a shape; what is compared is a study that was dealt and kept with the same marks as plain rows.

const idOf = (at: number) => `${at + 1}0000000-0000-4000-8000-000000000000`;
const products = Array.from({ length: 7 }, (_, at) => ({
  id: idOf(at),
  name: `product ${at + 1}`,
  preparation: "as usual",
}));
const batches = Object.fromEntries(products.map(({ id }, at) => [id, [`${at + 1}a`]]));

function plan(): Plan {
  const line = linePlan();
  const [declared] = line.declarations;
  return {
    ...line,
    perTray: 3,
    people: 14,
    products,
    waves: [{ id: "a0000000-0000-4000-8000-00000000000a", starts: "11:15", people: 14, session: "", batches }],
    declarations: [
      ...(declared ? products.map(({ id }) => ({ ...declared, of: id })) : []),
      ...line.declarations.filter(({ of }) => of === "warm-up" || of === "cleanser"),
    ],
  };
}

const effects = blockSet("blocks-of-three-of-seven").byR.leastSquaresMeans;
/** What a seat would mark of each product; only what was on its tray is asked. */
const marksOf = (seat: number) => effects.map((effect, at) => 20 + 2 * effect + ((seat * 7 + at * 5) % 11) + seat);

test("a study in incomplete blocks: nobody lacks what they were never to get, and F is that of the marks that were made", () => {
  expect(openParts(plan()).filter(({ part }) => part === "samples")).toEqual([]);
  const record = lineRecord(
    plan(),
    Array.from({ length: 14 }, (_, at) => [marksOf(at + 1)]),
  );
  const result = analyse(record, "1");
  if (result.family !== "scale") throw new Error(result.family);
  const [attribute] = result.attributes;
  expect(result.perTray).toBe(3);
  expect(attribute?.judgments).toBe(42);
  expect(attribute?.incomplete).toEqual([]);
  expect(result.caveats.map(({ what }) => what)).not.toContain("incomplete-panelists");

  const rows = record.marks.map(({ tray, code, fraction }) => {
    const sample = record.opened.key.trays.find((own) => own.tray === tray)?.samples.find((own) => own.code === code);
    return { panelist: `seat ${tray}`, product: sample?.product ?? "", value: (fraction ?? 0) * 100 };
  });
  const plain = blockAnalysis(
    rows,
    products.map(({ id }) => id),
    0.95,
  );
  if (plain.outcome !== "ok") throw new Error(plain.outcome);
  expect(attribute?.blocks?.fValue).toBeCloseTo(plain.blocks.fValue, 9);
  expect(attribute?.blocks?.denominatorDf).toBe(42 - 14 - 6);

  const [said] = describeResult(result, report).attributes;
  expect(said?.rows.find(({ id }) => id === "error")?.behind).toContain("each person got 3 of the products");
});

test("a mark that was left out on a tray is named, and only that one", () => {
  const people = Array.from({ length: 14 }, (_, at) => [marksOf(at + 1) as (number | null)[]]);
  const whole = lineRecord(plan(), people);
  const gone = whole.opened.key.trays.find(({ tray }) => tray === 5)?.samples[1]?.product ?? "";
  const at = products.findIndex(({ id }) => id === gone);
  const fewer = people.map(([own = []], seat) => [
    own.map((mark, place) => (seat === 4 && place === at ? null : mark)),
  ]);
  const result = analyse(lineRecord(plan(), fewer), "1");
  if (result.family !== "scale") throw new Error(result.family);
  // codes and orders are drawn from one seed in these records, so tray 5 holds the same product again
  expect(result.attributes[0]?.incomplete).toEqual([{ panelist: "seat 5", missing: [`product ${at + 1}`] }]);
});
