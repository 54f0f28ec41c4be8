import type { AttributeResult, ServedTerm } from "../model/result-scale.ts";
import { contrastsOf, meansOf, testsOf } from "./block-result.ts";
import { type BlockAnalysis, type BlockTest, blockAnalysis } from "./blocks.ts";
import type { ComparisonSet } from "./comparisons.ts";
import { mixedContrasts, mixedResult } from "./mixed-result.ts";
import { fitTerms, isFit, type ServedRow } from "./mixed-terms.ts";
import { mixedAnswers } from "./satterthwaite.ts";

type Analyzed = Pick<
  AttributeResult,
  "blocks" | "terms" | "variances" | "mixed" | "noMixed" | "leads" | "means" | "contrasts"
>;

type Asked = {
  confidence: number;
  together: number;
  set: ComparisonSet;
  asked: readonly ServedTerm[];
  named: (id: string) => string;
};

/**
 * Marks by both analyses, and which of them leads.
 *
 * The block analysis leads where marks are balanced (nobody lacks a product, and everybody marked each as often): products
 * are then compared within people alone, exactly, whatever else varied, since the orders served balance it. The mixed model
 * stands beside it with its terms. Where marks are unbalanced (trays or marks missing, incomplete blocks) it leads: what people
 * who marked some products say about the level of the others counts, and so do the terms (see `fitTerms`). If it cannot be
 * fitted the block analysis leads, and `noMixed` says why. Where there is no block test (products that nobody joins, one
 * person) there is none at all: products are not held against each other between people alone.
 *
 * Takes    rows: marks, repeats each of their own; products: ids in the order of the plan; confidence: of every interval;
 *          together: the risk of all comparisons at once; set: the comparisons; asked: as `fitTerms`
 * Throws   as `blockAnalysis`
 */
export function analyzed(
  rows: readonly ServedRow[],
  products: readonly string[],
  { confidence, together, set, asked, named }: Asked,
): { found: BlockAnalysis; result: Analyzed } {
  const found = blockAnalysis(rows, products, confidence, set, together);
  const byBlocks: Analyzed = {
    ...testsOf(found),
    mixed: null,
    noMixed: null,
    leads: "blocks",
    means: meansOf(found, named),
    contrasts: contrastsOf(found, named),
  };
  if (found.outcome !== "ok") return { found, result: byBlocks };
  const fitted = fitTerms(inOrder(rows, products), products, asked);
  const { fit } = fitted;
  if (!isFit(fit)) return { found, result: { ...byBlocks, noMixed: fit.outcome } };
  if (isSpent(fit)) return { found, result: { ...byBlocks, noMixed: "all-equal" } };
  const answered = { ...fitted, fit, answers: mixedAnswers(fit) };
  const mixed = mixedResult(answered, rows, products, confidence, named);
  if (!mixed) return { found, result: { ...byBlocks, noMixed: "no-numbers" } };
  const beside = { ...byBlocks, mixed };
  if (found.balanced) return { found, result: beside };
  const contrasts = mixedContrasts(answered, set, products, { confidence, together, named });
  return { found, result: { ...beside, ...ledBy(mixed, byBlocks.means), contrasts } };
}

/**
 * Is what is left nothing beside the other spreads, as where every repeat is the same mark again? The search ends at its
 * bound there, and F and its degrees of freedom would be those of the bound.
 */
const isSpent = ({
  variances,
  residualVariance,
}: {
  variances: readonly number[];
  residualVariance: number;
}): boolean => residualVariance <= 1e-8 * variances.reduce((sum, variance) => sum + variance, residualVariance);

/** In one order whatever the order of the file: sums of the same numbers in another one differ in their last digits. */
function inOrder(rows: readonly ServedRow[], products: readonly string[]): ServedRow[] {
  const at = new Map(products.map((product, place) => [product, place]));
  const byText = (one: string, other: string) => (one < other ? -1 : Number(one > other));
  return rows.toSorted(
    (one, other) =>
      byText(one.panelist, other.panelist) ||
      (at.get(one.product) ?? 0) - (at.get(other.product) ?? 0) ||
      (one.place ?? 0) - (other.place ?? 0) ||
      byText(one.session, other.session) ||
      byText(one.batch, other.batch) ||
      one.value - other.value,
  );
}

const ledBy = (
  { variances: { panelist, panelistProduct, residual }, means }: NonNullable<AttributeResult["mixed"]>,
  own: AttributeResult["means"],
): Pick<Analyzed, "leads" | "variances" | "means"> => ({
  leads: "mixed",
  variances: { panelist, panelistProduct, residual },
  means: own.map((mean, at) => ({ ...mean, adjusted: means[at]?.estimate ?? null })),
});

/** The test of products that the verdict rests on; null where there is none. */
export const leadingTest = ({ leads, mixed, blocks }: AttributeResult): BlockTest | null =>
  leads === "mixed" ? mixed : blocks;
