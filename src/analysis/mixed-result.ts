import type { AttributeResult } from "../model/result-scale.ts";
import type { BlockRow } from "./block-table.ts";
import { fitMixed } from "./mixed-model.ts";
import { meanWeights, mixedAnswers, termRows } from "./satterthwaite.ts";

/**
 * The mixed model beside the block analysis: products fixed, panelists drawn from many; with repeats panelist by product as
 * well.
 *
 * Takes    rows: marks, repeats each of their own; products: ids in the order of the plan; confidence: of the intervals
 * Returns  null where there is no fit that says anything of the products
 */
export function mixedResult(
  rows: readonly BlockRow[],
  products: readonly string[],
  confidence: number,
  named: (id: string) => string,
): AttributeResult["mixed"] {
  const cells = new Set(rows.map(({ panelist, product }) => JSON.stringify([panelist, product])));
  const repeated = cells.size < rows.length;
  const fit = fitMixed({
    rows: rows.map(({ panelist, product, value }) => ({ levels: { panelist, product }, value })),
    factors: { product: products },
    fixed: [["product"]],
    random: repeated ? [["panelist"], ["panelist", "product"]] : [["panelist"]],
  });
  if (fit.outcome !== "ok" && fit.outcome !== "singular") return null;
  const answers = mixedAnswers(fit);
  const [panelist = 0, panelistProduct = null] = fit.variances;
  return {
    ...answers.test(termRows(fit, ["product"])),
    variances: { panelist, panelistProduct, residual: fit.residualVariance },
    vanished: fit.singular.length > 0,
    means: products.map((product) => {
      const { estimate, standardError, df, low, high } = answers.contrast(meanWeights(fit, { product }), confidence);
      return { product: named(product), estimate, standardError, df, low, high };
    }),
  };
}
