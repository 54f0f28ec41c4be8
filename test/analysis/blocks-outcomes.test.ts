import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BlockRow } from "../../src/analysis/block-table.ts";
import { blockAnalysis } from "../../src/analysis/blocks.ts";
import { mean, squaresAboutMean } from "../../src/analysis/moments.ts";
import { problemOf } from "../problem-of.ts";
import { blockSet } from "./block-data.ts";

/** Marks from a text: one panelist a line, one column a product, "-" where there is none. */
function marks(text: string, products = ["A", "B", "C"]): BlockRow[] {
  return text.split("/").flatMap((line, panelist) =>
    line
      .trim()
      .split(/\s+/)
      .flatMap((value, at) =>
        value === "-" ? [] : [{ panelist: `p${panelist + 1}`, product: products[at] ?? "?", value: Number(value) }],
      ),
  );
}
const outcomeOf = (text: string, products = ["A", "B", "C"]) => blockAnalysis(marks(text, products), products, 0.95);

describe("what marks cannot tell has a name", () => {
  test("people who spread as much as what is left over have a variance of 0, not of what rounding leaves", () => {
    // by hand: one mark of twelve is 1 lower, so that both mean squares are 1/12
    const analysis = outcomeOf("9 9 / 9 9 / 9 9 / 9 8 / 9 9 / 9 9", ["A", "B"]);
    if (analysis.outcome !== "ok") throw new Error(analysis.outcome);
    expect(analysis.residual.meanSquare).toBeCloseTo(1 / 12, 14);
    expect(analysis.variances.panelist).toBe(0);
  });
  test("no marks", () => {
    const analysis = blockAnalysis([], ["A", "B"], 0.95);
    expect(analysis).toMatchObject({ outcome: "no-marks", panelists: [], people: 0, balanced: true });
    expect(analysis.products).toEqual([
      { product: "A", marks: 0, panelists: 0, mean: null, deviation: null, standardError: null, low: null, high: null },
      { product: "B", marks: 0, panelists: 0, mean: null, deviation: null, standardError: null, low: null, high: null },
    ]);
  });
  test("one product still has its mean", () => {
    const analysis = outcomeOf("3 / 5", ["A"]);
    expect(analysis.outcome).toBe("one-product");
    expect(analysis.products[0]).toMatchObject({ marks: 2, mean: 4 });
  });
  test("one panelist", () => {
    expect(outcomeOf("3 5 8").outcome).toBe("one-panelist");
  });
  test("several panelists, of whom one alone has two products", () => {
    expect(outcomeOf("3 5 8 / 2 - - / - - 9")).toMatchObject({
      outcome: "one-panelist",
      people: 1,
      uninformative: ["p2", "p3"],
    });
  });
  test("a product that nobody marked is named", () => {
    expect(outcomeOf("3 - 8 / 4 - 6")).toMatchObject({
      outcome: "product-missing",
      missing: ["B"],
      incomplete: [
        { panelist: "p1", missing: ["B"] },
        { panelist: "p2", missing: ["B"] },
      ],
    });
  });
  test("products that no panelists join", () => {
    const analysis = outcomeOf("1 2 - - / 2 5 - - / - - 4 4 / - - 3 9", ["A", "B", "C", "D"]);
    expect(analysis).toMatchObject({
      outcome: "disconnected",
      groups: [
        ["A", "B"],
        ["C", "D"],
      ],
    });
  });
  test("a product marked only by panelists with one product is joined to nothing", () => {
    expect(outcomeOf("1 2 - / 2 5 - / - - 4")).toMatchObject({ outcome: "disconnected", groups: [["A", "B"], ["C"]] });
  });
  test("as many effects as marks", () => {
    expect(outcomeOf("1 2 - / - 5 9").outcome).toBe("too-few");
  });
  test("everything equal: F would be 0/0", () => {
    expect(outcomeOf("4 4 4 / 4 4 4 / 4 4 4")).toMatchObject({ outcome: "all-equal", productsDiffer: false });
  });
  test("panelists differ, and each marks all products alike", () => {
    expect(outcomeOf("40.1 40.1 40.1 / 7.3 7.3 7.3")).toMatchObject({ outcome: "all-equal", productsDiffer: false });
  });
  test("every panelist sees exactly the same differences, in tenths that no double holds: F would be infinite", () => {
    const analysis = outcomeOf("0.1 0.4 0.3 / 20.7 21 20.9 / 60.2 60.5 60.4");
    expect(analysis).toMatchObject({ outcome: "all-equal", productsDiffer: true });
    if (analysis.outcome !== "all-equal") throw new Error("has been checked");
    for (const [at, value] of [27, 27.3, 27.2].entries()) expect(analysis.leastSquaresMeans[at]).toBeCloseTo(value, 12);
  });
  test("a difference of a hundredth in one mark of 1e6 is no rounding", () => {
    expect(outcomeOf("1000000 1000000 / 1000000 1000000.01", ["A", "B"]).outcome).toBe("ok");
  });
});

describe("panelists with a product missing", () => {
  const { rows, products } = blockSet("juiciness-with-gaps");
  test("are named with what is missing; the one with a single product stays out of the test, not out of the means", () => {
    const analysis = blockAnalysis(rows, products, 0.95);
    expect(analysis.incomplete).toEqual([
      { panelist: "seat 3", missing: ["new"] },
      { panelist: "seat 7", missing: ["rested"] },
      { panelist: "seat 9", missing: ["current"] },
      { panelist: "seat 11", missing: ["new", "rested"] },
    ]);
    expect(analysis).toMatchObject({ outcome: "ok", balanced: false, uninformative: ["seat 11"], people: 11 });
    expect(analysis.panelists.find(({ panelist }) => panelist === "seat 11")?.values).toEqual([52.8, null, null]);
    const without = blockAnalysis(
      rows.filter(({ panelist }) => panelist !== "seat 11"),
      products,
      0.95,
    );
    if (analysis.outcome !== "ok" || without.outcome !== "ok") throw new Error("both have a test");
    expect(without.blocks).toEqual(analysis.blocks);
    expect(without.contrasts).toEqual(analysis.contrasts);
    expect(without.products[0]?.mean).not.toBe(analysis.products[0]?.mean);
  });
});

describe("bad input", () => {
  test("a product that is not in the list is named", () => {
    expect(problemOf(() => blockAnalysis([{ panelist: "p", product: "X", value: 1 }], ["A", "B"], 0.95))).toEqual({
      code: "analysis/unknown-product",
      details: { product: "X" },
    });
  });
  test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e13])("a value of %d is refused", (value) => {
    expect(problemOf(() => blockAnalysis([{ panelist: "p", product: "A", value }], ["A"], 0.95)).code).toBe(
      "analysis/out-of-range",
    );
  });
  test.each([0, 1, Number.NaN])("a confidence of %d is refused", (confidence) => {
    expect(problemOf(() => blockAnalysis([], ["A"], confidence)).code).toBe("analysis/not-a-share");
  });
});

describe("what must not change the answer", () => {
  /** Marks in 64ths from 0 to 100 for 3 to 9 panelists and 2 to 5 products, about one in six missing. */
  const design = fc.integer({ min: 2, max: 5 }).chain((count) => {
    const cell = fc.option(fc.integer({ min: 0, max: 6400 }), { freq: 6, nil: null });
    const line = fc.array(cell, { minLength: count, maxLength: count });
    return fc.array(line, { minLength: 3, maxLength: 9 }).map((cells) => ({
      products: ["A", "B", "C", "D", "E"].slice(0, count),
      rows: cells.flatMap((values, panelist) =>
        values.flatMap((value, at) =>
          value === null ? [] : [{ panelist: `p${panelist}`, product: "ABCDE"[at] ?? "", value: value / 64 }],
        ),
      ),
    }));
  });
  const change = (rows: BlockRow[], to: (row: BlockRow) => Partial<BlockRow>) =>
    rows.map((row) => ({ ...row, ...to(row) }));
  /** Each design is analyzed twice, and what a studentized range costs is most of it: thirty of a kind meet every shape. */
  const numRuns = 30;
  const close = (got: number, truth: number, digits = 1e-9) =>
    expect(Math.abs(got - truth)).toBeLessThanOrEqual(digits * Math.max(1, Math.abs(truth)));

  test("a shift of all marks by 1e9, exact in 64ths, leaves F, differences and errors as they were to 1e-9", () => {
    fc.assert(
      fc.property(design, ({ rows, products }) => {
        const before = blockAnalysis(rows, products, 0.9);
        const after = blockAnalysis(
          change(rows, ({ value }) => ({ value: value + 1e9 })),
          products,
          0.9,
        );
        // what is rounding at a level of 1e9 is not rounding at 0; in 64ths neither is near
        expect(after.outcome).toBe(before.outcome);
        if (before.outcome !== "ok" || after.outcome !== "ok") return;
        close(after.blocks.fValue, before.blocks.fValue);
        close(after.panelistTest.fValue, before.panelistTest.fValue);
        for (const [at, contrast] of before.contrasts.entries()) {
          close(after.contrasts[at]?.difference ?? Number.NaN, contrast.difference);
          close(after.contrasts[at]?.standardError ?? Number.NaN, contrast.standardError);
        }
      }),
      { numRuns },
    );
  });
  test("a shift of one panelist's marks changes no product figure; scale goes through", () => {
    fc.assert(
      fc.property(design, ({ rows, products }) => {
        const before = blockAnalysis(rows, products, 0.9);
        const after = blockAnalysis(
          change(rows, ({ panelist, value }) => ({ value: 4 * (panelist === "p1" ? value + 300 : value) })),
          products,
          0.9,
        );
        expect(after.outcome).toBe(before.outcome);
        if (before.outcome !== "ok" || after.outcome !== "ok") return;
        close(after.blocks.fValue, before.blocks.fValue);
        close(after.residual.meanSquare, 16 * before.residual.meanSquare);
        for (const [at, { low, high, pValue }] of before.contrasts.entries()) {
          close(after.contrasts[at]?.low ?? Number.NaN, 4 * low);
          close(after.contrasts[at]?.high ?? Number.NaN, 4 * high);
          close(after.contrasts[at]?.pValue ?? Number.NaN, pValue);
        }
      }),
      { numRuns },
    );
  });
  test("products listed the other way round: the same F, pairs with the sign turned", () => {
    fc.assert(
      fc.property(design, ({ rows, products }) => {
        const before = blockAnalysis(rows, products, 0.9);
        const after = blockAnalysis([...rows].reverse(), [...products].reverse(), 0.9);
        expect(after.outcome).toBe(before.outcome);
        if (before.outcome !== "ok" || after.outcome !== "ok") return;
        close(after.blocks.fValue, before.blocks.fValue);
        for (const { first, second, difference, pValueAdjusted } of before.contrasts) {
          const turned = after.contrasts.find((pair) => pair.first === second && pair.second === first);
          close(turned?.difference ?? Number.NaN, -difference);
          close(turned?.pValueAdjusted ?? Number.NaN, pValueAdjusted);
        }
        for (const [at, level] of before.leastSquaresMeans.entries()) {
          close(after.leastSquaresMeans.at(-1 - at) ?? Number.NaN, level);
        }
      }),
      { numRuns },
    );
  });
  test("nothing missing: sums of squares, means and errors in closed form", () => {
    fc.assert(
      fc.property(design, ({ rows, products }) => {
        const analysis = blockAnalysis(rows, products, 0.9);
        if (analysis.outcome !== "ok" || !analysis.balanced) return;
        const n = analysis.people;
        const means = products.map((product) =>
          mean(rows.filter((row) => row.product === product).map((row) => row.value)),
        );
        for (const [at, level] of means.entries()) {
          close(analysis.leastSquaresMeans[at] ?? Number.NaN, level, 1e-12);
          close(analysis.products[at]?.mean ?? Number.NaN, level, 1e-12);
        }
        const squares = analysis.blocks.fValue * analysis.residual.meanSquare * (products.length - 1);
        close(squares, n * squaresAboutMean(means));
        for (const { standardError } of analysis.contrasts) {
          close(standardError, Math.sqrt((2 * analysis.residual.meanSquare) / n), 1e-12);
        }
      }),
      { numRuns },
    );
  });
  test("no design gives a figure that is no number", () => {
    fc.assert(
      fc.property(design, ({ rows, products }) => {
        expect(
          JSON.stringify(blockAnalysis(rows, products, 0.9), (_, value) => (Number.isNaN(value) ? "NaN" : value)),
        ).not.toContain("NaN");
      }),
      { numRuns },
    );
  });
});
