import { requireCount, requireNumber, requireRisk } from "../analysis/check.ts";
import { studentQuantile } from "../analysis/student.ts";

/** Panelists as blocks on the line scale: what of a design the difference between two products hangs on. */
export type ScaleDesign = {
  /** How many mark; each gets one tray a repeat. */
  people: number;
  /** 2 to 12. */
  products: number;
  /** Products on a tray, in balanced incomplete blocks; all of them if null or left out. */
  perTray?: number | null;
  /** Trays a person, all of the same products; 1 if left out. */
  repeats?: number;
};

/**
 * How well a design knows the difference of two products' means.
 *
 * Returns  standardError: in residual deviations of one mark; df: of the block analysis, 0 or less where nothing is left
 *          to judge chance by. Complete blocks: the root of 2 / people. Incomplete ones, balanced over the panel, are
 *          worth (perTray - 1) / (products - 1) of their people within blocks. A mean of repeats scatters by one root of
 *          their number less, if people do not differ in how they see the products
 * Throws   Problem "analysis/not-a-count"
 * Source   any text on randomized complete and balanced incomplete blocks (efficiency factor), from memory
 */
export function differenceKnown(design: ScaleDesign): { standardError: number; df: number } {
  const { people, products, repeats = 1 } = design;
  const held = design.perTray ?? products;
  requireCount("people", people, 1);
  requireCount("products", products, 2, 12);
  requireCount("perTray", held, 2, products);
  requireCount("repeats", repeats, 1, 12);
  const whole = (people * (held - 1)) / (products - 1);
  return {
    standardError: Math.sqrt(2 / (whole * repeats)),
    df: people * (held - 1) - (products - 1),
  };
}

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
