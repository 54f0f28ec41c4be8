import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blockAnalysis } from "../../src/analysis/blocks.ts";
import { fitMixed, type MixedEstimates, type MixedFit } from "../../src/analysis/mixed-model.ts";
import { mixedAnswers, termRows } from "../../src/analysis/satterthwaite.ts";
import { relativeError } from "./reference.ts";

type Mark = { panelist: string; product: string; value: number };
const products = ["current", "new", "rested"];
const fitOf = (marks: readonly Mark[], order: readonly string[] = products): MixedFit =>
  fitMixed({
    rows: marks.map(({ panelist, product, value }) => ({ levels: { panelist, product }, value })),
    factors: { product: order },
    fixed: [["product"]],
    random: [["panelist"]],
  });
function estimates(fit: MixedFit): MixedEstimates {
  if (fit.outcome !== "ok" && fit.outcome !== "singular") throw new Error(`no fit: ${fit.outcome}`);
  return fit;
}
const testOf = (fit: MixedFit) => {
  const found = estimates(fit);
  return mixedAnswers(found).test(termRows(found, ["product"]));
};

/** Eight panelists with three values each, on a grid of tenths so that no two runs differ by rounding alone. */
const table = fc.array(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 3, maxLength: 3 }), {
  minLength: 8,
  maxLength: 8,
});
const marksOf = (values: readonly (readonly number[])[]): Mark[] =>
  values.flatMap((own, i) =>
    own.map((value, j) => ({ panelist: `p${i}`, product: products[j] ?? "", value: value / 10 + 3 * i })),
  );
const runs = { numRuns: 25, seed: 5 };

describe("mixed model, what must hold whatever the marks are", () => {
  test("balanced and no variance at zero: F and degrees of freedom are those of the classical block analysis", () => {
    let compared = 0;
    fc.assert(
      fc.property(table, (values) => {
        const fit = fitOf(marksOf(values));
        const classical = blockAnalysis(marksOf(values), products, 0.95);
        if (fit.outcome !== "ok" || classical.outcome !== "ok") return;
        compared++;
        const found = testOf(fit);
        expect(relativeError(found.fValue, classical.blocks.fValue)).toBeLessThan(1e-7);
        expect(relativeError(found.denominatorDf, classical.blocks.denominatorDf)).toBeLessThan(1e-4);
        expect(relativeError(fit.residualVariance, classical.residual.meanSquare)).toBeLessThan(1e-6);
        const { panelist } = classical.variances;
        expect(Math.abs((fit.variances[0] ?? 0) - panelist)).toBeLessThan(1e-6 * fit.residualVariance);
      }),
      runs,
    );
    expect(compared).toBeGreaterThan(5);
  });

  test("a shift, a change of unit, another order of panelists or products leave F and move the rest along", () => {
    fc.assert(
      fc.property(table, (values) => {
        // a cell is taken out, so that nothing is balanced
        const marks = marksOf(values).slice(1);
        const fit = fitOf(marks);
        if (fit.outcome !== "ok") return;
        const found = testOf(fit);
        const moved = estimates(fitOf(marks.map((mark) => ({ ...mark, value: 7 * mark.value - 250 }))));
        const others = [testOf({ outcome: "ok", ...moved }), testOf(fitOf([...marks].reverse()))];
        for (const other of [...others, testOf(fitOf(marks, [...products].reverse()))]) {
          expect(Math.abs(other.fValue - found.fValue)).toBeLessThan(1e-6 * Math.max(found.fValue, 0.01));
        }
        for (const other of others) expect(relativeError(other.denominatorDf, found.denominatorDf)).toBeLessThan(1e-4);
        expect(relativeError(moved.residualVariance, 49 * fit.residualVariance)).toBeLessThan(1e-6);
        expect(Math.abs((moved.effects[0] ?? 0) - (7 * (fit.effects[0] ?? 0) - 250))).toBeLessThan(1e-4);
      }),
      runs,
    );
  });
});

describe("mixed model, what data can do", () => {
  const marks = marksOf([
    [10, 20, 35],
    [500, 480, 470],
    [220, 250, 300],
    [90, 30, 70],
  ]);
  test("panelists more alike than chance makes them: singular, with tests all the same", () => {
    const alike = [3, 1, 2].flatMap((_, i) =>
      products.map((product, j) => ({ panelist: `p${i}`, product, value: (i + 2 * j) % 3 })),
    );
    const fit = fitOf(alike);
    expect(fit).toMatchObject({ outcome: "singular", singular: [0], variances: [0] });
    expect(testOf(fit).denominatorDf).toBeCloseTo(6, 6);
  });
  test("no marks, one panelist, one mark each, a product nobody got", () => {
    expect(fitOf([])).toEqual({ outcome: "no-marks" });
    const twice = [...marks.slice(0, 3), ...marks.slice(0, 3)];
    expect(fitOf(twice)).toEqual({ outcome: "one-level", term: ["panelist"] });
    const each = marks.slice(0, 6).map((mark, i) => ({ ...mark, panelist: `own${i}` }));
    expect(fitOf(each)).toEqual({ outcome: "one-row-each", term: ["panelist"] });
    const without = marks.filter(({ product }) => product !== "new");
    expect(fitOf(without)).toEqual({ outcome: "level-missing", factor: "product", missing: ["new"] });
    expect(fitOf(marks.slice(0, 3))).toEqual({ outcome: "too-few" });
  });
  test("every answer the same, and nothing left beside the products", () => {
    expect(fitOf(marks.map((mark) => ({ ...mark, value: 5 }))).outcome).toBe("all-equal");
    expect(fitOf(marks.map((mark) => ({ ...mark, value: products.indexOf(mark.product) }))).outcome).toBe("all-equal");
  });
  test("two fixed factors that go hand in hand cannot be told apart", () => {
    const rows = marks.map(({ panelist, product, value }) => ({ levels: { panelist, product, twin: product }, value }));
    const factors = { product: products, twin: products };
    expect(fitMixed({ rows, factors, fixed: [["product"], ["twin"]], random: [["panelist"]] }).outcome).toBe(
      "disconnected",
    );
  });
  test("a level nobody planned is refused", () => {
    expect(() => fitOf([{ panelist: "p1", product: "other", value: 1 }])).toThrow("analysis/unknown-product");
  });
});
