import * as z from "zod/mini";
import { attachment, heads } from "./ballot-event.ts";
import { roles, status } from "./http-device.ts";
import { hash, id, instant, line, trayNumber, whole } from "./schema.ts";

/** The HTTP contract: every request and reply. What tablets use too stands in http-device.ts. */
export * from "./http-device.ts";

// POST /api/codes (lead): a one-time code for another device. Only its hash is stored.
export const codeRequest = z.strictObject({ role: z.enum(roles), study: z.nullable(id), name: line });
export const codeReply = z.strictObject({ code: z.string(), expiresAt: instant });

// GET /api/studies (lead, kitchen, reader): which streams there are; a reader sees revealed ones only, the kitchen those
// that are locked and not revealed
export const studiesReply = z.strictObject({
  incarnation: id,
  studies: z.array(z.strictObject({ id, head: whole, revealed: z.boolean() })),
});

// GET /api/studies/:id/events?after=N&revealed=0|1 (lead, kitchen, reader)
export const storedEvent = z.strictObject({
  position: whole,
  receivedAt: instant,
  /** Chain: SHA-256 over the previous chain value and the stored text. */
  chain: hash,
  hash,
  /**
   * The exact text; or, before the reveal, an outline of a ballot event as an envelope without what it says. The kitchen
   * gets the lock as an outline without the sealed key, and of what does not concern it neither text nor outline.
   */
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

// GET /api/studies/:id/looks/:look (lead): the answers that a look of the stopping rule sees, by the event that began it.
// Given only to the device that began it, while the study is open and the look is not done.
export const lookReply = z.strictObject({
  incarnation: id,
  /** Exact texts of the kept answers within the look's heads. */
  answers: z.array(z.string()),
});
export type LookReply = z.infer<typeof lookReply>;

// GET /api/kitchen/events?after=N (lead): the kitchen's own defaults, in the same form; always in full texts

// GET /api/claims (lead): which claims there are; GET /api/claims/:id/events?after=N (lead): one of them, as above
export const claimsReply = z.strictObject({
  incarnation: id,
  claims: z.array(z.strictObject({ id, head: whole })),
});

// GET /api/studies/:id/remarks (lead, after the reveal)
export const remarksReply = z.strictObject({ remarks: z.array(attachment) });

// GET /api/studies/:id/calls (lead, kitchen): tablets of the study whose panelist asks for somebody, as last heard
export const callsReply = z.strictObject({
  calls: z.array(z.strictObject({ device: id, name: line, tray: trayNumber, lastSeen: instant })),
});
export type Call = z.infer<typeof callsReply>["calls"][number];

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
