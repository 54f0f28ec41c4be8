import type { AttributeResult, MixedModel, ServedTerm } from "../model/result-scale.ts";
import { type ComparisonSet, judge } from "./comparisons.ts";
import type { MixedEstimates } from "./mixed-model.ts";
import { type FittedTerms, fewestBatches, type ServedRow } from "./mixed-terms.ts";
import { type MixedAnswers, meanWeights, termRows } from "./satterthwaite.ts";

export type AnsweredFit = Omit<FittedTerms, "fit"> & { fit: MixedEstimates; answers: MixedAnswers };

/**
 * A fitted mixed model as a result has it, with the comparisons it would give if it leads.
 *
 * Takes    products: ids in the order of the plan; confidence: of the intervals
 * Returns  null where a number is none, which no data are known to cause
 */
export function mixedResult(
  { fit, answers, terms, leftOut }: AnsweredFit,
  rows: readonly ServedRow[],
  products: readonly string[],
  confidence: number,
  named: (id: string) => string,
): MixedModel | null {
  const model: MixedModel = {
    ...answers.test(termRows(fit, ["product"])),
    variances: variancesOf(fit),
    vanished: fit.singular.length > 0,
    terms: testsOf(fit, answers, terms),
    leftOut: [...leftOut],
    batches: terms.includes("batch") ? fewestBatches(rows, products) : null,
    means: products.map((product) => {
      const { estimate, standardError, df, low, high } = answers.contrast(meanWeights(fit, { product }), confidence);
      return { product: named(product), estimate, standardError, df, low, high };
    }),
  };
  const { means, terms: tests } = model;
  const numbers = [model, ...means, ...tests].flatMap((part) => Object.values(part));
  return numbers.every((value) => typeof value !== "number" || Number.isFinite(value)) ? model : null;
}

function variancesOf({ design, variances, residualVariance }: MixedEstimates): MixedModel["variances"] {
  const of = (...term: string[]) => {
    const at = design.random.findIndex((own) => own.join("\n") === term.join("\n"));
    return at < 0 ? null : (variances[at] ?? null);
  };
  return {
    panelist: of("panelist") ?? 0,
    panelistProduct: of("panelist", "product"),
    batch: of("product", "batch"),
    residual: residualVariance,
  };
}

const testsOf = (fit: MixedEstimates, answers: MixedAnswers, terms: readonly ServedTerm[]): MixedModel["terms"] =>
  terms.flatMap((term) => (term === "batch" ? [] : [{ term, ...answers.test(termRows(fit, [term])) }]));

/**
 * The comparisons of a set by a mixed model, each with its own degrees of freedom, judged together as those of a block
 * analysis are.
 */
export function mixedContrasts(
  { fit, answers }: Pick<AnsweredFit, "fit" | "answers">,
  set: ComparisonSet,
  products: readonly string[],
  { confidence, together, named }: { confidence: number; together: number; named: (id: string) => string },
): AttributeResult["contrasts"] {
  const means = products.map((product) => meanWeights(fit, { product }));
  const weights = set.list.map((comparison) =>
    fit.effects.map((_, c) => means.reduce((sum, own, i) => sum + (comparison.weights[i] ?? 0) * (own[c] ?? 0), 0)),
  );
  const estimates = weights.map((own) => {
    const { estimate, standardError, df } = answers.contrast(own, confidence);
    const covariances = weights.map((other) => covarianceOf(fit, own, other));
    return { difference: estimate, standardError, df, covariances };
  });
  const judged = judge(estimates, {
    adjustment: set.adjustment,
    products: products.length,
    risk: 1 - confidence,
    together,
  });
  return set.list.flatMap(({ compared, first, second }, at) => {
    const [estimate, own] = [estimates[at], judged[at]];
    if (!estimate || !own) return [];
    const { difference, standardError, df } = estimate;
    const names = compared === "pair" ? { first: named(first), second: named(second) } : { first, second };
    return [{ compared, ...names, difference, standardError, df, ...own }];
  });
}

const covarianceOf = ({ covariance }: MixedEstimates, one: readonly number[], other: readonly number[]): number =>
  one.reduce(
    (sum, weight, i) => sum + weight * other.reduce((inner, next, j) => inner + next * (covariance[i]?.[j] ?? 0), 0),
    0,
  );
