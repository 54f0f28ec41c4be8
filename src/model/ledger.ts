import * as z from "zod/mini";
import { readingPattern } from "./grams.ts";
import { line } from "./schema.ts";

/**
 * A weighing ledger: batches of one process each, through steps in one order for all. It needs no panel and no study. A
 * step, a product and a batch go by their place in the document, so that they can be renamed.
 */

export const mostSteps = 12;
export const mostProducts = 6;
export const mostBatches = 300;

/** In grams as typed; empty where none was taken. */
const reading = z.union([z.literal(""), z.string().check(z.regex(readingPattern, "a mass in grams like 1497.6"))]);

/** Minutes and degrees Celsius as typed; food that is weighed frozen lies below 0. */
export const minutesPattern = /^\d{1,4}(\.\d{1,2})?$/;
export const celsiusPattern = /^-?\d{1,3}(\.\d{1,2})?$/;
const typed = (pattern: RegExp, what: string) =>
  z._default(z.union([z.literal(""), z.string().check(z.regex(pattern, what))]), "");

/** "unknown": nobody wrote it down. */
export const blottings = ["unknown", "blotted", "not-blotted"] as const;
export type Blotting = (typeof blottings)[number];

const weighing = z.strictObject({
  /** What the balance showed. */
  grams: reading,
  /** What of it is dish or tray; empty: the balance was set to zero with it. */
  tare: reading,
  /** Juice caught on the way to this step; empty: none was caught. */
  drip: reading,
  blotted: z.enum(blottings),
  /** Why the mass may have grown since the step before: "marinated"; empty: it may not. */
  gainReason: line,
  /** Liquid that was added since the weighing before this one; empty: none was. Never of the first step. */
  added: z._default(reading, ""),
  /** Minutes after the food came off the heat, and what its core then had; empty: not recorded. */
  minutes: typed(minutesPattern, "minutes like 5"),
  celsius: typed(celsiusPattern, "degrees Celsius like 62.5"),
  // who weighed is left out on purpose: it would be personal data, and no number here needs it
});
export type Weighing = z.infer<typeof weighing>;

const batch = z.strictObject({
  /** Which process, by its place. */
  product: z.number().check(z.int(), z.minimum(0), z.maximum(mostProducts - 1)),
  name: line,
  /** Numbers of the raw pieces or the lot; empty: not recorded. */
  lot: line,
  /** Batches of two products with one such name were halves of the same raw material; empty: of none. */
  pair: line,
  /** By step; null: not weighed there. */
  weighings: z.array(z.nullable(weighing)).check(z.maxLength(mostSteps)),
});
export type LedgerBatch = z.infer<typeof batch>;

/** Was it drawn which raw pieces got which process? */
export const drawings = ["unknown", "drawn", "not-drawn"] as const;
export type Drawing = (typeof drawings)[number];

export const ledger = z.strictObject({
  /** The first is what the others are compared with. */
  products: z.array(line).check(z.maxLength(mostProducts)),
  /** The first is the raw mass. */
  steps: z.array(line).check(z.maxLength(mostSteps)),
  batches: z.array(batch).check(z.maxLength(mostBatches)),
  /** Smallest step of the balance in grams; empty: not recorded, and the last digit of a reading stands for it. */
  balanceStep: reading,
  drawn: z.enum(drawings),
  /** Smallest difference that matters, in percentage points of the raw mass; null: none was named. */
  matters: z.nullable(z.number().check(z.gt(0), z.maximum(100))),
});
export type Ledger = z.infer<typeof ledger>;

/** A ledger of two processes in which nothing was weighed yet. */
export const emptyLedger = (steps: readonly string[]): Ledger => ({
  ...{ products: ["", ""], steps: [...steps], batches: [], balanceStep: "", drawn: "unknown", matters: null },
});

/** Does a batch have two weighings, so that whoever wrote it knows a loss? */
export const holdsLosses = ({ batches }: Ledger): boolean =>
  batches.some(({ weighings }) => weighings.filter((each) => each !== null && each.grams !== "").length > 1);
