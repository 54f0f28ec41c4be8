import type { Comparisons } from "../model/plan.ts";
import type { Adjustment, Compared } from "../model/result-scale.ts";
import { aboveZero } from "./check.ts";
import { dunnettQuantile, dunnettUpper } from "./dunnett.ts";
import { holm } from "./holm.ts";
import { studentQuantile, studentTwoSided } from "./student.ts";
import { studentizedRangeQuantile, studentizedRangeUpper } from "./studentized-range.ts";

/** Which differences between products are judged, and how the judging of several is paid for. */

/** A sum of product means with weights that add up to 0. `first` less `second`, in products, levels or factors. */
export type Comparison = { compared: Compared; first: string; second: string; weights: readonly number[] };
export type ComparisonSet = { adjustment: Adjustment; list: readonly Comparison[] };

/**
 * The comparisons that a plan asks for.
 *
 * Takes    products: ids in the order of the plan
 * Returns  of every two products the later one first, so that a new product after the current one reads as "new less
 *          current"; of two products always their one difference; a plan that names products which are not there falls
 *          back to all pairs
 */
export function comparisonSet(comparisons: Comparisons, products: readonly string[]): ComparisonSet {
  const list = products.length > 2 ? listOf(comparisons, products) : [];
  if (list.length === 0) return allPairs(products);
  return { adjustment: list.length === 1 ? "none" : comparisons.kind === "reference" ? "dunnett" : "holm", list };
}

/** Every two products. */
export function allPairs(products: readonly string[]): ComparisonSet {
  const list = products.flatMap((second, at) => products.slice(at + 1).map((first) => pairOf(first, second, products)));
  return { adjustment: list.length > 1 ? "tukey" : "none", list };
}

function listOf(comparisons: Comparisons, products: readonly string[]): Comparison[] {
  const known = (id: string | null): id is string => id !== null && products.includes(id);
  switch (comparisons.kind) {
    case "all-pairs":
      return [];
    case "reference": {
      const { product } = comparisons;
      if (!known(product)) return [];
      return products.filter((other) => other !== product).map((other) => pairOf(other, product, products));
    }
    case "planned":
      return comparisons.pairs.flatMap(({ first, second }) =>
        known(first) && known(second) && first !== second ? [pairOf(first, second, products)] : [],
      );
    case "two-factors":
      return factorial(comparisons, products);
  }
}

const pairOf = (first: string, second: string, products: readonly string[]): Comparison => ({
  compared: "pair",
  first,
  second,
  weights: products.map((product) => (product === first ? 1 : 0) - (product === second ? 1 : 0)),
});

/** Main effects: the mean of both cells of the second level less that of the first. Interaction: a difference of differences. */
function factorial(
  { factors, cells }: Extract<Comparisons, { kind: "two-factors" }>,
  products: readonly string[],
): Comparison[] {
  const of = products.map((product) => cells.find((cell) => cell.product === product));
  if (products.length !== 4 || of.some((cell) => !cell)) return [];
  const sign = (level: "one" | "two" | undefined) => (level === "two" ? 1 : -1);
  const weights = (weight: (cell: (typeof of)[number]) => number) => of.map(weight);
  const [one, other] = factors;
  return [
    {
      compared: "first-factor",
      first: one.levels[1],
      second: one.levels[0],
      weights: weights((cell) => sign(cell?.first) / 2),
    },
    {
      compared: "second-factor",
      first: other.levels[1],
      second: other.levels[0],
      weights: weights((cell) => sign(cell?.second) / 2),
    },
    {
      compared: "interaction",
      first: one.name,
      second: other.name,
      weights: weights((cell) => sign(cell?.first) * sign(cell?.second)),
    },
  ];
}

/**
 * An estimated comparison. `df`: of its standard error, 1 to 1e7. `covariances`: with each of the comparisons, itself among
 * them, in one unit for all.
 */
export type Estimate = { difference: number; standardError: number; df: number; covariances: readonly number[] };

export type Judged = {
  /** Of this comparison alone. */
  pValue: number;
  low: number;
  high: number;
  /** With the others taken into account; the same where there is one. The interval excludes 0 exactly when p is at most the risk. */
  pValueAdjusted: number;
  lowTogether: number;
  highTogether: number;
};

/**
 * Comparisons judged one by one and together.
 *
 * Takes    estimates: in the order of the set, each with its own degrees of freedom; products: how many; risk:
 *          1 - confidence; together: the risk of all of them at once, the same where it is left out
 * Returns  Tukey's range (with the mean of both variances where they differ, C. Y. Kramer 1956), Dunnett's comparisons with a
 *          reference (where the design makes correlations uneven, with the least of them, which errs on the safe side), or
 *          Holm's steps, whose intervals stand at the risk that the steps left (all from memory). p is never 0
 */
export function judge(
  estimates: readonly Estimate[],
  { adjustment, products, risk, together: all = risk }: Rule & { together?: number },
): Judged[] {
  const own = estimates.map((estimate) => aboveZero(studentTwoSided(ratioOf(estimate), estimate.df)));
  const alone = (of: number) => estimates.map(reachAt((df) => -studentQuantile(of / 2, df)));
  const reaches = alone(risk);
  const together = togetherOf(estimates, own, { adjustment, products, risk: all });
  const reachesTogether = all === risk ? reaches : alone(all);
  return estimates.map((estimate, at) => {
    const { difference, standardError } = estimate;
    const reach = reaches[at] ?? Number.NaN;
    const joint = together[at] ?? { pValue: own[at] ?? 1, reach: reachesTogether[at] ?? Number.NaN };
    return {
      pValue: own[at] ?? 1,
      low: difference - reach * standardError,
      high: difference + reach * standardError,
      // rounding may leave a hair between two ways to the same number
      pValueAdjusted: Math.max(own[at] ?? 1, aboveZero(joint.pValue)),
      lowTogether: difference - joint.reach * standardError,
      highTogether: difference + joint.reach * standardError,
    };
  });
}

type Joint = { pValue: number; reach: number };
type Rule = { adjustment: Adjustment; products: number; risk: number };

/** A critical number for each estimate, worked out once where degrees of freedom are the same. */
function reachAt(critical: (df: number) => number): (estimate: Estimate) => number {
  const known = new Map<number, number>();
  return ({ df }) => {
    const reach = known.get(df) ?? critical(df);
    known.set(df, reach);
    return reach;
  };
}

function togetherOf(estimates: readonly Estimate[], own: readonly number[], rule: Rule): Joint[] {
  const { adjustment, products, risk } = rule;
  switch (adjustment) {
    case "none":
      return [];
    case "tukey": {
      const reach = reachAt((df) => studentizedRangeQuantile(risk, products, df) / Math.SQRT2);
      return estimates.map((estimate) => ({
        pValue: studentizedRangeUpper(Math.SQRT2 * Math.abs(ratioOf(estimate)), products, estimate.df),
        reach: reach(estimate),
      }));
    }
    case "dunnett": {
      const loadings = loadingsOf(estimates);
      const reach = reachAt((df) => dunnettQuantile(risk, loadings, df));
      return estimates.map((estimate) => ({
        pValue: dunnettUpper(Math.abs(ratioOf(estimate)), loadings, estimate.df),
        reach: reach(estimate),
      }));
    }
    case "holm": {
      const adjusted = holm(own);
      return own.map((pValue, at) => {
        const paid = adjusted[at] ?? 1;
        const left = Math.min(risk, Math.max(risk / own.length, (risk * pValue) / Math.max(paid, Number.MIN_VALUE)));
        return { pValue: paid, reach: -studentQuantile(left / 2, estimates[at]?.df ?? 1) };
      });
    }
  }
}

/** How the comparisons hang together by the reference they share: the least covariance of any two, over each one's spread. */
function loadingsOf(estimates: readonly Estimate[]): number[] {
  const shared = Math.max(
    0,
    Math.min(...estimates.flatMap(({ covariances }, at) => covariances.filter((_, other) => other !== at))),
  );
  return estimates.map(({ covariances }, at) => Math.min(0.999, Math.sqrt(shared / (covariances[at] ?? 1))));
}

const ratioOf = ({ difference, standardError }: Estimate): number => difference / standardError;
