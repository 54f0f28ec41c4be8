import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { criticalNumber, upperTail } from "../../src/analysis/binomial.ts";
import { problemOf } from "../problem-of.ts";
import { reference } from "./reference.ts";

const cell = z.nullable(z.number());
const publishedTable = reference(
  "triangle-critical-published",
  z.object({ rows: z.array(z.tuple([z.number(), cell, cell, cell, cell])).check(z.minLength(44)) }),
);
const computedTable = reference(
  "triangle-critical-computed",
  z.object({ rows: z.array(z.tuple([z.number(), cell, cell, cell, cell, cell])).check(z.minLength(118)) }),
);

describe("least number of right answers, triangle", () => {
  test.each(publishedTable.rows)(
    "%d judgments: %s, %s, %s, %s at 10, 5, 1 and 0.1 %; FAO V7180E Appendix A, seen",
    (judgments, ...needed) => {
      expect([0.1, 0.05, 0.01, 0.001].map((alpha) => criticalNumber(judgments, 1 / 3, alpha))).toEqual(needed);
    },
  );

  test.each(computedTable.rows)(
    "%d judgments: %s, %s, %s, %s, %s at 20, 10, 5, 1 and 0.1 %; exact fractions computed outside",
    (judgments, ...needed) => {
      expect([0.2, 0.1, 0.05, 0.01, 0.001].map((alpha) => criticalNumber(judgments, 1 / 3, alpha))).toEqual(needed);
    },
  );

  test("1 to 400 judgments at five risks agree with tails summed in whole numbers", () => {
    for (let judgments = 1; judgments <= 400; judgments++) {
      const needed = [200n, 100n, 50n, 10n, 1n].map((thousandths) => exactCritical(judgments, thousandths));
      expect([0.2, 0.1, 0.05, 0.01, 0.001].map((alpha) => criticalNumber(judgments, 1 / 3, alpha))).toEqual(needed);
    }
  });

  test("30 judgments need 15 at 5 %, one more than the 95 % quantile that a 2013 blog took", () => {
    expect(criticalNumber(30, 1 / 3, 0.05)).toBe(15);
    expect(upperTail(15, 30, 1 / 3)).toBeCloseTo(0.04348228, 8);
  });

  test("no judgments, or too few for the risk, have no such number", () => {
    expect([criticalNumber(0, 1 / 3, 0.05), criticalNumber(2, 1 / 3, 0.05)]).toEqual([null, null]);
  });

  test("a tail equal to alpha counts as reached: 1 of 2 by coin at 0.75", () => {
    expect(criticalNumber(2, 0.5, 0.75)).toBe(1);
  });

  test.each([0, 1, -1, Number.NaN])("alpha %d is refused", (alpha) => {
    expect(problemOf(() => criticalNumber(24, 1 / 3, alpha))).toMatchObject({
      code: "analysis/not-a-share",
      details: { name: "alpha" },
    });
  });
});

/** Least k with 1000 times the exact upper tail at most `thousandths`, in BigInt: no rounding anywhere. */
function exactCritical(judgments: number, thousandths: bigint): number | null {
  const all = 3n ** BigInt(judgments);
  let ways = 1n; // of exactly `right` right, from all right downwards
  let tail = 0n;
  for (let right = judgments; right >= 0; right--) {
    tail += ways;
    if (1000n * tail > thousandths * all) return right === judgments ? null : right + 1;
    ways = (ways * BigInt(right) * 2n) / BigInt(judgments - right + 1);
  }
  return 0;
}
