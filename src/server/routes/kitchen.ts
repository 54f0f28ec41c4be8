import type { FastifyInstance } from "fastify";
import { kitchenStream } from "../../model/event.ts";
import { eventsReply, type StoredEvent, streamKey } from "../../model/http.ts";
import { read } from "../../model/schema.ts";
import { asideCounts, type EventRow, eventsAfter, headsOfStream, streamHead } from "../query/streams.ts";
import { type House, serve } from "../serve.ts";
import { pageQuery } from "./studies.ts";

const stream = streamKey(kitchenStream);

/** The kitchen's own defaults, for leads. Only leads write there, so nothing has to be held back from them. */
export function kitchenRoutes(app: FastifyInstance, { store }: House): void {
  serve(app, "GET /api/kitchen/events", eventsReply, async (request) => {
    const { after } = read(pageQuery, request.query);
    return {
      incarnation: store.incarnation,
      revealed: true,
      // a kitchen without defaults is one that nobody has described yet, not one that does not exist
      head: (await streamHead(store.db, stream)) ?? 0,
      ...(await asideCounts(store.db, stream)),
      heads: await headsOfStream(store.db, stream),
      events: (await eventsAfter(store.db, stream, after)).map(stored),
    };
  });
}

const stored = ({ position, received_at: receivedAt, chain, hash, text }: EventRow): StoredEvent => ({
  position,
  receivedAt,
  chain,
  hash,
  text,
  outline: null,
});
