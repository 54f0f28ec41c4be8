import { requireCount, requireNumber, requireRisk } from "../analysis/check.ts";
import { studentQuantile } from "../analysis/student.ts";

/**
 * Half the width of the interval for the difference of two products' means on the line scale, were the spread known.
 *
 * Takes    people: 2 or more, each of whom marks every product once; products: 2 to 12;
 *          residualDeviation: what is left of one person's marks, in points of 100, when person and product are taken
 *          out; confidence: between 0 and 1, 0.95 by custom
 * Returns  points of 100: t at (people - 1)(products - 1) degrees of freedom, times the deviation, times the square root
 *          of 2 / people. Panelists as blocks, complete, each pair by itself
 * Throws   Problem "analysis/not-a-count", "analysis/out-of-range", "analysis/not-a-share"
 * Source   any text on randomized complete blocks; test/design/interval-width.test.ts holds values of R
 * Example  differenceHalfWidth({ people: 12, products: 3, residualDeviation: 10 }) // 8.466
 */
export function differenceHalfWidth(plan: {
  people: number;
  products: number;
  residualDeviation: number;
  confidence?: number;
}): number {
  const { people, products, residualDeviation, confidence = 0.95 } = plan;
  requireCount("people", people, 2);
  requireCount("products", products, 2, 12);
  requireNumber("residualDeviation", residualDeviation, 0, 100);
  requireRisk("confidence", confidence);
  // the quantile of the small tail keeps the digits of the risk
  const t = -studentQuantile((1 - confidence) / 2, (people - 1) * (products - 1));
  return t * residualDeviation * Math.sqrt(2 / people);
}
