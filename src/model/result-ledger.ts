import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { blottings, drawings } from "./ledger.ts";
import { count, line } from "./schema.ts";

/** What a weighing ledger says. Percent is always of a named base; what lies between two percentages is percentage points. */

const number = z.nullable(z.number());

/** One batch at one step. Null: not weighed, or nothing to hold it against; of the first step there is no loss. */
const weighed = z.strictObject({
  step: line,
  grams: number,
  /** The same with the decimals of its readings: "1497.0"; empty where it was not weighed. */
  gramsText: line,
  lossGrams: number,
  /** Of what the step began with. */
  lossPercent: number,
  /** Of the raw mass: what is left, and what is gone since then. */
  yieldPercent: number,
  totalLossPercent: number,
  /** Of what the step began with: juice that was caught, and what is gone and was not caught. */
  dripLossPercent: number,
  evaporativeLossPercent: number,
  blotted: z.enum(blottings),
  /** As typed; empty: no liquid was added since the step before, or it is not recorded when and how hot it was weighed. */
  added: z._default(line, ""),
  minutes: z._default(line, ""),
  celsius: z._default(line, ""),
});
export type Weighed = z.infer<typeof weighed>;

const meanOfBatches = z.strictObject({ batches: count, percent: interval });

/** Null where chance cannot be told: one batch, or no scatter. */
const test = z.nullable(
  z.strictObject({ standardError: z.number(), df: z.number(), tValue: z.number(), pValue: z.number() }),
);

/** Second product less the first, in percentage points of the base. */
export const massDifference = z.strictObject({
  step: line,
  /** step: of what the step began with; raw: of the raw mass, since then. */
  base: z.enum(["step", "raw"]),
  first: line,
  second: line,
  firstBatches: count,
  secondBatches: count,
  design: z.enum(["independent", "paired"]),
  percentagePoints: interval,
  test,
});
export type MassDifference = z.infer<typeof massDifference>;

/** Twice the balance's step against the smallest mass it weighed, in percentage points, beside the effect it is to show. */
export const coarseWarning = z.strictObject({
  what: z.literal("coarse"),
  balanceStep: z.number(),
  grams: z.number(),
  points: z.number(),
  effect: z.number(),
  sought: z.boolean(),
});

/** Least and greatest mean of a product, where they lie too far apart. */
const apart = z.nullable(z.strictObject({ least: z.number(), most: z.number() }));

/** When after the heat and how hot batches were weighed at a step: said of some alone, or too far apart between products. */
const protocolWarning = z.strictObject({
  what: z.literal("protocol-differs"),
  step: line,
  partly: z.array(z.enum(["minutes", "celsius"])),
  minutes: apart,
  celsius: apart,
});
export type ProtocolWarning = z.infer<typeof protocolWarning>;

/** What limits the result. */
const warning = z.discriminatedUnion("what", [
  z.strictObject({ what: z.literal("one-batch"), product: line }),
  z.strictObject({ what: z.literal("no-scatter"), step: line }),
  z.strictObject({ what: z.literal("not-weighed"), product: line, batch: line, step: line }),
  z.strictObject({ what: z.literal("blotted-differs"), step: line }),
  z.strictObject({ what: z.literal("pairs-incomplete"), first: line, second: line }),
  protocolWarning,
  coarseWarning,
]);
export type LedgerWarning = z.infer<typeof warning>;

export const ledgerResult = z.strictObject({
  v: z.literal(1),
  kind: z.literal("ledger"),
  app: line,
  products: z.array(line),
  steps: z.array(line),
  drawn: z.enum(drawings),
  /** Percentage points of the raw mass; null: none was named. */
  matters: number,
  confidence: z.number(),
  batches: z.array(z.strictObject({ product: line, batch: line, lot: line, pair: line, steps: z.array(weighed) })),
  means: z.array(z.strictObject({ product: line, step: line, loss: meanOfBatches, totalLoss: meanOfBatches })),
  /** By product against the first, then by step: on the step's base, then on the raw one. */
  differences: z.array(massDifference),
  /** What is left of the raw mass after the last step: second over first. */
  yieldRatios: z.array(z.strictObject({ step: line, first: line, second: line, ratio: interval })),
  warnings: z.array(warning),
});
export type LedgerResult = z.infer<typeof ledgerResult>;
export type MeanOfBatches = z.infer<typeof meanOfBatches>;
