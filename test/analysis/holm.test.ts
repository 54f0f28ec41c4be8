import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { holm } from "../../src/analysis/holm.ts";
import { problemOf } from "../problem-of.ts";
import adjusted from "../reference/holm-by-r/values.json" with { type: "json" };
import { relativeError } from "./reference.ts";

describe("Holm's step-down adjustment", () => {
  test.each(adjusted.rows)("$pValues: $adjusted, R's p.adjust", ({ pValues, adjusted: truth }) => {
    const got = holm(pValues);
    expect(got).toHaveLength(truth.length);
    for (const [at, value] of truth.entries()) expect(relativeError(got[at] ?? Number.NaN, value)).toBeLessThan(1e-14);
  });

  const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 });
  test("never below its own p, never above Bonferroni's, in the order of the p-values", () => {
    fc.assert(
      fc.property(pValues, (list) => {
        const got = holm(list);
        for (const [i, p] of list.entries()) {
          expect(got[i]).toBeGreaterThanOrEqual(p);
          expect(got[i]).toBeLessThanOrEqual(Math.min(1, p * list.length));
          for (const [j, q] of list.entries()) if (p < q) expect(got[i]).toBeLessThanOrEqual(got[j] ?? Number.NaN);
        }
      }),
    );
  });
  test("the rule in words: the smallest p's are rejected one by one at alpha over what is left, until one is not", () => {
    fc.assert(
      fc.property(pValues, fc.double({ min: 0.001, max: 0.5, noNaN: true }), (list, alpha) => {
        const rising = [...list].sort((a, b) => a - b);
        const kept = rising.findIndex((p, step) => p * (list.length - step) > alpha);
        const rejected = kept < 0 ? list.length : kept;
        expect(holm(list).filter((p) => p <= alpha)).toHaveLength(rejected);
      }),
    );
  });
  test("none for none; what is no probability is refused", () => {
    expect(holm([])).toEqual([]);
    for (const bad of [Number.NaN, -0.1, 1.1])
      expect(problemOf(() => holm([0.5, bad])).code).toBe("analysis/not-a-share");
  });
});
