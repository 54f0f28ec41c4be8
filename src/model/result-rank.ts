import * as z from "zod/mini";
import { outcomes } from "./outcome.ts";
import { count, line } from "./schema.ts";

/**
 * Why a ranking has no test, or "ok". no-ranks: nobody ranked every product; one-product: nothing to compare it with;
 * all-shared: everybody gave all products one place.
 */
export const rankTests = ["ok", "no-ranks", "one-product", "all-shared"] as const;
export type RankTest = (typeof rankTests)[number];

/** One product over the people in the test. */
const sumOf = z.strictObject({
  product: line,
  sum: z.number(),
  mean: z.nullable(z.number()),
  /** t interval of the mean rank from these people's ranks, of this product alone; null where they do not vary. */
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  /** How many people gave it each place; a shared place is its midrank. */
  places: z.array(z.strictObject({ rank: z.number(), people: count })),
});

/** `difference` is the rank sum of `first` less that of `second`; `first` is the product later in the plan. */
const pairOf = z.strictObject({
  first: line,
  second: line,
  difference: z.number(),
  /** Differences that the test of all pairs does not exclude, all pairs together; within what is possible. */
  low: z.number(),
  high: z.number(),
  /** Of all pairs together: some two sums lie at least so far apart if nothing differs. */
  pValueAdjusted: z.number(),
  /** People who put `first` above `second`, below it, or in one place with it. */
  above: count,
  below: count,
  shared: count,
});
export type RankPair = z.infer<typeof pairOf>;

/**
 * The statistics of a ranking. Where an order was predicted, Page's test decides; else Friedman's. Ranks count from 1 for
 * the least.
 */
export const rankStatistics = z.strictObject({
  family: z.literal("rank"),
  method: z.literal("ranking"),
  goal: z.literal("difference"),
  sides: z.literal("two"),
  alpha: z.number(),
  confidence: z.number(),
  /** What was ranked, and the two ends; empty for ranks from elsewhere. */
  property: line,
  least: line,
  most: line,
  products: z.array(line),
  /** Names from least to most; empty where no order was predicted. */
  predicted: z.array(line),
  /** People who ranked every product: those in the test; ranks that they gave; of them, those with a shared place. */
  people: count,
  judgments: count,
  sharing: count,
  outcome: z.enum(outcomes),
  test: z.enum(rankTests),
  /** Null without a test. `exact`: counted out, with the p of the chi-square approximation beside it. */
  friedman: z.nullable(
    z.strictObject({
      chiSquare: z.number(),
      df: count,
      pValue: z.number(),
      exact: z.boolean(),
      pValueChiSquare: z.number(),
      concordance: z.number(),
    }),
  ),
  /** Null without a test, or where no order was predicted. One-sided. */
  page: z.nullable(
    z.strictObject({
      value: z.number(),
      expected: z.number(),
      most: z.number(),
      pValue: z.number(),
      exact: z.boolean(),
    }),
  ),
  sums: z.array(sumOf),
  pairs: z.array(pairOf),
  /** Least difference of two rank sums that reaches alpha over all pairs; null where none does, or without a test. */
  criticalDifference: z.nullable(z.number()),
  /** Was the test of the pairs counted out? */
  pairsExact: z.boolean(),
  /** Everybody's ranks in the order of `products`, as they count; null: none. */
  panelists: z.array(z.strictObject({ panelist: line, ranks: z.array(z.nullable(z.number())) })),
  /** People who did not rank every product, and which are missing: they are left out. */
  incomplete: z.array(z.strictObject({ panelist: line, missing: z.array(line) })),
  /** Mean rank by place served, as a check; empty without a study. */
  positions: z.array(z.strictObject({ position: count, judgments: count, mean: z.number() })),
});
export type RankStatistics = z.infer<typeof rankStatistics>;
