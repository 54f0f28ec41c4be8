import type { KindsMethod } from "../model/method.ts";
import { requireAlpha, requireCount } from "./check.ts";
import { fisherRegion, regionPower } from "./fisher-region.ts";
import { unbiasedShares } from "./kinds-model.ts";

/**
 * Chance that same-different or A-not-A reaches alpha when the products lie `dPrime` apart and people lean to neither
 * answer: exact, every pair of counts taken by itself; one answer a person, half of the trays of each kind (with an odd
 * number the one left over is a like one).
 *
 * Takes    people: 0 to 100 000; alpha: above 0, at most 0.5; dPrime: 0 to 30
 * Throws   Problem "analysis/not-a-count", "analysis/risk-out-of-range", "analysis/out-of-range"
 * Example  kindsPower("a-not-a", 60, 0.05, 1) // 0.867144229186526
 */
export function kindsPower(method: KindsMethod, people: number, alpha: number, dPrime: number): number {
  requireCount("people", people);
  const unlike = Math.floor(people / 2);
  return twoGroupsPower({ first: unlike, second: people - unlike }, unbiasedSharesAs(method, dPrime), alpha);
}

const unbiasedSharesAs = (method: KindsMethod, dPrime: number) => {
  const { unlike, like } = unbiasedShares(method, dPrime);
  return { first: unlike, second: like };
};

/**
 * Chance that Fisher's exact one-sided test finds more told in the first group, when these are the true shares.
 *
 * Takes    groups: answers of each, together at most 100 000; shares: 0 to 1
 * Example  twoGroupsPower({ first: 4, second: 4 }, { first: 1, second: 0 }, 0.05) // 1
 */
export function twoGroupsPower(
  groups: { first: number; second: number },
  shares: { first: number; second: number },
  alpha: number,
): number {
  requireAlpha(alpha);
  const { first, second } = groups;
  requireCount("judgments", first + second);
  return regionPower(fisherRegion(first, second, alpha), first, shares);
}
