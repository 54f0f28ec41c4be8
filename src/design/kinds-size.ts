import { hypergeometricCritical } from "../analysis/fisher-exact.ts";
import { fisherRegion, regionPower } from "../analysis/fisher-region.ts";
import { unbiasedShares } from "../analysis/kinds-model.ts";
import { normalQuantile } from "../analysis/normal.ts";
import type { KindsMethod } from "../model/method.ts";
import type { SizeTest } from "./size-test.ts";

/** Half of the people get each kind of tray; an odd one left over gets a like one. */
const groupsOf = (people: number) => ({ first: Math.floor(people / 2), second: Math.ceil(people / 2) });

/**
 * The exact test of same-different and A-not-A, for people who lean to neither answer: both counts are gone through.
 *
 * Takes    alpha: above 0, at most 0.5; sought: d-prime, 0 to 10
 * Throws   Problem "analysis/out-of-range" for a distance beyond 30
 */
export function kindsTest(method: KindsMethod, alpha: number, sought: number): SizeTest {
  const none = unbiasedShares(method, 0);
  let last = { dPrime: 0, ...none };
  const chanceOf = (dPrime: number) => {
    // most questions in a row are of one distance, or of none
    if (dPrime !== 0 && dPrime !== last.dPrime) last = { dPrime, ...unbiasedShares(method, dPrime) };
    const { unlike, like } = dPrime === 0 ? none : last;
    return (people: number) => {
      const { first, second } = groupsOf(people);
      return regionPower(fisherRegion(first, second, alpha), first, { first: unlike, second: like });
    };
  };
  return {
    unit: "d-prime",
    most: 10,
    falseAt: 0,
    soughtAt: sought,
    criticalNumber: (people) => hypergeometricCritical({ ...groupsOf(people), told: Math.floor(people / 2) }, alpha),
    chance: (people, dPrime) => chanceOf(dPrime)(people),
    dPrime: (dPrime) => dPrime,
    chances: (dPrime, from, to) => {
      const chance = chanceOf(dPrime);
      return Float64Array.from({ length: to - from + 1 }, (_, at) => chance(from + at));
    },
    begin: (dPrime, power) => Math.max(1, Math.floor(roughly(method, alpha, dPrime, power) * 0.85 - 12)),
    lookAhead: (people) => Math.ceil(people / 3) + 40,
    rule: "first-n-exact-fisher",
  };
}

/** Both groups together, by the normal approximation without a correction: the exact test needs as many or a few more. */
function roughly(method: KindsMethod, alpha: number, dPrime: number, power: number): number {
  const { unlike, like } = unbiasedShares(method, dPrime);
  const middle = (unlike + like) / 2;
  const spread = (share: number) => share * (1 - share);
  const reach = -normalQuantile(alpha) * Math.sqrt(2 * spread(middle));
  const needed = reach + normalQuantile(power) * Math.sqrt(spread(unlike) + spread(like));
  return needed <= 0 ? 1 : 2 * (needed / (unlike - like)) ** 2;
}
