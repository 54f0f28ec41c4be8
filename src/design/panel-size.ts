import { dPrimeOf } from "../analysis/method.ts";
import type { Method } from "../model/method.ts";
import { problem } from "../model/problem.ts";
import { differenceTest, type SizeTest } from "./size-test.ts";

/** What a plan should be able to do: find this share of people who tell, with this chance, at this risk. */
export type Goal = {
  /** Risk of seeing a difference that is not there, between 0 and 1. */
  alpha: number;
  /** Share of people who can really tell, 0 to 1; for a preference the lead of the one over the other. */
  discriminatorShare: number;
  /** Chance of finding it that is asked for, between 0 and 1 (1 - beta). */
  power: number;
};

/** How the size was found, as the field `rule` of what `panelSize` returns. */
export const sizeRule = "first-n-exact-binomial" as const;

export type PanelSize = {
  /** First number of people whose exact critical number gives the power asked for: what printed tables hold. */
  people: number;
  /** From here on no larger panel falls below it again (the power goes in teeth, since counts are whole). */
  peopleStable: number;
  /** The count that decides for `people` (see `SizeTest`); and the power they have. */
  criticalNumber: number;
  power: number;
  rule: typeof sizeRule;
};

/** Panels beyond this are not planned: no kitchen seats them. */
export const mostPeople = 5_000;

/**
 * How many people, one judgment each, a difference test needs; see `sizeOf`.
 *
 * Example  panelSize("triangle", { alpha: 0.05, discriminatorShare: 0.3, power: 0.8 })
 *          // people 40, peopleStable 42, criticalNumber 19
 */
export function panelSize(method: Method, goal: Goal): PanelSize | null {
  return sizeOf(differenceTest(method, goal.alpha, goal.discriminatorShare), goal.power);
}

/**
 * How many people, one judgment each, a test needs for a chance of a yes at the share where one is wanted.
 *
 * Takes    power: that chance, between 0 and 1
 * Returns  the size; null when more than 5,000 people would be needed
 * Throws   Problem "analysis/not-a-share" and those of the test
 * Exact    exact binomial tails throughout. `peopleStable` looks ahead to twice the first size and 100 more: the teeth
 *          shrink as panels grow, so none that is deeper follows
 */
export function sizeOf(test: SizeTest, power: number): PanelSize | null {
  if (!(power > 0 && power < 1)) throw problem("analysis/not-a-share", { name: "power", value: String(power) });
  const found = (people: number) => test.chance(people, test.soughtAt);
  let people = 1;
  while (found(people) < power) {
    people += 1;
    if (people > mostPeople) return null;
  }
  let peopleStable = people;
  for (let larger = people + 1; larger <= 2 * people + 100; larger++) {
    if (found(larger) < power) peopleStable = larger + 1;
  }
  const needed = test.criticalNumber(people) ?? people;
  return { people, peopleStable, criticalNumber: needed, power: found(people), rule: sizeRule };
}

/** One panel size of the planner's picture. `criticalNumber` is null where no count would do. */
export type SawPoint = { people: number; criticalNumber: number | null; chanceAtCritical: number; power: number };

/**
 * The teeth: for each panel size from `from` to `to`, the count that decides, how likely a yes is where it would be
 * false, and where one is wanted. Throws what the test does.
 */
export function saw(test: SizeTest, from: number, to: number): SawPoint[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => {
    const people = from + at;
    return {
      people,
      criticalNumber: test.criticalNumber(people),
      chanceAtCritical: test.chance(people, test.falseAt),
      power: test.chance(people, test.soughtAt),
    };
  });
}

/**
 * What so many people can find: the smallest share who tell, and the d-prime that goes with it, that this panel finds
 * with the power asked for.
 *
 * Takes    method; people: 1 or more, one judgment each; alpha; sought: the power, 0.8 by custom
 * Returns  null when not even a panel of people who all tell would reach alpha. `dPrime` is null at a share of 1, and for
 *          a preference, where nobody is right
 * Exact    the share by halving, to 1e-12
 * Example  findable("triangle", 24, 0.05) // discriminatorShare 0.406, dPrime 2.0
 */
export function findable(
  method: Method,
  people: number,
  alpha: number,
  sought = 0.8,
): { discriminatorShare: number; dPrime: number | null; criticalNumber: number; power: number } | null {
  const test = differenceTest(method, alpha, 0);
  const needed = test.criticalNumber(people);
  if (needed === null) return null;
  let low = 0;
  let high = 1;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (test.chance(people, middle) >= sought) high = middle;
    else low = middle;
  }
  return {
    discriminatorShare: high,
    dPrime: method === "paired-preference" ? null : dPrimeOf(method, high),
    criticalNumber: needed,
    power: test.chance(people, high),
  };
}
