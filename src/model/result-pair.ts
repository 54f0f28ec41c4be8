import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { pairMethods } from "./method.ts";
import { askedProperty, outcomes, repeatsFields } from "./outcome.ts";
import { noPreferenceRules } from "./plan.ts";
import { count, line } from "./schema.ts";

/**
 * The statistics of a pair in which nobody is right: a paired preference, or a two-sided paired difference, from three
 * counts alone: for the first product, for the second, and for neither. `judgments` are the answers that the rule for "no preference" leaves to the test; with an odd number to
 * split, the one left over is left out.
 */
export const pairStatistics = z.strictObject({
  family: z.literal("pair"),
  method: z.enum(pairMethods),
  goal: z.literal("difference"),
  sides: z.literal("two"),
  alpha: z.number(),
  /** What was asked; null for a preference, and for answers that came without a plan. */
  property: z.nullable(askedProperty),
  noPreference: z.enum(noPreferenceRules),
  /** As answered, always all three. `products` name them, first and second in the order of the plan or of the file. */
  products: z.tuple([line, line]),
  counts: z.strictObject({ first: count, second: count, none: count }),
  /** How many people gave the answers. With several answers a person the test counts people: see `byPerson`. */
  people: count,
  /** What the test counts, after the rule. */
  judgments: count,
  tested: z.strictObject({ first: count, second: count }),
  guessProbability: z.number(),
  expectedByGuessing: z.number(),
  /** Least votes for either product that reach alpha; null when even all would not. */
  criticalNumber: z.nullable(count),
  chanceAtCritical: z.nullable(z.number()),
  pValue: z.number(),
  pValueAdjusted: z.nullable(z.number()),
  outcome: z.enum(outcomes),
  /** Of those counted by the test: share that prefers the first, the second. Two-sided at 1 - alpha, as the test is. */
  firstShare: interval,
  secondShare: interval,
  firstShareScore: interval,
  /** Paired difference: distance by which the first has more than the second; negative where it has less. */
  dPrime: z.nullable(interval),
  dPrimeProfile: z.nullable(interval),
  dPrimeStandardError: z.nullable(z.number()),
  /** Of everybody asked: the three shares. */
  ofAll: z.strictObject({ first: interval, second: interval, none: interval }),
  /** 100 panels without a preference: how many of them fall on each count for the first product. */
  guessingPanels: z.array(count),
  /** Chance that the plan finds this share among those with a preference, in either direction. */
  power: z.nullable(z.strictObject({ share: z.number(), people: count, power: z.number() })),
  ...repeatsFields,
  /**
   * With several answers a person, who differ in what they like even if nothing leads: the exact test of the people's
   * own leads, with signs changed at random. `pValue` is its p; shares are estimates alone. Null with one answer each.
   */
  byPerson: z.nullable(z.strictObject({ first: count, second: count, tied: count })),
  /** "No preference" against an earlier study of identical pairs: one-sided, fewer here. Null where none was named. */
  blankNorm: z.nullable(
    z.strictObject({ title: line, none: count, of: count, share: interval, here: interval, pValue: z.number() }),
  ),
});
export type PairStatistics = z.infer<typeof pairStatistics>;
