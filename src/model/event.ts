import * as z from "zod/mini";
import { openedKey, sealedKey } from "./key.ts";
import { kitchen, kitchenId } from "./kitchen.ts";
import { answerWords } from "./method.ts";
import { blindPacket } from "./packet.ts";
import { plan } from "./plan.ts";
import { code, codeOrder, count, hash, id, instant, line, trayNumber, whole } from "./schema.ts";

/**
 * The envelope of everything that happens. Its fields never change meaning; bodies have their own version `v`.
 * The text of an event is the canonical JSON of the whole envelope; its hash covers that text, never a re-serialization.
 */
export const streamName = z.strictObject({ kind: z.enum(["study", "claim", "kitchen"]), id });
export type StreamName = z.infer<typeof streamName>;
export const kitchenStream: StreamName = { kind: "kitchen", id: kitchenId };

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

export const voidReasons = ["wrong-tray", "sample-dropped", "talked", "outside-window", "spoiled", "other"] as const;
export const spareReasons = ["replaces", "extra-person", "other"] as const;
export const stopReasons = ["not-cleared", "stopped", "cannot-answer"] as const;
export const papers = [
  "backup-ballots",
  "kitchen-by-product",
  "kitchen-by-tray",
  "tray-cards",
  "labels",
  "seating",
  "sealed-page",
] as const;
export type Paper = (typeof papers)[number];

/** Why somebody left a question of the line scale without a mark. */
export const noMarkReasons = ["not-perceived", "not-understood", "sample", "other"] as const;
/** Where the first press put the mark: a tap, a key that began at an end, or a digit key at a tenth. */
export const markStarts = ["pointer", "low-end", "high-end", "tenth"] as const;

const tray = trayNumber;
const screen = z.strictObject({ widthPx: count, heightPx: count, pixelRatio: z.number(), pointer: line });
/** 32 random bytes: without them the hash that an outline shows would tell an answer to whoever tries them all. */
const salt = hash;

/** The mark as it was made. All of it is null where the panelist could not judge. */
const mark = z.strictObject({
  /** Place on the line, 0 at the low end to 1 at the high end. */
  fraction: z.number().check(z.minimum(0), z.maximum(1)),
  start: z.enum(markStarts),
  /** How often it was moved after it was first placed. */
  moves: count,
  /** Milliseconds from the question's appearance to the first mark. */
  firstMs: z.number().check(z.minimum(0)),
});

/** Bodies by kind, version 1. A kind not listed here, or a newer version, is held and judged after an upgrade. */
export const bodies = {
  // the lead's
  "draft-saved": z.strictObject({ base: z.nullable(id), plan }),
  /** The kitchen's own defaults. `merged`: versions beside `base` that its writer saw and replaces as well. */
  "kitchen-saved": z.strictObject({ base: z.nullable(id), merged: z.array(id).check(z.maxLength(50)), kitchen }),
  "study-locked": z.strictObject({
    plan,
    /** The blind half, exactly as the tablets get it. */
    packet: blindPacket,
    sealed: sealedKey,
    /** Seat number to its trays: a seat is one person, named only on paper and in an erasable record. */
    seats: z.array(z.strictObject({ seat: count, trays: z.array(tray) })),
    app: line,
  }),
  "paper-printed": z.strictObject({ paper: z.enum(papers), reprint: z.boolean() }),
  "ballot-voided": z.strictObject({ tray, targets: z.array(id), reason: z.enum(voidReasons), note: line }),
  "spare-served": z.strictObject({ tray, instead: z.nullable(tray), reason: z.enum(spareReasons), note: line }),
  /** `among`: every device whose ballot of this tray the lead knew of; another one later contests the tray again. */
  "contest-settled": z.strictObject({ tray, keep: id, among: z.array(id), note: line }),
  "late-admitted": z.strictObject({ tray, device: id, note: line }),
  /** A look that the locked stopping rule allows: what it sees, before anything is opened. */
  "look-begun": z.strictObject({ look: count, heads, answered: count }),
  /** What the rule said at that look (by its event). No count: whoever reads the log before the close learns nothing. */
  "look-done": z.strictObject({ look: id, said: z.enum(["go-on", "stop"]) }),
  "study-closed": z.strictObject({ heads, knownUnsent: whole, note: line }),
  "key-revealed": z.strictObject({ heads, opened: openedKey }),
  // a panel device's
  "tray-opened": z.strictObject({ tray, clearance: hash }),
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
    /** The line as it was shown: its length on this screen, and how that is in millimeters. */
    line: z.strictObject({ lengthPx: z.number().check(z.positive()), lengthMm: z.number().check(z.positive()) }),
    /** Seconds from the first bite to the question's appearance, by the monotonic clock; null where no clock ran. */
    chewedSeconds: z.nullable(z.number().check(z.minimum(0))),
    /** The page was hidden while the chew clock ran. */
    hidden: z.boolean(),
    elapsedMs: z.number().check(z.minimum(0)),
    screen,
    salt,
  }),
  "remark-kept": z.strictObject({ tray, remark: hash }),
  "tray-finished": z.strictObject({ tray }),
  "tray-stopped": z.strictObject({ tray, reason: z.enum(stopReasons) }),
} as const;

export type Kind = keyof typeof bodies;
export type Body<K extends Kind> = z.infer<(typeof bodies)[K]>;
export const isKind = (kind: string): kind is Kind => Object.hasOwn(bodies, kind);

export const panelKinds = [
  "tray-opened",
  "answer-kept",
  "mark-kept",
  "remark-kept",
  "tray-finished",
  "tray-stopped",
] as const satisfies readonly Kind[];
export type PanelKind = (typeof panelKinds)[number];
export const isPanelKind = (kind: string): kind is PanelKind => (panelKinds as readonly string[]).includes(kind);

/** Kinds that carry an answer: what the reveal opens, and what makes a tray taken. */
export const answerKinds = ["answer-kept", "mark-kept"] as const satisfies readonly PanelKind[];
export const isAnswerKind = (kind: string): kind is (typeof answerKinds)[number] =>
  (answerKinds as readonly string[]).includes(kind);

/** What anybody but the writing tablet sees of a ballot event before the reveal: that it happened, never what. */
export const outlineBodies = {
  ...bodies,
  "answer-kept": z.strictObject({ tray, question: count }),
  "mark-kept": z.strictObject({ tray, question: count }),
  "remark-kept": z.strictObject({ tray }),
} as const;

/**
 * A fact: an event that was read and found sound, as the fold takes it. `hash` is that of the stored text.
 * An `outline` fact lacks what its ballot event says.
 */
type FactOf<K extends Kind> = Omit<Envelope, "kind" | "body"> & { hash: string } & (
    | { kind: K; outline: false; body: Body<K> }
    | { kind: K; outline: true; body: z.infer<(typeof outlineBodies)[K]> }
  );
export type Fact = { [K in Kind]: FactOf<K> }[Kind];

/** A remark travels beside its event, so that it can be erased while the log still verifies. */
export const attachment = z.strictObject({ event: id, salt: hash, text: z.string().check(z.maxLength(2000)) });
export type Attachment = z.infer<typeof attachment>;
