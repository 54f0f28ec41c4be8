import type { Plan } from "../model/plan.ts";
import { criticalNumber, upperTail } from "./binomial.ts";
import { requireAlpha, requireCount, requireRisk } from "./check.ts";
import { choiceMethod, rightShareOf } from "./method.ts";
import { atLeast, between, type Counts, goOn, nothingYet, type Stage, sumOf, walk } from "./stopping-walk.ts";

/** The fields of a plan that its stopping rule follows from. */
export type StoppingPlan = Pick<
  Plan,
  "method" | "alpha" | "people" | "stopping" | "discriminatorShareSought" | "dPrimeSought"
>;

/** Wald's two lines: after n answers, yes from `upper` + `slope` n right on, no up to `lower` + `slope` n. */
export type Lines = { slope: number; upper: number; lower: number };

type Common = {
  /** Share right by guessing, and the one that goes with what is sought. */
  guess: number;
  sought: number;
  alpha: number;
  /** How many answers there are when nothing stops the study. */
  planned: number;
};
/** A stopping rule with everything that follows from its plan. */
export type StoppingRule =
  | (Common & {
      rule: "looks";
      /** Numbers of answers of the early looks, rising, fewer than planned. */
      at: number[];
      /** An early look says yes where so many right, or more, have this chance or less under guessing; 0: it never does. */
      level: number;
    })
  | (Common & { rule: "sequential"; beta: number; lines: Lines });

/** Most answers of a study with a stopping rule: every look is counted out, and that grows with their square. */
export const mostWithLooks = 2000;

/**
 * The stopping rule of a plan; null where it goes on until everybody has answered.
 *
 * Throws   Problem "analysis/not-a-count" for more than 2000 people or looks outside of 1 to people - 1,
 *          "analysis/not-a-share" where what is sought leaves no wrong answers (Wald's lines have no slope there),
 *          "analysis/risk-out-of-range", "analysis/unknown-method", "analysis/method-not-yet"
 */
export function stoppingRule(plan: StoppingPlan): StoppingRule | null {
  const { method, alpha, people, stopping, discriminatorShareSought, dPrimeSought } = plan;
  if (stopping.rule === "fixed") return null;
  requireAlpha(alpha);
  requireCount("people", people, 1, mostWithLooks);
  const { guessProbability: guess, rightShare } = choiceMethod(method);
  const sought = dPrimeSought === null ? rightShareOf(method, discriminatorShareSought) : rightShare(dPrimeSought);
  const common = { guess, sought, alpha, planned: people };
  if (stopping.rule === "sequential") {
    return {
      ...common,
      rule: "sequential",
      beta: stopping.beta,
      lines: waldLines(guess, sought, alpha, stopping.beta),
    };
  }
  for (const answers of stopping.at) requireCount("looks", answers, 1, people - 1);
  const at = [...new Set(stopping.at)].sort((a, b) => a - b);
  return { ...common, rule: "looks", at, level: nominalLevel(at, people, guess, alpha) };
}

/**
 * Wald's lines between a share right by guessing and the one sought.
 *
 * Takes    guess < sought < 1; alpha, beta: risks of a false yes and a false no, above 0 and below 1
 * Source   A. Wald 1947; ISO 16820, whose lines they are
 * Example  waldLines(0.5, 0.7, 0.1, 0.1) // { slope: 0.602887895329454, upper: 2.59321388623845, lower: -2.59321388623845 }
 */
export function waldLines(guess: number, sought: number, alpha: number, beta: number): Lines {
  for (const [name, share] of Object.entries({ guess, sought, alpha, beta })) requireRisk(name, share);
  const perRight = Math.log(sought / guess);
  const perWrong = Math.log1p(-guess) - Math.log1p(-sought);
  const width = perRight + perWrong;
  return {
    slope: perWrong / width,
    upper: Math.log((1 - beta) / alpha) / width,
    lower: Math.log(beta / (1 - alpha)) / width,
  };
}

/** Rounding must not move a count that stands exactly on a line. */
const onTheLine = 1e-9;

/** The two counts of Wald's lines after so many answers. */
function waldStage(judgments: number, { slope, upper, lower }: Lines): Stage {
  const yes = Math.ceil(upper + slope * judgments - onTheLine);
  const no = Math.min(yes - 1, Math.floor(lower + slope * judgments + onTheLine));
  return { judgments, upper: yes <= judgments ? Math.max(0, yes) : null, lower: no >= 0 ? no : null };
}

/**
 * What each look of a study asks, from the numbers of answers there were.
 *
 * Takes    judgments: of each look, rising; ended: the last of them is the end of the study, with all its answers
 * Returns  for Wald's lines the two counts of each look. For looks with a total: an early look says yes at the plan's
 *          level, and never takes more than alpha in all; the end has the least count that keeps the total within alpha
 */
export function stagesAt(rule: StoppingRule, judgments: readonly number[], ended: boolean): Stage[] {
  if (rule.rule === "sequential") return judgments.map((answers) => waldStage(answers, rule.lines));
  const { guess, alpha, level } = rule;
  let going: Counts = nothingYet;
  let spent = 0;
  return judgments.map((answers, at) => {
    const counts = goOn(going, answers, guess);
    // as long as nothing is spent it is the test of a study without looks, to the last digit
    const free = spent === 0 ? criticalNumber(answers, guess, alpha) : leastWithin(counts, alpha - spent);
    const early = level === 0 ? null : criticalNumber(answers, guess, level);
    const isEnd = ended && at === judgments.length - 1;
    const upper = isEnd ? free : free === null || early === null ? null : Math.max(free, early);
    const stage = { judgments: answers, upper, lower: null };
    spent += upper === null ? 0 : atLeast(counts, upper);
    going = between(counts, stage);
    return stage;
  });
}

/** Least count that is reached with no more than this chance; null where even all right would be too likely. */
function leastWithin(counts: Counts, chance: number): number | null {
  const beyond = counts.first + counts.chance.length;
  let least = beyond <= counts.judgments ? beyond : null;
  let sum = 0;
  for (let at = counts.chance.length - 1; at >= 0; at--) {
    sum += counts.chance[at] ?? 0;
    if (sum > chance) break;
    least = counts.first + at;
  }
  return least;
}

/**
 * The level of the early looks: the largest attained tail of guessing at one of them with which the whole rule stays
 * within alpha although the last look keeps the critical number it has alone. It uses what exact tests leave over.
 *
 * Returns  0 where nothing is left over
 * Example  nominalLevel([17], 30, 1 / 3, 0.05) // 0.008008190294757488
 */
export function nominalLevel(at: readonly number[], planned: number, guess: number, alpha: number): number {
  const end: Stage = { judgments: planned, upper: criticalNumber(planned, guess, alpha), lower: null };
  const levels = [...new Set(at.flatMap((answers) => attained(answers, guess, alpha)))].sort((a, b) => a - b);
  const total = (level: number): number => {
    const early = at.map((judgments) => ({ judgments, upper: criticalNumber(judgments, guess, level), lower: null }));
    return sumOf(walk([...early, end], guess).yes);
  };
  let [low, high] = [0, levels.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (total(levels[middle] ?? 0) <= alpha) low = middle + 1;
    else high = middle;
  }
  return levels[low - 1] ?? 0;
}

/** Every chance of so many right or more by guessing that is above 0 and no more than alpha. */
function attained(answers: number, guess: number, alpha: number): number[] {
  const least = criticalNumber(answers, guess, alpha);
  if (least === null) return [];
  return Array.from({ length: answers - least + 1 }, (_, more) => upperTail(least + more, answers, guess)).filter(
    (tail) => tail > 0,
  );
}
