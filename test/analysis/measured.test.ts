import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { chewResult } from "../../src/analysis/chew-weigh.ts";
import { describe as inWords } from "../../src/analysis/describe.ts";
import type { MassSource } from "../../src/model/measured.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan } from "../design/scenario.ts";
import { chewPlan, chewRows } from "./chew-example.ts";
import { ledgerOf, scenarioRows } from "./ledger-example.ts";
import { massByR } from "./mass-reference.ts";
import { juicinessMarks, lineRecord } from "./study-records.ts";

const plan = linePlan();
const [current, steamed] = plan.products;
const ids = [
  { named: "current", product: current?.id ?? null },
  { named: "new", product: steamed?.id ?? null },
];
const claim = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const ledger: MassSource = {
  ...{ kind: "ledger", claim, title: "Steam first keeps juice in", products: ids },
  ledger: ledgerOf(scenarioRows),
};
const portions: MassSource = {
  ...{ kind: "portions", study: claim, title: "Chewed 15 s", products: ids },
  found: chewResult(chewRows, chewPlan, "test"),
};
const recordWith = (sources: MassSource[], afterReveal = false): StudyRecord => ({
  ...lineRecord(
    plan,
    juicinessMarks.map((marks) => [[...marks]]),
  ),
  masses: { sources, afterReveal },
});
const measuredOf = (record: StudyRecord) => analyse(record, "test").study?.measured ?? [];

describe("masses beside what was perceived (the scenario's ledger and portions; R's t.test, test/reference/mass-by-r)", () => {
  const rows = measuredOf(recordWith([ledger, portions]));

  test("each step on its own base and the whole chain on the raw one, with the intervals that R gives", () => {
    const expected = [
      ["step-loss", "cooked", massByR.ledger.cooked.own.difference],
      ["step-loss", "rested", massByR.ledger.rested.own.difference],
      ["step-loss", "held", massByR.ledger.held.own.difference],
      ["total-loss", "held", massByR.ledger.held.ofRaw.difference],
    ] as const;
    expect(rows.slice(0, -1).map(({ what, step }) => [what, step])).toEqual(
      expected.map(([what, step]) => [what, step]),
    );
    expected.forEach(([, , [estimate = NaN, low = NaN, high = NaN]], at) => {
      expect(rows[at]?.difference.estimate).toBeCloseTo(estimate, 9);
      expect(rows[at]?.difference.low).toBeCloseTo(low, 8);
      expect(rows[at]?.difference.high).toBeCloseTo(high, 8);
      expect(rows[at]).toMatchObject({ unit: "batches", units: [4, 4], design: "independent", afterReveal: false });
    });
  });

  test("gains of chewed portions have people as their unit, in pairs", () => {
    const [estimate = NaN, low = NaN, high = NaN] = massByR.chew.difference;
    const gain = rows.at(-1);
    expect(gain).toMatchObject({ what: "gain", unit: "panelists", units: [8, 8], design: "paired" });
    expect(gain?.difference.estimate).toBeCloseTo(estimate, 9);
    expect(gain?.difference.low).toBeCloseTo(low, 8);
    expect(gain?.difference.high).toBeCloseTo(high, 8);
  });

  test("go by the study's names of its products; one that is none of them is left out", () => {
    expect(rows.every(({ first, second }) => first === current?.name && second === steamed?.name)).toBe(true);
    const strange = { ...ledger, products: [ids[0], { named: "new", product: null }].flatMap((each) => each ?? []) };
    expect(measuredOf(recordWith([strange]))).toEqual([]);
  });

  test("stand in a table beside the perceived differences, without a figure that combines them", () => {
    const said = inWords(analyse(recordWith([ledger, portions], true), "test"), report);
    const part = said.parts.find(({ id }) => id === "beside");
    const text = JSON.stringify(part);
    // 6.5 points less of the raw mass (5.2 to 7.7), 2.9 points less gained (1.4 to 4.5): scenario, section of the day
    for (const words of [
      "\u22126.5 percentage points",
      "\u22127.7 to \u22125.2",
      "\u22122.9 percentage points",
      "4 and 4 batches",
    ]) {
      expect(text).toContain(words);
    }
    expect(part?.sentences).toContain(report.beside.afterReveal);
    expect(part?.sentences.join(" ")).toContain("No correlation is given");
    const perceived = (part?.table.rows ?? []).filter(
      ([, difference]) => /points$/.test(difference ?? "") && !/percentage/.test(difference ?? ""),
    );
    expect(perceived).toHaveLength(3);
    expect(said.verdict).toBe(inWords(analyse({ ...recordWith([]), masses: null }, "test"), report).verdict);
  });

  test("a study with none, a blank one and one whose key is in doubt have no such part", () => {
    const partOf = (record: StudyRecord) =>
      inWords(analyse(record, "test"), report).parts.find(({ id }) => id === "beside");
    const record = recordWith([ledger]);
    expect(partOf(record)).toBeDefined();
    expect(partOf({ ...record, masses: null })).toBeUndefined();
    expect(partOf({ ...record, plan: { ...record.plan, blank: true } })).toBeUndefined();
    expect(partOf({ ...record, keyMatches: false })).toBeUndefined();
  });
});
