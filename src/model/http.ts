import * as z from "zod/mini";
import { attachment, heads } from "./event.ts";
import { blindPacket } from "./packet.ts";
import { hash, id, instant, line, trayNumber, whole } from "./schema.ts";

/** The HTTP contract: every request and reply. Replies to panel devices are strict, so an unknown field is an error. */
export const limits = {
  bodyBytes: 1_048_576,
  eventsPerPush: 500,
  eventTextLength: 700_000,
  codeMinutes: 10,
} as const;

export const roles = ["lead", "panel", "reader"] as const;
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

// POST /api/codes (lead): a one-time code for another device. Only its hash is stored.
export const codeRequest = z.strictObject({ role: z.enum(roles), study: z.nullable(id), name: line });
export const codeReply = z.strictObject({ code: z.string(), expiresAt: instant });

// POST /api/events (any device): events as their exact texts
export const status = z.strictObject({
  unsent: whole,
  battery: z.nullable(z.number()),
  persisted: z.nullable(z.boolean()),
  app: line,
  /** The longest line this tablet can show true, in millimeters; null while its screen was not checked with a card. */
  lineMm: z.optional(z.nullable(z.number().check(z.minimum(0), z.maximum(2000)))),
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
});
export type PanelReply = z.infer<typeof panelReply>;

// GET /api/studies (lead, reader): which streams there are; a reader sees revealed ones only
export const studiesReply = z.strictObject({
  incarnation: id,
  studies: z.array(z.strictObject({ id, head: whole, revealed: z.boolean() })),
});

// GET /api/studies/:id/events?after=N&revealed=0|1 (lead, reader)
export const storedEvent = z.strictObject({
  position: whole,
  receivedAt: instant,
  /** Chain: SHA-256 over the previous chain value and the stored text. */
  chain: hash,
  hash,
  /** The exact text; or, before the reveal, an outline of a ballot event as an envelope without what it says. */
  text: z.nullable(z.string()),
  outline: z.nullable(z.unknown()),
});
export type StoredEvent = z.infer<typeof storedEvent>;
export const eventsReply = z.strictObject({
  incarnation: id,
  revealed: z.boolean(),
  head: whole,
  /** Events kept aside: conflicts, forks, and ones not to be judged yet. */
  quarantined: whole,
  held: whole,
  /** By device: the highest gapless sequence number held of this study, events kept aside or held included. */
  heads,
  events: z.array(storedEvent),
});
export type EventsReply = z.infer<typeof eventsReply>;

// GET /api/kitchen/events?after=N (lead): the kitchen's own defaults, in the same form; always in full texts

// GET /api/studies/:id/remarks (lead, after the reveal)
export const remarksReply = z.strictObject({ remarks: z.array(attachment) });

// GET /api/addresses (lead): where other devices of the network reach this server, best first ("https://192.0.2.7:8080/")
export const addressesReply = z.strictObject({ addresses: z.array(line).check(z.maxLength(50)) });

// GET /api/devices (lead), POST /api/devices/:id (lead)
export const deviceInfo = z.strictObject({
  id,
  name: line,
  role: z.enum(roles),
  study: z.nullable(id),
  enrolledAt: instant,
  lastSeen: z.nullable(instant),
  revoked: z.boolean(),
  status: z.nullable(status),
  heads,
  /** Events it sent that cannot be read: refused, kept aside, and of no study. */
  unreadable: whole,
});
export type DeviceInfo = z.infer<typeof deviceInfo>;
export const devicesReply = z.strictObject({ devices: z.array(deviceInfo) });
export const deviceChange = z.strictObject({
  study: z.optional(z.nullable(id)),
  revoked: z.optional(z.literal(true)),
  name: z.optional(line),
});

// Every failure
export const problemReply = z.strictObject({
  code: z.string(),
  details: z.record(z.string(), z.union([z.string(), z.number()])),
  errorId: z.string(),
});

export const streamKey = (stream: { kind: string; id: string }): string => `${stream.kind}:${stream.id}`;
