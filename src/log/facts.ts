import * as z from "zod/mini";
import { canonicalText, sha256 } from "../model/canonical.ts";
import {
  bodies,
  type Envelope,
  envelope,
  type Fact,
  isKind,
  isPanelKind,
  type Kind,
  outlineBodies,
  type StreamName,
} from "../model/event.ts";
import { misfit } from "../model/schema.ts";

/** What reading an event's text gives: unreadable, or an envelope that may have to wait for a newer app. */
export type ReadEvent =
  | { ok: false; reason: string }
  | { ok: true; envelope: Envelope; hash: string; fact: Fact | null; held: boolean };

/**
 * Reads the text of an event.
 *
 * Takes    text: exactly as it was stored by the device that wrote it
 * Returns  the envelope and the hash of the text; `fact` when the body is one this app understands, else `held`:
 *          an unknown kind, a newer version or a body that does not fit is kept and judged again later
 */
export function readEvent(text: string): ReadEvent {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { ok: false, reason: "not JSON" };
  }
  const wrong = misfit(envelope, value);
  if (wrong) return { ok: false, reason: `${wrong.where} must be ${wrong.expected}` };
  const read = value as Envelope;
  const hash = sha256(text);
  const fact = judge(read, hash);
  return { ok: true, envelope: read, hash, fact, held: fact === null };
}

/** Reads an outline, as the server gives it out before the reveal; null when it is not one. */
export function readOutline(value: unknown, hash: string): Fact | null {
  if (misfit(envelope, value)) return null;
  const read = value as Envelope;
  if (!isKind(read.kind) || read.v !== 1) return null;
  const body = z.safeParse(outlineBodies[read.kind] as z.ZodMiniType, read.body);
  return body.success ? ({ ...read, hash, outline: isPanelKind(read.kind), body: body.data } as Fact) : null;
}

/** The outline of an event: itself, but a ballot event without what it says. */
export function outlineOf(fact: Fact): Envelope {
  const { hash: _hash, outline: _outline, ...rest } = fact;
  if (fact.kind === "answer-kept" || fact.kind === "mark-kept") {
    return { ...rest, body: { tray: fact.body.tray, question: fact.body.question } };
  }
  if (fact.kind === "remark-kept") return { ...rest, body: { tray: fact.body.tray } };
  return rest;
}

/**
 * Writes an event: its canonical text and the hash that the device's next event names.
 * Throws when the body does not fit its kind: a caller's mistake must not enter the log.
 */
export function writeEvent<K extends Kind>(parts: {
  id: string;
  stream: StreamName;
  device: string;
  seq: number;
  prev: string | null;
  at: string;
  kind: K;
  body: z.infer<(typeof bodies)[K]>;
}): { text: string; hash: string; fact: Fact } {
  const text = canonicalText({ ...parts, v: 1 });
  const read = readEvent(text);
  if (!read.ok) throw new Error(`cannot write ${parts.kind}: ${read.reason}`);
  if (!read.fact) {
    const wrong = misfit(bodies[parts.kind] as z.ZodMiniType, parts.body);
    throw new Error(`cannot write ${parts.kind}: ${wrong?.where} must be ${wrong?.expected}`);
  }
  return { text, hash: read.hash, fact: read.fact };
}

function judge(read: Envelope, hash: string): Fact | null {
  if (!isKind(read.kind) || read.v !== 1) return null;
  // as the schema gives it back: fields that an older app did not know have their first meaning
  const body = z.safeParse(bodies[read.kind] as z.ZodMiniType, read.body);
  return body.success ? ({ ...read, hash, outline: false, body: body.data } as Fact) : null;
}
