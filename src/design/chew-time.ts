import type { Plan } from "../model/plan.ts";
import { portionSecondsOf, samplesTasted } from "./day-time.ts";

/** What chewing and weighing takes, and how much of a difference carelessness can make. Nothing of it is measured. */

/** The gain that warnings reckon with: about that of a moist food after 15 seconds (a worked figure of the trade, rounded). */
export const gainSupposed = { percent: 25, seconds: 15 } as const;

/**
 * Points by which a gain changes with one second more, if mass rises evenly with chewing.
 * Example  pointsOfASecond() // 1.666…: 25 % in 15 s
 */
export const pointsOfASecond = (
  percent: number = gainSupposed.percent,
  seconds: number = gainSupposed.seconds,
): number => percent / seconds;

/**
 * Points by which two readings of a balance can be off at worst: half a step in each, and as much again for the cup.
 * Example  pointsOfBalance(0.1, 5) // 4: step × 2 / portion
 */
export const pointsOfBalance = (step: number, portionGrams: number): number => (200 * step) / portionGrams;

/** More portions than this in one sitting tire jaw and mouth (common practice, no source). */
export const mostPortions = 6;
/** Seconds to weigh one closed cup with the lid on, and to write it down (common practice, no source). */
export const weighingSeconds = 20;

export type Throughput = {
  /** Seconds from the first touch of the mouth to a closed cup, with rinse, wait, chew and lid. */
  portionSeconds: number;
  /** How many people may begin at once so that one balance weighs each cup in time. */
  atOnce: number;
  /** Seconds by which the next ones begin later, so that the balance is never behind; 0 where nobody has to wait. */
  apart: number;
  /** Minutes for a wave of so many people with one balance, each with all portions of a sitting. */
  minutes: number;
};

/**
 * What one balance bears. A cup is closed when its portion is spat, and is to be weighed `weighWithinSeconds` later at most:
 * as many cups as the balance weighs in that time may come at once. Each person brings a cup every `portionSeconds` plus
 * pause, so a balance that needs longer for all of them than that sets the pace.
 *
 * Takes    people: of a wave; portions: of one sitting
 * Example  throughputOf({ people: 6, portions: 3, portionSeconds: 90, pauseSeconds: 60, withinSeconds: 120 })
 *          // { portionSeconds: 90, atOnce: 6, apart: 0, minutes: 9 }
 */
export function throughputOf(given: {
  people: number;
  portions: number;
  portionSeconds: number;
  pauseSeconds: number;
  withinSeconds: number;
}): Throughput {
  const { people, portions, portionSeconds, pauseSeconds, withinSeconds } = given;
  const atOnce = Math.max(1, Math.floor(withinSeconds / weighingSeconds));
  const groups = Math.ceil(people / atOnce);
  const apart = groups > 1 ? Math.min(people, atOnce) * weighingSeconds : 0;
  // all cups of a round go over one balance before the next round's cups come
  const round = Math.max(portionSeconds + pauseSeconds, people * weighingSeconds);
  const lastCups = (people - (groups - 1) * atOnce) * weighingSeconds;
  const seconds = (groups - 1) * apart + (portions - 1) * round + portionSeconds + lastCups;
  return { portionSeconds, atOnce, apart, minutes: Math.ceil(seconds / 60) };
}

/** The throughput of the plan's largest wave; null while nobody is in one. */
export function planThroughput(plan: Plan): Throughput | null {
  const people = plan.waves.reduce((most, wave) => Math.max(most, wave.people), 0) || plan.people;
  if (people < 1) return null;
  return throughputOf({
    people,
    portions: samplesTasted(plan),
    portionSeconds: portionSecondsOf(plan),
    pauseSeconds: plan.serving.pauseSeconds,
    withinSeconds: plan.chew.weighWithinSeconds,
  });
}

/** What may make a difference of its own: worth a second look, and no reason not to lock. */
export type ChewFlag =
  | { what: "coarse-balance"; points: number; matters: number }
  | { what: "second"; points: number; matters: number }
  | { what: "many-portions"; portions: number; most: number };

/** A balance is coarse where two of its steps are more than a quarter of what is sought. */
export function chewFlags(plan: Plan): ChewFlag[] {
  const { chew, serving } = plan;
  const step = Number(chew.balanceStep);
  const balance = step > 0 && serving.portionGrams !== null ? pointsOfBalance(step, serving.portionGrams) : 0;
  const second = pointsOfASecond(gainSupposed.percent, chew.seconds);
  const portions = samplesTasted(plan);
  const { matters } = chew;
  return [
    ...(matters !== null && balance > matters / 4
      ? [{ what: "coarse-balance", points: balance, matters } as const]
      : []),
    ...(matters !== null && second > matters / 4 ? [{ what: "second", points: second, matters } as const] : []),
    ...(portions > mostPortions ? [{ what: "many-portions", portions, most: mostPortions } as const] : []),
  ];
}
