import * as z from "zod/mini";
import { attachment } from "./ballot-event.ts";
import { blindPacket } from "./packet.ts";
import { id, line, trayNumber, whole } from "./schema.ts";

/**
 * The HTTP contract, so far as any device may use it. What only leads and readers ask stands in http.ts: tablets do
 * not carry it. Replies to panel devices are strict, so an unknown field is an error.
 */
export const limits = {
  bodyBytes: 1_048_576,
  eventsPerPush: 500,
  eventTextLength: 700_000,
  codeMinutes: 10,
} as const;

/** kitchen: who cooks, checks and weighs; neither answers nor key. */
export const roles = ["lead", "kitchen", "panel", "reader"] as const;
export type Role = (typeof roles)[number];

// GET /api/hello (anyone): which database this is, and the device that a cookie says was enrolled in this browser.
// The cookie outlives a cleared storage; it is a hint and gives no right.
export const helloReply = z.strictObject({ incarnation: id, device: z.nullable(id) });

// POST /api/enroll: a typed one-time code becomes a device with a token
export const enrollRequest = z.strictObject({
  code: z.string().check(z.maxLength(40)),
  name: line,
  /** Ids this device had before its server was lost or it was withdrawn: it may go on sending what it wrote then. */
  formerly: z.optional(z.array(id).check(z.maxLength(20))),
});
export const enrollReply = z.strictObject({
  device: id,
  token: z.string(),
  role: z.enum(roles),
  name: line,
  incarnation: id,
});
export type EnrollReply = z.infer<typeof enrollReply>;

// POST /api/events (any device): events as their exact texts
export const status = z.strictObject({
  unsent: whole,
  battery: z.nullable(z.number()),
  persisted: z.nullable(z.boolean()),
  app: line,
  /** The longest line this tablet can show true, in millimeters; null while its screen was not checked with a card. */
  lineMm: z.optional(z.nullable(z.number().check(z.minimum(0), z.maximum(2000)))),
  /** The tray whose panelist asks for somebody; null: nobody does. */
  help: z.optional(z.nullable(trayNumber)),
});
export type Status = z.infer<typeof status>;
export const pushRequest = z.strictObject({
  events: z.array(z.string().check(z.maxLength(limits.eventTextLength))).check(z.maxLength(limits.eventsPerPush)),
  attachments: z.array(attachment).check(z.maxLength(limits.eventsPerPush)),
  status: z.nullable(status),
});
export type PushRequest = z.infer<typeof pushRequest>;

/**
 * stored: durable and judged sound. have: the same text was stored before. held: durable, to be judged later.
 * conflict: this id is known with another text. fork: this sequence number is known with another id.
 * refused: not this device's to say, or unreadable. All but `refused` with no readable id are kept by the server.
 */
export const verdict = z.strictObject({
  id: z.string(),
  verdict: z.enum(["stored", "have", "held", "conflict", "fork", "refused"]),
});
export type Verdict = z.infer<typeof verdict>;
export const pushReply = z.strictObject({
  incarnation: id,
  verdicts: z.array(verdict),
  /** By stream ("study:<id>"): the highest gapless sequence number held for the asking device. */
  heads: z.record(z.string(), whole),
});
export type PushReply = z.infer<typeof pushReply>;

// GET /api/panel (panel): the packet of the study this tablet serves, and tray numbers answered elsewhere
export const panelReply = z.strictObject({
  incarnation: id,
  heads: z.record(z.string(), whole),
  packet: z.nullable(blindPacket),
  /** Trays of that study that some other device has kept an answer of, or has ended without one. */
  taken: z.array(trayNumber),
  /** The lead has closed that study: no tray of it is to be opened any more. */
  closed: z.boolean(),
  /** Serving is halted: no tray is to be opened, and whoever tastes is to stop, until it is resumed. */
  halted: z._default(z.boolean(), false),
});
export type PanelReply = z.infer<typeof panelReply>;

// Every failure
export const problemReply = z.strictObject({
  code: z.string(),
  details: z.record(z.string(), z.union([z.string(), z.number()])),
  errorId: z.string(),
});

export const streamKey = (stream: { kind: string; id: string }): string => `${stream.kind}:${stream.id}`;
