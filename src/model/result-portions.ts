import * as z from "zod/mini";
import { outcomes } from "./outcome.ts";
import { chewResult } from "./result-chew.ts";
import { count, line } from "./schema.ts";

/**
 * The result of a study of chewed portions: what the masses say, in `masses` as the terminal gives it for a file, and
 * whether a difference was shown by the rule locked beforehand. No direction of it is presumed.
 */
export const portionsStatistics = z.strictObject({
  family: z.literal("portions"),
  method: z.literal("chew-and-weigh"),
  goal: z.literal("difference"),
  sides: z.literal("two"),
  alpha: z.number(),
  confidence: z.number(),
  /** In the order of the plan, without the control. */
  products: z.array(line),
  /** People with a portion that counts, and such portions, those of the control left out. */
  people: count,
  judgments: count,
  outcome: z.enum(outcomes),
  masses: chewResult,
});
