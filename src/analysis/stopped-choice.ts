import type { Interval } from "../model/interval.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { choiceMethod, discriminatorShareOf } from "./method.ts";
import { root } from "./root.ts";
import { plannedLooks, runOf, type Stopped, stoppingPath } from "./stopping.ts";
import { type StoppingRule, stagesAt } from "./stopping-rule.ts";
import { between, chanceDown, chanceUp, type Stage, sumOf, walk } from "./stopping-walk.ts";

/**
 * The statistics of a choice test that could have stopped early. The verdict is that of the rule; p and every exact
 * bound take the looks into account: outcomes are ordered by when they stop, and then by count.
 *
 * Takes    statistics: of the answers within the deciding look (`untilStop`'s `counted`), as if there had been no looks
 * Returns  the same with `stopping`; p <= `stopping.totalAlpha` if and only if the rule said yes. Bounds stand at the
 *          plan's alpha, or for Wald, whose lines hold alpha only about, at a level where the lower one leaves guessing
 *          out if and only if the rule said yes (their `confidence` says which). Score intervals are not given: they know
 *          nothing of looks. The profile of d-prime stays: a likelihood does not depend on them
 */
export function stoppedChoice(
  statistics: ChoiceStatistics,
  { rule, looks, all }: Pick<Stopped<never>, "rule" | "looks" | "all">,
): ChoiceStatistics {
  const { path: stages, whole } = runOf(rule, looks, all);
  const stopping = stoppingPath(rule, looks, all);
  const decided = stopping.looks.at(-1);
  const { correct } = statistics;
  const yes = decided?.said === "yes";
  const pValue = Math.max(Number.MIN_VALUE, decided ? chanceUp(stages, correct, rule.guess) : 1);
  const level = levelOf(rule, whole);
  return {
    ...statistics,
    criticalNumber: decided?.upper ?? null,
    chanceAtCritical: stopping.totalAlpha,
    pValue,
    outcome: outcomeOf(statistics.outcome, yes),
    ...boundsOf(statistics, stages, { guess: rule.guess, level, yes }),
    power: statistics.power && { ...statistics.power, power: rulePower(rule) },
    stopping,
  };
}

/**
 * The level of the bounds that go with the test: alpha, where every outcome with p <= alpha is a yes and no other. Wald's
 * lines do not keep to that; then it is midway between the largest p of a yes and the least p of anything else.
 */
function levelOf(rule: StoppingRule, whole: readonly Stage[]): number {
  if (rule.rule === "looks") return rule.alpha;
  const { yes, last } = walk(whole, rule.guess);
  const total = sumOf(yes);
  const others = between(last, { judgments: last.judgments, upper: whole.at(-1)?.upper ?? null, lower: null }).chance;
  const nearest = Math.min(1, total + (others.findLast((chance) => chance > 0) ?? total));
  return total <= rule.alpha && rule.alpha < nearest ? rule.alpha : (total + nearest) / 2;
}

/** Chance of a yes, when what is sought is true and the looks are those of the plan. */
export const rulePower = (rule: StoppingRule): number =>
  Math.min(1, sumOf(walk(stagesAt(rule, plannedLooks(rule), true), rule.sought).yes));

function outcomeOf(alone: ChoiceStatistics["outcome"], yes: boolean): ChoiceStatistics["outcome"] {
  if (alone === "too-few" || alone === "withheld") return alone;
  if (yes) return "reached";
  return alone === "far-below-chance" ? alone : "not-reached";
}

type Bounds = Pick<
  ChoiceStatistics,
  | "correctShare"
  | "correctShareScore"
  | "discriminatorShare"
  | "discriminatorShareScore"
  | "discriminatorShareRange"
  | "dPrime"
>;

function boundsOf(
  statistics: ChoiceStatistics,
  stages: readonly Stage[],
  test: { guess: number; level: number; yes: boolean },
): Bounds {
  const { method, correct, correctShare } = statistics;
  const { guess, level, yes } = test;
  const tail = (1 - correctShare.confidence) / 2;
  const bound = lowerShare(stages, correct, level);
  // rounding must not move the bound to the other side of guessing
  const low = yes ? Math.max(bound, guess) : Math.min(bound, guess);
  const share = (right: number): number => discriminatorShareOf(method, right);
  return {
    correctShare: bounded(correctShare, {
      low: lowerShare(stages, correct, tail),
      high: upperShare(stages, correct, tail),
    }),
    correctShareScore: unbounded(statistics.correctShareScore),
    discriminatorShare: bounded(statistics.discriminatorShare, { low: share(low), confidence: 1 - level }),
    discriminatorShareScore: unbounded(statistics.discriminatorShareScore),
    discriminatorShareRange: bounded(statistics.discriminatorShareRange, {
      low: share(low),
      high: share(upperShare(stages, correct, level)),
      confidence: 1 - 2 * level,
    }),
    dPrime: bounded(statistics.dPrime, { low: choiceMethod(method).dPrime(low) ?? 0, confidence: 1 - level }),
  };
}

/** Other bounds; none where there were none, as where somebody gave two answers. */
const bounded = (interval: Interval, bounds: Partial<Interval>): Interval =>
  interval.kind === "none" ? interval : { ...interval, ...bounds };
const unbounded = (interval: Interval): Interval => ({ ...interval, low: null, high: null, kind: "none" });

/**
 * Share right below which an outcome like this, or further towards yes, has less than this chance. 0 where none does.
 * Takes the looks up to the one that decided, and the count there.
 */
export const lowerShare = (stages: readonly Stage[], correct: number, tail: number): number =>
  chanceUp(stages, correct, 0) >= tail ? 0 : shareWhere((share) => chanceUp(stages, correct, share), tail, 0);

/** Share right above which an outcome like this, or further towards no, has less than this chance. 1 where none does. */
export const upperShare = (stages: readonly Stage[], correct: number, tail: number): number =>
  chanceDown(stages, correct, 1) >= tail ? 1 : shareWhere((share) => -chanceDown(stages, correct, share), -tail, 1);

/** Where a chance that rises with the share crosses a level; between shares so near 0 and 1 that nothing lies beyond. */
function shareWhere(rising: (share: number) => number, level: number, otherwise: number): number {
  const shareAt = (logOdds: number) => 1 / (1 + Math.exp(-logOdds));
  const found = root((logOdds) => rising(shareAt(logOdds)) - level, -36, 36);
  return found.bracketed ? shareAt(found.at) : otherwise;
}
