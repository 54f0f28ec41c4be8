import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { kindsMethods } from "./method.ts";
import { outcomes } from "./outcome.ts";
import { count, line } from "./schema.ts";

/**
 * One kind of tray. unlike: two different products, or a sample that is not A. like: the same product twice, or A.
 * `told` are those that were called different, or not A. Shares at the chosen confidence, exact and by the score.
 */
const kind = z.strictObject({ told: count, of: count, share: interval, shareScore: interval });

/**
 * The statistics of same-different and A-not-A: two kinds of trays, two answers, four counts. Nobody is right by a
 * known chance: people lean to one answer, so the kinds are held against each other.
 */
export const kindsStatistics = z.strictObject({
  family: z.literal("kinds"),
  method: z.enum(kindsMethods),
  goal: z.literal("difference"),
  sides: z.literal("one"),
  alpha: z.number(),
  unlike: kind,
  like: kind,
  judgments: count,
  people: count,
  /** Least `unlike.told` that reaches alpha with these margins; null when none would. One answer a person only. */
  criticalNumber: z.nullable(count),
  chanceAtCritical: z.nullable(z.number()),
  /** Exact, one-sided, given how many of each kind were served and told: within each person where people gave several. */
  pValue: z.number(),
  /** Were the counts of every person held against each other, since people gave several answers? */
  withinPeople: z.boolean(),
  outcome: z.enum(outcomes),
  /** Odds of "told" for unlike trays over those for like ones, with the exact bound that goes with the test. */
  oddsRatio: interval,
  /** Profile likelihood, lower bound at 1 - alpha, kept on the side of 0 where the test stands. */
  dPrime: interval,
  dPrimeProfile: interval,
  dPrimeStandardError: z.nullable(z.number()),
  /** Where people draw the line between the two answers, in the same units; null where it has no finite value. */
  criterion: z.nullable(z.number()),
  /** Under no difference: chance of each count of `unlike.told` for the picture, index 0 to `unlike.of`. */
  guessingPanels: z.array(count),
  power: z.nullable(z.strictObject({ dPrime: z.number(), people: count, power: z.number() })),
  panelists: z.array(
    z.strictObject({ panelist: line, unlikeTold: count, unlike: count, likeTold: count, like: count }),
  ),
});
export type KindsStatistics = z.infer<typeof kindsStatistics>;
