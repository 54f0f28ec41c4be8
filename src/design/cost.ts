import { pairPower, scaleTestOf } from "../analysis/scale-power.ts";
import { shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import type { Advised } from "../model/plan-question.ts";
import { atOnce, cupsOnTray, dayTime, sittingsOf } from "./day-time.ts";
import { sizeOf } from "./panel-size.ts";
import { scalePeople } from "./scale-size.ts";
import { seeksLikeness, sizeTest } from "./size-test.ts";

/** What a plan costs, and what another method would cost that is to find the same. */

/** The chance of finding it that methods are held to. */
const wantedPower = 0.8;

/**
 * How many people a plan needs. power: that many find what is sought in four of five studies, and so does every larger
 * panel. none: not even 5,000 do. as-planned: the method has no such number, or nothing was said to reckon with.
 */
export type Need = { by: "power"; people: number } | { by: "none" } | { by: "as-planned"; people: number };

export type Cost = {
  /** Planned trays with the spares, and cups on them with one warm-up a person and sitting. */
  trays: number;
  cups: number;
  /** Null while the plan names no portion. */
  grams: number | null;
  /** Minutes of one person's sitting, and how many sittings each has. */
  minutes: number;
  sittings: number;
  /** As many people a wave as taste at once; null while nobody said how many that are. */
  waves: number | null;
};

/** The people of a plan, by its own method. Slow for methods with two kinds of trays: half a second. */
export function needOf(plan: Plan): Need {
  const test = sizeTest(plan);
  if (test !== null) {
    const size = sizeOf(test, wantedPower);
    return size === null ? { by: "none" } : { by: "power", people: size.peopleStable };
  }
  const scale = plan.method === "line-scale" ? scaleTestOf(plan) : null;
  if (scale === null) return { by: "as-planned", people: plan.people };
  const size = scalePeople(scale, wantedPower);
  return size === null ? { by: "none" } : { by: "power", people: size.people };
}

/** Chance of finding what the plan seeks with the people it has; null where nothing was said to reckon with. */
export function chanceOf(plan: Plan): number | null {
  const test = sizeTest(plan);
  if (test !== null) return plan.people < 1 ? null : test.chance(plan.people, test.soughtAt);
  const scale = plan.method === "line-scale" ? scaleTestOf(plan) : null;
  return scale === null || plan.people < 1 ? null : pairPower(scale, plan.people);
}

/**
 * What a plan takes, with so many people instead of its own.
 *
 * Takes    people: spares go along in proportion, rounded up
 */
export function costOf(plan: Plan, people: number): Cost {
  const { sittings } = sittingsOf(plan);
  const spares = people === plan.people ? plan.spares : Math.ceil((people * plan.spares) / Math.max(1, plan.people));
  const trays = people * plan.repeats + spares;
  const warmUps = plan.serving.warmUp ? people * sittings : 0;
  const cups = trays * cupsOnTray(plan) + warmUps;
  const { portionGrams } = plan.serving;
  const { sittingSeconds } = dayTime(plan);
  const seated = atOnce(plan);
  return {
    trays,
    cups,
    grams: portionGrams === null ? null : Math.round(portionGrams * cups),
    minutes: Math.ceil(sittingSeconds / 60),
    sittings,
    waves: seated === null ? null : Math.ceil(people / seated) * sittings,
  };
}

/**
 * The plan with another method that is to find as much: a share who tell means another thing for every method, so what
 * is sought, or the limit of likeness, is carried over as a distance d-prime. Where either has none, what the plan says
 * of its own method stays.
 */
export function planWith(plan: Plan, { method, goal, sides }: Advised): Plan {
  const test = sizeTest(plan);
  const { similarity, dPrimeSought } = plan;
  const likeness = test !== null && seeksLikeness(plan);
  const distance =
    test === null || plan.method === "paired-preference" ? null : test.dPrime(likeness ? test.falseAt : test.soughtAt);
  const within = distance !== null && distance > 0 && distance <= 10 ? distance : null;
  return {
    ...plan,
    method,
    goal: shapeOf(method).similarity ? goal : "difference",
    sides,
    dPrimeSought: likeness ? dPrimeSought : (within ?? dPrimeSought),
    similarity: likeness ? { ...similarity, dPrime: within ?? similarity.dPrime } : similarity,
    repeats: shapeOf(method).repeats ? plan.repeats : 1,
    stopping: { rule: "fixed" },
  };
}
