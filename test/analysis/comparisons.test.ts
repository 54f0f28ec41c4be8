import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { blockAnalysis } from "../../src/analysis/blocks.ts";
import { allPairs, comparisonSet, type Judged, judge } from "../../src/analysis/comparisons.ts";
import type { Comparisons } from "../../src/model/plan.ts";
import { blockSet } from "./block-data.ts";
import { reference, relativeError } from "./reference.ts";

// Computed by R from open data sets and the demo's marks (lm, ptukey, qtukey, p.adjust; script beside the values).
const row = z.tuple([z.string(), z.string(), z.number(), z.number(), z.number(), z.number()]);
const byR = reference(
  "comparisons-by-r",
  z.object({ juiciness: z.array(row), "fish-corrected": z.array(row), factorial: z.array(row) }),
);

const contrastsOf = (name: "juiciness" | "fish-corrected", comparisons: Comparisons, only?: readonly string[]) => {
  const { rows, products } = blockSet(name);
  const used = only ?? products;
  const found = blockAnalysis(
    rows.filter(({ product }) => used.includes(product)),
    used,
    0.95,
    comparisonSet(comparisons, used),
  );
  if (found.outcome !== "ok") throw new Error(`no test: ${found.outcome}`);
  return found.contrasts;
};

describe.each(["juiciness", "fish-corrected"] as const)("%s: every two products, by the studentized range", (name) => {
  const found = contrastsOf(name, { kind: "all-pairs" });
  test.each(byR[name])("%s less %s", (first, second, difference, low, high, pValue) => {
    const own = found.find((contrast) => contrast.first === first && contrast.second === second);
    expect(own?.difference).toBeCloseTo(difference, 12);
    // R's own range is right to some 1e-8 at these degrees of freedom
    expect(own?.lowTogether).toBeCloseTo(low, 5);
    expect(own?.highTogether).toBeCloseTo(high, 5);
    expect(relativeError(own?.pValueAdjusted ?? Number.NaN, pValue)).toBeLessThan(1e-4);
  });
});

test("two factors: both main effects and the interaction, Holm over the three (four of the fish samples as the cells)", () => {
  const cells = [
    { product: "S1", first: "one", second: "one" },
    { product: "S2", first: "one", second: "two" },
    { product: "S3", first: "two", second: "one" },
    { product: "S4", first: "two", second: "two" },
  ] as const;
  const found = contrastsOf(
    "fish-corrected",
    {
      kind: "two-factors",
      factors: [
        { name: "process", levels: ["dry oven", "steam first"] },
        { name: "looks", levels: ["seen", "masked"] },
      ],
      cells: [...cells],
    },
    cells.map(({ product }) => product),
  );
  expect(found.map(({ compared, first, second }) => [compared, first, second])).toEqual([
    ["first-factor", "steam first", "dry oven"],
    ["second-factor", "masked", "seen"],
    ["interaction", "process", "looks"],
  ]);
  for (const [at, [compared, , difference, error, pValue, adjusted]] of byR.factorial.entries()) {
    const own = found[at];
    expect(own?.compared).toBe(compared);
    expect(own?.difference).toBeCloseTo(difference, 12);
    expect(own?.standardError).toBeCloseTo(error, 12);
    expect(relativeError(own?.pValue ?? Number.NaN, pValue)).toBeLessThan(1e-9);
    expect(relativeError(own?.pValueAdjusted ?? Number.NaN, adjusted)).toBeLessThan(1e-9);
  }
});

test("against a reference: each of the others once, the published two-sided constant of Dunnett for two comparisons at 22 degrees of freedom", () => {
  const found = contrastsOf("juiciness", { kind: "reference", product: "current" });
  expect(found.map(({ first, second }) => [first, second])).toEqual([
    ["new", "current"],
    ["rested", "current"],
  ]);
  const [own] = found;
  if (!own) throw new Error("no comparison");
  // printed tables have 2.38 at 20 and 2.35 at 24 degrees of freedom (Dunnett 1964, from memory)
  const constant = (own.highTogether - own.difference) / own.standardError;
  expect(constant).toBeGreaterThan(2.345);
  expect(constant).toBeLessThan(2.385);
});

test("what a plan names and the products lack falls back to all pairs; of two products there is one difference", () => {
  expect(comparisonSet({ kind: "reference", product: "gone" }, ["a", "b", "c"])).toEqual(allPairs(["a", "b", "c"]));
  expect(comparisonSet({ kind: "reference", product: "a" }, ["a", "b"])).toMatchObject({ adjustment: "none" });
  const one = comparisonSet({ kind: "planned", pairs: [{ first: "c", second: "a" }] }, ["a", "b", "c"]);
  expect(one).toMatchObject({ adjustment: "none", list: [{ first: "c", second: "a", weights: [-1, 0, 1] }] });
});

test("whatever the adjustment: an interval leaves 0 out exactly when its p is at most the risk, together never less than alone", () => {
  const estimate = fc.record({
    difference: fc.double({ min: -20, max: 20, noNaN: true }),
    standardError: fc.double({ min: 0.5, max: 5, noNaN: true }),
  });
  const cases = fc.record({
    list: fc.array(estimate, { minLength: 2, maxLength: 3 }),
    adjustment: fc.constantFrom("tukey", "dunnett", "holm"),
    df: fc.integer({ min: 2, max: 60 }),
    risk: fc.constantFrom(0.05, 0.1),
  });
  fc.assert(
    fc.property(cases, ({ list, adjustment, df, risk }) => {
      const estimates = list.map((own, at) => ({
        ...own,
        df,
        covariances: list.map((_, other) => (other === at ? 2 : 1)),
      }));
      for (const judged of judge(estimates, { adjustment, products: 3, risk })) expectAtOne(judged, risk);
    }),
    { numRuns: 40 },
  );
});

function expectAtOne(judged: Judged, risk: number): void {
  const { pValue, low, high, pValueAdjusted, lowTogether, highTogether } = judged;
  const outside = (one: number, other: number) => one > 0 || other < 0;
  // within a hair of the risk either may be right
  if (Math.abs(pValue / risk - 1) > 1e-6) expect(outside(low, high)).toBe(pValue <= risk);
  if (Math.abs(pValueAdjusted / risk - 1) > 1e-6)
    expect(outside(lowTogether, highTogether)).toBe(pValueAdjusted <= risk);
  expect(pValueAdjusted).toBeGreaterThanOrEqual(pValue);
  expect(highTogether - lowTogether).toBeGreaterThanOrEqual((high - low) * (1 - 1e-9));
}
