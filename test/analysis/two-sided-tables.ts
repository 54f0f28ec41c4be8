import * as z from "zod/mini";
import { reference } from "./reference.ts";

/** Least counts of two-sided tests: Triola's printed table, and one computed outside. */
const cell = z.nullable(z.number());
export const published = reference(
  "two-sided-critical-published",
  z.object({
    rows: z.array(z.tuple([z.number(), cell, cell, cell, cell, cell, cell, cell, cell])).check(z.minLength(21)),
  }),
);
export const computed = reference(
  "two-sided-critical-computed",
  z.object({ rows: z.array(z.tuple([z.number(), cell, cell, cell, cell, cell])).check(z.minLength(117)) }),
);
