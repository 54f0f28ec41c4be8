import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { dunnettUpper, dunnettUpperOneSided } from "../../src/analysis/dunnett.ts";
import { studentizedRangeQuantile, studentizedRangeUpper } from "../../src/analysis/studentized-range.ts";
import { digits, reference, relativeError } from "./reference.ts";

const number = z.number();
const infinite = Number.POSITIVE_INFINITY;
/** null stands for infinitely many in the tables. */
const freedom = z.pipe(
  z.nullable(number),
  z.transform((df: number | null) => df ?? infinite),
);
/** Made by test/reference/largest-of-several/make.py. */
const computed = reference(
  "largest-of-several",
  z.object({
    range: z.array(z.tuple([number, number, number, number])).check(z.minLength(18)),
    dunnett: z
      .array(z.tuple([number, z.array(number), number, z.enum(["two-sided", "one-sided"]), number]))
      .check(z.minLength(36)),
    earlier: z.object({
      rangeUpper: z.array(z.tuple([number, number, freedom, digits])).check(z.minLength(8)),
      rangeQuantile: z.array(z.tuple([number, number, freedom, digits])).check(z.minLength(5)),
    }),
  }),
);
const printed = z.object({ rows: z.array(z.tuple([freedom], number)).check(z.minLength(5)) });
const half = Math.SQRT1_2;

describe("studentized range against values from outside", () => {
  test.each(computed.earlier.rangeUpper)(
    "at least %d, %d means, %d df: %d; mpmath at 30 digits",
    (q, means, df, truth) => {
      expect(relativeError(studentizedRangeUpper(q, means, df), truth)).toBeLessThan(1e-12);
    },
  );
  test.each(computed.earlier.rangeQuantile)(
    "tail %d, %d means, %d df: %d, an earlier computation",
    (tail, means, df, q) => {
      expect(relativeError(studentizedRangeQuantile(tail, means, df), q)).toBeLessThan(2e-13);
    },
  );
  test("tails by panels over the spread itself, numpy; 1 to 22.7 df", () => {
    const off = computed.range.filter(
      ([q, means, df, truth]) => relativeError(studentizedRangeUpper(q, means, df), truth) > 3e-11,
    );
    expect(off).toEqual([]);
  });
  test("a printed table, 5 and 1 %, 2 to 10 means, every seventh row to its last digit; course table B.5", () => {
    const { rows } = reference("studentized-range-published", printed);
    for (const [df, ...cells] of rows.filter((_, at) => at % 7 === 0)) {
      cells.forEach((q, at) => {
        // the tail at the cell's two ends holds the risk: cheaper than a quantile, and as sharp
        const [means, risk] = [2 + Math.floor(at / 2), at % 2 === 0 ? 0.05 : 0.01];
        expect(studentizedRangeUpper(q - 0.0051, means, df)).toBeGreaterThan(risk);
        expect(studentizedRangeUpper(q + 0.0051, means, df)).toBeLessThan(risk);
      });
    }
  });
  test("a printed table at 1 to 5 df, 2 to 20 means, to its last digit but for old roundings", () => {
    const { rows } = reference("studentized-range-small-df", printed);
    for (const [df, ...cells] of rows) {
      cells.forEach((q, at) => {
        if (at % 3 !== 0) return; // every third column: small df take the most steps
        const reach = df <= 2 ? 0.0101 : 0.0051;
        expect(studentizedRangeUpper(q - reach, at + 2, df)).toBeGreaterThan(0.05);
        expect(studentizedRangeUpper(q + reach, at + 2, df)).toBeLessThan(0.05);
      });
    }
  });
});

describe("Dunnett's largest t against values from outside", () => {
  test("balanced and uneven loadings, both kinds of sides, by panels over the spread, numpy", () => {
    const off = computed.dunnett
      .filter(([, loadings]) => Math.min(...loadings) >= 0)
      .filter(
        ([t, loadings, df, sides, truth]) =>
          relativeError((sides === "two-sided" ? dunnettUpper : dunnettUpperOneSided)(t, loadings, df), truth) > 3e-11,
      );
    expect(off).toEqual([]);
  });
  test("a printed table, one-sided 5 %, 2 to 20 comparisons, every seventh row within 0.007; Ott and Longnecker, Table 11", () => {
    const { rows } = reference("dunnett-published", printed);
    const counts = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15, 20];
    for (const [df, ...cells] of rows.filter((_, at) => at % 7 === 0)) {
      cells.forEach((t, at) => {
        const loadings = new Array<number>(counts[at] ?? 0).fill(half);
        expect(dunnettUpperOneSided(t - 0.0075, loadings, df)).toBeGreaterThan(0.05);
        expect(dunnettUpperOneSided(t + 0.0075, loadings, df)).toBeLessThan(0.05);
      });
    }
  });
});
