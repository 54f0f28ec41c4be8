import type { Plan, ScaleSought } from "../model/plan.ts";
import { requireAlpha, requireCount, requireNumber, requireShare } from "./check.ts";
import { fisherUpper } from "./fisher.ts";
import { noncentralFisherUpper } from "./noncentral-fisher.ts";
import { noncentralStudentLower, noncentralStudentUpper } from "./noncentral-t.ts";
import { root } from "./root.ts";
import { studentQuantile } from "./student.ts";

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
  /**
   * Share of the variance of one mark, 0 to 1, by which people differ in how they see the products: what repeats do not
   * average out. 0 if left out; with one tray a person it makes no difference.
   */
  seenShare?: number;
};

/**
 * How well a design knows the difference of two products' means.
 *
 * Returns  standardError: in residual deviations of one mark; df: of the block analysis, 0 or less where nothing is left
 *          to judge chance by. Complete blocks: the root of 2 / people. Incomplete ones, balanced over the panel, are
 *          worth (perTray - 1) / (products - 1) of their people within blocks. In a mean of repeats the scatter within a
 *          person is divided by their number; how people differ in what they see (panelist by product) is not
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Source   any text on randomized complete and balanced incomplete blocks (efficiency factor), from memory
 */
export function differenceKnown(design: ScaleDesign): { standardError: number; df: number } {
  const { people, products, repeats = 1, seenShare = 0 } = design;
  const held = design.perTray ?? products;
  requireCount("people", people, 1);
  requireCount("products", products, 2, 12);
  requireCount("perTray", held, 2, products);
  requireCount("repeats", repeats, 1, 12);
  requireShare("seenShare", seenShare);
  const whole = (people * (held - 1)) / (products - 1);
  return {
    standardError: Math.sqrt((2 * (seenShare + (1 - seenShare) / repeats)) / whole),
    df: people * (held - 1) - (products - 1),
  };
}

/** A line-scale plan without its people, and what it supposes of the world. */
export type ScaleTest = Omit<ScaleDesign, "people"> & {
  /** Risk of a false alarm, above 0, at most 0.5. */
  alpha: number;
  /** How many properties share it; 1 if left out. */
  sharing?: number;
  /** Smallest difference between two products that matters, in points of 100: above 0, at most 100. */
  difference: number;
  /** Residual standard deviation of one mark of one person, in points of 100: above 0, at most 100. */
  deviation: number;
};

/** Beyond these the tails were not checked; every such difference is found as good as always. */
const mostShift = 1_000;
const mostNoncentrality = 1e5;
/** From here on the wrong side has less than a double holds beside the right one. */
const oneSided = 9;

/** Pairs of products, among which the risk is shared. */
const pairsOf = ({ products }: ScaleTest): number => (products * (products - 1)) / 2;

/** The risk of one property: of several that share alpha the hardest step of Holm, alpha over their number. */
const riskOf = ({ alpha, sharing = 1 }: ScaleTest): number => alpha / sharing;

/** The t that one pair must reach: two-sided at its property's risk; of several pairs that over their number. */
export const criticalT = (test: ScaleTest, df: number): number =>
  -studentQuantile(riskOf(test) / (2 * pairsOf(test)), df);

/**
 * Chance that two products that differ by `difference` are told apart by their own contrast, either way counted.
 *
 * Takes    test: see `ScaleTest`; people: 1 or more
 * Returns  0 where nothing is left to judge chance by. With three products or more the pair is held to the strictest
 *          step of Holm, alpha over the number of pairs: Holm's own steps and Tukey's range ask for no more, so the
 *          chance is at least this
 * Throws   Problem "analysis/out-of-range", "analysis/risk-out-of-range", "analysis/not-a-count"
 * Source   power of the t test, any text; checked against R's pt with ncp in test/reference/scale-size-by-r
 * Example  pairPower({ products: 2, alpha: 0.05, difference: 8, deviation: 12 }, 20) // 0.516463914208984
 */
export function pairPower(test: ScaleTest, people: number): number {
  requireScaleTest(test);
  const { standardError, df } = differenceKnown({ ...test, people });
  if (df < 1) return 0;
  return chanceBeyond(criticalT(test, df), df, test.difference / (test.deviation * standardError));
}

/** Chance that t lies beyond the critical one, on either side, when it is shifted by so many standard errors. */
export function chanceBeyond(t: number, df: number, wanted: number): number {
  const shift = Math.min(wanted, mostShift);
  const right = noncentralStudentUpper(t, df, shift);
  return shift > oneSided ? right : Math.min(1, right + noncentralStudentLower(-t, df, shift));
}

/**
 * Chance that the F test of all products says that they differ, when two lie `difference` apart and all others half way
 * between: of all means with that largest difference these are the hardest to find.
 *
 * Throws   as `pairPower`
 * Source   power of the F test and its least favorable means, any text on the design of experiments (from memory);
 *          R's pf with ncp in test/reference/scale-size-by-r
 * Example  productsPower({ products: 3, alpha: 0.05, difference: 8, deviation: 12 }, 30) // 0.608581576381248
 */
export function productsPower(test: ScaleTest, people: number): number {
  requireScaleTest(test);
  const { standardError, df } = differenceKnown({ ...test, people });
  if (df < 1) return 0;
  const shift = test.difference / (test.deviation * standardError);
  const between = test.products - 1;
  // half of the squares of the two means is what one squared difference holds: lambda is the pair's shift squared
  const lambda = Math.min(shift * shift, mostNoncentrality);
  return noncentralFisherUpper(criticalF(riskOf(test), between, df), between, df, lambda);
}

/** The F that is reached with this risk where products do not differ. */
function criticalF(alpha: number, between: number, df: number): number {
  const over = (logF: number) => Math.log(fisherUpper(Math.exp(logF), between, df) / alpha);
  let [low, high] = [-1, 1];
  while (over(low) < 0) low *= 2;
  while (over(high) > 0) high *= 2;
  const found = root(over, low, high);
  return Math.exp(found.bracketed ? found.at : high);
}

/** Throws Problem "analysis/out-of-range", "analysis/risk-out-of-range". */
export function requireScaleTest({ alpha, sharing = 1, difference, deviation }: ScaleTest): void {
  requireAlpha(alpha);
  requireCount("sharing", sharing, 1, 100);
  requireNumber("difference", difference, 1e-6, 100);
  requireNumber("deviation", deviation, 1e-6, 100);
}

type Planned = Pick<Plan, "products" | "perTray" | "repeats" | "alpha" | "scale" | "scaleSought">;

/**
 * What a plan supposes, as its test.
 *
 * Takes    sought: in place of what the plan says
 * Returns  null while it says nothing, or has fewer than two products
 */
export function scaleTestOf(plan: Planned, sought: ScaleSought | null = plan.scaleSought): ScaleTest | null {
  const { repeats, alpha } = plan;
  const products = plan.products.length;
  if (sought === null || products < 2) return null;
  const { difference, deviation, seenDeviation } = sought;
  const perTray = plan.perTray !== null && plan.perTray < products ? plan.perTray : null;
  const sharing = plan.scale.attributes.filter(({ inFamily }, at) => at === 0 || inFamily).length;
  return {
    products,
    perTray,
    repeats,
    alpha,
    sharing: Math.max(1, sharing),
    seenShare: seenShareOf(deviation, seenDeviation),
    difference,
    deviation,
  };
}

/** How many steps the scale has that the verdict is about, whose points are counted from 0 to 100 here; null for a line. */
export function verdictSteps({ scale: { attributes } }: Pick<Plan, "scale">): number | null {
  const [first] = attributes;
  return !first || first.form.kind === "line" ? null : first.form.labels.length;
}

/**
 * The share of one mark's variance by which people differ in how they see the products.
 *
 * Takes    deviation: of one mark; seen: the deviation of that difference alone, in the same unit; null: none is supposed
 * Returns  0 to 1
 */
export const seenShareOf = (deviation: number, seen: number | null): number =>
  seen === null ? 0 : Math.min(1, (seen / deviation) ** 2);
