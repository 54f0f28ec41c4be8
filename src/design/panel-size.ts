import { criticalNumber } from "../analysis/binomial.ts";
import { choiceMethod, dPrimeOf } from "../analysis/method.ts";
import { power } from "../analysis/power.ts";
import type { Method } from "../model/plan.ts";
import { problem } from "../model/problem.ts";

/** What a plan should be able to do: find this share of people who tell, with this chance, at this risk. */
export type Goal = {
  /** Risk of seeing a difference that is not there, between 0 and 1. */
  alpha: number;
  /** Share of people who can really tell, 0 to 1. */
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
  /** Right answers that `people` need; and the power they have. */
  criticalNumber: number;
  power: number;
  rule: typeof sizeRule;
};

/** Panels beyond this are not planned: no kitchen seats them. */
export const mostPeople = 5_000;

/**
 * How many people, one judgment each, a plan needs.
 *
 * Returns  the size; null when more than 5,000 people would be needed
 * Throws   Problem "analysis/not-a-share" and those of `power`
 * Exact    exact binomial tails throughout. `peopleStable` looks ahead to twice the first size and 100 more: the teeth
 *          shrink as panels grow, so none that is deeper follows
 * Example  panelSize("triangle", { alpha: 0.05, discriminatorShare: 0.3, power: 0.8 })
 *          // people 40, peopleStable 42, criticalNumber 19
 */
export function panelSize(method: Method, goal: Goal): PanelSize | null {
  if (!(goal.power > 0 && goal.power < 1)) {
    throw problem("analysis/not-a-share", { name: "power", value: String(goal.power) });
  }
  const found = (people: number) => power(method, people, goal.alpha, goal.discriminatorShare);
  let people = 1;
  while (found(people) < goal.power) {
    people += 1;
    if (people > mostPeople) return null;
  }
  let peopleStable = people;
  for (let larger = people + 1; larger <= 2 * people + 100; larger++) {
    if (found(larger) < goal.power) peopleStable = larger + 1;
  }
  const needed = criticalNumber(people, choiceMethod(method).guessProbability, goal.alpha) ?? people;
  return { people, peopleStable, criticalNumber: needed, power: found(people), rule: sizeRule };
}

/** One panel size of the planner's picture. `criticalNumber` is null where not even all right would reach alpha. */
export type SawPoint = { people: number; criticalNumber: number | null; chanceAtCritical: number; power: number };

/**
 * The teeth: for each panel size from `from` to `to`, what is needed, what guessing spends of alpha, and the chance of
 * finding a share of people who tell. Throws what `power` does.
 */
export function saw(method: Method, alpha: number, discriminatorShare: number, from: number, to: number): SawPoint[] {
  const { guessProbability } = choiceMethod(method);
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => {
    const people = from + at;
    return {
      people,
      criticalNumber: criticalNumber(people, guessProbability, alpha),
      chanceAtCritical: power(method, people, alpha, 0),
      power: power(method, people, alpha, discriminatorShare),
    };
  });
}

/**
 * What so many people can find: the smallest share who tell, and the d-prime that goes with it, that this panel finds
 * with the power asked for.
 *
 * Takes    method; people: 1 or more, one judgment each; alpha; sought: the power, 0.8 by custom
 * Returns  null when not even a panel of people who all tell would reach alpha. `dPrime` is null at a share of 1
 * Exact    the share by halving, to 1e-12
 * Example  findable("triangle", 24, 0.05) // discriminatorShare 0.406, dPrime 2.0
 */
export function findable(
  method: Method,
  people: number,
  alpha: number,
  sought = 0.8,
): { discriminatorShare: number; dPrime: number | null; criticalNumber: number; power: number } | null {
  const needed = criticalNumber(people, choiceMethod(method).guessProbability, alpha);
  if (needed === null) return null;
  let low = 0;
  let high = 1;
  while (high - low > 1e-12) {
    const middle = (low + high) / 2;
    if (power(method, people, alpha, middle) >= sought) high = middle;
    else low = middle;
  }
  return {
    discriminatorShare: high,
    dPrime: dPrimeOf(method, high),
    criticalNumber: needed,
    power: power(method, people, alpha, high),
  };
}
