import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { fitMixed, type MixedEstimates, type MixedFit } from "../../src/analysis/mixed-model.ts";
import { meanWeights, mixedAnswers, termRows } from "../../src/analysis/satterthwaite.ts";
import { reference, relativeError } from "./reference.ts";

const figures = z.tuple([z.number(), z.number(), z.number()]);
const terms = z.array(z.array(z.string())).check(z.minLength(1));
const { sets } = reference(
  "mixed-by-r",
  z.object({
    sets: z.record(
      z.string(),
      z.object({
        factors: z.record(z.string(), z.array(z.string()).check(z.minLength(2))),
        fixed: terms,
        random: terms,
        tests: z.array(figures),
        variances: z.array(z.number()),
        residual: z.number(),
        deviance: z.number(),
        means: z.array(figures),
        pairs: z.array(z.object({ name: z.string(), figures })).check(z.minLength(1)),
        rows: z.array(z.record(z.string(), z.string())).check(z.minLength(10)),
      }),
    ),
  }),
);

function estimates(fit: MixedFit): MixedEstimates {
  if (fit.outcome !== "ok" && fit.outcome !== "singular") throw new Error(`no fit: ${fit.outcome}`);
  return fit;
}

describe.each(Object.entries(sets))("mixed model, %s, against R (lme4, lmerTest, emmeans)", (_, set) => {
  const rows = set.rows.map(({ value, ...levels }) => ({ levels, value: Number(value) }));
  const fit = estimates(fitMixed({ ...set, rows }));
  const answers = mixedAnswers(fit);
  const near = (got: number, truth: number, within: number) =>
    expect(Math.abs(got - truth)).toBeLessThanOrEqual(within);

  test("variances to 1e-6 of the residual, deviance", () => {
    expect(fit.variances).toHaveLength(set.variances.length);
    for (const [at, truth] of set.variances.entries())
      near(fit.variances[at] ?? Number.NaN, truth, 1e-6 * set.residual);
    near(fit.residualVariance, set.residual, 1e-6 * set.residual);
    expect(relativeError(fit.deviance, set.deviance)).toBeLessThan(1e-10);
  });
  test("F of each fixed term to 1e-7, its degrees of freedom to 1e-4", () => {
    expect(set.tests).toHaveLength(set.fixed.length);
    for (const [at, [fValue, numeratorDf, denominatorDf]] of set.tests.entries()) {
      const found = answers.test(termRows(fit, set.fixed[at] ?? []));
      expect(relativeError(found.fValue, fValue)).toBeLessThan(1e-7);
      expect(found.numeratorDf).toBe(numeratorDf);
      near(found.denominatorDf, denominatorDf, 1e-4 * denominatorDf);
    }
  });
  const factor = set.fixed[0]?.[0] ?? "";
  const levels = set.factors[factor] ?? [];
  const compare = (weights: readonly number[], [estimate, standardError, df]: readonly [number, number, number]) => {
    const found = answers.contrast(weights, 0.95);
    near(found.estimate, estimate, 1e-6 * standardError);
    expect(relativeError(found.standardError, standardError)).toBeLessThan(1e-6);
    near(found.df, df, 1e-4 * df);
  };
  test("estimated means", () => {
    expect(set.means).toHaveLength(levels.length);
    for (const [at, truth] of set.means.entries()) compare(meanWeights(fit, { [factor]: levels[at] ?? "" }), truth);
  });
  test("all pairs", () => {
    for (const { name, figures } of set.pairs) {
      const [first = "", second = ""] = name.split(" - ");
      const other = meanWeights(fit, { [factor]: second });
      compare(
        meanWeights(fit, { [factor]: first }).map((weight, at) => weight - (other[at] ?? 0)),
        figures,
      );
    }
  });
});
