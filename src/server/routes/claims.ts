import type { FastifyInstance } from "fastify";
import * as z from "zod/mini";
import { claimsReply, eventsReply, streamKey } from "../../model/http.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { allClaims, streamHead } from "../query/streams.ts";
import { type House, serve } from "../serve.ts";
import { leadsPage } from "./leads-page.ts";
import { pageQuery } from "./studies.ts";

const params = z.object({ id: idSchema });

/** What leads expect to find, and what speaks for it: theirs alone, since it says what a panel is to perceive. */
export function claimRoutes(app: FastifyInstance, { store }: House): void {
  serve(app, "GET /api/claims", claimsReply, async () => ({
    incarnation: store.incarnation,
    claims: await allClaims(store.db),
  }));

  serve(app, "GET /api/claims/:id/events", eventsReply, async (request) => {
    const { after } = read(pageQuery, request.query);
    const { id } = read(params, request.params, () => problem("access/not-found"));
    const stream = streamKey({ kind: "claim", id });
    const head = await streamHead(store.db, stream);
    if (head === null) throw problem("access/not-found");
    return leadsPage(store, stream, head, after);
  });
}
