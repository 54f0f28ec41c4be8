import { requireCount, requireNumber, requireRisk } from "../analysis/check.ts";
import { differenceKnown, type ScaleDesign } from "../analysis/scale-power.ts";
import { studentQuantile } from "../analysis/student.ts";

/**
 * Half the width of the interval for the difference of two products' means on the line scale, were the spread known.
 *
 * Takes    a design with 2 people or more; residualDeviation: what is left of one person's marks, in points of 100, when
 *          person and product are taken out; confidence: between 0 and 1, 0.95 by custom
 * Returns  points of 100: t, times the deviation, times `differenceKnown`. Each pair by itself
 * Throws   Problem "analysis/not-a-count", "analysis/out-of-range", "analysis/not-a-share"
 * Source   any text on randomized complete blocks; test/design/interval-width.test.ts holds values of R
 * Example  differenceHalfWidth({ people: 12, products: 3, residualDeviation: 10 }) // 8.466
 */
export function differenceHalfWidth(plan: ScaleDesign & { residualDeviation: number; confidence?: number }): number {
  const { people, residualDeviation, confidence = 0.95 } = plan;
  requireCount("people", people, 2);
  requireNumber("residualDeviation", residualDeviation, 0, 100);
  requireRisk("confidence", confidence);
  const { standardError, df } = differenceKnown(plan);
  // the quantile of the small tail keeps the digits of the risk
  return -studentQuantile((1 - confidence) / 2, df) * residualDeviation * standardError;
}
