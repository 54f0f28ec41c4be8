import type { Interval } from "../model/interval.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { likelihoodInterval } from "./share-interval.ts";
import { twoAfcDPrime, twoAlternative } from "./thurstone.ts";

type Distances = Pick<PairStatistics, "dPrime" | "dPrimeProfile" | "dPrimeStandardError">;

/** A preference has no distance: liking is no percept on one line. */
export const noDistance: Distances = { dPrime: null, dPrimeProfile: null, dPrimeStandardError: null };

/**
 * Signed distance by which the first product has more of the property than the second.
 *
 * Takes    firstShare: of those that the test counts, with its exact bounds; the bounds are mapped as they are
 * Returns  null ends where every answer, or none, is for the first: no finite distance gives that. The standard error is
 *          sqrt(share (1 - share) / n) over the slope, which is nowhere zero; null where there is no finite estimate.
 *          Without bounds of the share (several answers a person) the estimate stands alone
 */
export function distances(firstShare: Interval, first: number, of: number, confidence: number): Distances {
  const bounded = firstShare.kind !== "none";
  const mapped = (share: number | null) => (share === null ? null : twoAfcDPrime(share));
  const map = (interval: Interval): Interval => ({
    ...interval,
    estimate: mapped(interval.estimate),
    low: mapped(interval.low),
    high: mapped(interval.high),
  });
  const share = of === 0 ? null : first / of;
  const profile: Interval = bounded
    ? { estimate: share, ...likelihoodInterval(first, of, confidence), confidence, kind: "two-sided" }
    : { estimate: share, low: null, high: null, confidence, kind: "none" };
  const estimate = mapped(share);
  return {
    dPrime: map(firstShare),
    dPrimeProfile: map(profile),
    dPrimeStandardError:
      share === null || estimate === null || !bounded
        ? null
        : Math.sqrt((share * (1 - share)) / of) / twoAlternative.slope(estimate),
  };
}
