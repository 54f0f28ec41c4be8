import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { methods } from "./method.ts";
import { askedProperty, outcomes, repeatsFields } from "./outcome.ts";
import { goals } from "./plan.ts";
import { count } from "./schema.ts";

/**
 * The path of a study with a stopping rule. Null where it was to go on until everybody had answered. The verdict stands
 * on the counts at the look that decided; the p-value orders outcomes by when they stop, and then by count.
 */
export const stoppingField = z.nullable(
  z.strictObject({
    rule: z.enum(["looks", "sequential"]),
    /** At each look, the last one included: what was there, and what would have decided. */
    looks: z.array(
      z.strictObject({
        judgments: count,
        correct: count,
        /** Least right to stop with a yes, most right to stop with a no; null where none would. */
        upper: z.nullable(count),
        lower: z.nullable(count),
        said: z.enum(["yes", "no", "go-on"]),
      }),
    ),
    /** Did a look before the last answer planned decide? */
    early: z.boolean(),
    planned: count,
    /** Answers that came after the look that decided: listed, not counted. */
    after: count,
    /** Chance of a yes under guessing with these looks, counted out. */
    totalAlpha: z.number(),
    /** Wald only: the risk of a no although what was sought is true, and the share right that goes with it. */
    beta: z.nullable(z.number()),
    soughtShare: z.nullable(z.number()),
  }),
);
export type StoppingPath = z.infer<typeof stoppingField>;

/** The statistics of one choice test, from the two counts alone. Design page, section 9. */
export const choiceStatistics = z.strictObject({
  family: z.literal("choice"),
  method: z.enum(methods),
  goal: z.enum(goals),
  sides: z.literal("one"),
  alpha: z.number(),
  /** Of a directional choice that came with a plan. */
  property: z.nullable(askedProperty),
  judgments: count,
  /** How many different people gave the answers; one for each answer where nothing else is known. */
  people: count,
  correct: count,
  guessProbability: z.number(),
  expectedByGuessing: z.number(),
  /** Similarity goal: the limit, as a share who can tell and as the share right that goes with it, and its risk. */
  limit: z.nullable(
    z.strictObject({
      discriminatorShare: z.number(),
      correctShare: z.number(),
      /** Null where the share has no finite distance. */
      dPrime: z.nullable(z.number()),
      /** In which of the two it was fixed. */
      fixedAs: z.enum(["share", "d-prime"]),
      beta: z.number(),
    }),
  ),
  /**
   * Difference: least right answers that reach alpha; null when even all right would not. Similarity: most right answers
   * that still show it at beta; null when even none would not.
   */
  criticalNumber: z.nullable(count),
  /**
   * How likely a guessing panel reaches the critical number: the alpha really spent. Similarity: how likely a panel at
   * the limit stays at or under it: the beta really spent.
   */
  chanceAtCritical: z.nullable(z.number()),
  /** Under guessing; for a similarity goal under a panel at the limit: how likely so few right, or fewer, would be. */
  pValue: z.number(),
  outcome: z.enum(outcomes),
  /** Holm, where the question shares its risk with others; then the outcome goes by it. Null where it stands alone. */
  pValueAdjusted: z.nullable(z.number()),
  /** Two-sided at the confidence that was chosen: exact (Clopper-Pearson), and by the score. */
  correctShare: interval,
  correctShareScore: interval,
  discriminatorShare: interval,
  discriminatorShareScore: interval,
  /**
   * Both ends of what the answers allow, two-sided at 1 - 2 alpha: it leaves 0 out if and only if p <= alpha.
   * Similarity: at 1 - 2 beta, and it lies under the limit if and only if p <= beta.
   */
  discriminatorShareRange: interval,
  /** The exact bounds of the share, mapped through the psychometric function. */
  dPrime: interval,
  /**
   * For the details: two-sided profile likelihood at the chosen confidence, and the standard error from the slope of
   * the psychometric function; null where that is flat (at and below guessing) or the estimate has no finite value.
   */
  dPrimeProfile: interval,
  dPrimeStandardError: z.nullable(z.number()),
  /**
   * 100 panels that only guess: how many of them fall on each count (index = number right). Similarity: 100 panels of
   * which the limit's share can tell.
   */
  guessingPanels: z.array(count),
  /** Chance that the plan reaches its critical number. Similarity: when nobody can tell, and the share is 0. */
  power: z.nullable(
    z.strictObject({
      discriminatorShare: z.number(),
      /** Null where the plan named the share, or the share has no finite distance. */
      dPrime: z.nullable(z.number()),
      people: count,
      power: z.number(),
    }),
  ),
  ...repeatsFields,
  stopping: stoppingField,
});
export type ChoiceStatistics = z.infer<typeof choiceStatistics>;
