import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { fisherUpper } from "../../src/analysis/fisher.ts";
import { noncentralFisherLower, noncentralFisherUpper } from "../../src/analysis/noncentral-fisher.ts";
import { noncentralStudentLower, noncentralStudentUpper } from "../../src/analysis/noncentral-t.ts";
import { studentUpper } from "../../src/analysis/student.ts";
import { problemOf } from "../problem-of.ts";
import { digits, reference, relativeError } from "./reference.ts";

const number = z.number();
const tail = z.nullable(digits);
const table = <T>(row: z.ZodMiniType<T>) => z.object({ rows: z.array(row).check(z.minLength(100)) });
/** Made by test/reference/noncentral/make.py with mpmath. */
const truths = reference(
  "noncentral",
  z.object({
    t: table(z.tuple([number, number, number, tail, tail])),
    f: table(z.tuple([number, number, number, number, tail, tail])),
    earlier: z.object({
      tUpper: z.array(z.tuple([number, number, number, digits])).check(z.minLength(2)),
      fUpper: z.array(z.tuple([number, number, number, number, digits])).check(z.minLength(2)),
    }),
  }),
);

/** 1e-11 where a table goes down to 1e-60; a truth below that (null) is not asked for. */
const far = (got: number, truth: number | null) => truth !== null && relativeError(got, truth) > 1e-11;

describe("noncentral t and F against values computed outside", () => {
  test("t, 150 places, both tails, relative 1e-11 down to 1e-60; mpmath at 100 digits", () => {
    const off = truths.t.rows.filter(
      ([t, df, shift, lower, upper]) =>
        far(noncentralStudentLower(t, df, shift), lower) || far(noncentralStudentUpper(t, df, shift), upper),
    );
    expect(off).toEqual([]);
  });
  test("F, 125 places, both tails, relative 1e-11 down to 1e-60; mpmath at 60 digits", () => {
    const off = truths.f.rows.filter(
      ([f, top, bottom, noncentrality, lower, upper]) =>
        far(noncentralFisherLower(f, top, bottom, noncentrality), lower) ||
        far(noncentralFisherUpper(f, top, bottom, noncentrality), upper),
    );
    expect(off).toEqual([]);
  });
  test.each(truths.earlier.tUpper)(
    "t at least %d, df %d, shift %d: %d, an earlier computation",
    (t, df, shift, truth) => {
      expect(relativeError(noncentralStudentUpper(t, df, shift), truth)).toBeLessThan(1e-12);
    },
  );
  test.each(truths.earlier.fUpper)("F at least %d on %d and %d, lambda %d: %d, an earlier computation", (...row) => {
    const [f, top, bottom, noncentrality, truth] = row;
    expect(relativeError(noncentralFisherUpper(f, top, bottom, noncentrality), truth)).toBeLessThan(1e-12);
  });
});

describe("noncentral t and F, shape", () => {
  const df = fc.double({ min: 1, max: 2000, noNaN: true });
  const shift = fc.double({ min: -8, max: 8, noNaN: true });
  const statistic = fc.double({ min: -30, max: 30, noNaN: true });

  test("both tails add up to 1", () => {
    fc.assert(
      fc.property(statistic, df, shift, (t, freedom, at) => {
        const sum = noncentralStudentLower(t, freedom, at) + noncentralStudentUpper(t, freedom, at);
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        const [f, lambda] = [Math.abs(t), at * at];
        const sumF = noncentralFisherLower(f, 3, freedom, lambda) + noncentralFisherUpper(f, 3, freedom, lambda);
        expect(Math.abs(sumF - 1)).toBeLessThan(1e-12);
      }),
    );
  });
  test("t squared is F with one numerator degree of freedom and the shift squared", () => {
    fc.assert(
      fc.property(statistic, df, shift, (t, freedom, at) => {
        const both =
          noncentralStudentUpper(Math.abs(t), freedom, at) + noncentralStudentLower(-Math.abs(t), freedom, at);
        expect(relativeError(noncentralFisherUpper(t * t, 1, freedom, at * at), both)).toBeLessThan(1e-10);
      }),
      { numRuns: 40 },
    );
  });
  test("the upper tail rises with the shift and falls with the value", () => {
    fc.assert(
      fc.property(statistic, df, shift, (t, freedom, at) => {
        const here = noncentralStudentUpper(t, freedom, at);
        expect(noncentralStudentUpper(t, freedom, at + 0.1)).toBeGreaterThanOrEqual(here * (1 - 1e-12));
        expect(noncentralStudentUpper(t + 0.1, freedom, at)).toBeLessThanOrEqual(here * (1 + 1e-12));
      }),
      { numRuns: 40 },
    );
  });
  test("without a shift they are t and F", () => {
    expect(noncentralStudentUpper(2.5, 7.34, 0)).toBe(studentUpper(2.5, 7.34));
    expect(relativeError(noncentralStudentUpper(2.5, 7.34, 1e-14), studentUpper(2.5, 7.34))).toBeLessThan(1e-12);
    expect(relativeError(noncentralFisherUpper(2.5, 3, 29.7, 0), fisherUpper(2.5, 3, 29.7))).toBeLessThan(1e-13);
  });
  test("a noncentrality too small for a double's full digits is as good as none", () => {
    expect(relativeError(noncentralFisherUpper(2, 1, 5, 1e-320), fisherUpper(2, 1, 5))).toBeLessThan(1e-13);
  });
  test("ends", () => {
    const most = Number.POSITIVE_INFINITY;
    expect([noncentralStudentUpper(most, 5, 2), noncentralStudentLower(most, 5, 2)]).toEqual([0, 1]);
    expect([noncentralFisherUpper(most, 2, 5, 3), noncentralFisherLower(0, 2, 5, 3)]).toEqual([0, 0]);
    expect(noncentralFisherUpper(0, 2, 5, 3)).toBeCloseTo(1, 14);
  });
  test.each([
    ["t", () => noncentralStudentUpper(Number.NaN, 5, 1)],
    ["degreesOfFreedom", () => noncentralStudentLower(1, 0, 1)],
    ["noncentrality", () => noncentralStudentUpper(1, 5, Number.NaN)],
    ["F", () => noncentralFisherUpper(-1, 2, 5, 1)],
    ["numeratorDf", () => noncentralFisherLower(1, 0, 5, 1)],
    ["denominatorDf", () => noncentralFisherUpper(1, 2, Number.POSITIVE_INFINITY, 1)],
    ["noncentrality", () => noncentralFisherUpper(1, 2, 5, -1)],
  ])("a bad %s is refused and named", (name, call) => {
    expect(problemOf(call)).toMatchObject({ code: "analysis/out-of-range", details: { name } });
  });
});
