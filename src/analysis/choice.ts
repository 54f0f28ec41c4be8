import type { Interval } from "../model/interval.ts";
import type { Method } from "../model/method.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { criticalNumber, lowerTail, upperTail } from "./binomial.ts";
import { chancePanels } from "./chance-panels.ts";
import { requireAlpha, requireCount, requireRisk, requireShare } from "./check.ts";
import { type ChoiceMethod, choiceMethod, discriminatorShareAt, discriminatorShareOf } from "./method.ts";
import { power } from "./power.ts";
import { exactInterval, lowerLimit, scoreInterval, upperLimit } from "./share-interval.ts";
import { type Limit, similarityParts } from "./similarity.ts";
import { profileOfDPrime, standardErrorOfDPrime } from "./thurstone-interval.ts";

/** A count whose lower tail of guessing is this or less puts labels and wording in doubt (common practice, no source). */
export const lowTailInDoubt = 0.025;

/** What the test is to show: that people can tell, or that fewer than a limit of them can. */
export type ChoiceGoal = { goal: "difference" } | { goal: "similarity"; limit: Limit };

export type ChoiceCounts = ChoiceGoal & {
  method: Method;
  /** Risk of seeing a difference that is not there, above 0 and at most 0.5. */
  alpha: number;
  correct: number;
  judgments: number;
  /** How many different people gave the answers; as many as answers when left out. */
  people?: number;
  /** Of the two-sided intervals; 0.95 when left out. */
  confidence?: number;
  /** What the plan was to find, for the power; left out: none is computed. */
  sought?: Sought;
};

/**
 * What a plan was to find: a share of people who tell (0 to 1), or where there is one a d-prime in its place; neither is
 * used for similarity. `judgments`: answers planned, where they are more than the people.
 */
export type Sought = { discriminatorShare: number; dPrime?: number | null; people: number; judgments?: number };

/** What computes, or remembers, the statistics of two counts. */
export type OfCounts = (counts: ChoiceCounts) => ChoiceStatistics;

/**
 * The statistics of one choice test from its two counts, all exact.
 *
 * Returns  the share who can tell and d-prime with the one-sided bound that goes with the test: it lies above zero if and
 *          only if p <= alpha, and so does the lower end of the share's two-sided range. The p-value is never 0: below
 *          the smallest double that double stands for it. Fewer people than answers: p stays exact, since nobody is right
 *          but by chance if nothing differs; intervals are estimates alone, since people differ when something does, and
 *          there is no standard error. For likeness such answers need `limit.bySpread`
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share", "analysis/risk-out-of-range",
 *          "analysis/unknown-method", "analysis/method-not-yet"
 * Example  choiceStatistics({ method: "triangle", goal: "difference", alpha: 0.05, correct: 14, judgments: 24 }).pValue // 0.010340673816871
 */
export function choiceStatistics(counts: ChoiceCounts): ChoiceStatistics {
  const { method, goal, alpha, correct, judgments, people = judgments, confidence = 0.95 } = counts;
  const entry = choiceMethod(method);
  check(counts, confidence);
  const { guessProbability, sides } = entry;
  const parts = counts.goal === "similarity" ? similarityParts(counts, entry) : differenceParts(counts, entry);
  return {
    family: "choice",
    method,
    goal,
    sides,
    alpha,
    property: null,
    judgments,
    people,
    correct,
    guessProbability,
    expectedByGuessing: judgments / entry.choices,
    ...parts,
    ...detailsOf(counts, entry, confidence),
    outcome: outcomeOf(counts, guessProbability, parts.pValue),
    pValueAdjusted: null,
    panelists: [],
    betaBinomial: null,
    chanceCorrected: null,
    spread: null,
    stopping: null,
  };
}

type Details = Pick<
  ChoiceStatistics,
  "correctShare" | "correctShareScore" | "discriminatorShareScore" | "dPrimeProfile" | "dPrimeStandardError"
>;

/** What stands beside the intervals of the test: two-sided at the confidence chosen, and no bounds from pooled repeats. */
function detailsOf(counts: ChoiceCounts, entry: ChoiceMethod, confidence: number): Details {
  const { method, correct, judgments, people = judgments } = counts;
  const bounded = people === judgments;
  const estimate = judgments === 0 ? null : correct / judgments;
  const around = { estimate, confidence, kind: "two-sided" as const };
  const score = scoreInterval(correct, judgments, confidence);
  const share = (right: number) => discriminatorShareOf(method, right);
  const discriminators = { ...around, estimate: estimate === null ? null : share(estimate) };
  return {
    correctShare: boundedIf(bounded, { ...around, ...exactInterval(correct, judgments, confidence) }),
    correctShareScore: boundedIf(bounded, { ...around, ...score }),
    discriminatorShareScore: boundedIf(bounded, { ...discriminators, low: share(score.low), high: share(score.high) }),
    dPrimeProfile: boundedIf(bounded, profileOfDPrime(entry, correct, judgments, confidence)),
    dPrimeStandardError: bounded ? standardErrorOfDPrime(entry, correct, judgments) : null,
  };
}

/** What differs when a choice test is to show a difference: everything is held against a panel that only guesses. */
function differenceParts(counts: ChoiceCounts, entry: ChoiceMethod) {
  const { method, alpha, correct, judgments, sought } = counts;
  const { guessProbability } = entry;
  const pValue = Math.max(Number.MIN_VALUE, upperTail(correct, judgments, guessProbability));
  const needed = criticalNumber(judgments, guessProbability, alpha);
  return {
    limit: null,
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : upperTail(needed, judgments, guessProbability),
    pValue,
    ...intervalsOf(counts, entry, boundWithTest(counts, guessProbability, pValue)),
    guessingPanels: chancePanels(judgments, guessProbability),
    power: sought ? powerOf(method, alpha, sought) : null,
  };
}

function powerOf(method: Method, alpha: number, sought: Sought): ChoiceStatistics["power"] {
  const { people, dPrime = null, judgments = people } = sought;
  const discriminatorShare = dPrime === null ? sought.discriminatorShare : discriminatorShareAt(method, dPrime);
  return { discriminatorShare, dPrime, people, power: power(method, judgments, alpha, discriminatorShare) };
}

function check(counts: ChoiceCounts, confidence: number): void {
  const { alpha, correct, judgments, people, sought } = counts;
  requireCount("judgments", judgments);
  requireCount("correct", correct, 0, judgments);
  // how many can tell says nothing of people who answered more than once: for likeness the person is the unit
  const unit = counts.goal === "similarity" && !counts.limit.bySpread;
  const fewest = unit ? judgments : Math.min(1, judgments);
  if (people !== undefined) requireCount("people", people, fewest, judgments);
  requireAlpha(alpha);
  requireRisk("confidence", confidence);
  if (!sought) return;
  requireCount("people", sought.people);
  requireCount("judgments", sought.judgments ?? sought.people);
  requireShare("discriminatorShare", sought.discriminatorShare);
}

function outcomeOf(counts: ChoiceCounts, guess: number, pValue: number): ChoiceStatistics["outcome"] {
  const { alpha, correct, judgments, people = judgments } = counts;
  // a few people speak neither for a panel nor, like one person alone, for themselves
  if (judgments < leastForVerdict || (people > 1 && people < leastForVerdict)) return "too-few";
  if (counts.goal === "difference" && pValue <= alpha) return "reached";
  // so few right are no likeness either but a fault to look for
  if (lowerTail(correct, judgments, guess) <= lowTailInDoubt) return "far-below-chance";
  if (counts.goal === "difference") return "not-reached";
  return pValue <= counts.limit.beta ? "within-limit" : "not-within-limit";
}

/** The share's exact lower bound at risk alpha, kept on the side of guessing where the test stands despite rounding. */
function boundWithTest({ alpha, correct, judgments }: ChoiceCounts, guess: number, pValue: number): number {
  const bound = lowerLimit(correct, judgments, alpha);
  return pValue <= alpha ? Math.max(bound, guess) : Math.min(bound, guess);
}

type Intervals = Pick<ChoiceStatistics, "discriminatorShare" | "discriminatorShareRange" | "dPrime">;

/** The estimates with the bounds that the answers allow: none when some people gave more than one. */
function intervalsOf(counts: ChoiceCounts, entry: ChoiceMethod, low: number): Intervals {
  const { method, alpha, correct, judgments, people = judgments } = counts;
  const right = judgments === 0 ? null : correct / judgments;
  const share = (rightShare: number) => discriminatorShareOf(method, rightShare);
  const estimate = right === null ? null : share(right);
  const lower = { high: null, confidence: 1 - alpha, kind: "lower" as const };
  const range: Interval = {
    estimate,
    low: share(low),
    high: share(upperLimit(correct, judgments, alpha)),
    confidence: 1 - 2 * alpha,
    kind: "two-sided",
  };
  const bounded = people === judgments;
  return {
    discriminatorShare: boundedIf(bounded, { ...lower, estimate, low: share(low) }),
    discriminatorShareRange: boundedIf(bounded, range),
    dPrime: boundedIf(bounded, {
      ...lower,
      estimate: right === null ? null : entry.dPrime(right),
      low: entry.dPrime(low) ?? 0,
    }),
  };
}

const boundedIf = (bounded: boolean, interval: Interval): Interval =>
  bounded ? interval : { ...interval, low: null, high: null, kind: "none" };
