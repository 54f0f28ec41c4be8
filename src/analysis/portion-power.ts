import type { Plan } from "../model/plan.ts";
import type { ScaleTest } from "./scale-power.ts";

/**
 * Gains of two products, compared within people, as the test whose power `pairPower` knows.
 *
 * Takes    deviation: standard deviation over people of one person's difference (each of the means of all its portions), and
 *          difference, both in percentage points; comparisons: how many share alpha evenly
 * Returns  a paired t test with people - 1 degrees of freedom: two marks of which each scatters by the root of 2 less
 * Source   power of the paired t test, any text; R's power.t.test in test/reference/paired-size-by-r
 */
export const pairedTest = ({
  alpha,
  comparisons,
  difference,
  deviation,
}: Record<"alpha" | "comparisons" | "difference" | "deviation", number>): ScaleTest => ({
  ...{ products: 2, alpha, sharing: comparisons, difference },
  deviation: deviation / Math.SQRT2,
});

/**
 * What a plan of chewed portions supposes, as its test: every product but the control is compared with the first.
 *
 * Returns  null while the plan does not say what matters and how people scatter, or compares nothing; for one person alone,
 *          whose portions are the unit, too
 */
export function portionTestOf({
  products,
  alpha,
  people,
  chew: { matters, scatter, control },
}: Pick<Plan, "products" | "alpha" | "people" | "chew">): ScaleTest | null {
  const comparisons = comparisonsOf(products.length, control !== null);
  if (matters === null || scatter === null || comparisons < 1 || people === 1) return null;
  return pairedTest({ alpha, comparisons, difference: matters, deviation: scatter.deviation });
}

/** How many products are compared with the first one. */
export const comparisonsOf = (products: number, hasControl: boolean): number => products - (hasControl ? 2 : 1);
