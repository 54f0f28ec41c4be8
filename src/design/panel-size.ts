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

export type PanelSize = {
  /** First number of people whose exact critical number gives the power asked for: what printed tables hold. */
  people: number;
  /** From here on no larger panel falls below it again (the power goes in teeth, since counts are whole). */
  peopleStable: number;
  /** The count that decides for `people` (see `SizeTest`); and the power they have. */
  criticalNumber: number;
  power: number;
  /** How it was found. */
  rule: SizeTest["rule"];
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
 * How many people a test needs for a chance of a yes at the effect where one is wanted.
 *
 * Takes    power: that chance, between 0 and 1
 * Returns  the size; null when more than 5,000 people would be needed
 * Throws   Problem "analysis/not-a-share" and those of the test
 * Exact    exact tails throughout; where a quick sum comes too near to the power to decide, the slow one does.
 *          `peopleStable` looks ahead as far as `lookAhead` says: no tooth that is deeper follows
 */
export function sizeOf(test: SizeTest, power: number): PanelSize | null {
  if (!(power > 0 && power < 1)) throw problem("analysis/not-a-share", { name: "power", value: String(power) });
  const people = firstWith(test, power);
  if (people === null) return null;
  const ahead = people + test.lookAhead(people);
  const chances = test.chances(test.soughtAt, people, ahead);
  let peopleStable = people;
  for (const [at, chance] of chances.entries()) {
    if (!reached(test, power, people + at, chance)) peopleStable = people + at + 1;
  }
  const needed = test.criticalNumber(people) ?? people;
  return {
    people,
    peopleStable,
    criticalNumber: needed,
    power: test.chance(people, test.soughtAt),
    rule: test.rule,
  };
}

/** Nearer to the power than this, a quick sum does not decide. */
const tooNear = 1e-9;

const reached = (test: SizeTest, power: number, people: number, chance: number): boolean =>
  (Math.abs(chance - power) < tooNear ? test.chance(people, test.soughtAt) : chance) >= power;

function firstWith(test: SizeTest, power: number): number | null {
  let from = test.begin(test.soughtAt, power);
  for (let width = 64; from <= mostPeople; width *= 2) {
    const to = Math.min(mostPeople, from + width);
    const found = test
      .chances(test.soughtAt, from, to)
      .findIndex((chance, at) => reached(test, power, from + at, chance));
    if (found >= 0) return from + found;
    from = to + 1;
  }
  return null;
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

/** What a panel can find: `effect` in the unit of its test, and the same as a share who tell and as d-prime. */
export type Findable = {
  effect: number;
  /** Null where nobody is right (pairs, kinds). */
  discriminatorShare: number | null;
  /** Null at a share of 1, which no finite distance gives. */
  dPrime: number | null;
  criticalNumber: number;
  power: number;
};

/**
 * The smallest effect that so many people find with the power asked for.
 *
 * Takes    test: of a difference, whatever it seeks; people: 1 or more; power: 0.8 by custom
 * Returns  null when not even the largest effect would be found
 * Exact    by halving, to 1e-12 of the largest effect
 */
export function findableBy(test: SizeTest, people: number, power = 0.8): Findable | null {
  const needed = test.criticalNumber(people);
  if (needed === null || test.chance(people, test.most) < power) return null;
  let [low, high] = [0, test.most];
  while (high - low > 1e-12 * test.most) {
    const middle = (low + high) / 2;
    if (test.chance(people, middle) >= power) high = middle;
    else low = middle;
  }
  return {
    effect: high,
    discriminatorShare: test.unit === "share" ? high : null,
    dPrime: test.dPrime(high),
    criticalNumber: needed,
    power: test.chance(people, high),
  };
}
