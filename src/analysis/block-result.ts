import type { AttributeResult, ScaleOutcome } from "../model/result-scale.ts";
import type { BlockAnalysis } from "./blocks.ts";

/** From a block analysis to the fields of a result. `named`: what a product is called. */

/** With a key in doubt nobody can say what the values are of. Without marks there is nothing to be put in doubt. */
export const outcomeUnder = (keyMatches: boolean, outcome: ScaleOutcome): ScaleOutcome =>
  keyMatches || outcome === "no-marks" ? outcome : "withheld";

/** The tests and components of an analysis as a result has them; empty where there is no test. */
export function testsOf(found: BlockAnalysis): Pick<AttributeResult, "blocks" | "terms" | "variances"> {
  if (found.outcome !== "ok") {
    return { blocks: null, terms: [], variances: { panelist: null, panelistProduct: null, residual: null } };
  }
  const { blocks, panelistTest, variances, balanced } = found;
  return {
    blocks: { ...blocks, balanced },
    terms: [
      { term: "product", ...blocks },
      { term: "panelist", ...panelistTest },
    ],
    variances,
  };
}

export function meansOf(found: BlockAnalysis, named: (id: string) => string): AttributeResult["means"] {
  const adjusted = found.outcome === "ok" || found.outcome === "all-equal" ? found.leastSquaresMeans : [];
  return found.products.map(({ product, marks, mean, standardError, low, high, deviation }, at) => ({
    product: named(product),
    judgments: marks,
    estimate: mean,
    standardError,
    low,
    high,
    deviation,
    adjusted: adjusted[at] ?? null,
  }));
}

export const contrastsOf = (found: BlockAnalysis, named: (id: string) => string): AttributeResult["contrasts"] =>
  found.outcome === "ok"
    ? found.contrasts.map((contrast) => ({
        ...contrast,
        first: contrast.compared === "pair" ? named(contrast.first) : contrast.first,
        second: contrast.compared === "pair" ? named(contrast.second) : contrast.second,
      }))
    : [];
