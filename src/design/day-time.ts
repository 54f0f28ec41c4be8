import { shapeOf } from "../model/method.ts";
import { askedAttributes } from "../model/moments.ts";
import type { Plan } from "../model/plan.ts";
import { designMethod, heldOf, ordersOf, partsOf, productBounds } from "./method.ts";
import { inEachSession } from "./seating.ts";

/** What a plan takes at the table: cups on a tray, minutes of a sitting, and whether the food stays as it should be. */

/** Seconds that each further question about one sample takes, and the answer of a tray that has one. Common practice, no source. */
const furtherQuestion = 10;
const trayAnswer = 15;
/** Less pause than this between samples is flagged: thirty seconds is usual (a page on preparing samples). */
const leastPause = 30;

/** Products of a plan that names none yet: the fewest that its method and the answer to the planner allow. */
function productsExpected(plan: Plan): number {
  const { least, most } = productBounds(plan);
  return plan.asked.products === "few" ? Math.min(most, Math.max(least, 3)) : least;
}

/** Cups of one tray, the reference among them; while the plan has no products, of as many as its method needs. */
export function cupsOnTray(plan: Plan): number {
  const planned = ordersOf(plan)[0];
  const least = productsExpected(plan);
  const roles = { products: least, references: ["A"], stronger: "A", weaker: "B" };
  const order = planned ?? (heldOf(plan) === null ? designMethod(plan.method).orders(roles)[0] : undefined);
  if (order === undefined) return plan.perTray ?? least;
  const { reference, samples } = partsOf(order);
  return samples.length + (reference === null ? 0 : 1);
}

/** Trays that one person has in a sitting, and sittings in all. */
export const sittingsOf = (plan: Plan): { trays: number; sittings: number } =>
  inEachSession(plan) ? { trays: 1, sittings: plan.repeats } : { trays: plan.repeats, sittings: 1 };

/** How many people taste at once: those of the largest wave, else as many as there are seats; null while neither is said. */
export const atOnce = ({ waves, pace }: Pick<Plan, "waves" | "pace">): number | null =>
  waves.reduce((most, { people }) => Math.max(most, people), 0) || pace.seats;

/** Samples that one person tastes in a sitting and that count: references yes, the warm-up no. */
export const samplesTasted = (plan: Plan): number => cupsOnTray(plan) * sittingsOf(plan).trays;

/** Seconds for one sample without the pause: tasting, and what is asked about it alone; never over before its last moment. */
function sampleSeconds({ method, scale, chew, pace }: Plan): number {
  if (shapeOf(method).answer === "portions") return portionSecondsOf({ chew });
  if (shapeOf(method).answer !== "marks") return pace.tasteSeconds;
  const asked = askedAttributes(scale.attributes);
  const moments = asked.map(({ moment }) => (moment.at === "after" ? moment.seconds + furtherQuestion : 0));
  return Math.max(pace.tasteSeconds + furtherQuestion * Math.max(0, asked.length - 1), ...moments);
}

/** Is everything asked of the samples one by one, and nothing of the tray? */
const asksAtSample = ({ method }: Plan): boolean => ["marks", "portions"].includes(shapeOf(method).answer);

/** Seconds to rinse or dry the mouth, to open a cup, and to rinse into it and close it (common practice, no source). */
const handling = { mouth: 15, open: 10, close: 20 } as const;

/** Seconds of one chewed portion of the plan. */
export const portionSecondsOf = ({ chew }: Pick<Plan, "chew">): number =>
  handling.mouth +
  (chew.mouth === "rinsed-and-waited" ? chew.waitSeconds : 0) +
  handling.open +
  chew.seconds +
  handling.close;

/** What would bring the last cup back into the window; each null where that alone does not, or would be nothing new. */
export type Remedy = { people: number | null; samples: number | null; pauseSeconds: number | null };

export type DayTime = {
  /** Samples of a sitting that count, and whether the plan's own limit is passed. */
  samples: number;
  tooMany: boolean;
  /** Is the pause shorter than usual? */
  shortPause: boolean;
  /** Seconds of one person's sitting from first cup to last answer. */
  sittingSeconds: number;
  /** People of the largest wave, or in all seats at once; null while neither is said. */
  largest: number | null;
  /** Seconds after its start at which a wave is over, the largest one; and at which its last cup is tasted. */
  waveSeconds: number;
  lastCupSeconds: number;
  /** Minutes after leaving the heat at which that cup is tasted if the wave begins with the window; null without one. */
  lastCupAt: number | null;
  /** Is that past the window? Then the last places are colder than the first. */
  past: boolean;
  remedy: Remedy;
};

/**
 * How long a sitting and a wave take.
 *
 * Takes    plan: trays of a wave are brought one after the other, `serveSeconds` apart; everybody begins when theirs is
 *          there, tastes `samples` with a pause before each but the first, and answers. A wave's food is taken to leave
 *          the heat `windowFrom` minutes before the wave begins, all of it at once
 * Returns  seconds; nothing of it is measured
 */
export function dayTime(plan: Plan): DayTime {
  const { pace, serving } = plan;
  const samples = samplesTasted(plan);
  const seated = atOnce(plan);
  const largest = seated && Math.min(seated, Math.max(1, plan.people));
  const last = lastCup(plan, { people: largest ?? 1, samples, pauseSeconds: serving.pauseSeconds });
  const from = pace.windowFrom ?? 0;
  const lastCupAt = pace.windowTo === null ? null : from + last / 60;
  const sittingSeconds = last - waiting(plan, largest ?? 1) + afterLast(plan);
  return {
    samples,
    tooMany: samples > pace.mostSamples,
    shortPause: samples > 1 && serving.pauseSeconds < leastPause,
    sittingSeconds,
    largest,
    waveSeconds: sittingSeconds + waiting(plan, largest ?? 1),
    lastCupSeconds: last,
    lastCupAt,
    past: pace.windowTo !== null && lastCupAt !== null && lastCupAt > pace.windowTo,
    remedy: remedyOf(plan, { people: largest ?? 1, samples, pauseSeconds: serving.pauseSeconds }),
  };
}

type Load = { people: number; samples: number; pauseSeconds: number };

const waiting = ({ pace }: Plan, people: number): number => pace.serveSeconds * (people - 1);

/** Seconds from the taste of the last cup to the last answer. */
function afterLast(plan: Plan): number {
  return sampleSeconds(plan) + (asksAtSample(plan) ? 0 : trayAnswer);
}

/** Seconds from the start of a wave until its last person begins the last sample. */
function lastCup(plan: Plan, { people, samples, pauseSeconds }: Load): number {
  const { trays } = sittingsOf(plan);
  const cups = samples + (plan.serving.warmUp ? 1 : 0);
  const answers = asksAtSample(plan) ? 0 : trayAnswer * (trays - 1);
  return waiting(plan, people) + (cups - 1) * (sampleSeconds(plan) + pauseSeconds) + answers;
}

function remedyOf(plan: Plan, load: Load): Remedy {
  const { windowFrom, windowTo } = plan.pace;
  const none = { people: null, samples: null, pauseSeconds: null };
  if (windowTo === null) return none;
  const room = (windowTo - (windowFrom ?? 0)) * 60;
  const fits = (change: Partial<Load>): boolean => lastCup(plan, { ...load, ...change }) <= room;
  if (fits({})) return none;
  const most = (low: number, high: number, step: number, make: (value: number) => Partial<Load>): number | null => {
    for (let value = high; value >= low; value -= step) if (fits(make(value))) return value;
    return null;
  };
  const tray = cupsOnTray(plan);
  return {
    people: most(1, load.people - 1, 1, (people) => ({ people })),
    // whole trays: fewer of them, since a tray is what its method makes it
    samples: most(tray, load.samples - tray, tray, (samples) => ({ samples })),
    pauseSeconds: most(leastPause, load.pauseSeconds - 5, 5, (pauseSeconds) => ({ pauseSeconds })),
  };
}
