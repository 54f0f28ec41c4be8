import { describe, expect, test } from "vitest";
import { differenceHalfWidth } from "../../src/design/interval-width.ts";
import { problemOf } from "../problem-of.ts";

describe("half width of a 95 % interval for a difference, R 4.2.2: qt(0.975, (n-1)(k-1)) * s * sqrt(2/n)", () => {
  test.each([
    [12, 3, 10, 8.46655134610866],
    [6, 2, 10, 14.8412611477859],
    [24, 2, 10, 5.97170014118303],
    [24, 4, 15, 8.6383670432308],
    [2, 2, 10, 127.062047361747],
    [60, 6, 8, 2.87450365214788],
  ])("%d people, %d products, a deviation of %d: %d points", (people, products, residualDeviation, points) => {
    // one rounding each of the quantile, the product and the root
    expect(differenceHalfWidth({ people, products, residualDeviation }) / points).toBeCloseTo(1, 11);
  });

  test("90 %: 7.0102", () => {
    const narrower = differenceHalfWidth({ people: 12, products: 3, residualDeviation: 10, confidence: 0.9 });
    expect(narrower).toBeCloseTo(7.01021255320373, 11);
  });

  test("twelve panelists by three products, the marks of the invented kitchen: 11.9 (5.3 to 18.5), aov in R 4.2.2", () => {
    // residual mean square 61.4 on 22 degrees of freedom
    const half = differenceHalfWidth({ people: 12, products: 3, residualDeviation: 7.83619547969291 });
    expect(half).toBeCloseTo(6.63455513869646, 11);
  });
});

test.each([
  [{ people: 1, products: 3, residualDeviation: 10 }, "analysis/not-a-count"],
  [{ people: 12, products: 1, residualDeviation: 10 }, "analysis/not-a-count"],
  [{ people: 12, products: 3, residualDeviation: Number.NaN }, "analysis/out-of-range"],
  [{ people: 12, products: 3, residualDeviation: 10, confidence: 1 }, "analysis/not-a-share"],
] as const)("%o is refused", (plan, code) => {
  expect(problemOf(() => differenceHalfWidth(plan)).code).toBe(code);
});
