import { readEvent } from "../log/facts.ts";
import { type Envelope, isAnswerKind, isPanelKind } from "../model/ballot-event.ts";
import { type Fact, isKind } from "../model/event.ts";
import type { Role } from "../model/http.ts";
import { isKitchenKind } from "../model/kitchen-event.ts";
import { id as idSchema, misfit } from "../model/schema.ts";

/** An event's text as the server sees it before looking at what it holds. */
export type Judged =
  /** Not an envelope; `id` when at least that can be read. */
  | { readable: false; id: string | null; text: string }
  | {
      readable: true;
      envelope: Envelope;
      text: string;
      hash: string;
      /** Not this device's to say: another device's name on it, or a kind of another role. */
      refused: "device" | "kind" | null;
      /** Sound in itself, but of a kind or version that this server does not know, or with a body that does not fit. */
      held: boolean;
      /** The tray of an answer or a stop, so that other tablets can be told that it is taken. */
      tray: number | null;
    };

/**
 * Judges the text of an event from a device. Store first, judge second: what cannot be understood is held.
 *
 * Takes    text as it came; the role of the device and every id that is or was its own
 * Returns  see `Judged`; never throws, whatever the text is
 */
export function judge(text: string, role: Role, ownIds: readonly string[]): Judged {
  const read = readSafely(text);
  if (read === null || !read.ok) return { readable: false, id: readableId(text), text };
  const { envelope, hash, fact } = read;
  const refused = !ownIds.includes(envelope.device) ? "device" : mayWrite(role, envelope) ? null : "kind";
  const tray = fact ? takenTray(fact) : null;
  return { readable: true, envelope, text, hash, refused, held: read.held, tray };
}

/** The tray that an answer, a stop or a ballot on paper takes: no other tablet is to open it. */
export function takenTray(fact: Fact): number | null {
  const takes = isAnswerKind(fact.kind) || fact.kind === "tray-stopped" || fact.kind === "paper-typed";
  return takes && "tray" in fact.body ? fact.body.tray : null;
}

/** May a device of this role write this event? A kind that nobody knows yet may be written, and is held. */
export function mayWrite(role: Role, envelope: Pick<Envelope, "kind" | "stream">): boolean {
  if (role === "reader") return false;
  if (role === "lead") return !isPanelKind(envelope.kind);
  const own = role === "kitchen" ? isKitchenEntry : isPanelKind;
  return envelope.stream.kind === "study" && (own(envelope.kind) || !isKind(envelope.kind));
}

/** Everybody in the kitchen may stop everything; only a lead lets it go on. */
const isKitchenEntry = (kind: string): boolean => isKitchenKind(kind) && kind !== "serving-resumed";

function readSafely(text: string): ReturnType<typeof readEvent> | null {
  // a lone surrogate has no UTF-8 form: the database would store another text than the one hashed
  if (/\p{Surrogate}/u.test(text)) return null;
  try {
    return readEvent(text);
  } catch (error) {
    if (error instanceof RangeError) return null; // nested deeper than the stack
    throw error;
  }
}

function readableId(text: string): string | null {
  try {
    const value: unknown = JSON.parse(text);
    const id = typeof value === "object" && value !== null && "id" in value ? value.id : null;
    return typeof id === "string" && misfit(idSchema, id) === null ? id : null;
  } catch {
    return null;
  }
}
