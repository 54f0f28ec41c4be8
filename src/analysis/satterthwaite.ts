import { aboveZero } from "./check.ts";
import { solvePositive } from "./cholesky.ts";
import { slopes } from "./derivatives.ts";
import { fisherUpper } from "./fisher.ts";
import type { MixedTerm } from "./mixed-design.ts";
import { covarianceSlopes, mixedSlopes, mixedState } from "./mixed-deviance.ts";
import type { MixedEstimates } from "./mixed-model.ts";
import { fUnlessRounding, unlessRounding } from "./rounding.ts";
import { studentQuantile, studentTwoSided } from "./student.ts";
import { symmetricEigen } from "./symmetric-eigen.ts";

/** Below one degree of freedom no interval was checked, so one stands for less, in tests and intervals alike. */
const leastDf = 1;
/** From here on Student's t and the normal curve are one. */
const mostDf = 1e7;

/** A sum of fixed effects with weights, in points. */
export type MixedContrast = {
  estimate: number;
  standardError: number;
  df: number;
  low: number;
  high: number;
  pValue: number;
};
export type MixedTest = { fValue: number; numeratorDf: number; denominatorDf: number; pValue: number };

/** What is asked of a fit, with the uncertainty of its variances worked out once. */
export type MixedAnswers = {
  /** Takes one weight for each fixed column, and the confidence of the interval. */
  contrast: (weights: readonly number[], confidence: number) => MixedContrast;
  /** Do these sums of fixed effects, none of which follows from the others, all vanish. */
  test: (rows: readonly (readonly number[])[]) => MixedTest;
};

/**
 * Contrasts and F tests of a mixed model with the degrees of freedom of F. E. Satterthwaite 1946.
 *
 * Exact    the slopes of a contrast's variance and the curvature of the deviance are difference quotients of about ten
 *          digits. A variance of 0 counts as known. Degrees below 1 count as 1. For several rows the degrees are joined as by A. H. Fai and
 *          P. L. Cornelius 1996 (from memory): F's mean is that of the squared t's of the independent contrasts
 */
export function mixedAnswers(fit: MixedEstimates): MixedAnswers {
  const variance = varianceWithDf(fit);
  const contrast = (weights: readonly number[], confidence: number): MixedContrast => {
    const { value, df } = variance(weights);
    const standardError = Math.sqrt(value);
    const estimate = unlessRounding(product(weights, fit.effects), standardError);
    const reach = -studentQuantile((1 - confidence) / 2, df) * standardError;
    const pValue = aboveZero(studentTwoSided(estimate / standardError, df));
    return { estimate, standardError, df, low: estimate - reach, high: estimate + reach, pValue };
  };
  const test = (rows: readonly (readonly number[])[]): MixedTest => {
    const table = rows.map((one) => rows.map((other) => bilinear(one, fit.covariance, other)));
    const parts = symmetricEigen(table).map(({ vector }) => {
      const weights = fit.effects.map((_, c) =>
        rows.reduce((sum, row, i) => sum + (vector[i] ?? 0) * (row[c] ?? 0), 0),
      );
      const { value, df } = variance(weights);
      return { squared: product(weights, fit.effects) ** 2 / value, df };
    });
    const fValue = fUnlessRounding(parts.reduce((sum, { squared }) => sum + squared, 0) / parts.length);
    const denominatorDf = joinedDf(parts.map(({ df }) => df));
    const pValue = aboveZero(fisherUpper(fValue, parts.length, denominatorDf));
    return { fValue, numeratorDf: parts.length, denominatorDf, pValue };
  };
  return { contrast, test };
}

/** Variance of a sum of effects and its degrees of freedom: twice its square over the variance of the variance. */
function varianceWithDf({ design, ratios, residualVariance, covariance }: MixedEstimates) {
  const left = design.rows - design.columns.length;
  const spread = residualVariance / design.unit ** 2;
  const state = mixedState(design, ratios);
  const free = ratios.flatMap((ratio, term) => (ratio > 0 ? [term] : []));
  const chosen = (all: readonly number[]) => free.map((term) => all[term] ?? 0);
  const slopesAt = (point: readonly number[]) => {
    const there = mixedState(
      design,
      ratios.map((ratio, term) => point[free.indexOf(term)] ?? ratio),
    );
    return there && mixedSlopes(design, there);
  };
  const bends = slopes(
    (point) => {
      const found = slopesAt(point);
      return found
        ? chosen(found.logDeterminant.map((slope, term) => slope + (found.squares[term] ?? 0) / spread))
        : [];
    },
    chosen(ratios),
    chosen(ratios).map((ratio) => ratio / 10),
  );
  // the residual deviation is counted in itself: 1 at the estimate
  const cross = state ? chosen(mixedSlopes(design, state).squares).map((slope) => (-2 * slope) / spread) : [];
  const hessian = [...bends.map((row, i) => [...row, cross[i] ?? 0]), [...cross, 4 * left]];
  const turns = state ? covarianceSlopes(design, state) : [];
  const tables = free.map((term) => turns[term] ?? []);
  return (weights: readonly number[]): { value: number; df: number } => {
    const value = bilinear(weights, covariance, weights);
    const slope = [...tables.map((table) => residualVariance * bilinear(weights, table, weights)), 2 * value];
    const solved = solvePositive(hessian, [slope])?.[0];
    if (!solved) return { value, df: left };
    return { value, df: Math.min(mostDf, Math.max(leastDf, value ** 2 / product(slope, solved))) };
  };
}

function joinedDf(degrees: readonly number[]): number {
  const [first = 1] = degrees;
  if (degrees.every((df) => Math.abs(df - first) < 1e-8 * first)) return first;
  if (degrees.some((df) => df <= 2)) return 2;
  const expected = degrees.reduce((sum, df) => sum + df / (df - 2), 0);
  return (2 * expected) / (expected - degrees.length);
}

/** Weights of the mean at these levels, all other factors of the fixed part evenly. */
export function meanWeights({ design }: MixedEstimates, levels: Readonly<Record<string, string>>): number[] {
  return design.columns.map((column) =>
    Object.entries(column.levels).reduce((weight, [factor, level]) => {
      const asked = levels[factor];
      if (asked === undefined) return weight / (design.factors[factor]?.length ?? 1);
      return asked === level ? weight : 0;
    }, 1),
  );
}

/**
 * Rows that test a term of the fixed part, each other term evenly: type III.
 *
 * Returns  for a single factor its estimated means less that of its first level; for an interaction its own effects
 */
export function termRows(fit: MixedEstimates, term: MixedTerm): number[][] {
  const [factor, ...others] = term;
  const levels = fit.design.factors[factor ?? ""] ?? [];
  if (factor === undefined || others.length > 0) {
    const at = fit.design.fixed.findIndex((own) => own.join("\n") === term.join("\n"));
    const own = fit.design.columns.flatMap((column, c) => (column.term === at ? [c] : []));
    return own.map((c) => fit.design.columns.map((_, i) => (i === c ? 1 : 0)));
  }
  const first = meanWeights(fit, { [factor]: levels[0] ?? "" });
  return levels.slice(1).map((level) => meanWeights(fit, { [factor]: level }).map((w, i) => w - (first[i] ?? 0)));
}

const product = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, at) => sum + value * (other[at] ?? 0), 0);
const bilinear = (one: readonly number[], table: readonly number[][], other: readonly number[]): number =>
  one.reduce((sum, value, at) => sum + value * product(table[at] ?? [], other), 0);
