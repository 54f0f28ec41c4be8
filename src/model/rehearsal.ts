import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { plan } from "./plan.ts";
import { result } from "./result.ts";
import { count, line } from "./schema.ts";

/** In what an invented world's effect is counted; see `design/invented-panel`. */
export const effectUnits = ["share", "lead", "d-prime", "points"] as const;
export type EffectUnit = (typeof effectUnits)[number];

/** How many studies of each world may be played in one rehearsal. */
export const playsOfRehearsal = { least: 10, usual: 1000, most: 100_000 } as const;

/** What to play: a plan, what is true in the world where a yes is right, how often, and the seed of all its luck. */
export const rehearsalAsked = z.strictObject({
  plan,
  effect: z.number().check(z.minimum(0), z.maximum(100)),
  deviation: z.number().check(z.gt(0), z.lte(100)),
  plays: z.number().check(z.int(), z.minimum(playsOfRehearsal.least), z.maximum(playsOfRehearsal.most)),
  seed: line,
});
export type RehearsalAsked = z.infer<typeof rehearsalAsked>;

const worldPlayed = z.strictObject({
  effect: z.number(),
  plays: count,
  /** Studies that said yes: a difference; of a likeness goal, alike within the limit. */
  yes: count,
  /** Share of them, with its exact two-sided 95 % interval: luck of so many plays alone. */
  share: interval,
  /** What the plan's exact test gives for this world; null where that is not counted out. */
  expected: z.nullable(z.number()),
});
export type WorldPlayed = z.infer<typeof worldPlayed>;

/** What came of a rehearsal. Nothing in it was tasted by anybody. */
export const rehearsal = z.strictObject({
  v: z.literal(1),
  app: line,
  seed: line,
  unit: z.enum(effectUnits),
  /** Points that one mark scatters; null but for a line scale. */
  deviation: z.nullable(z.number()),
  /** A yes is right in the one, and wrong in the other. */
  rightly: worldPlayed,
  wrongly: worldPlayed,
  /** The first studies of the world where a yes is right. */
  examples: z.array(result).check(z.maxLength(3)),
});
export type Rehearsal = z.infer<typeof rehearsal>;
