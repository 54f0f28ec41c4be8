import type { Interval } from "../model/interval.ts";
import type { ChoiceMethod } from "./method.ts";
import { likelihoodInterval } from "./share-interval.ts";

/**
 * Profile likelihood interval of d-prime from the two counts of a choice test.
 *
 * Returns  two-sided at `confidence`. At and below guessing the estimate is 0, the most likely distance there is, and
 *          likelihoods are held against that of 0; `low` is 0 wherever 0 is within reach. All right: `estimate` and
 *          `high` are null, since no distance is too large, and `low` is a number. Without answers only `low` is one, 0
 * Throws   as `likelihoodInterval`
 */
export function profileOfDPrime(
  { guessProbability, dPrime }: ChoiceMethod,
  correct: number,
  judgments: number,
  confidence: number,
): Interval {
  const { low, high } = likelihoodInterval(correct, judgments, confidence, guessProbability);
  return {
    estimate: judgments === 0 ? null : dPrime(correct / judgments),
    low: dPrime(low) ?? 0,
    high: dPrime(high),
    confidence,
    kind: "two-sided",
  };
}

/**
 * Standard error of d-prime: sqrt(B / n) with B = pc (1 - pc) / slope^2 (J. Bi, D. M. Ennis and M. O'Mahony 1997, from
 * memory).
 *
 * Returns  null where it means nothing: below guessing, where the estimate is held at 0; where the slope is zero (at
 *          guessing, in triangle, duo-trio and tetrad); all right, or none asked, where there is no finite estimate
 */
export function standardErrorOfDPrime(
  { guessProbability, dPrime, slope }: ChoiceMethod,
  correct: number,
  judgments: number,
): number | null {
  const right = correct / judgments;
  if (!(right >= guessProbability && right < 1)) return null;
  const rise = slope(dPrime(right) ?? 0);
  return rise > 0 ? Math.sqrt((right * (1 - right)) / judgments) / rise : null;
}
