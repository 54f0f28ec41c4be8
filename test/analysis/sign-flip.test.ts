import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { signFlipP } from "../../src/analysis/sign-flip.ts";
import { twoSidedP } from "../../src/analysis/two-sided.ts";
import { problemOf } from "../problem-of.ts";
import { relativeError } from "./reference.ts";

/** All leads with every choice of signs. */
function everySign(sizes: readonly number[]): number[][] {
  return Array.from({ length: 2 ** sizes.length }, (_, bits) =>
    sizes.map((size, at) => ((bits >> at) & 1 ? size : -size)),
  );
}
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const ranks = (n: number, positive: readonly number[]) =>
  Array.from({ length: n }, (_, at) => (positive.includes(at + 1) ? at + 1 : -(at + 1)));

describe("leads that are the ranks 1 to n: the exact signed-rank test; R's psignrank and mpmath", () => {
  test.each([
    [20, [20, 19, 3], 0.0085906982421875],
    [20, [20, 1], 0.0004253387451171875],
    [100, [100, 99, 98, 97, 96, 15], 1.26016791939957e-14],
  ])("n = %i, positive ranks %j: P(V <= their sum) = %s, to either side", (n, positive, oneSided) => {
    expect(relativeError(signFlipP(ranks(n, positive)), 2 * oneSided)).toBeLessThan(1e-13);
  });
});

describe("people of one answer more to either side", () => {
  test("is the test against a coin: 15 and 9, and people without a lead count for nothing", () => {
    const leads = [...Array(15).fill(1), ...Array(9).fill(-1), ...Array(7).fill(0)];
    expect(relativeError(signFlipP(leads), twoSidedP(15, 9))).toBeLessThan(1e-14);
  });
  test("1,000 people, all to one side: 2 / 2^1000, no smaller than a double holds", () => {
    expect(relativeError(signFlipP(Array(1000).fill(1)), 2 ** -999)).toBeLessThan(1e-13);
    expect(signFlipP(Array(2000).fill(1))).toBeGreaterThan(0);
  });
});

describe("for any leads of few people", () => {
  const sizes = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 0, maxLength: 9 });
  test("it is the share of all sign changes with as large a total", () => {
    fc.assert(
      fc.property(sizes, fc.nat(), (own, pick) => {
        const all = everySign(own);
        const leads = all[pick % all.length] ?? [];
        const asLarge = all.filter((other) => Math.abs(sum(other)) >= Math.abs(sum(leads))).length;
        expect(Math.abs(signFlipP(leads) - asLarge / all.length)).toBeLessThan(1e-15);
      }),
    );
  });
  test("turning every sign changes nothing", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -6, max: 6 }), { maxLength: 30 }), (leads) => {
        expect(signFlipP(leads.map((lead) => -lead))).toBe(signFlipP(leads));
      }),
    );
  });
  test("no false alarm oftener than alpha, whatever the sizes: counted over all signs", () => {
    fc.assert(
      fc.property(sizes, fc.constantFrom(0.01, 0.05, 0.1, 0.2, 0.5), (own, alpha) => {
        const all = everySign(own);
        const alarms = all.filter((leads) => signFlipP(leads) <= alpha).length;
        expect(alarms / all.length).toBeLessThanOrEqual(alpha);
      }),
      { numRuns: 40 },
    );
  });
});

test("nobody, or no lead: 1; leads past what a test holds are refused", () => {
  expect([signFlipP([]), signFlipP([0, 0]), signFlipP([2, -2])]).toEqual([1, 1, 1]);
  expect(problemOf(() => signFlipP([100_001])).code).toBe("analysis/not-a-count");
});
