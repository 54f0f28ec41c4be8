import type { ChoiceStatistics } from "../model/result-choice.ts";
import { lowerTail, mostWithin } from "./binomial.ts";
import { chancePanels } from "./chance-panels.ts";
import { requireRisk } from "./check.ts";
import type { ChoiceCounts } from "./choice.ts";
import { type ChoiceMethod, discriminatorShareOf, rightShareOf } from "./method.ts";
import { lowerLimit, upperLimit } from "./share-interval.ts";

/** The share who can tell that still counts as alike, between 0 and 1, and the risk of calling more than that so. */
export type Limit = { discriminatorShare: number; beta: number };

type Parts = Pick<
  ChoiceStatistics,
  | "limit"
  | "criticalNumber"
  | "chanceAtCritical"
  | "pValue"
  | "discriminatorShare"
  | "discriminatorShareRange"
  | "dPrime"
  | "guessingPanels"
  | "power"
>;

/**
 * What differs when a choice test is to show likeness: everything is held against a panel of which exactly the limit's
 * share can tell. P is how likely that panel has so few right, or fewer.
 *
 * Returns  beside it upper bounds at 1 - beta: the share's lies under the limit if and only if p <= beta
 * Throws   Problem "analysis/not-a-share" for a limit or beta that is not between 0 and 1
 */
export function similarityParts(
  counts: Extract<ChoiceCounts, { goal: "similarity" }>,
  { dPrime }: ChoiceMethod,
): Parts {
  const { method, correct, judgments, limit, sought } = counts;
  const { beta, discriminatorShare } = limit;
  requireRisk("beta", beta);
  requireRisk("limit", discriminatorShare);
  const correctShare = rightShareOf(method, discriminatorShare);
  const pValue = Math.max(Number.MIN_VALUE, lowerTail(correct, judgments, correctShare));
  const within = pValue <= beta;
  const bound = upperLimit(correct, judgments, beta);
  // kept on the side of the limit where the test stands despite rounding
  const high = within ? Math.min(bound, correctShare) : Math.max(bound, correctShare);
  const most = mostWithin(judgments, correctShare, beta);
  const share = (right: number) => discriminatorShareOf(method, right);
  const right = judgments === 0 ? null : correct / judgments;
  const estimate = right === null ? null : share(right);
  const upper = { low: null, confidence: 1 - beta, kind: "upper" as const };
  return {
    limit: { ...limit, correctShare, dPrime: dPrime(correctShare), fixedAs: "share" },
    criticalNumber: most,
    chanceAtCritical: most === null ? null : lowerTail(most, judgments, correctShare),
    pValue,
    discriminatorShare: { ...upper, estimate, high: share(high) },
    discriminatorShareRange: {
      estimate,
      low: share(lowerLimit(correct, judgments, beta)),
      high: share(high),
      confidence: 1 - 2 * beta,
      kind: "two-sided",
    },
    dPrime: { ...upper, estimate: right === null ? null : dPrime(right), high: dPrime(high) },
    guessingPanels: chancePanels(judgments, correctShare),
    power: sought
      ? {
          discriminatorShare: 0,
          dPrime: 0,
          people: sought.people,
          power: similarityPower(method, sought.people, limit, 0),
        }
      : null,
  };
}

/**
 * Chance that a panel shows likeness within the limit when a given share of people can tell: exact, one judgment each.
 *
 * Takes    method: a choice method's name; judgments: 0 to 100 000; discriminatorShare: 0 to 1, what is true
 * Returns  0 to 1; 0 when no number right would show it
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share", "analysis/unknown-method", "analysis/method-not-yet"
 * Example  similarityPower("triangle", 60, { discriminatorShare: 0.3, beta: 0.05 }, 0) // 0.931984821641119
 */
export function similarityPower(method: string, judgments: number, limit: Limit, discriminatorShare: number): number {
  const most = mostWithin(judgments, rightShareOf(method, limit.discriminatorShare), limit.beta);
  return most === null ? 0 : lowerTail(most, judgments, rightShareOf(method, discriminatorShare));
}
