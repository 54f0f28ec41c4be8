import * as z from "zod/mini";
import { type Envelope, envelope, type StreamName } from "../model/ballot-event.ts";
import { canonicalText, sha256 } from "../model/canonical.ts";
import type { Body, Fact, Kind } from "../model/event.ts";
import { misfit } from "../model/schema.ts";

/** What reading an event's text gives: unreadable, or an envelope that may have to wait for a newer app. */
export type ReadEvent =
  | { ok: false; reason: string }
  | { ok: true; envelope: Envelope; hash: string; fact: Fact | null; held: boolean };

type Written<K extends Kind> = {
  id: string;
  stream: StreamName;
  device: string;
  seq: number;
  prev: string | null;
  at: string;
  kind: K;
  body: Body<K>;
};

export type EventText = {
  /**
   * Reads the text of an event.
   *
   * Takes    text: exactly as it was stored by the device that wrote it
   * Returns  the envelope and the hash of the text; `fact` when the body is one this app understands, else `held`:
   *          an unknown kind, a newer version or a body that does not fit is kept and judged again later
   */
  readEvent: (text: string) => ReadEvent;
  /**
   * Writes an event: its canonical text and the hash that the device's next event names.
   * Throws when the body does not fit its kind: a caller's mistake must not enter the log.
   */
  writeEvent: <K extends Kind>(parts: Written<K>) => { text: string; hash: string; fact: Fact };
};

/** Reading and writing of the kinds whose bodies are given: a tablet carries no others. */
export function eventText(bodies: Partial<Readonly<Record<Kind, z.ZodMiniType>>>): EventText {
  const bodyOf = (kind: string): z.ZodMiniType | undefined =>
    Object.hasOwn(bodies, kind) ? bodies[kind as Kind] : undefined;

  function readEvent(text: string): ReadEvent {
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

  function judge(read: Envelope, hash: string): Fact | null {
    const schema = bodyOf(read.kind);
    if (!schema || read.v !== 1) return null;
    // as the schema gives it back: fields that an older app did not know have their first meaning
    const body = z.safeParse(schema, read.body);
    return body.success ? ({ ...read, hash, outline: false, body: body.data } as Fact) : null;
  }

  function writeEvent<K extends Kind>(parts: Written<K>): { text: string; hash: string; fact: Fact } {
    const text = canonicalText({ ...parts, v: 1 });
    const read = readEvent(text);
    if (!read.ok) throw new Error(`cannot write ${parts.kind}: ${read.reason}`);
    if (!read.fact) {
      const schema = bodyOf(parts.kind);
      const wrong = schema ? misfit(schema, parts.body) : null;
      throw new Error(
        `cannot write ${parts.kind}: ${wrong?.where ?? "the kind"} must be ${wrong?.expected ?? "known"}`,
      );
    }
    return { text, hash: read.hash, fact: read.fact };
  }

  return { readEvent, writeEvent };
}
