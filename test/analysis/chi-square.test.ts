import { expect, test } from "vitest";
import * as z from "zod/mini";
import { chiSquareLower, chiSquareUpper } from "../../src/analysis/chi-square.ts";
import { problemOf } from "../problem-of.ts";
import { digits, reference, relativeError } from "./reference.ts";

const { rows } = reference(
  "chi-square-fifty-digits",
  z.object({ rows: z.array(z.tuple([z.number(), z.number(), digits, digits])).check(z.minLength(20)) }),
);

test.each(rows)("chi-square of %s on %i df: %s below, %s above; mpmath, 50 digits", (value, df, lower, upper) => {
  expect(relativeError(chiSquareUpper(value, df), upper)).toBeLessThan(1e-12);
  expect(relativeError(chiSquareLower(value, df), lower)).toBeLessThan(1e-12);
});
test("ends: everything lies above 0, and nothing a double can hold lies above 10,000", () => {
  expect([chiSquareUpper(0, 3), chiSquareLower(0, 3)]).toEqual([1, 0]);
  expect([chiSquareUpper(10_000, 3), chiSquareLower(10_000, 3)]).toEqual([0, 1]);
});
test("the 5 % point on 10 df, R's qchisq and mpmath to 17 digits", () => {
  expect(relativeError(chiSquareUpper(18.307038053275143, 10), 0.05)).toBeLessThan(1e-13);
});
test("no df, negative or missing values are refused", () => {
  expect(problemOf(() => chiSquareUpper(1, 0)).code).toBe("analysis/not-a-count");
  expect(problemOf(() => chiSquareUpper(-1, 2)).code).toBe("analysis/out-of-range");
  expect(problemOf(() => chiSquareUpper(Number.NaN, 2)).code).toBe("analysis/out-of-range");
});
