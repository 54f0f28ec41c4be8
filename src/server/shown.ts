import { outlineOf, readEvent } from "../log/facts.ts";
import { kitchenView } from "../log/kitchen-outline.ts";
import { type Envelope, isPanelKind } from "../model/ballot-event.ts";
import type { Fact } from "../model/event.ts";
import type { StoredEvent } from "../model/http.ts";
import { isKitchenKind } from "../model/kitchen-event.ts";
import type { Compared } from "./paper-compared.ts";
import type { EventRow } from "./query/streams.ts";

/** An event as leads and readers may see it: before the reveal a ballot event is an outline, that something happened, never what. */
export function shown(row: EventRow, revealed: boolean, compared: Compared): StoredEvent {
  const { text } = row;
  const stored = placeOf(row);
  // what a tablet wrote and this server cannot judge may hold an answer as well
  if (revealed || row.role === "lead") return { ...stored, text, outline: null };
  const event = readEvent(text);
  if (!event.ok) return { ...stored, text: null, outline: null };
  const sound = row.held === 0 ? event.fact : null;
  if (sound && isKitchenKind(sound.kind)) return { ...stored, text, outline: null };
  const outlined =
    sound && isPanelKind(sound.kind)
      ? outlineWith(sound, compared.get(row.position))
      : { ...event.envelope, body: null };
  return { ...stored, text: null, outline: outlined };
}

/** An outline; of a paper ballot also which typings of the other person say the same. */
function outlineWith(fact: Fact, compared: ReturnType<Compared["get"]>): Envelope {
  const outline = outlineOf(fact);
  return compared === undefined ? outline : { ...outline, body: { ...(outline.body as object), compared } };
}

/** An event as the kitchen may see it, of a study whose key is sealed. What does not concern it has its place in the log and no more. */
export function shownToKitchen(row: EventRow): StoredEvent {
  const nothing = { ...placeOf(row), text: null, outline: null };
  const event = readEvent(row.text);
  if (!event.ok || !event.fact || row.held !== 0) return nothing;
  const view = kitchenView(event.fact);
  if (view.form === "text") return { ...nothing, text: row.text };
  return view.form === "outline" ? { ...nothing, outline: view.outline } : nothing;
}

const placeOf = ({ position, received_at: receivedAt, chain, hash }: EventRow) => ({
  position,
  receivedAt,
  chain,
  hash,
});
