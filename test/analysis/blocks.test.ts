import { describe, expect, test } from "vitest";
import { type BlockAnalysis, blockAnalysis } from "../../src/analysis/blocks.ts";
import { allPairs } from "../../src/analysis/comparisons.ts";
import { blockSet, setNames } from "./block-data.ts";
import { relativeError } from "./reference.ts";

type Tested = Extract<BlockAnalysis, { outcome: "ok" }>;

function tested(analysis: BlockAnalysis): Tested {
  if (analysis.outcome !== "ok") throw new Error(`no test: ${analysis.outcome}`);
  return analysis;
}
const listOf = ({ fValue, numeratorDf, denominatorDf, pValue }: Tested["blocks"]) => [
  fValue,
  numeratorDf,
  denominatorDf,
  pValue,
];

/** Every figure within a relative error, or for a difference within that part of its standard error. */
function expectClose(got: readonly (number | null)[], truth: readonly (number | null)[], scale = 0): void {
  expect(got).toHaveLength(truth.length);
  for (const [at, value] of truth.entries()) {
    const found = got[at] ?? null;
    if (value === null || found === null) expect(found).toBe(value);
    else expect(Math.abs(found - value)).toBeLessThanOrEqual(1e-11 * Math.max(Math.abs(value), scale));
  }
}

describe.each(setNames)("panelists as blocks, %s, against R (lm, anova, t.test, p.adjust)", (name) => {
  const { rows, products, byR } = blockSet(name);
  const analysis = tested(blockAnalysis(rows, products, 0.95));

  test("F tests of products and of panelists, each with the other taken out", () => {
    expectClose(listOf(analysis.blocks), byR.products_last);
    expectClose(listOf(analysis.panelistTest), byR.panelists_last);
    expectClose(
      [analysis.panelistMeanSquare, analysis.residual.meanSquare],
      [byR.panelistMeanSquare, byR.residualMeanSquare],
    );
    expect(analysis.residual.df).toBe(byR.products_last[2]);
    expect(relativeError(analysis.residual.deviation ** 2, analysis.residual.meanSquare)).toBeLessThan(1e-14);
  });
  test("least-squares means, and each product by its own marks", () => {
    expectClose(analysis.leastSquaresMeans, byR.leastSquaresMeans);
    expect(analysis.products.map(({ product }) => product)).toEqual(products);
    expect(analysis.products.map(({ marks }) => marks)).toEqual(byR.marks);
    for (const [at, truth] of byR.own.entries()) {
      const { panelists, mean, deviation, low, high } = analysis.products[at] ?? {};
      expectClose([panelists ?? null, mean ?? null, deviation ?? null, low ?? null, high ?? null], truth, truth[1]);
    }
  });
  test("all pairs, later less earlier product, with intervals; named beforehand, with Holm's p", () => {
    // the same pairs, as a plan would name them
    const pairs = allPairs(products);
    const analysis = tested(
      blockAnalysis(rows, products, 0.95, { ...pairs, adjustment: pairs.list.length > 1 ? "holm" : "none" }),
    );
    expect(analysis.contrasts.map(({ first, second }) => ({ first, second }))).toEqual(
      byR.contrasts.map(({ first, second }) => ({ first, second })),
    );
    for (const [at, { figures }] of byR.contrasts.entries()) {
      const found = analysis.contrasts[at];
      if (!found) throw new Error("a pair is missing");
      expectClose([found.difference, found.standardError, found.low, found.high], figures.slice(0, 4), figures[1]);
      // a p-value near 1 shifts with the last digit of a difference near 0
      expectClose([found.pValue, found.pValueAdjusted], figures.slice(4), 1e-2);
      expect(found.df).toBe(analysis.residual.df);
    }
  });
  test("the spread of repeats about their own mean", () => {
    if (byR.withinMeanSquare === null) {
      expect(analysis.variances).toMatchObject({ panelistProduct: null, residual: analysis.residual.meanSquare });
    } else expectClose([analysis.variances.residual], [byR.withinMeanSquare]);
  });
});

describe("panelists as blocks, figures printed or computed elsewhere", () => {
  const of = (name: (typeof setNames)[number]) => {
    const { rows, products } = blockSet(name);
    return tested(blockAnalysis(rows, products, 0.95));
  };

  test("the invented juiciness marks: F(2, 22) = 10.5, p = 0.0006; 11.9 (5.3 to 18.5), then 1.4 (-5.2 to 8.1)", () => {
    const { blocks, contrasts, balanced } = of("juiciness");
    expect([blocks.fValue.toFixed(1), blocks.numeratorDf, blocks.denominatorDf]).toEqual(["10.5", 2, 22]);
    expect(blocks.pValue.toFixed(4)).toBe("0.0006");
    const printed = contrasts.map(({ first, second, difference, low, high }) => [
      `${first} less ${second}`,
      ...[difference, low, high].map((points) => points.toFixed(1)),
    ]);
    expect(printed).toContainEqual(["new less current", "11.9", "5.3", "18.5"]);
    expect(printed).toContainEqual(["rested less new", "1.4", "-5.2", "8.1"]);
    expect(balanced).toBe(true);
  });

  test("bitterness of wine (Randall 1989), two bottles as repeats: F by the error term treatment by judge", () => {
    const { blocks, variances, residual, contrasts } = of("wine");
    expectClose(listOf(blocks), [25.1380875597892, 3, 24, 1.39197184868908e-7]);
    // sums of squares of single marks, treatment by judge, computed outside: 4100.05555555556 on 24
    expectClose([residual.meanSquare * 2 * 24], [4100.05555555556]);
    expectClose(
      [variances.panelist, variances.panelistProduct, variances.residual],
      [70.988425925926, 15.6261574074, 139.583333333],
    );
    // least significant difference at 5 %: half the width of every interval
    for (const { low, high } of contrasts) expectClose([(high - low) / 2], [8.99200093775927]);
  });

  test.each([
    ["fish-as-printed", 19.964028776978413],
    ["fish-corrected", 19.618181818181817],
  ] as const)("%s (ISO 8586 Annex C, scores seen): sample over interaction is F = %d, 5 and 15", (name, fValue) => {
    const { blocks } = of(name);
    expectClose([blocks.fValue, blocks.numeratorDf, blocks.denominatorDf], [fValue, 5, 15]);
  });
  test("ISO 8586 Annex C prints sample means 7.5, 6.2, 4.2, 4.9, 3.9 and 5.3 (seen; the third is 4.25)", () => {
    const printed = [7.5, 6.2, 4.2, 4.9, 3.9, 5.3];
    for (const [at, { mean }] of of("fish-corrected").products.entries()) {
      expect(Math.abs((mean ?? Number.NaN) - (printed[at] ?? Number.NaN))).toBeLessThan(0.05 + 1e-12);
    }
  });

  test.each([
    ["blocks-of-three-of-seven", [196, 6, 134, 8, 1.9502487562], 0.18768],
    ["vinyl-chloride", [3688.57777778, 4, 493.42222222, 16, 29.902], 3.0255e-7],
  ] as const)(
    "%s, incomplete by design: adjusted sums of squares, F and p computed elsewhere",
    (name, figures, pValue) => {
      const { blocks, residual, balanced } = of(name);
      const [squares, df, error, errorDf, fValue] = figures;
      expect(balanced).toBe(false);
      expect([blocks.numeratorDf, residual.df]).toEqual([df, errorDf]);
      expect(relativeError(blocks.fValue * residual.meanSquare * df, squares)).toBeLessThan(1e-9);
      expect(relativeError(residual.meanSquare * errorDf, error)).toBeLessThan(1e-9);
      expect(relativeError(blocks.fValue, fValue)).toBeLessThan(1e-4);
      expect(relativeError(blocks.pValue, pValue)).toBeLessThan(1e-4);
    },
  );
});
