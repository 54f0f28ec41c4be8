import * as z from "zod/mini";
import type { ScaleForm } from "./attribute.ts";
import { interval } from "./interval.ts";
import { count, line } from "./schema.ts";

/** What values of a scale are counted in: hundredths of the line, or steps from 1. */
export const units = ["points", "steps"] as const;
export type Unit = (typeof units)[number];
export const unitOf = ({ kind }: ScaleForm): Unit => (kind === "line" ? "points" : "steps");

/** How often each step of a scale was chosen, first step first. */
export const distribution = z.array(z.strictObject({ product: line, counts: z.array(count) }));
export type Distribution = z.infer<typeof distribution>;

/**
 * The products in order by each panelist, from the steps they gave: Friedman's test, which asks for no equal steps. Over the
 * panelists with an answer for every product; repeats are averaged first.
 */
export const stepRanks = z.strictObject({
  people: count,
  chiSquare: z.number(),
  df: count,
  pValue: z.number(),
  exact: z.boolean(),
  concordance: z.number(),
});
export type StepRanks = z.infer<typeof stepRanks>;

/** By how much those on one side liked the product less than those to whom it was just right; see `analysis/just-right`. */
const likingDrop = z.strictObject({
  people: count,
  peopleRight: count,
  tooFew: z.boolean(),
  meanSide: z.nullable(z.number()),
  meanRight: z.nullable(z.number()),
  drop: z.nullable(z.number()),
  test: z.nullable(z.strictObject({ low: z.number(), high: z.number(), df: z.number(), pValue: z.number() })),
});

/** Too little, just right and too much, product by product, and what either side did to liking. */
export const justRightResult = z.strictObject({
  /** Place of the liking among the attributes, from 0; null where none was asked. */
  liking: z.nullable(count),
  /** Did somebody answer more than once for a product? Then there are no intervals. */
  repeated: z.boolean(),
  products: z.array(
    z.strictObject({
      product: line,
      judgments: count,
      counts: z.array(count),
      shares: z.strictObject({ little: interval, right: interval, much: interval }),
      drops: z.strictObject({ little: likingDrop, much: likingDrop }),
    }),
  ),
});
export type JustRightResult = z.infer<typeof justRightResult>;
