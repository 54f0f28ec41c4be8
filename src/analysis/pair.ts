import type { Interval } from "../model/interval.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { NoPreference } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { chancePanels } from "./chance-panels.ts";
import { requireAlpha, requireCount, requireRisk } from "./check.ts";
import { fisherExactUpper } from "./fisher-exact.ts";
import { distances, noDistance } from "./pair-distance.ts";
import { type PersonVotes, personParts } from "./pair-people.ts";
import { exactInterval, scoreInterval } from "./share-interval.ts";
import { twoSidedCriticalNumber, twoSidedP, twoSidedPower } from "./two-sided.ts";

export type PairCounts = {
  /** Paired preference when left out. */
  method?: PairStatistics["method"];
  /** What was asked, where a plan says so. */
  property?: PairStatistics["property"];
  /** First and second, as the three counts name them. */
  products: readonly [string, string];
  /** Risk of seeing a preference that is not there, above 0 and at most 0.5. */
  alpha: number;
  /** Of the profile interval of d-prime and of what is said of the spread between people; 0.95 when left out. */
  confidence?: number;
  /** What becomes of the answers "no preference" in the test; fixed at lock. */
  noPreference: NoPreference;
  /** How many answers were for the first, for the second, and for neither. */
  first: number;
  second: number;
  none: number;
  /** The same person by person; left out where everybody gave one answer. They add up to the three counts. */
  panelists?: readonly PersonVotes[];
  /** What the plan was to find: share of those with a preference who prefer the one, 0 to 1, and people planned. */
  sought?: { share: number; people: number };
  /** "No preference" in an earlier study of identical pairs, and here: one answer a person. */
  blank?: { title: string; none: number; of: number; here: { none: number; of: number } } | null;
};

/**
 * The statistics of one pair in which nobody is right, from its three counts, all exact and two-sided.
 *
 * Returns  shares of those that the test counts, two-sided at 1 - alpha: they leave 1/2 out if and only if p <= alpha;
 *          shares of everybody asked beside them. With an odd number to split, the one left over is left out. The p-value
 *          is never 0: below the smallest double that double stands for it. Several answers a person: people differ in
 *          what they like even if nothing leads, so p is that of their own leads (`signFlipP`), no number of votes decides
 *          and pooled shares have no bounds. One person alone is tested as one: their answers are the sample
 * Throws   Problem "analysis/not-a-count", "analysis/risk-out-of-range", "analysis/not-a-share",
 *          "analysis/none-not-offered" when it was no answer and somebody gave it
 * Example  pairStatistics({ products: ["a", "b"], alpha: 0.05, noPreference: "dropped", first: 18, second: 6, none: 0 }).criticalNumber // 18
 */
export function pairStatistics(counts: PairCounts): PairStatistics {
  const { method = "paired-preference", products, alpha, confidence = 0.95, noPreference } = counts;
  const { first, second, none } = counts;
  const answers = check(counts);
  const tested = testedOf(counts);
  const people = personParts(counts.panelists ?? [], answers, tested, confidence);
  const plain = people.byPerson === null;
  const judgments = tested.first + tested.second;
  const pValue = people.pValue ?? twoSidedP(tested.first, tested.second);
  const needed = plain ? twoSidedCriticalNumber(judgments, alpha) : null;
  const shares = sharesOf(counts, { answers, tested, judgments, pValue, plain });
  return {
    family: "pair",
    method,
    goal: "difference",
    sides: "two",
    alpha,
    property: counts.property ?? null,
    noPreference,
    products: [products[0], products[1]],
    counts: { first, second, none },
    people: people.people,
    judgments,
    tested,
    guessProbability: 1 / 2,
    expectedByGuessing: judgments / 2,
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : twoSidedP(needed, judgments - needed),
    pValue,
    outcome: outcomeOf(judgments, people.choosing, pValue, alpha),
    pValueAdjusted: null,
    ...shares,
    ...(method === "paired-difference"
      ? distances(shares.firstShare, tested.first, judgments, confidence)
      : noDistance),
    guessingPanels: people.guessingPanels ?? chancePanels(judgments, 1 / 2),
    power: powerOf(counts, plain),
    ...people.repeats,
    byPerson: people.byPerson,
    blankNorm: blankNormOf(counts),
  };
}

type Tested = {
  answers: number;
  tested: { first: number; second: number };
  judgments: number;
  pValue: number;
  /** One answer a person: pooled answers of people who differ bound nothing. */
  plain: boolean;
};

function sharesOf(
  { alpha, first, second, none }: PairCounts,
  { answers, tested, judgments, pValue, plain }: Tested,
): Pick<PairStatistics, "firstShare" | "secondShare" | "firstShareScore" | "ofAll"> {
  const bounded = (interval: Interval) => (plain ? interval : withoutBounds(interval));
  const ofTested = (votes: number) => bounded(shareWithTest(votes, judgments, alpha, pValue));
  const ofAll = (votes: number) => bounded(share(votes, answers, 1 - alpha));
  const score = scoreInterval(tested.first, judgments, 1 - alpha);
  return {
    firstShare: ofTested(tested.first),
    secondShare: ofTested(tested.second),
    firstShareScore: bounded({ ...share(tested.first, judgments, 1 - alpha), ...score }),
    ofAll: { first: ofAll(first), second: ofAll(second), none: ofAll(none) },
  };
}

/** Returns how many answers there are. */
function check({ alpha, confidence, noPreference, first, second, none, sought }: PairCounts): number {
  requireCount("first", first);
  requireCount("second", second);
  requireCount("none", none);
  const answers = first + second + none;
  requireCount("people", answers);
  requireAlpha(alpha);
  if (confidence !== undefined) requireRisk("confidence", confidence);
  if (noPreference === "not-offered" && none > 0) throw problem("analysis/none-not-offered", { none });
  if (sought) requireCount("people", sought.people);
  return answers;
}

/** A few people speak neither for a panel nor, like one person alone, for themselves. */
function outcomeOf(judgments: number, people: number, pValue: number, alpha: number): PairStatistics["outcome"] {
  if (judgments < leastForVerdict || (people > 1 && people < leastForVerdict)) return "too-few";
  return pValue <= alpha ? "reached" : "not-reached";
}

/** What the rule for "no preference" leaves to the test; three ways: those who chose. */
function testedOf({ noPreference, first, second, none }: PairCounts): { first: number; second: number } {
  const each = noPreference === "split" ? Math.floor(none / 2) : 0;
  return { first: first + each, second: second + each };
}

/** For one answer a person; how often people's own leads reach alpha hangs on how they differ, which no plan knows. */
const powerOf = ({ sought, alpha }: PairCounts, plain: boolean): PairStatistics["power"] =>
  sought && plain ? { ...sought, power: twoSidedPower(sought.people, alpha, sought.share) } : null;

function blankNormOf({ blank, alpha }: PairCounts): PairStatistics["blankNorm"] {
  if (!blank) return null;
  const { title, none, of, here } = blank;
  return {
    title,
    none,
    of,
    share: share(none, of, 1 - alpha),
    here: share(here.none, here.of, 1 - alpha),
    pValue: fisherExactUpper(none, of, here.none, here.of),
  };
}

const share = (votes: number, of: number, confidence: number): Interval => ({
  estimate: of === 0 ? null : votes / of,
  ...exactInterval(votes, of, confidence),
  confidence,
  kind: "two-sided",
});

const withoutBounds = (interval: Interval): Interval => ({ ...interval, low: null, high: null, kind: "none" });

/** The exact interval, kept on the side of 1/2 where the test stands despite rounding. */
function shareWithTest(votes: number, of: number, alpha: number, pValue: number): Interval {
  const found = share(votes, of, 1 - alpha);
  const [low, high] = [found.low ?? 0, found.high ?? 1];
  if (pValue > alpha) return { ...found, low: Math.min(low, 1 / 2), high: Math.max(high, 1 / 2) };
  return votes > of / 2 ? { ...found, low: Math.max(low, 1 / 2) } : { ...found, high: Math.min(high, 1 / 2) };
}
