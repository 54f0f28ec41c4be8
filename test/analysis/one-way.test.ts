import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { oneWay } from "../../src/analysis/one-way.ts";
import { digits, reference, relativeError } from "./reference.ts";

const certified = z.object({ dfBetween: z.number(), dfWithin: z.number(), F: digits });
const { rows } = reference(
  "nist-anova",
  z.object({
    rows: z
      .array(
        z.object({
          name: z.string(),
          treatments: z.number(),
          certified,
          data: z.optional(z.array(z.array(digits))),
          generator: z.optional(z.object({ base: z.number(), replicates: z.number() })),
          F_exact_on_double_inputs: z.optional(z.number()),
        }),
      )
      .check(z.length(11)),
  }),
);

/** The rule of the published files: a first value at the center, then one tenth below and above it in turn. */
function generated(base: number, replicates: number, treatments: number): number[][] {
  return Array.from({ length: treatments }, (_, at) => {
    const center = at === 0 ? 4 : at % 2 === 1 ? 3 : 5;
    return Array.from({ length: replicates }, (_, i) =>
      Number(`${base}.${i === 0 ? center : i % 2 === 1 ? center - 1 : center + 1}`),
    );
  });
}

/** Digits asked for: log relative error against the certified F. */
const asked: Record<string, number> = {
  SiRstv: 12,
  AtmWtAg: 9,
  ...{ SmLs01: 13, SmLs02: 13, SmLs03: 13, SmLs04: 9.5, SmLs05: 9.5, SmLs06: 9.5, SmLs07: 4, SmLs08: 4, SmLs09: 4 },
};

describe("one-way F against the certified values of NIST StRD", () => {
  test.each(rows)("$name", ({ name, treatments, certified, data, generator, F_exact_on_double_inputs: exact }) => {
    const groups = data ?? generated(generator?.base ?? 0, generator?.replicates ?? 0, treatments);
    const found = oneWay(groups);
    if (found.outcome !== "ok") throw new Error(`no test: ${found.outcome}`);
    expect([found.numeratorDf, found.denominatorDf]).toEqual([certified.dfBetween, certified.dfWithin]);
    const lost = relativeError(found.fValue, certified.F);
    expect(-Math.log10(Math.max(lost, 1e-17))).toBeGreaterThanOrEqual(asked[name] ?? Number.POSITIVE_INFINITY);
    // where the decimals themselves do not fit into doubles: the F of those doubles in exact arithmetic
    if (exact !== undefined) expect(relativeError(found.fValue, exact)).toBeLessThan(1e-13);
  });
});

describe("one-way F, what data can do", () => {
  test.each([
    [[], "no-marks"],
    [[[1, 2]], "one-group"],
    [[[1], [2]], "too-few"],
    [
      [
        [2, 2],
        [2, 2],
      ],
      "all-equal",
    ],
  ] as const)("%j is an outcome of its own", (groups, outcome) => {
    expect(oneWay(groups).outcome).toBe(outcome);
  });
});
