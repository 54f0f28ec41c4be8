import * as z from "zod/mini";
import { type Envelope, heads, panelBodies, type StreamName } from "./ballot-event.ts";
import { claim } from "./claim.ts";
import { openedKey, sealedKey } from "./key.ts";
import { kitchen, kitchenId } from "./kitchen.ts";
import { kitchenBodies, pot } from "./kitchen-event.ts";
import { massSources } from "./measured.ts";
import { blindPacket } from "./packet.ts";
import { paperOutline, paperTyped } from "./paper-event.ts";
import { plan } from "./plan.ts";
import { rawDraw } from "./raw.ts";
import { count, id, line, trayNumber, whole } from "./schema.ts";

export const kitchenStream: StreamName = { kind: "kitchen", id: kitchenId };

export const voidReasons = ["wrong-tray", "sample-dropped", "talked", "outside-window", "spoiled", "other"] as const;
export const spareReasons = ["replaces", "extra-person", "other"] as const;
export const papers = [
  "backup-ballots",
  "kitchen-by-product",
  "kitchen-by-tray",
  "tray-cards",
  "labels",
  "seating",
  "sealed-page",
  "check-list",
  "door-sign",
  "prep-list",
  "process-draw",
  "weighing-sheet",
] as const;
export type Paper = (typeof papers)[number];

const tray = trayNumber;

/** Bodies by kind, version 1, those of a panel device among them. A kind not listed here, or a newer version, is held and judged after an upgrade. */
export const bodies = {
  // the lead's
  /** A plan, whole. `merged`: versions beside `base` that its writer saw and replaces as well. */
  "draft-saved": z.strictObject({
    base: z.nullable(id),
    merged: z._default(z.array(id).check(z.maxLength(50)), []),
    plan,
  }),
  /** The kitchen's own defaults. `merged`: as above. */
  "kitchen-saved": z.strictObject({ base: z.nullable(id), merged: z.array(id).check(z.maxLength(50)), kitchen }),
  /**
   * A claim, whole. `merged`: as above. `known`: the studies attached to it, now or in the version before, whose key was
   * open on the writing device: what was changed with knowledge of their results.
   */
  "claim-saved": z.strictObject({
    base: z.nullable(id),
    merged: z.array(id).check(z.maxLength(50)),
    claim,
    known: z.array(id).check(z.maxLength(500)),
  }),
  "study-locked": z.strictObject({
    plan,
    /** The blind half, exactly as the tablets get it. */
    packet: blindPacket,
    sealed: sealedKey,
    /** Seat number to its trays: a seat is one person, named only on paper and in an erasable record. */
    seats: z.array(z.strictObject({ seat: count, trays: z.array(tray) })),
    app: line,
    /** Which raw pieces get which process, where the plan says that it is drawn. */
    draw: z.optional(rawDraw),
    /** Labels of the pots of each wave, in the order of the alphabet; what is in which, the key says. */
    pots: z.optional(z.array(z.strictObject({ wave: count, pots: z.array(pot) }))),
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
  /** Masses that are to stand beside the answers, whole; `merged`: as above. */
  "masses-noted": z.strictObject({
    base: z.nullable(id),
    merged: z.array(id).check(z.maxLength(50)),
    sources: massSources,
  }),
  "study-closed": z.strictObject({ heads, knownUnsent: whole, note: line }),
  "key-revealed": z.strictObject({ heads, opened: openedKey }),
  ...kitchenBodies,
  ...panelBodies,
  /** A ballot on paper, typed in on a tablet. */
  "paper-typed": paperTyped,
} as const;

export type Kind = keyof typeof bodies;
export type Body<K extends Kind> = z.infer<(typeof bodies)[K]>;
export const isKind = (kind: string): kind is Kind => Object.hasOwn(bodies, kind);

/** What anybody but the writing tablet sees of a ballot event before the reveal: that it happened, never what. */
export const outlineBodies = {
  ...bodies,
  "answer-kept": z.strictObject({ tray, question: count }),
  "mark-kept": z.strictObject({ tray, question: count }),
  "portion-chewed": z.strictObject({ tray, question: count }),
  "remark-kept": z.strictObject({ tray }),
  "paper-typed": paperOutline,
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
