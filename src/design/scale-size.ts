import { requireRisk } from "../analysis/check.ts";
import { chiSquareLower } from "../analysis/chi-square.ts";
import { root } from "../analysis/root.ts";
import {
  chanceBeyond,
  criticalT,
  differenceKnown,
  pairPower,
  requireScaleTest,
  type ScaleTest,
} from "../analysis/scale-power.ts";
import { mostPeople } from "./panel-size.ts";

type ScaleSize = { people: number; power: number };

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
  requireScaleTest({ ...test, difference: 100 });
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
const cautiousConfidence = 0.8;

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
