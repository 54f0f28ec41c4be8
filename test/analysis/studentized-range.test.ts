import { describe, expect, test } from "vitest";
import { dunnettQuantile, dunnettUpper, evenLoadings } from "../../src/analysis/dunnett.ts";
import { studentQuantile, studentTwoSided } from "../../src/analysis/student.ts";
import { studentizedRangeQuantile } from "../../src/analysis/studentized-range.ts";
import { relativeError } from "./reference.ts";

describe("what must hold whatever the values", () => {
  test.each([1, 2, 7.34, 30, 1e4])("two groups: root 2 times Student's quantile, %f degrees of freedom", (df) => {
    for (const risk of [0.1, 0.05, 1e-3]) {
      const student = Math.SQRT2 * -studentQuantile(risk / 2, df);
      expect(relativeError(studentizedRangeQuantile(risk, 2, df), student)).toBeLessThan(1e-12);
    }
  });

  test.each([1, 3, 10, 500])("one comparison with a reference is Student's, %f degrees of freedom", (df) => {
    for (const d of [0.5, 2.2, 9]) {
      expect(relativeError(dunnettUpper(d, evenLoadings(1), df), studentTwoSided(d, df))).toBeLessThan(1e-11);
    }
  });

  test("comparisons that share nothing are independent; more of them need more", () => {
    const alone = studentTwoSided(2, 1e7);
    expect(relativeError(dunnettUpper(2, [0, 0, 0], Number.POSITIVE_INFINITY), 1 - (1 - alone) ** 3)).toBeLessThan(
      1e-6,
    );
    const needed = [1, 2, 4, 8].map((count) => dunnettQuantile(0.05, evenLoadings(count), 12));
    expect(needed).toEqual(needed.toSorted((one, other) => one - other));
  });
});
