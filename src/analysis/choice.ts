import type { Method } from "../model/plan.ts";
import type { ChoiceStatistics, Interval } from "../model/result.ts";
import { criticalNumber, lowerTail, quantile, upperTail } from "./binomial.ts";
import { requireAlpha, requireCount, requireRisk, requireShare } from "./check.ts";
import { type ChoiceMethod, choiceMethod, discriminatorShareOf } from "./method.ts";
import { power } from "./power.ts";
import { exactInterval, lowerLimit, upperLimit } from "./share-interval.ts";

/** Under this many judgments, or people unless it is one alone, there are numbers, but no verdict. */
export const leastForVerdict = 6;
/** A count whose lower tail of guessing is this or less puts labels and wording in doubt (common practice, no source). */
export const lowTailInDoubt = 0.025;

export type ChoiceCounts = {
  method: Method;
  goal: "difference";
  /** Risk of seeing a difference that is not there, above 0 and at most 0.5. */
  alpha: number;
  correct: number;
  judgments: number;
  /** How many different people gave the answers; as many as answers when left out. */
  people?: number;
  /** Of the two-sided interval for the share of right answers; 0.95 when left out. */
  confidence?: number;
  /** What the plan was to find: share of people who tell (0 to 1), and how many people were planned. */
  sought?: { discriminatorShare: number; people: number };
};

/**
 * The statistics of one choice test from its two counts, all exact.
 *
 * Returns  the share who can tell and d-prime with the one-sided bound that goes with the test: it lies above zero if and
 *          only if p <= alpha, and so does the lower end of the share's two-sided range. The p-value is never 0: below
 *          the smallest double that double stands for it. Fewer people than answers: p stays exact, since nobody is right
 *          but by chance if nothing differs; intervals are estimates alone, since people differ when something does
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share", "analysis/risk-out-of-range",
 *          "analysis/unknown-method", "analysis/method-not-yet"
 * Example  choiceStatistics({ method: "triangle", goal: "difference", alpha: 0.05, correct: 14, judgments: 24 }).pValue // 0.010340673816871
 */
export function choiceStatistics(counts: ChoiceCounts): ChoiceStatistics {
  const { method, goal, alpha, correct, judgments, people = judgments, confidence = 0.95, sought } = counts;
  const entry = choiceMethod(method);
  check(counts, confidence);
  const { guessProbability, sides } = entry;
  const pValue = Math.max(Number.MIN_VALUE, upperTail(correct, judgments, guessProbability));
  const needed = criticalNumber(judgments, guessProbability, alpha);
  const intervals = intervalsOf(counts, entry, boundWithTest(counts, guessProbability, pValue), confidence);
  return {
    family: "choice",
    method,
    goal,
    sides,
    alpha,
    judgments,
    people,
    correct,
    guessProbability,
    expectedByGuessing: judgments / entry.choices,
    limit: null,
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : upperTail(needed, judgments, guessProbability),
    pValue,
    outcome: outcomeOf(counts, guessProbability, pValue),
    ...intervals,
    guessingPanels: guessingPanels(judgments, entry),
    power: sought ? { ...sought, power: power(method, sought.people, alpha, sought.discriminatorShare) } : null,
  };
}

function check({ alpha, correct, judgments, people, sought }: ChoiceCounts, confidence: number): void {
  requireCount("judgments", judgments);
  requireCount("correct", correct, 0, judgments);
  if (people !== undefined) requireCount("people", people, Math.min(1, judgments), judgments);
  requireAlpha(alpha);
  requireRisk("confidence", confidence);
  if (!sought) return;
  requireCount("people", sought.people);
  requireShare("discriminatorShare", sought.discriminatorShare);
}

function outcomeOf(counts: ChoiceCounts, guess: number, pValue: number): ChoiceStatistics["outcome"] {
  const { alpha, correct, judgments, people = judgments } = counts;
  // a few people speak neither for a panel nor, like one person alone, for themselves
  if (judgments < leastForVerdict || (people > 1 && people < leastForVerdict)) return "too-few";
  if (pValue <= alpha) return "reached";
  return lowerTail(correct, judgments, guess) <= lowTailInDoubt ? "far-below-chance" : "not-reached";
}

/** The share's exact lower bound at risk alpha, kept on the side of guessing where the test stands despite rounding. */
function boundWithTest({ alpha, correct, judgments }: ChoiceCounts, guess: number, pValue: number): number {
  const bound = lowerLimit(correct, judgments, alpha);
  return pValue <= alpha ? Math.max(bound, guess) : Math.min(bound, guess);
}

type Intervals = Pick<ChoiceStatistics, "correctShare" | "discriminatorShare" | "discriminatorShareRange" | "dPrime">;

/** The estimates with the bounds that the answers allow: none when some people gave more than one. */
function intervalsOf(counts: ChoiceCounts, entry: ChoiceMethod, low: number, confidence: number): Intervals {
  const { method, alpha, correct, judgments, people = judgments } = counts;
  const right = judgments === 0 ? null : correct / judgments;
  const share = (rightShare: number) => discriminatorShareOf(method, rightShare);
  const intervals: Intervals = {
    correctShare: { estimate: right, ...exactInterval(correct, judgments, confidence), confidence, kind: "two-sided" },
    discriminatorShare: {
      estimate: right === null ? null : share(right),
      low: share(low),
      high: null,
      ...lowerAt(alpha),
    },
    discriminatorShareRange: {
      estimate: right === null ? null : share(right),
      low: share(low),
      high: share(upperLimit(correct, judgments, alpha)),
      confidence: 1 - 2 * alpha,
      kind: "two-sided",
    },
    dPrime: {
      estimate: right === null ? null : entry.dPrime(right),
      low: entry.dPrime(low) ?? 0,
      high: null,
      ...lowerAt(alpha),
    },
  };
  if (people === judgments) return intervals;
  return {
    correctShare: unbounded(intervals.correctShare),
    discriminatorShare: unbounded(intervals.discriminatorShare),
    discriminatorShareRange: unbounded(intervals.discriminatorShareRange),
    dPrime: unbounded(intervals.dPrime),
  };
}

const lowerAt = (alpha: number) => ({ confidence: 1 - alpha, kind: "lower" as const });
const unbounded = (interval: Interval): Interval => ({ ...interval, low: null, high: null, kind: "none" });

/** 100 panels that only guess, at the middles of 100 equal parts of the exact distribution; index = number right. */
function guessingPanels(judgments: number, { guessProbability }: ChoiceMethod): number[] {
  const panels = new Array<number>(judgments + 1).fill(0);
  const middle = (dot: number) => (dot + 0.5) / 100;
  let right = quantile(middle(0), judgments, guessProbability);
  let reached = lowerTail(right, judgments, guessProbability);
  for (let dot = 0; dot < 100; dot++) {
    // from one dot's quantile to the next it is a few steps up
    while (reached < middle(dot)) reached = lowerTail(++right, judgments, guessProbability);
    panels[right] = (panels[right] ?? 0) + 1;
  }
  return panels;
}
