import * as z from "zod/mini";
import { askedChew } from "./chew.ts";
import { readingPattern } from "./grams.ts";
import type { Method } from "./method.ts";
import { id, line } from "./schema.ts";

/**
 * Portions that are weighed, chewed for a fixed time, spat into a lidded cup and weighed again. What is gained is saliva less
 * juice and bits: no measure of juiciness, and no direction of it is presumed.
 */
export const chew = z.strictObject({
  ...askedChew.shape,
  /** How far a portion may be from the planned mass, in grams. */
  toleranceGrams: z.number().check(z.gt(0), z.maximum(50)),
  /** Smallest step of the balance in grams, as it is written on it; empty until said. */
  balanceStep: z.union([z.literal(""), z.string().check(z.regex(readingPattern, "a mass in grams like 0.01"))]),
  /** A closed cup is weighed within so many seconds. */
  weighWithinSeconds: z.number().check(z.int(), z.minimum(10), z.maximum(3600)),
  /** The product that is inert and shows saliva alone; null: there is none. */
  control: z.nullable(id),
  /** Smallest difference of two gains that matters, in percentage points; null: none was named. */
  matters: z.nullable(z.number().check(z.gt(0), z.maximum(100))),
  /**
   * How far people are supposed to differ in that difference: the standard deviation of one person's, in percentage points,
   * and where the figure comes from. Null: nothing was supposed.
   */
  scatter: z._default(
    z.nullable(z.strictObject({ deviation: z.number().check(z.gt(0), z.maximum(100)), from: line })),
    null,
  ),
});
export type Chew = z.infer<typeof chew>;

/** What becomes of a sample: where portions are weighed again, all of them are spat out, whatever the plan says besides. */
export const swallowOf = <S>({ method, serving }: { method: Method; serving: { swallow: S } }): S | "spit" =>
  method === "chew-and-weigh" ? "spit" : serving.swallow;

/** Figures to begin with: common practice, no source. */
export const usualChew = (): Chew => ({
  ...{ seconds: 15, mouth: "rinsed-and-waited", waitSeconds: 30, rinseGrams: 10, toleranceGrams: 0.3 },
  ...{ balanceStep: "", weighWithinSeconds: 120, control: null, matters: null, scatter: null },
});
