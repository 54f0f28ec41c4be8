import { requireAlpha, requireNumber, requireRisk } from "../analysis/check.ts";
import { chiSquareLower } from "../analysis/chi-square.ts";
import { fisherUpper } from "../analysis/fisher.ts";
import { noncentralFisherUpper } from "../analysis/noncentral-fisher.ts";
import { noncentralStudentLower, noncentralStudentUpper } from "../analysis/noncentral-t.ts";
import { root } from "../analysis/root.ts";
import { studentQuantile } from "../analysis/student.ts";
import { differenceKnown, type ScaleDesign } from "./interval-width.ts";
import { mostPeople } from "./panel-size.ts";

/** A line-scale plan without its people, and what it supposes of the world. */
export type ScaleTest = Omit<ScaleDesign, "people"> & {
  /** Risk of a false alarm, above 0, at most 0.5. */
  alpha: number;
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

/** The t that one pair must reach: two-sided at alpha; of several pairs the hardest step of Holm, alpha over their number. */
const criticalT = (test: ScaleTest, df: number): number => -studentQuantile(test.alpha / (2 * pairsOf(test)), df);

/**
 * Chance that two products that differ by `difference` are told apart by their own contrast, either way counted.
 *
 * Takes    test: see `ScaleTest`; people: 1 or more
 * Returns  0 where nothing is left to judge chance by. With three products or more the pair is held to the strictest
 *          step of Holm, alpha over the number of pairs: Holm's own steps and Tukey's range ask for no more, so the
 *          chance is at least this
 * Throws   Problem "analysis/out-of-range", "analysis/risk-out-of-range", "analysis/not-a-count"
 * Source   power of the t test, any text; checked against R's pt with ncp in test/reference/scale-size-by-r
 * Example  pairPower({ products: 2, alpha: 0.05, difference: 8, deviation: 12 }, 20) // 0.5165
 */
export function pairPower(test: ScaleTest, people: number): number {
  check(test);
  const { standardError, df } = differenceKnown({ ...test, people });
  if (df < 1) return 0;
  return chanceBeyond(criticalT(test, df), df, test.difference / (test.deviation * standardError));
}

function chanceBeyond(t: number, df: number, wanted: number): number {
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
 * Example  productsPower({ products: 3, alpha: 0.05, difference: 8, deviation: 12 }, 30) // 0.6086
 */
export function productsPower(test: ScaleTest, people: number): number {
  check(test);
  const { standardError, df } = differenceKnown({ ...test, people });
  if (df < 1) return 0;
  const shift = test.difference / (test.deviation * standardError);
  const between = test.products - 1;
  // half of the squares of the two means is what one squared difference holds: lambda is the pair's shift squared
  const lambda = Math.min(shift * shift, mostNoncentrality);
  return noncentralFisherUpper(criticalF(test.alpha, between, df), between, df, lambda);
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

export type ScaleSize = { people: number; power: number };

/**
 * How many people find the difference with this chance.
 *
 * Takes    power: between 0 and 1, 0.8 by custom
 * Returns  the first number; every larger one has more power, for nothing here is counted in whole answers. Null when
 *          more than 5,000 would be needed
 * Throws   as `pairPower`, and Problem "analysis/not-a-share"
 * Example  scalePeople({ products: 2, alpha: 0.05, difference: 8, deviation: 12 }, 0.8)?.people // 38
 */
export function scalePeople(test: ScaleTest, power = 0.8): ScaleSize | null {
  requireRisk("power", power);
  if (pairPower(test, mostPeople) < power) return null;
  let [low, high] = [1, 2];
  while (high < mostPeople && pairPower(test, high) < power) [low, high] = [high, Math.min(mostPeople, 2 * high)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (pairPower(test, middle) < power) low = middle;
    else high = middle;
  }
  return { people: high, power: pairPower(test, high) };
}

/**
 * The smallest difference between two products that so many people find with this chance.
 *
 * Takes    test: whatever its difference
 * Returns  points of 100; null where nothing is left to judge chance by, or the line has no room for the difference
 * Throws   as `scalePeople`
 * Exact    to 1e-9 of itself
 * Example  differenceFoundBy({ products: 2, alpha: 0.05, deviation: 12 }, 12) // 15.08
 */
export function differenceFoundBy(test: Omit<ScaleTest, "difference">, people: number, power = 0.8): number | null {
  requireRisk("power", power);
  check({ ...test, difference: 100 });
  const { standardError, df } = differenceKnown({ ...test, people });
  if (df < 1) return null;
  const critical = criticalT({ ...test, difference: 100 }, df);
  const most = 100 / (test.deviation * standardError);
  if (chanceBeyond(critical, df, most) < power) return null;
  let [low, high] = [0, most];
  while (high - low > 1e-10 * high) {
    const middle = (low + high) / 2;
    if (chanceBeyond(critical, df, middle) < power) low = middle;
    else high = middle;
  }
  return high * test.deviation * standardError;
}

/** How sure the upper limit of an earlier deviation is: four in five (the usual caution with a small first study, from memory). */
export const cautiousConfidence = 0.8;

/**
 * What a deviation from an earlier study may be at most.
 *
 * Takes    deviation: of its residuals; df: whole, theirs, 1 to 100,000; confidence: that the true one is no larger
 * Returns  deviation times the root of df over the lower chi-square quantile, in the same unit
 * Throws   Problem "analysis/out-of-range", "analysis/not-a-count", "analysis/not-a-share"
 * Source   chi-square interval of a variance, any text; R's qchisq in test/reference/scale-size-by-r
 * Example  deviationAtMost(7.836, 22) // 9.0997
 */
export function deviationAtMost(deviation: number, df: number, confidence = cautiousConfidence): number {
  requireRisk("confidence", confidence);
  const short = (log: number) => Math.log(chiSquareLower(Math.exp(log), df) / (1 - confidence));
  const middle = Math.log(df);
  let reach = 1;
  while (short(middle - reach) > 0) reach *= 2;
  const found = root(short, middle - reach, middle + 5);
  return deviation * Math.sqrt(df / Math.exp(found.bracketed ? found.at : middle - reach));
}

function check({ alpha, difference, deviation }: ScaleTest): void {
  requireAlpha(alpha);
  requireNumber("difference", difference, 1e-6, 100);
  requireNumber("deviation", deviation, 1e-6, 100);
}
