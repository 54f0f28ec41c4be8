import * as z from "zod/mini";
import { portionsLeftOut } from "./portion-check.ts";
import { code, count, line, trayNumber } from "./schema.ts";

/** Of chewed portions, what the record holds beside the chewing itself. */

const place = z.strictObject({ tray: trayNumber, code });

/**
 * What the balance showed of one portion, in grams as typed. None: not weighed; several of one stage contradict each other
 * and count nowhere. `rinse`: water in the closed cup; empty: none.
 */
export const weighedPortion = z.strictObject({
  ...place.shape,
  cup: z.array(line),
  portion: z.array(line),
  after: z.array(line),
  rinse: line,
  /** Whole seconds for which the closed cup waited at least, as whoever weighed knew; null: not timed. */
  waitedSeconds: z._default(z.nullable(count), null),
});
export type WeighedPortion = z.infer<typeof weighedPortion>;

/** What did not go by the plan between mouth and balance. */
export const portionDepartures = [
  /** Chewed portions that do not count, those of one reason together. */
  z.strictObject({
    what: z.literal("portions-left-out"),
    why: z.enum(portionsLeftOut),
    portions: z.array(place),
  }),
  /** A closed cup was weighed, and no tablet says that its portion was chewed. */
  z.strictObject({ what: z.literal("weighed-not-chewed"), portions: z.array(place) }),
  /** A portion that counts, by so many grams larger than planned (or smaller, below 0), more than was allowed. */
  z.strictObject({ what: z.literal("portion-off-mass"), ...place.shape, grams: z.number() }),
  /** Portions that count and whose closed cups waited longer than planned (`within`, seconds); `longest`: of them, seconds. */
  z.strictObject({
    what: z.literal("portions-weighed-late"),
    within: count,
    longest: count,
    portions: z.array(place),
  }),
  z.strictObject({ what: z.literal("weighings-taken-back"), readings: count }),
  /** Readings of a tray or a code that the plan does not have. */
  z.strictObject({ what: z.literal("weighings-off-plan"), readings: count }),
] as const;
