import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyse } from "../../src/analysis/analyse.ts";
import { analyseScale, resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import type { Attribute } from "../../src/model/attribute.ts";
import type { ScaleRow } from "../../src/model/record.ts";
import { result as schema } from "../../src/model/result.ts";
import { linePlan } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";
import { relativeError } from "./reference.ts";
import { fishRows, fishScores, wineRows, wineScores } from "./score-rows.ts";
import { juicinessMarks, lineRecord, type Marks } from "./study-records.ts";

const whats = (caveats: readonly { what: string }[]) => caveats.map(({ what }) => what);
const marksOf = (rows: readonly (readonly (number | null)[])[]): Marks[] => rows.map((row) => [[...row]]);
const study = (rows: readonly (readonly (number | null)[])[]) => lineRecord(linePlan(), marksOf(rows));
const only = (rows: readonly ScaleRow[]) => {
  const found = resultOfScaleRows(0.05, rows, "1");
  expect(z.safeParse(schema, found).success).toBe(true);
  const [attribute] = found.attributes;
  if (!attribute) throw new Error("no attribute");
  return { found, attribute };
};
const row = (panelist: string, product: string, value: number | null, attribute = "", moment = ""): ScaleRow => ({
  panelist,
  product,
  repeat: "1",
  attribute,
  moment,
  value,
});

describe("published scores", () => {
  test("six fish samples, four assessors, three repeats: F 19.964 on 5 and 15, means as printed; ISO 8586 Annex C, seen in copies", () => {
    const { found, attribute } = only(fishRows);
    expect(attribute.blocks).toMatchObject({ numeratorDf: 5, denominatorDf: 15, balanced: true });
    expect(relativeError(attribute.blocks?.fValue ?? 0, fishScores.computed.F_sample_over_interaction)).toBeLessThan(
      1e-12,
    );
    // one of the twelve printed scores of S3 is one too high, by the printed means; see the reference's remark
    const off = (product: string) => (product === "S3" ? 1 / 12 : 0);
    attribute.means.forEach(({ product, estimate }, at) => {
      const printed = fishScores.printedSampleMeans[at] ?? 0;
      expect(Math.abs((estimate ?? 0) - off(product) - printed), product).toBeLessThanOrEqual(0.0501);
    });
    expect(attribute).toMatchObject({ repeats: 3, people: 4, judgments: 72 });
    // pure error 61.333 on 48, as the table's residual
    expect(attribute.variances.residual).toBeCloseTo(61.333333333333336 / 48, 12);
    // four people are too few to speak for a panel
    expect(found.outcome).toBe("too-few");
  });
  test("bitterness of wine, nine judges, two bottles: F 25.138 on 3 and 24, means, least difference 8.992, components; data of Randall 1989, R 4.2.2", () => {
    const { found, attribute } = only(wineRows);
    const { computed } = wineScores;
    expect(attribute.blocks).toMatchObject({ numeratorDf: 3, denominatorDf: 24 });
    expect(relativeError(attribute.blocks?.fValue ?? 0, computed.F_random_treatment_over_interaction)).toBeLessThan(
      1e-11,
    );
    expect(relativeError(attribute.blocks?.pValue ?? 0, computed.p_random)).toBeLessThan(1e-10);
    for (const { product, estimate } of attribute.means) {
      expect(estimate).toBeCloseTo(computed.means[product] ?? 0, 11);
    }
    for (const { low, high } of attribute.contrasts) {
      expect((high - low) / 2).toBeCloseTo(computed.LSD_interactionError, 9);
    }
    expect(attribute.variances.panelist).toBeCloseTo(computed.varianceComponents.judge, 8);
    expect(attribute.variances.panelistProduct).toBeCloseTo(computed.varianceComponents.judgeTreatment, 8);
    expect(attribute.variances.residual).toBeCloseTo(computed.varianceComponents.residual, 8);
    expect(found.outcome).toBe("reached");
  });
});

describe("the kitchen's invented marks of juiciness after ten seconds", () => {
  const found = analyseScale(study(juicinessMarks), "1.0.0");
  const [attribute] = found.attributes;

  test("F(2, 22) = 10.5, p = 0.0006; new less current 11.9 (5.3 to 18.5); rested less new 1.4 (-5.2 to 8.1)", () => {
    expect(z.safeParse(schema, found).success).toBe(true);
    expect(attribute?.blocks).toMatchObject({ numeratorDf: 2, denominatorDf: 22 });
    expect(attribute?.blocks?.fValue).toBeCloseTo(10.5, 1);
    expect(attribute?.blocks?.pValue).toBeCloseTo(0.0006, 4);
    const [newer, , rest] = attribute?.contrasts ?? [];
    expect(newer).toMatchObject({ first: "new", second: "current" });
    const shown = (numbers: (number | undefined)[]) => numbers.map((number) => (number ?? 0).toFixed(1));
    expect(shown([newer?.difference, newer?.low, newer?.high])).toEqual(["11.9", "5.3", "18.5"]);
    expect(rest).toMatchObject({ first: "new, rested", second: "new" });
    expect(shown([rest?.difference, rest?.low, rest?.high])).toEqual(["1.4", "-5.2", "8.1"]);
    expect(found.outcome).toBe("reached");
  });
  test("the result names the line, its products and everybody's marks by seat, repeats none", () => {
    expect(found).toMatchObject({ people: 12, judgments: 36, products: ["current", "new", "new, rested"] });
    expect(found.scale).toEqual({ low: 0, high: 100, lengthMm: 120 });
    expect(attribute).toMatchObject({ attribute: "Juiciness", moment: { at: "after", seconds: 10 }, repeats: 1 });
    const seventh = attribute?.panelists.find(({ panelist }) => panelist === "seat 7")?.values;
    expect(seventh?.map((value) => value?.toFixed(1))).toEqual(["47.8", "70.0", "54.9"]);
  });
  test("every place on the tray has been marked twelve times; orders twice each", () => {
    expect(attribute?.positions.map(({ position, judgments }) => [position, judgments])).toEqual([
      [1, 12],
      [2, 12],
      [3, 12],
    ]);
    expect(found.orders.map(({ judgments }) => judgments)).toEqual([2, 2, 2, 2, 2, 2]);
  });
  test("a clean study keeps the caveats of its kind alone", () => {
    expect(new Set(whats(found.caveats))).toEqual(new Set(["few-batches", "this-panel-only", "position-left-out"]));
  });
  test("analyse is the same function for every method", () => {
    expect(analyse(study(juicinessMarks), "1.0.0")).toEqual(found);
  });
});

describe("what data can do to a scale is a named outcome", () => {
  const outcomeOf = (rows: readonly (readonly (number | null)[])[]) => {
    const found = analyseScale(study(rows), "1");
    expect(z.safeParse(schema, found).success).toBe(true);
    return { verdict: found.outcome, attribute: found.attributes[0], found };
  };

  test("a mark never made is no answer: neither 0 nor the middle, and the panelist is named", () => {
    const rows = juicinessMarks.map((own, at) => (at === 4 ? [null, own[1] ?? 0, own[2] ?? 0] : own));
    const { attribute, found } = outcomeOf(rows);
    expect(attribute).toMatchObject({ outcome: "ok", judgments: 35, people: 12 });
    expect(attribute?.blocks).toMatchObject({ denominatorDf: 21, balanced: false });
    expect(attribute?.panelists.find(({ panelist }) => panelist === "seat 5")?.values[0]).toBeNull();
    expect(attribute?.incomplete).toEqual([{ panelist: "seat 5", missing: ["current"] }]);
    const [first] = attribute?.means ?? [];
    const others = juicinessMarks.filter((_, at) => at !== 4).map(([value = 0]) => value);
    expect(first?.judgments).toBe(11);
    expect(first?.estimate).toBeCloseTo(others.reduce((sum, value) => sum + value, 0) / 11, 12);
    expect(found.caveats).toContainEqual({
      what: "incomplete-panelists",
      attribute: "Juiciness",
      panelists: ["seat 5"],
    });
  });
  test("somebody who could judge nothing stands with no answer for every product", () => {
    const { attribute } = outcomeOf(juicinessMarks.map((own, at) => (at === 0 ? [null, null, null] : own)));
    expect(attribute?.incomplete).toEqual([{ panelist: "seat 1", missing: ["current", "new", "new, rested"] }]);
    expect(attribute?.panelists).toHaveLength(12);
    expect(attribute?.people).toBe(11);
  });
  test("a product that nobody marked", () => {
    const { attribute, verdict } = outcomeOf(juicinessMarks.map(([one = 0, two = 0]) => [one, two, null]));
    expect(attribute).toMatchObject({ outcome: "product-missing", blocks: null, contrasts: [], terms: [] });
    expect(verdict).toBe("too-few");
  });
  test("one panelist only", () => {
    const { attribute, verdict, found } = outcomeOf(juicinessMarks.slice(0, 1));
    expect(attribute).toMatchObject({ outcome: "one-panelist", blocks: null });
    expect(verdict).toBe("too-few");
    expect(whats(found.caveats)).toContain("one-person");
  });
  test("all marks equal", () => {
    const { attribute, verdict } = outcomeOf(juicinessMarks.map(() => [50, 50, 50]));
    expect(attribute).toMatchObject({ outcome: "all-equal", blocks: null });
    expect(verdict).toBe("too-few");
  });
  test("no marks at all", () => {
    const { attribute, verdict, found } = outcomeOf([]);
    expect(attribute).toMatchObject({ outcome: "no-marks", judgments: 0, panelists: [] });
    expect([verdict, found.people]).toEqual(["too-few", 0]);
    expect(found.caveats).toContainEqual({ what: "people-below-plan", planned: 12, answered: 0 });
  });
  test("products that no panelist joins", () => {
    const rows = juicinessMarks.map((own, at): (number | null)[] =>
      at % 2 === 0 ? [own[0] ?? 0, own[1] ?? 0, null] : [null, null, own[2] ?? 0],
    );
    expect(outcomeOf(rows).attribute?.outcome).toBe("disconnected");
  });
  test("five people: numbers, no verdict; six have one", () => {
    const five = outcomeOf(juicinessMarks.slice(0, 5));
    expect(five).toMatchObject({ verdict: "too-few", attribute: { outcome: "ok", people: 5 } });
    expect(five.attribute?.contrasts).toHaveLength(3);
    expect(outcomeOf(juicinessMarks.slice(0, 6)).verdict).not.toBe("too-few");
  });
  test("a key that does not match its seal: numbers, verdict withheld", () => {
    const record = { ...study(juicinessMarks), keyMatches: false };
    const found = analyseScale(record, "1");
    expect(found).toMatchObject({ outcome: "withheld", attributes: [{ outcome: "withheld" }] });
    expect(found.attributes[0]?.contrasts).toHaveLength(3);
  });
});

describe("how marks were made is told", () => {
  test("another length on some tablets; other kinds of pointer", () => {
    const rows = marksOf(juicinessMarks);
    const screen = (seat: number) => (seat > 6 ? { lengthMm: 100, pointer: "mouse" } : { lengthMm: 120.3 });
    const { caveats } = analyseScale(lineRecord(linePlan(), rows, {}, screen), "1");
    expect(caveats).toContainEqual({ what: "lengths-mixed", lengthsMm: [100, 120] });
    expect(caveats).toContainEqual({ what: "device-kinds-mixed", pointers: ["mouse", "touch"] });
  });
  test("lengths half a millimeter apart are one length", () => {
    const screen = (seat: number) => ({ lengthMm: seat > 6 ? 119.6 : 120.4 });
    expect(whats(analyseScale(lineRecord(linePlan(), marksOf(juicinessMarks), {}, screen), "1").caveats)).not.toContain(
      "lengths-mixed",
    );
  });
});

describe("several properties", () => {
  const plan = linePlan();
  const [juicy] = plan.scale.attributes;
  if (!juicy) throw new Error("the scenario has an attribute");
  const salty: Attribute = {
    ...juicy,
    id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b05",
    name: "Saltiness",
    adjective: "salty",
  };
  const two = {
    ...plan,
    scale: { ...plan.scale, attributes: [salty, { ...juicy, moment: { at: "first-bite" as const } }] },
  };
  // the plan's first one is asked last: moments are asked in order
  const record = lineRecord(
    two,
    juicinessMarks.map((own): Marks => [[50, 51, 49].map((value, at) => value + ((own[at] ?? 0) % 7)), [...own]]),
  );

  test("stand in the order of the plan; the first is the question, the others are told to be beside it", () => {
    const found = analyseScale(record, "1");
    expect(found.attributes.map(({ attribute }) => attribute)).toEqual(["Saltiness", "Juiciness"]);
    expect(found.caveats).toContainEqual({ what: "further-attributes", attributes: 1, counting: 1 });
    expect(found.attributes[1]?.blocks?.pValue).toBeCloseTo(0.0006, 4);
    const reached = (found.attributes[0]?.blocks?.pValue ?? 1) <= 0.05;
    expect(found.outcome).toBe(reached ? "reached" : "not-reached");
  });
  test("not reached: the largest difference that the intervals still allow is told", () => {
    const found = analyseScale(record, "1");
    expect(found.outcome).toBe("not-reached");
    const ends =
      found.attributes[0]?.contrasts.flatMap(({ lowTogether: low, highTogether: high }) => [
        Math.abs(low),
        Math.abs(high),
      ]) ?? [];
    expect(found.caveats).toContainEqual({
      what: "widest-difference",
      attribute: "Saltiness",
      points: Math.max(...ends),
      unit: "points",
    });
  });
});

describe("two trays of one seat are repeats of one person", () => {
  test("they are averaged: the values are the means of both", () => {
    const record = study(juicinessMarks);
    const marks = record.marks.map((mark) => (mark.tray === 2 ? { ...mark, seat: 1 } : mark));
    const [attribute] = analyseScale({ ...record, marks }, "1").attributes;
    expect(attribute).toMatchObject({ repeats: 2, people: 11, judgments: 36 });
    const first = attribute?.panelists.find(({ panelist }) => panelist === "seat 1")?.values ?? [];
    expect(first[0]).toBeCloseTo((58.4 + 40.6) / 2, 10);
  });
});

describe("a record that contradicts itself gives no result", () => {
  const record = study(juicinessMarks);
  const [mark] = record.marks;
  if (!mark) throw new Error("the record has marks");
  test.each([
    ["a tray outside the key", { ...mark, tray: 99 }, "analysis/tray-not-in-key"],
    ["a code that is not on the tray", { ...mark, code: "999" }, "analysis/code-not-on-tray"],
    ["a property outside the plan", { ...mark, attribute: record.study }, "analysis/unknown-attribute"],
  ])("%s", (_what, bad, code) => {
    expect(problemOf(() => analyseScale({ ...record, marks: [bad] }, "1")).code).toBe(code);
  });
  test("one mark twice", () => {
    expect(problemOf(() => analyseScale({ ...record, marks: [mark, mark] }, "1")).code).toBe(
      "analysis/mark-counted-twice",
    );
  });
});

describe("values that came without a study", () => {
  test("each property at each moment is one of its own, in order of appearance", () => {
    const rows = ["A", "B", "C"].flatMap((panelist, at) => [
      row(panelist, "current", 40 + at, "juicy", "10 s"),
      row(panelist, "new", 50 + 2 * at, "juicy", "10 s"),
      row(panelist, "current", 30, "juicy", "first bite"),
      row(panelist, "new", null, "juicy", "first bite"),
    ]);
    const { attributes, outcome } = resultOfScaleRows(0.05, rows, "1");
    expect(attributes.map(({ attribute, momentText }) => [attribute, momentText])).toEqual([
      ["juicy", "10 s"],
      ["juicy", "first bite"],
    ]);
    expect(attributes.map(({ outcome }) => outcome)).toEqual(["ok", "product-missing"]);
    expect(outcome).toBe("too-few");
  });
  test("no rows: no attribute, no verdict", () => {
    expect(resultOfScaleRows(0.05, [], "1")).toMatchObject({ attributes: [], outcome: "too-few", judgments: 0 });
  });
  test("a value that is no number a scale could have is refused", () => {
    expect(problemOf(() => resultOfScaleRows(0.05, [row("A", "x", 1e13)], "1")).code).toBe("analysis/out-of-range");
  });
  test.each([0, 0.6])("alpha %d is refused", (alpha) => {
    expect(problemOf(() => resultOfScaleRows(alpha, wineRows, "1")).code).toBe("analysis/risk-out-of-range");
  });
});
