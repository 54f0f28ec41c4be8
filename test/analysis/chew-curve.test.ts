import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import * as z from "zod/mini";
import { type ScaleInput, scaleStatistics } from "../../src/analysis/scale.ts";
import type { DerivedResult } from "../../src/model/result-scale.ts";
import { reference, relativeError } from "./reference.ts";

const numbers = z.array(z.number());
const byR = z.object({ f: numbers, means: numbers, contrasts: z.array(numbers).check(z.length(3)) });
const set = z.object({ change: byR, area: byR, interaction: numbers, interactionPeople: z.number() });
const values = reference("chew-curve-by-r", z.object({ whole: set, gaps: set }));

const file = new URL("../reference/chew-curve-by-r/data.csv", import.meta.url);
const lines = readFileSync(file, "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(","));
const seconds = [0, 10, 25];
const products = ["current", "new", "rested"].map((name) => ({ id: name, name }));

/** The marks of a set, with these seconds of the moments, and only those moments. */
function inputOf(name: "whole" | "gaps", planned: readonly (number | null)[], moments = [1, 2, 3]): ScaleInput {
  return {
    alpha: 0.05,
    products,
    attributes: moments.map(() => ({
      ...{ attribute: "Juiciness", moment: null, momentText: "", lowAnchor: "", highAnchor: "" },
      inFamily: false,
    })),
    values: lines.flatMap(([set, panelist = "", product = "", repeat = "", moment, value]) =>
      set === name && moments.includes(Number(moment))
        ? [
            {
              attribute: moments.indexOf(Number(moment)),
              ...{ panelist, product, chew: repeat, place: null, session: "", batch: "" },
              value: value === "" ? null : Number(value),
            },
          ]
        : [],
    ),
    curves: [{ attribute: "Juiciness", moments: planned.map((seconds, at) => ({ at, seconds })) }],
    comparisons: { kind: "all-pairs" },
    terms: [],
    perTray: null,
    scale: { low: 0, high: 100, lengthMm: 120 },
    keyMatches: true,
  };
}
const curveOf = (input: ScaleInput) => {
  const [curve] = scaleStatistics(input).curves;
  if (!curve) throw new Error("no curve");
  return curve;
};

function same(found: DerivedResult | null, truth: z.infer<typeof byR>): void {
  const { blocks, means, contrasts } = found ?? { blocks: null, means: [], contrasts: [] };
  [blocks?.fValue, blocks?.numeratorDf, blocks?.denominatorDf, blocks?.pValue].forEach((value, at) => {
    expect(relativeError(value ?? 0, truth.f[at] ?? 0)).toBeLessThan(1e-10);
  });
  means.forEach(({ estimate }, at) => {
    expect(relativeError(estimate ?? 0, truth.means[at] ?? 0)).toBeLessThan(1e-12);
  });
  // R has the later product first, as here: new and rested less current, then rested less new
  expect(contrasts.map(({ first, second }) => `${first} ${second}`)).toEqual([
    "new current",
    "rested current",
    "rested new",
  ]);
  contrasts.forEach(({ difference, low, high }, at) => {
    [difference, low, high].forEach((value, place) => {
      expect(Math.abs(value - (truth.contrasts[at]?.[place] ?? 0))).toBeLessThan(1e-9);
    });
  });
}

test.each(["whole", "gaps"] as const)(
  "change, area and product by moment as R has them: %s; test/reference/chew-curve-by-r",
  (name) => {
    const curve = curveOf(inputOf(name, seconds));
    const truth = values[name];
    expect(curve).toMatchObject({ attribute: "Juiciness", at: [0, 1, 2], seconds: 25 });
    same(curve.change, truth.change);
    same(curve.area, truth.area);
    const { interaction } = curve;
    const shown = [interaction?.fValue, interaction?.numeratorDf, interaction?.denominatorDf, interaction?.pValue];
    shown.forEach((value, at) => {
      expect(relativeError(value ?? 0, truth.interaction[at] ?? 0)).toBeLessThan(1e-10);
    });
    expect(interaction?.people).toBe(truth.interactionPeople);
  },
);

test("a moment without planned seconds leaves no area, and the change as it was", () => {
  const curve = curveOf(inputOf("whole", [0, 10, null]));
  expect([curve.area, curve.seconds]).toEqual([null, null]);
  same(curve.change, values.whole.change);
});

test("with two moments product by moment is the test of the change between them", () => {
  const { change, interaction } = curveOf(inputOf("whole", [0, null], [1, 3]));
  expect(relativeError(interaction?.fValue ?? 0, change.blocks?.fValue ?? 1)).toBeLessThan(1e-12);
  expect(relativeError(interaction?.pValue ?? 0, change.blocks?.pValue ?? 1)).toBeLessThan(1e-12);
});

test("curves that are all of one shape leave nothing to judge by, and one panelist no test", () => {
  const input = inputOf("whole", seconds);
  const level = input.values.map((value) => ({ ...value, value: 50 + value.attribute * 7 }));
  const flat = curveOf({ ...input, values: level });
  expect([flat.interaction, flat.change.outcome, flat.area?.outcome]).toEqual([null, "all-equal", "all-equal"]);
  const alone = curveOf({ ...input, values: input.values.filter(({ panelist }) => panelist === "p1") });
  expect([alone.interaction, alone.change.outcome]).toEqual([null, "one-panelist"]);
});

test("a key in doubt withholds the change and the area too; without a mark there is none of either", () => {
  const input = inputOf("whole", seconds);
  const doubted = curveOf({ ...input, keyMatches: false });
  expect([doubted.change.outcome, doubted.area?.outcome]).toEqual(["withheld", "withheld"]);
  const silent = curveOf({ ...input, values: input.values.map((value) => ({ ...value, value: null })) });
  expect([silent.change.outcome, silent.area?.outcome, silent.interaction]).toEqual(["no-marks", "no-marks", null]);
});
