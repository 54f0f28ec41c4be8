import { logPointProbability } from "./binomial.ts";

/** One look at the answers: after how many, from which count on it is a yes, and up to which a no (null: never). */
export type Stage = { judgments: number; upper: number | null; lower: number | null };

/** Chances of the counts of those panels that have not stopped yet; `first` is the count of the first entry. */
export type Counts = { judgments: number; first: number; chance: Float64Array };

/** Before the first answer: nobody is right. */
export const nothingYet: Counts = { judgments: 0, first: 0, chance: Float64Array.of(1) };

/**
 * The counts after more answers, each right with probability `share`: exact, by adding up the ways.
 * `judgments` is at least that of `counts`; the sum of the chances stays what it was.
 */
export function goOn(counts: Counts, judgments: number, share: number): Counts {
  const more = judgments - counts.judgments;
  const steps = Float64Array.from({ length: more + 1 }, (_, right) =>
    Math.exp(logPointProbability(right, more, share)),
  );
  const chance = new Float64Array(counts.chance.length + more);
  counts.chance.forEach((before, at) => {
    if (before === 0) return;
    for (let right = 0; right <= more; right++)
      chance[at + right] = (chance[at + right] ?? 0) + before * (steps[right] ?? 0);
  });
  return { judgments, first: counts.first, chance };
}

/** Chance of at least `right`, summed from the small end. */
export function atLeast({ first, chance }: Counts, right: number): number {
  let sum = 0;
  for (let at = chance.length - 1; at >= Math.max(0, right - first); at--) sum += chance[at] ?? 0;
  return sum;
}

/** Chance of at most `right`, summed from the small end. */
export function atMost({ first, chance }: Counts, right: number): number {
  let sum = 0;
  for (let at = 0; at <= Math.min(chance.length - 1, right - first); at++) sum += chance[at] ?? 0;
  return sum;
}

/** What is left of the counts where a look neither says yes nor no. */
export function between(counts: Counts, { upper, lower }: Stage): Counts {
  const { judgments, first, chance } = counts;
  const from = lower === null ? 0 : Math.min(chance.length, Math.max(0, lower + 1 - first));
  const to = upper === null ? chance.length : Math.min(chance.length, Math.max(from, upper - first));
  return { judgments, first: first + from, chance: chance.slice(from, to) };
}

/** A whole path of looks at one share right: at each the chance that it says yes, and that it says no. */
export type Walk = { yes: number[]; no: number[]; last: Counts };

/**
 * Walks through the looks.
 *
 * Takes    stages: numbers of answers rise from each to the next; share: 0 to 1, of right answers
 * Returns  the chance of each look to be the one that decides, and the counts at the last look before it is judged
 */
export function walk(stages: readonly Stage[], share: number): Walk {
  const yes: number[] = [];
  const no: number[] = [];
  let going = nothingYet;
  let last = nothingYet;
  for (const stage of stages) {
    last = goOn(going, stage.judgments, share);
    yes.push(stage.upper === null ? 0 : atLeast(last, stage.upper));
    no.push(stage.lower === null ? 0 : atMost(last, stage.lower));
    going = between(last, stage);
  }
  return { yes, no, last };
}

export const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/**
 * Chance of an outcome as far towards "yes" as the one seen, or further: an earlier yes counts as further, and at the
 * same look a higher count.
 *
 * Takes    stages: up to the look that decided; correct: the count there
 * Source   order by stage, K. K. G. Lan, A. A. Tsiatis and others, as used for group sequential tests (from memory)
 */
export function chanceUp(stages: readonly Stage[], correct: number, share: number): number {
  const { yes, last } = walk(stages, share);
  return Math.min(1, sumOf(yes.slice(0, -1)) + atLeast(last, correct));
}

/** Chance of an outcome as far towards "no" as the one seen, or further; see `chanceUp`. */
export function chanceDown(stages: readonly Stage[], correct: number, share: number): number {
  const { no, last } = walk(stages, share);
  return Math.min(1, sumOf(no.slice(0, -1)) + atMost(last, correct));
}

/** Mean number of answers until a look decides, or until the last look. */
export function expectedJudgments(stages: readonly Stage[], share: number): number {
  const { yes, no } = walk(stages, share);
  let going = 1;
  let mean = 0;
  stages.forEach(({ judgments }, at) => {
    const ends = at === stages.length - 1 ? going : (yes[at] ?? 0) + (no[at] ?? 0);
    mean += judgments * ends;
    going -= ends;
  });
  return mean;
}
