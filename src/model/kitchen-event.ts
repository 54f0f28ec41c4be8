import * as z from "zod/mini";
import { readingPattern } from "./grams.ts";
import { count, id, instant, line, trayNumber } from "./schema.ts";

/**
 * What is written down between lock and close by whoever cooks, checks, weighs or leads: temperatures, times, batches that
 * changed, trays, portions. None of it names a product: a batch goes by the label of its pot, which the lock drew and whose
 * meaning lies in the key and on the kitchen's papers; a portion goes by its tray and code.
 */

/** Letters of a pot's label: no vowels, so that no label is a word. */
export const potLetters = "CDFGHJKLMNPQRSTVWXZ";
/** The label of a pot: two letters, which tell nothing. What comes in the place of a pot has three. */
export const pot = z.string().check(z.regex(/^[CDFGHJKLMNPQRSTVWXZ]{2,3}$/, "the label of a pot, like KT"));

/** Degrees Celsius as they were typed: "71", "-18.5". */
const celsiusPattern = /^-?\d{1,3}(\.\d{1,2})?$/;
/**
 * What food can have, for whoever types or reads it in: no more than 120. "750" is 75.0 without its dot, and 160 is what a
 * probe in Fahrenheit shows of food at 71; both would pass every limit, and no food with water in it gets so hot.
 */
export const foodCelsiusPattern = /^(-?\d{1,2}(\.\d{1,2})?|1[01]\d(\.\d{1,2})?|120(\.00?)?)$/;
const celsius = z.string().check(z.regex(celsiusPattern, "degrees Celsius like 74.5"));
/** A mass in grams as it was typed: "12.0" is not "12". */
const grams = z.string().check(z.regex(readingPattern, "a mass in grams like 5.02"));

const wave = count;
const tray = trayNumber;

/** Why a batch gave way to another. recooked: made anew; swapped: another one stood ready. One that goes back to the heat stays what it is. */
export const batchReasons = ["recooked", "swapped", "other"] as const;
/** What is done to a tray before its panelist has it. */
export const trayTurns = ["filled", "checked", "served"] as const;
export const attendances = ["late", "missing", "here"] as const;
/** Of a halt only what everybody in the room sees: what a person suffers stands nowhere. */
export const haltReasons = ["person", "food", "room", "other"] as const;
/** A lidded cup empty; the portion before it is chewed; the closed cup afterwards. */
export const portionStages = ["cup", "portion", "after"] as const;

/** Bodies by kind, version 1. `after`: the entry of the same thing that its writer knew and that this one follows. */
export const kitchenBodies = {
  /** The core of a batch. Of readings that nothing follows each has to pass. */
  "core-read": z.strictObject({
    wave,
    pot,
    celsius,
    /** How long it stayed at that, and how long the food rested afterwards. */
    heldSeconds: count,
    restMinutes: count,
    /** Which probe, and when it was last checked. */
    probe: line,
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  /** Food below a limit of cooking by design is served: allowed by whom the lock named for it. */
  "cooking-excepted": z.strictObject({ reading: id, by: line, note: line }),
  /** When a pot left the heat, or the cold, as somebody saw it: that of the clock on the wall, not of the entry. */
  "heat-left": z.strictObject({
    wave,
    pot,
    left: instant,
    from: z._default(z.enum(["hot", "cold"]), "hot"),
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  /** A pot that is kept hot or cold. `read`: when; null: nobody said, so it tells nothing about time. */
  "holding-read": z.strictObject({
    wave,
    pot,
    held: z.enum(["hot", "cold"]),
    celsius,
    read: z._default(z.nullable(instant), null),
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  /** What a cup has as it goes out: of a tray, never of a product. */
  "serving-read": z.strictObject({ wave, tray: z.nullable(tray), celsius, note: line }),
  /**
   * Another batch in the place of one. `trays`: those that are served from it; none named: all of the wave but `kept`, which
   * were served or tasted before.
   */
  "batch-changed": z.strictObject({
    wave,
    pot,
    becomes: pot,
    reason: z.enum(batchReasons),
    trays: z.array(tray).check(z.maxLength(500)),
    kept: z._default(z.array(tray).check(z.maxLength(500)), []),
    note: line,
  }),
  /** `sound`: false where a check found something wrong; it stands until a later one. */
  "tray-handled": z.strictObject({
    tray,
    turn: z.enum(trayTurns),
    sound: z.boolean(),
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  /** Somebody is late, did not come, or is here after all. `wave`: the one they are served with then; null: their own. */
  "person-noted": z.strictObject({
    tray,
    what: z.enum(attendances),
    wave: z.nullable(count),
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  "serving-halted": z.strictObject({ why: z.enum(haltReasons) }),
  "serving-resumed": z.strictObject({ halts: z.array(id).check(z.minLength(1), z.maxLength(50)), note: line }),
  /** A paper with the key is back with the lead. */
  "sheet-returned": z.strictObject({
    paper: z.enum(["kitchen-by-product", "kitchen-by-tray", "process-draw"]),
    note: line,
  }),
  /** One reading of a chewed portion, by tray and code. `rinse`: water spat into the same cup, of the last stage; empty: none. */
  "portion-weighed": z.strictObject({
    tray,
    code: z.string().check(z.regex(/^[1-9]\d\d$/, "a three-digit code")),
    stage: z.enum(portionStages),
    grams,
    rinse: z.union([z.literal(""), grams]),
    /** Smallest step of the balance in grams; empty: not recorded. */
    balanceStep: z.union([z.literal(""), grams]),
    /**
     * Of the closed cup: whole seconds from when this device learned that the portion was chewed to keeping the reading, by its
     * monotonic clock. No less passed: a tablet may have told it late. Null: not timed.
     */
    waitedSeconds: z._default(z.nullable(count), null),
    after: z.array(id).check(z.maxLength(50)),
    note: line,
  }),
  /** An entry above that was wrong. It stays in the log and counts no more. */
  "entry-voided": z.strictObject({ target: id, note: line }),
} as const;

export type KitchenKind = keyof typeof kitchenBodies;
export const isKitchenKind = (kind: string): kind is KitchenKind => Object.hasOwn(kitchenBodies, kind);
