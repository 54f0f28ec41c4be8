import fc from "fast-check";
import { expect, test } from "vitest";
import { integral } from "../../src/analysis/quadrature.ts";
import { root } from "../../src/analysis/root.ts";

test("crossings known in closed form: cosine at pi/2, cube root of 2, log at 1", () => {
  const cases: [(x: number) => number, number, number, number][] = [
    [Math.cos, 0, 3, Math.PI / 2],
    [(x) => x ** 3 - 2, 0, 2, Math.cbrt(2)],
    [Math.log, 1e-6, 50, 1],
    [(x) => (x - 0.3) ** 9, -1, 4, 0.3],
  ];
  for (const [values, low, high, truth] of cases) {
    const found = root(values, low, high);
    expect(found.bracketed).toBe(true);
    // the ninth power is flat to the last double over some 1e-4 around its crossing
    if (found.bracketed) expect(Math.abs(found.at - truth)).toBeLessThan(truth === 0.3 ? 1e-9 : 1e-14);
  }
});

test("a crossing at either end is found", () => {
  expect([root((x) => x, 0, 1), root((x) => x - 1, 0, 1)]).toEqual([
    { bracketed: true, at: 0 },
    { bracketed: true, at: 1 },
  ]);
});

test("two ends of one sign, or no number at an end, are no bracket", () => {
  expect(root((x) => x * x + 1, -1, 1)).toEqual({ bracketed: false });
  expect(root(() => Number.NaN, 0, 1)).toEqual({ bracketed: false });
});

test("random cubics that rise: the crossing stays inside and leaves nothing over", () => {
  const number = fc.double({ min: -5, max: 5, noNaN: true });
  fc.assert(
    fc.property(number, fc.double({ min: 0.1, max: 3, noNaN: true }), (zero, slope) => {
      const found = root((x) => (x - zero) * (slope + (x - zero) ** 2), -6, 6);
      expect(found.bracketed && Math.abs(found.at - zero)).toBeLessThan(1e-13);
    }),
  );
});

test("Gauss-Legendre integrates powers to 79 over 0..1 exactly: 1/(power + 1)", () => {
  for (const power of [0, 1, 2, 7, 40, 79]) expect(integral((x) => x ** power, 0, 1)).toBeCloseTo(1 / (power + 1), 14);
});

test("Gauss-Legendre gives e - 1 for the exponential and 2 for half a sine wave", () => {
  expect(integral(Math.exp, 0, 1)).toBeCloseTo(Math.E - 1, 14);
  expect(integral(Math.sin, 0, Math.PI, 20)).toBeCloseTo(2, 14);
});
