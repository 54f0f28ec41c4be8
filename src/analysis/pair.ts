import type { Interval } from "../model/interval.ts";
import type { NoPreference } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { chancePanels } from "./chance-panels.ts";
import { requireAlpha, requireCount } from "./check.ts";
import { leastForVerdict } from "./choice.ts";
import { exactInterval } from "./share-interval.ts";
import { twoSidedCriticalNumber, twoSidedP, twoSidedPower } from "./two-sided.ts";

export type PairCounts = {
  /** First and second, as the three counts name them. */
  products: readonly [string, string];
  /** Risk of seeing a preference that is not there, above 0 and at most 0.5. */
  alpha: number;
  /** What becomes of the answers "no preference" in the test; fixed at lock. */
  noPreference: NoPreference;
  /** How many people preferred the first, the second, and neither; one answer a person. */
  first: number;
  second: number;
  none: number;
  /** What the plan was to find: share of those with a preference who prefer the one, 0 to 1, and people planned. */
  sought?: { share: number; people: number };
};

/**
 * The statistics of one paired preference from its three counts, all exact and two-sided.
 *
 * Returns  shares of those that the test counts, two-sided at 1 - alpha: they leave 1/2 out if and only if p <= alpha;
 *          shares of everybody asked beside them. With an odd number to split, the one left over is left out. The p-value
 *          is never 0: below the smallest double that double stands for it
 * Throws   Problem "analysis/not-a-count", "analysis/risk-out-of-range", "analysis/not-a-share",
 *          "analysis/none-not-offered" when it was no answer and somebody gave it
 * Example  pairStatistics({ products: ["a", "b"], alpha: 0.05, noPreference: "dropped", first: 18, second: 6, none: 0 }).criticalNumber // 18
 */
export function pairStatistics(counts: PairCounts): PairStatistics {
  const { products, alpha, noPreference, first, second, none, sought } = counts;
  const people = check(counts);
  const tested = testedOf(counts);
  const judgments = tested.first + tested.second;
  const pValue = twoSidedP(tested.first, tested.second);
  const needed = twoSidedCriticalNumber(judgments, alpha);
  const ofTested = (votes: number) => shareWithTest(votes, judgments, alpha, pValue);
  const ofAll = (votes: number) => share(votes, people, 1 - alpha);
  return {
    family: "pair",
    method: "paired-preference",
    goal: "difference",
    sides: "two",
    alpha,
    property: null,
    noPreference,
    products: [products[0], products[1]],
    counts: { first, second, none },
    people,
    judgments,
    tested,
    guessProbability: 1 / 2,
    expectedByGuessing: judgments / 2,
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : twoSidedP(needed, judgments - needed),
    pValue,
    outcome: judgments < leastForVerdict ? "too-few" : pValue <= alpha ? "reached" : "not-reached",
    pValueAdjusted: null,
    firstShareScore: toCome,
    dPrime: null,
    dPrimeProfile: null,
    dPrimeStandardError: null,
    panelists: [],
    betaBinomial: null,
    chanceCorrected: null,
    spread: null,
    byPerson: null,
    blankNorm: null,
    firstShare: ofTested(tested.first),
    secondShare: ofTested(tested.second),
    ofAll: { first: ofAll(first), second: ofAll(second), none: ofAll(none) },
    guessingPanels: chancePanels(judgments, 1 / 2),
    power: sought ? { ...sought, power: twoSidedPower(sought.people, alpha, sought.share) } : null,
  };
}

const toCome: Interval = { estimate: null, low: null, high: null, confidence: 0.95, kind: "none" };

/** Returns how many people were asked. */
function check({ alpha, noPreference, first, second, none, sought }: PairCounts): number {
  requireCount("first", first);
  requireCount("second", second);
  requireCount("none", none);
  const people = first + second + none;
  requireCount("people", people);
  requireAlpha(alpha);
  if (noPreference === "not-offered" && none > 0) throw problem("analysis/none-not-offered", { none });
  if (sought) requireCount("people", sought.people);
  return people;
}

/** What the rule for "no preference" leaves to the test; three ways: those who chose. */
function testedOf({ noPreference, first, second, none }: PairCounts): { first: number; second: number } {
  const each = noPreference === "split" ? Math.floor(none / 2) : 0;
  return { first: first + each, second: second + each };
}

const share = (votes: number, of: number, confidence: number): Interval => ({
  estimate: of === 0 ? null : votes / of,
  ...exactInterval(votes, of, confidence),
  confidence,
  kind: "two-sided",
});

/** The exact interval, kept on the side of 1/2 where the test stands despite rounding. */
function shareWithTest(votes: number, of: number, alpha: number, pValue: number): Interval {
  const found = share(votes, of, 1 - alpha);
  const [low, high] = [found.low ?? 0, found.high ?? 1];
  if (pValue > alpha) return { ...found, low: Math.min(low, 1 / 2), high: Math.max(high, 1 / 2) };
  return votes > of / 2 ? { ...found, low: Math.max(low, 1 / 2) } : { ...found, high: Math.min(high, 1 / 2) };
}
