import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { ledger } from "./ledger.ts";
import { chewResult } from "./result-chew.ts";
import { count, id, line } from "./schema.ts";

/** Masses that a lead puts beside what a panel perceived: they stay where they are, and a study has a copy. */

/** What a product is called where it was weighed, and which product of the study that is; null: none of them. */
const named = z.array(z.strictObject({ named: line, product: z.nullable(id) })).check(z.maxLength(12));

export const massSource = z.discriminatedUnion("kind", [
  /** The weighing ledger of a claim. */
  z.strictObject({ kind: z.literal("ledger"), claim: id, title: line, ledger, products: named }),
  /** What chewed and weighed portions of another study said. */
  z.strictObject({ kind: z.literal("portions"), study: id, title: line, found: chewResult, products: named }),
]);
export type MassSource = z.infer<typeof massSource>;

export const massSources = z.array(massSource).check(z.maxLength(6));

/** One difference of masses between two products of a study, in percentage points: second less first. */
export const measured = z.strictObject({
  /** Where it was weighed, as that is called. */
  title: line,
  /** Loss of a step on its own base; loss since raw; mass gained by chewed portions. */
  what: z.enum(["step-loss", "total-loss", "gain"]),
  /** The step; empty for a gain. */
  step: line,
  first: line,
  second: line,
  firstPercent: z.nullable(z.number()),
  secondPercent: z.nullable(z.number()),
  difference: interval,
  unit: z.enum(["batches", "panelists", "portions"]),
  units: z.tuple([count, count]),
  design: z.enum(["independent", "paired"]),
  /** Was it put beside the answers when the key was open? */
  afterReveal: z.boolean(),
});
export type Measured = z.infer<typeof measured>;
