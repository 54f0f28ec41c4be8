import type { EventsReply, StoredEvent } from "../../model/http.ts";
import type { Store } from "../query/store.ts";
import { asideCounts, type EventRow, eventsAfter, headsOfStream } from "../query/streams.ts";

/** A page of a stream in which only leads write: nothing has to be held back from them, so all of it is full text. */
export async function leadsPage(store: Store, stream: string, head: number, after: number): Promise<EventsReply> {
  return {
    incarnation: store.incarnation,
    revealed: true,
    head,
    ...(await asideCounts(store.db, stream)),
    heads: await headsOfStream(store.db, stream),
    events: (await eventsAfter(store.db, stream, after)).map(stored),
  };
}

const stored = ({ position, received_at: receivedAt, chain, hash, text }: EventRow): StoredEvent => ({
  position,
  receivedAt,
  chain,
  hash,
  text,
  outline: null,
});
