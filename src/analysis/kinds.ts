import type { Interval } from "../model/interval.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { KindsStatistics } from "../model/result-kinds.ts";
import { panelsOf } from "./chance-panels.ts";
import { requireAlpha, requireCount, requireRisk } from "./check.ts";
import { lowTailInDoubt } from "./choice.ts";
import {
  type Conditional,
  conditionalCounts,
  conditionalLower,
  conditionalOdds,
  conditionalUpper,
} from "./conditional-odds.ts";
import { hypergeometricCritical, hypergeometricLower, hypergeometricUpper, type Margins } from "./fisher-exact.ts";
import { kindsDistances, type ToldOf } from "./kinds-distance.ts";
import { kindsPower } from "./kinds-power.ts";
import { exactInterval, scoreInterval } from "./share-interval.ts";

/** One person's counts. */
export type PersonKinds = KindsStatistics["panelists"][number];

export type KindsCounts = {
  method: KindsStatistics["method"];
  /** Risk of seeing a difference that is not there, above 0 and at most 0.5. */
  alpha: number;
  /** Of the two-sided intervals; 0.95 when left out. */
  confidence?: number;
  /** Trays of two products (samples that were not A), and those of one (that were A); `told`: called different (not A). */
  unlike: ToldOf;
  like: ToldOf;
  /** The same person by person; left out where everybody gave one answer. They add up to the four counts. */
  panelists?: readonly PersonKinds[];
  /** What the plan was to find, and people planned; null or left out: no power is computed. */
  sought?: { dPrime: number; people: number } | null;
};

/**
 * The statistics of same-different or A-not-A from its four counts. People lean to one answer, so nothing is right by a
 * known chance: the kinds are held against each other, given how many of each were served and told.
 *
 * Returns  p by Fisher's exact test, one-sided: are unlike trays told oftener? Never 0: below the smallest double that
 *          double stands for it. Several answers a person: the same within each person (a sum of independent
 *          hypergeometric counts), so that how people lean is no difference; then no count decides and only estimates
 *          stand. One person alone is tested as one. Seldomer than the lower 2.5 % tail allows: "far-below-chance"
 * Throws   Problem "analysis/not-a-count", "analysis/risk-out-of-range", "analysis/not-a-share", "analysis/out-of-range"
 * Example  kindsStatistics({ method: "a-not-a", alpha: 0.05, unlike: { told: 4, of: 4 }, like: { told: 0, of: 4 } }).pValue // 1/70
 */
export function kindsStatistics(counts: KindsCounts): KindsStatistics {
  const { method, alpha, confidence = 0.95, unlike, like, sought } = counts;
  check(counts, confidence);
  const test = testOf(counts);
  const { pValue, plain } = test;
  return {
    family: "kinds",
    method,
    goal: "difference",
    sides: "one",
    alpha,
    unlike: kindOf(unlike, confidence, plain),
    like: kindOf(like, confidence, plain),
    judgments: unlike.of + like.of,
    people: test.people,
    criticalNumber: test.criticalNumber,
    chanceAtCritical: test.chanceAtCritical,
    pValue,
    withinPeople: !plain,
    outcome: outcomeOf(unlike.of + like.of, test, alpha),
    oddsRatio: conditionalOdds(test.counts, unlike.told, alpha, pValue),
    ...kindsDistances(method, { unlike, like }, { alpha, pValue, confidence, bounded: plain }),
    guessingPanels: panelsByCount(test.counts, unlike.of),
    power: sought && plain ? { ...sought, power: kindsPower(method, sought.people, alpha, sought.dPrime) } : null,
    panelists: test.panelists,
  };
}

type Test = {
  pValue: number;
  /** How likely so few unlike trays told, or fewer, would be. */
  lower: number;
  criticalNumber: number | null;
  chanceAtCritical: number | null;
  people: number;
  panelists: PersonKinds[];
  /** One answer a person, or one person alone. */
  plain: boolean;
  counts: Conditional;
};

const notZero = (pValue: number): number => Math.max(Number.MIN_VALUE, pValue);

function testOf({ alpha, unlike, like, panelists = [] }: KindsCounts): Test {
  const judgments = unlike.of + like.of;
  const own = panelists.filter((one) => one.unlike + one.like > 0);
  const several = own.length > 0 && own.length < judgments;
  const common = { people: several ? own.length : judgments, panelists: several ? own : [] };
  if (several && own.length > 1) {
    const counts = conditionalCounts(own.map(marginsOf));
    const pValue = notZero(conditionalUpper(counts, unlike.told));
    const lower = conditionalLower(counts, unlike.told);
    return { ...common, pValue, lower, criticalNumber: null, chanceAtCritical: null, plain: false, counts };
  }
  const margins: Margins = { first: unlike.of, second: like.of, told: unlike.told + like.told };
  const needed = hypergeometricCritical(margins, alpha);
  return {
    ...common,
    pValue: notZero(hypergeometricUpper(unlike.told, margins)),
    lower: hypergeometricLower(unlike.told, margins),
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : hypergeometricUpper(needed, margins),
    plain: true,
    counts: conditionalCounts([margins]),
  };
}

const marginsOf = (one: PersonKinds): Margins => ({
  first: one.unlike,
  second: one.like,
  told: one.unlikeTold + one.likeTold,
});

function check({ alpha, unlike, like, sought }: KindsCounts, confidence: number): void {
  requireAlpha(alpha);
  requireRisk("confidence", confidence);
  requireCount("judgments", unlike.of);
  requireCount("judgments", like.of);
  requireCount("judgments", unlike.of + like.of);
  requireCount("told", unlike.told, 0, unlike.of);
  requireCount("told", like.told, 0, like.of);
  if (sought) requireCount("people", sought.people);
}

function outcomeOf(judgments: number, { pValue, lower, people }: Test, alpha: number): KindsStatistics["outcome"] {
  // a few people speak neither for a panel nor, like one person alone, for themselves
  if (judgments < leastForVerdict || (people > 1 && people < leastForVerdict)) return "too-few";
  if (pValue <= alpha) return "reached";
  return lower <= lowTailInDoubt ? "far-below-chance" : "not-reached";
}

function kindOf({ told, of }: ToldOf, confidence: number, bounded: boolean): KindsStatistics["unlike"] {
  const around = { estimate: of === 0 ? null : told / of, confidence };
  const none: Interval = { ...around, low: null, high: null, kind: "none" };
  if (!bounded) return { told, of, share: none, shareScore: none };
  return {
    told,
    of,
    share: { ...around, ...exactInterval(told, of, confidence), kind: "two-sided" },
    shareScore: { ...around, ...scoreInterval(told, of, confidence), kind: "two-sided" },
  };
}

/** Unlike trays told in 100 panels to which both kinds are the same. */
function panelsByCount({ least, logs }: Conditional, most: number): number[] {
  const probabilities = new Float64Array(most + 1);
  logs.forEach((log, at) => {
    probabilities[least + at] = Math.exp(log);
  });
  return panelsOf(probabilities);
}
