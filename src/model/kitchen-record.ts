import * as z from "zod/mini";
import { batchReasons, haltReasons } from "./kitchen-event.ts";
import { code, count, id, line, trayNumber } from "./schema.ts";

/** What a study's record says of the kitchen's day: facts; the report words them. Products by id, batches by name. */

/** A batch and the product it is of. Empty: nobody can say which one it was. */
const of = { wave: count, product: z.nullable(id), batch: line };

/** What a row of the log of temperatures and times is about. */
export const rowKinds = ["core", "held-hot", "held-cold", "left", "left-cold", "serving", "served"] as const;
export type RowKind = (typeof rowKinds)[number];

/** How a reading stands beside the limits. allowed: below them, and served in the name of somebody. */
export const rowVerdicts = ["met", "below", "past", "allowed", "no-limit"] as const;

/** A limit beside a reading, and where it comes from. */
const rowLimit = z.strictObject({ celsius: z.number(), heldSeconds: count, restMinutes: count, source: line });

/** One entry of the day: a temperature, or a time. */
export const kitchenRow = z.strictObject({
  ...of,
  /** Empty for what a cup has as it goes out. */
  pot: line,
  tray: z.nullable(trayNumber),
  what: z.enum(rowKinds),
  /** As typed; empty for times. */
  celsius: line,
  heldSeconds: count,
  restMinutes: count,
  /** An instant: when it left the heat or the cold, by the clock on the wall; else when it was read or written down, by that device's clock. */
  time: line,
  /** Null: nothing to hold it against. */
  verdict: z.nullable(z.enum(rowVerdicts)),
  limits: z.array(rowLimit),
  /** Does nothing follow it? Earlier ones stay in the list. */
  latest: z.boolean(),
  probe: line,
  note: line,
});
export type KitchenRow = z.infer<typeof kitchenRow>;

/** A sample that came from another batch than the key says. `code` null: the reference cup; `batch` empty: not recorded. */
export const otherBatch = z.strictObject({ tray: trayNumber, code: z.nullable(code), batch: line });
export type OtherBatch = z.infer<typeof otherBatch>;

/** Why serving was blocked by what the log at hand said. */
export const blockReasons = [
  "not-read",
  "below",
  "apart",
  "held-past",
  "held-without-limit",
  "out-past",
  "out-unknown",
  "out-without-limit",
  "halted",
] as const;

/** How a chain of readings of one batch ended. replaced: no tray was served from it any more. */
const ends = ["met", "allowed", "below", "apart", "replaced"] as const;

/** What of the kitchen's day did not go by the plan. */
export const kitchenDepartures = [
  z.strictObject({
    what: z.literal("core-below"),
    ...of,
    /** All readings of the core, in the order written; the limit that the first cold one missed. */
    celsius: z.array(line),
    limit: z.number(),
    ended: z.enum(ends),
    by: line,
    note: line,
  }),
  z.strictObject({
    what: z.literal("held-past"),
    ...of,
    held: z.enum(["hot", "cold"]),
    celsius: z.array(line),
    limit: z.number(),
    ended: z.enum(ends),
  }),
  /** Where a log of temperatures was kept: a batch whose core nobody read, or of which nobody wrote down when it left the heat. */
  z.strictObject({ what: z.literal("not-written-down"), ...of, lacks: z.enum(["core", "left"]) }),
  /** Trays that were noted as served while the log, as it was by then, held their wave back. */
  z.strictObject({
    what: z.literal("served-blocked"),
    wave: count,
    why: z.enum(blockReasons),
    trays: z.array(trayNumber),
  }),
  z.strictObject({
    what: z.literal("served-outside-window"),
    wave: count,
    side: z.enum(["before", "past"]),
    trays: z.array(trayNumber),
    from: z.nullable(z.number()),
    to: z.nullable(z.number()),
  }),
  z.strictObject({
    what: z.literal("batch-changed"),
    ...of,
    becomes: line,
    reason: z.enum(batchReasons),
    trays: z.array(trayNumber),
    kept: z._default(z.array(trayNumber), []),
    note: line,
  }),
  /** Somebody moved to a wave that has no batch, or several, of a product; or entries disagree; or it is another product's. */
  z.strictObject({
    what: z.literal("batch-not-recorded"),
    why: z.enum(["moved", "apart", "other-product"]),
    trays: z.array(trayNumber),
  }),
  z.strictObject({
    what: z.literal("person-noted"),
    tray: trayNumber,
    /** no-wave: noted with a wave that the plan does not have; `wave` names it. */
    state: z.enum(["late", "missing", "moved", "apart", "no-wave"]),
    wave: z.nullable(count),
    note: line,
  }),
  z.strictObject({ what: z.literal("serving-halted"), why: z.enum(haltReasons), resumed: z.boolean() }),
  z.strictObject({ what: z.literal("tray-unsound"), tray: trayNumber, note: line }),
  z.strictObject({ what: z.literal("sheet-not-returned"), paper: z.enum(["kitchen-by-product", "kitchen-by-tray"]) }),
  z.strictObject({ what: z.literal("exception-refused"), by: line, note: line }),
  z.strictObject({ what: z.literal("entry-voided"), kind: line, note: line }),
] as const;
