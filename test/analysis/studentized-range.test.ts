import { describe, expect, test } from "vitest";
import { dunnettQuantile, dunnettUpper, evenLoadings } from "../../src/analysis/dunnett.ts";
import { studentQuantile, studentTwoSided } from "../../src/analysis/student.ts";
import { studentizedRangeQuantile, studentizedRangeUpper } from "../../src/analysis/studentized-range.ts";
import { relativeError } from "./reference.ts";

// Values of the first two tables: computed with mpmath at 30 digits, on the exact double inputs.

test.each([
  [3, 3, 10, 0.134983415189564],
  [4, 3, 10, 0.0433493497599825],
  [4, 3, 20.5, 0.02647544586912617],
  [4, 5, 120, 0.04281775463677114],
  [6, 20, 20.5, 0.03233465577794963],
  [12, 2, 2, 0.013606076167856262],
  [3, 3, Number.POSITIVE_INFINITY, 0.085542571654958],
  [6, 10, Number.POSITIVE_INFINITY, 0.0009215153038772607],
])("range of at least %f, %i groups, %f degrees of freedom", (q, groups, df, truth) => {
  expect(relativeError(studentizedRangeUpper(q, groups, df), truth)).toBeLessThan(1e-13);
});

test.each([
  [0.05, 3, 10, 3.8767767500132],
  [0.05, 5, 20.5, 4.2221823117152],
  [0.05, 3, Number.POSITIVE_INFINITY, 3.3144931553981],
  [0.05, 3, 2, 8.330782645637],
  [0.01, 20, 2, 37.943462287637],
])("the range reached with probability %f, %i groups, %f degrees of freedom", (tail, groups, df, truth) => {
  expect(relativeError(studentizedRangeQuantile(tail, groups, df), truth)).toBeLessThan(1e-12);
});

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
