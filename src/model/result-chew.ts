import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { coarseWarning } from "./result-ledger.ts";
import { count, line } from "./schema.ts";

/** What chewed and weighed portions say. A gain is in percent of the portion; what lies between two gains is percentage points. */

const number = z.nullable(z.number());

/** A person's portions of a product, averaged; grams and seconds null where they are not all known. */
const ofPerson = z.strictObject({
  panelist: line,
  product: line,
  portions: count,
  gainPercent: z.number(),
  gainGrams: number,
  seconds: number,
});

/** Over people, or over the portions of one person alone. */
const mean = z.strictObject({
  product: line,
  panelists: count,
  portions: count,
  gainPercent: interval,
  gainGrams: interval,
  seconds: number,
});

export const gainDifference = z.strictObject({
  /** Second less first. */
  first: line,
  second: line,
  /** Pairs of a person's means, or of one person the portions of each. */
  units: z.tuple([count, count]),
  design: z.enum(["independent", "paired"]),
  percentagePoints: interval,
  grams: interval,
  test: z.nullable(
    z.strictObject({ standardError: z.number(), df: z.number(), tValue: z.number(), pValue: z.number() }),
  ),
  /** Second over first; without bounds where the first cannot be told from no gain, without estimate where it is not above 0. */
  ratio: interval,
});
export type GainDifference = z.infer<typeof gainDifference>;

const warning = z.discriminatedUnion("what", [
  z.strictObject({ what: z.literal("one-person"), panelist: line }),
  z.strictObject({ what: z.literal("few-people"), people: count, least: count }),
  z.strictObject({ what: z.literal("few-portions"), portions: count, least: count }),
  z.strictObject({ what: z.literal("left-out"), second: line, panelists: z.array(line) }),
  z.strictObject({ what: z.literal("repeats-differ"), fewest: count, most: count }),
  z.strictObject({ what: z.literal("seconds-unknown"), portions: count, of: count }),
  z.strictObject({ what: z.literal("seconds-off"), portions: count, of: count, planned: z.number() }),
  /** Mean chewing times differ; in points if mass rises evenly with time. */
  z.strictObject({
    what: z.literal("seconds-differ"),
    first: line,
    second: line,
    seconds: z.number(),
    points: z.number(),
  }),
  coarseWarning,
]);
export type ChewWarning = z.infer<typeof warning>;

export const chewResult = z.strictObject({
  v: z.literal(1),
  kind: z.literal("chew-and-weigh"),
  app: line,
  /** The first is what others are compared with; the control is not among them. */
  products: z.array(line),
  /** An inert portion that shows saliva alone; null: there was none. */
  control: z.nullable(line),
  confidence: z.number(),
  matters: number,
  plannedSeconds: number,
  /** panelist: a person's mean counts once. portion: one person alone, and what is said is said of that person. */
  unit: z.enum(["panelist", "portion"]),
  panelists: z.array(ofPerson),
  means: z.array(mean),
  differences: z.array(gainDifference),
  warnings: z.array(warning),
});
export type ChewResult = z.infer<typeof chewResult>;
