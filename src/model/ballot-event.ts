import * as z from "zod/mini";
import { answerWords } from "./method.ts";
import { code, codeOrder, count, hash, id, instant, line, trayNumber, whole } from "./schema.ts";

/** Envelope of all events, and bodies of those that a panel device writes: all that a tablet has to read. */

/**
 * The envelope of everything that happens. Its fields never change meaning; bodies have their own version `v`.
 * The text of an event is the canonical JSON of the whole envelope; its hash covers that text, never a re-serialization.
 */
export const streamName = z.strictObject({ kind: z.enum(["study", "claim", "kitchen"]), id });
export type StreamName = z.infer<typeof streamName>;

export const envelope = z.strictObject({
  id,
  stream: streamName,
  device: id,
  /** Gapless from 1, per stream and device. */
  seq: z.number().check(z.int(), z.minimum(1)),
  /** Hash of this device's previous event in the stream; null for its first. */
  prev: z.nullable(hash),
  /** The device's clock: shown, never compared. */
  at: instant,
  kind: z.string().check(z.minLength(1), z.maxLength(40)),
  v: z.number().check(z.int(), z.minimum(1)),
  body: z.unknown(),
});
export type Envelope = z.infer<typeof envelope>;

/** Highest gapless sequence number seen, by device: what a close or a reveal names. */
export const heads = z.record(id, whole);
export type Heads = z.infer<typeof heads>;

/** The choice of somebody who prefers neither. */
export const noPreferenceChoice = "none" satisfies (typeof answerWords)[number];

export const stopReasons = ["not-cleared", "stopped", "cannot-answer"] as const;

/** Why somebody left a question of the line scale without a mark. */
export const noMarkReasons = ["not-perceived", "not-understood", "sample", "other"] as const;
/** Where the first press put the mark: a tap, a key that began at an end, or a digit key at a tenth; key: at a step. */
export const markStarts = ["pointer", "low-end", "high-end", "tenth", "key"] as const;

const tray = trayNumber;
const screen = z.strictObject({ widthPx: count, heightPx: count, pixelRatio: z.number(), pointer: line });
/** 32 random bytes: without them the hash that an outline shows would tell an answer to whoever tries them all. */
const salt = hash;

/** The mark as it was made. All of it is null where the panelist could not judge. */
const mark = z.strictObject({
  /** Place on the scale, 0 at the low end to 1 at the high end; of steps, the place of the chosen one. */
  fraction: z.number().check(z.minimum(0), z.maximum(1)),
  start: z.enum(markStarts),
  /** How often it was moved after it was first placed. */
  moves: count,
  /** Milliseconds from the question's appearance to the first mark. */
  firstMs: z.number().check(z.minimum(0)),
});

/** Bodies by kind, version 1. */
export const panelBodies = {
  /** `consent`: the version of the text that was agreed to; absent where the packet has none. */
  "tray-opened": z.strictObject({ tray, clearance: hash, consent: z.optional(hash) }),
  "answer-kept": z.strictObject({
    tray,
    question: count,
    choice: z.union([code, z.enum(answerWords), codeOrder]),
    guess: z.boolean(),
    /** Milliseconds from the question's appearance to keeping, by the device's monotonic clock. */
    elapsedMs: z.number().check(z.minimum(0)),
    screen,
    salt,
  }),
  /** One sample, one attribute. A later one of the same question by the same device replaces it. */
  "mark-kept": z.strictObject({
    tray,
    /** From 1: sample after sample, within a sample in the order of the packet's attributes. */
    question: count,
    code,
    attribute: id,
    mark: z.nullable(mark),
    /** Why there is no mark; null exactly when there is one. */
    why: z.nullable(z.enum(noMarkReasons)),
    /** The line as it was shown: its length on this screen, and how that is in millimeters; null for steps. */
    line: z.nullable(
      z.strictObject({ lengthPx: z.number().check(z.positive()), lengthMm: z.number().check(z.positive()) }),
    ),
    /** Seconds from the first bite to the question's appearance, by the monotonic clock; null where no clock ran. */
    chewedSeconds: z.nullable(z.number().check(z.minimum(0))),
    /** The page was hidden while the chew clock ran. */
    hidden: z.boolean(),
    elapsedMs: z.number().check(z.minimum(0)),
    screen,
    salt,
  }),
  /** A portion that was chewed to be weighed. `question`: its place on the tray, from 1. */
  "portion-chewed": z.strictObject({
    tray,
    question: count,
    code,
    /** Real seconds between the two touches, by the monotonic clock; null where the page was loaded anew meanwhile. */
    chewedSeconds: z.nullable(z.number().check(z.minimum(0))),
    /** All of it was spat into its cup: only then there is something to weigh. */
    whole: z.boolean(),
    /** The page was hidden while the clock ran. */
    hidden: z.boolean(),
    elapsedMs: z.number().check(z.minimum(0)),
    screen,
    salt,
  }),
  "remark-kept": z.strictObject({ tray, remark: hash }),
  "tray-finished": z.strictObject({ tray }),
  "tray-stopped": z.strictObject({ tray, reason: z.enum(stopReasons) }),
} as const;

/** `paper-typed` stands in `paper-event.ts`: a tablet loads it with the page that writes it. */
export const panelKinds = [
  "tray-opened",
  "answer-kept",
  "mark-kept",
  "portion-chewed",
  "remark-kept",
  "tray-finished",
  "tray-stopped",
  "paper-typed",
] as const satisfies readonly (keyof typeof panelBodies | "paper-typed")[];
export type PanelKind = (typeof panelKinds)[number];
export const isPanelKind = (kind: string): kind is PanelKind => (panelKinds as readonly string[]).includes(kind);

/** Kinds that carry an answer: what the reveal opens, and what makes a tray taken. */
export const answerKinds = ["answer-kept", "mark-kept", "portion-chewed"] as const satisfies readonly PanelKind[];
export const isAnswerKind = (kind: string): kind is (typeof answerKinds)[number] =>
  (answerKinds as readonly string[]).includes(kind);

/** A remark travels beside its event, so that it can be erased while the log still verifies. */
export const attachment = z.strictObject({ event: id, salt: hash, text: z.string().check(z.maxLength(2000)) });
export type Attachment = z.infer<typeof attachment>;
