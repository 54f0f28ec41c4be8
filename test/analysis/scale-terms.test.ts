import { describe, expect, test } from "vitest";
import { analyseScale } from "../../src/analysis/analyse-scale.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { modelText } from "../../src/words/en/mixed.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan } from "../design/scenario.ts";
import { juicinessMarks, lineRecord, type Marks } from "./study-records.ts";
import { clean } from "./texts.ts";

// What a plan varies beside products reaches the mixed model of its study: sessions, places, batches.

const plan = linePlan();
const [wave] = plan.waves;
if (!wave) throw new Error("the scenario has a wave");

/** Two sessions of six, and so many batches of each product in either. */
const varied = (batches: number) => ({
  ...plan,
  waves: ["Monday", "Tuesday"].map((session, at) => ({
    ...wave,
    ...{ id: wave.id.replace(/.$/, String(at)), people: 6, session },
    batches: Object.fromEntries(
      plan.products.map(({ id }) => [id, Array.from({ length: batches }, (_, batch) => `${session} ${batch + 1}`)]),
    ),
  })),
});
const study = (batches: number, marks: readonly (readonly (number | null)[])[]) =>
  analyseScale(
    lineRecord(
      varied(batches),
      marks.map((own): Marks => [[...own]]),
      {},
      (seat) => ({ wave: seat > 6 ? 2 : 1 }),
    ),
    "1",
  );
const gaps = juicinessMarks.map((own, at) => (at % 5 === 0 ? [null, ...own.slice(1)] : own));

describe("a study in two sessions, each product in several batches", () => {
  test("marks missing: the mixed model leads with session and place; from three batches on they are drawn from many", () => {
    const found = study(3, gaps);
    const [attribute] = found.attributes;
    expect(attribute).toMatchObject({ leads: "mixed", noMixed: null, mixed: { leftOut: [] } });
    expect(attribute?.mixed?.terms.map(({ term }) => term)).toEqual(["session", "position"]);
    expect(attribute?.mixed?.batches).toBeGreaterThanOrEqual(3);
    expect(attribute?.mixed?.variances.batch).not.toBeNull();
    expect(found.caveats).toContainEqual(expect.objectContaining({ what: "batches-drawn", leads: "mixed" }));
    expect(found.caveats.map(({ what }) => what)).not.toContain("position-left-out");
    const said = describeResult(found, report);
    clean(said);
    // which spread an effect is counted in: that of a batch's own marks, the batches taken out
    expect(said.attributes[0]?.contrasts?.columns).toContain("In residual standard deviations, within batches");
    expect(said.rows.find(({ id }) => id === "within")?.label).toContain("within people and batches");
    expect(modelText(["session", "position", "batch"])).toMatch(
      /fixed: products, the session and the place on the tray; .* batches within their product, drawn from many\.$/,
    );
  });
  test("no mark missing: the block test leads, and what batches as drawn from many would say stands beside it", () => {
    const found = study(3, juicinessMarks);
    const [attribute] = found.attributes;
    expect(attribute?.leads).toBe("blocks");
    const { caveats } = describeResult(found, report);
    const drawn = caveats.find((sentence) => sentence.startsWith("The verdict speaks of the batches"));
    expect(drawn).toContain(`F(2, `);
    expect(attribute?.mixed?.terms.map(({ term }) => term)).toEqual(["session", "position"]);
    expect(found.caveats.map(({ what }) => what)).toContain("position-left-out");
  });
  test("two batches of each product in all: no term, and the claim is confined to them in words", () => {
    const found = study(1, gaps);
    const [attribute] = found.attributes;
    expect(attribute?.mixed).toMatchObject({ batches: null, leftOut: [{ term: "batch", why: "few-batches" }] });
    const { caveats } = describeResult(found, report);
    expect(caveats.filter((sentence) => sentence.includes("what is said holds for these"))).toHaveLength(3);
  });
  test("too few marks for places: the mixed model leads without them, and nobody says that the orders balance them", () => {
    const few = study(
      1,
      juicinessMarks
        .slice(0, 3)
        .map((own, at) => own.map((value, product) => (at < 2 && product === at ? null : value))),
    );
    expect(few.attributes[0]).toMatchObject({ leads: "mixed" });
    expect(few.attributes[0]?.mixed?.leftOut).toContainEqual({ term: "position", why: "too-few" });
    const { caveats, attributes } = describeResult(few, report);
    expect(attributes[0]?.lead).toContain("Left out of it is the place on the tray: there are too few marks for it.");
    expect(caveats.join(" ")).not.toContain("is balanced by the serving orders");
    expect(caveats.join(" ")).toContain("may balance it in part only");
  });
});
