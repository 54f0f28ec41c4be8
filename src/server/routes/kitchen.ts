import type { FastifyInstance } from "fastify";
import { kitchenStream } from "../../model/event.ts";
import { eventsReply, streamKey } from "../../model/http.ts";
import { read } from "../../model/schema.ts";
import { streamHead } from "../query/streams.ts";
import { type House, serve } from "../serve.ts";
import { leadsPage } from "./leads-page.ts";
import { pageQuery } from "./studies.ts";

const stream = streamKey(kitchenStream);

/** The kitchen's own defaults, for leads. */
export function kitchenRoutes(app: FastifyInstance, { store }: House): void {
  serve(app, "GET /api/kitchen/events", eventsReply, async (request) => {
    const { after } = read(pageQuery, request.query);
    // a kitchen without defaults is one that nobody has described yet, not one that does not exist
    return leadsPage(store, stream, (await streamHead(store.db, stream)) ?? 0, after);
  });
}
