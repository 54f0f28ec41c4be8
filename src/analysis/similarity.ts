import type { Interval } from "../model/interval.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { lowerTail, mostWithin } from "./binomial.ts";
import { chancePanels } from "./chance-panels.ts";
import { requireRisk } from "./check.ts";
import type { ChoiceCounts } from "./choice.ts";
import { type ChoiceMethod, discriminatorShareAt, discriminatorShareOf, rightShareOf } from "./method.ts";
import { lowerLimit, upperLimit } from "./share-interval.ts";

/** What still counts as alike, and the risk of calling more than that so. */
export type Limit = {
  /** Share who can tell, between 0 and 1; not used where the limit is a d-prime. */
  discriminatorShare: number;
  /** The limit as a distance, above 0; null or left out: the share is the limit. */
  dPrime?: number | null;
  beta: number;
  /**
   * Where people gave several answers: what a model of how they differ makes of the limit, since pooled counts bound
   * nothing. P under a panel whose mean share who tell is the limit; that mean with its upper bound at 1 - beta.
   */
  bySpread?: { pValue: number; discriminatorShare: Interval };
};

/** The share of right answers at the limit. Throws Problem "analysis/not-a-share", "analysis/not-a-distance". */
export function limitShare(method: string, { discriminatorShare, dPrime = null }: Limit): number {
  return rightShareOf(method, dPrime === null ? discriminatorShare : discriminatorShareAt(method, dPrime));
}

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
export function similarityParts(counts: LikenessCounts, entry: ChoiceMethod): Parts {
  const { method, limit } = counts;
  requireRisk("beta", limit.beta);
  const correctShare = limitShare(method, limit);
  const discriminatorShare =
    limit.dPrime == null ? limit.discriminatorShare : discriminatorShareOf(method, correctShare);
  requireRisk("limit", discriminatorShare);
  const found = limit.bySpread ? partsBySpread(limit.bySpread, entry) : partsOfCounts(counts, correctShare, entry);
  return {
    limit: {
      discriminatorShare,
      correctShare,
      dPrime: limit.dPrime ?? entry.dPrime(correctShare),
      fixedAs: limit.dPrime == null ? "share" : "d-prime",
      beta: limit.beta,
    },
    ...found,
    guessingPanels: chancePanels(counts.judgments, correctShare),
    power: powerOf(counts),
  };
}

type LikenessCounts = Extract<ChoiceCounts, { goal: "similarity" }>;
type Found = Omit<Parts, "limit" | "guessingPanels" | "power">;

/** With one answer a person: the exact binomial at the limit. */
function partsOfCounts(counts: LikenessCounts, correctShare: number, { dPrime }: ChoiceMethod): Found {
  const { method, correct, judgments } = counts;
  const { beta } = counts.limit;
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
  };
}

/** With several: no number right decides, and only the model's own bound stands. */
function partsBySpread({ pValue, discriminatorShare }: NonNullable<Limit["bySpread"]>, entry: ChoiceMethod): Found {
  const right = (share: number) => entry.guessProbability + (1 - entry.guessProbability) * share;
  const distance = (share: number | null) => (share === null ? null : entry.dPrime(right(share)));
  const { estimate, low, high } = discriminatorShare;
  return {
    criticalNumber: null,
    chanceAtCritical: null,
    pValue,
    discriminatorShare,
    discriminatorShareRange: { ...discriminatorShare, low: null, high: null, kind: "none" },
    dPrime: { ...discriminatorShare, estimate: distance(estimate), low: distance(low), high: distance(high) },
  };
}

/** For one answer a person: with several, how often likeness shows hangs on how people differ, which nobody knows. */
function powerOf({ method, limit, sought }: LikenessCounts): Parts["power"] {
  if (!sought || (sought.judgments ?? sought.people) !== sought.people) return null;
  const { people } = sought;
  return { discriminatorShare: 0, dPrime: 0, people, power: similarityPower(method, people, limit, 0) };
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
  const most = mostWithin(judgments, limitShare(method, limit), limit.beta);
  return most === null ? 0 : lowerTail(most, judgments, rightShareOf(method, discriminatorShare));
}
