import type { FastifyInstance, FastifyRequest } from "fastify";
import * as z from "zod/mini";
import { outlineOf, readEvent } from "../../log/facts.ts";
import { isPanelKind } from "../../model/ballot-event.ts";
import { eventsReply, remarksReply, type StoredEvent, streamKey, studiesReply } from "../../model/http.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { asideCounts, type EventRow, eventsAfter, headsOfStream } from "../query/streams.ts";
import { allStudies, remarksOf, studyHead } from "../query/studies.ts";
import { callerOf, type House, serve } from "../serve.ts";

const params = z.object({ id: idSchema });
export const pageQuery = z.object({
  after: z._default(z.coerce.number().check(z.int(), z.minimum(0)), 0),
  // which form the caller has been reading; the reply says which one it gives
  revealed: z.optional(z.enum(["0", "1"])),
});

/** What the lead and, after the reveal, a reader get of a study. */
export function studyRoutes(app: FastifyInstance, { store, presence }: House): void {
  serve(app, "GET /api/studies", studiesReply, async (request) => {
    const caller = callerOf(request);
    presence.note(caller.id, null);
    const studies = await allStudies(store.db);
    const visible = studies.filter(({ id, revealed }) => mayRead(caller, id, revealed));
    return { incarnation: store.incarnation, studies: visible };
  });

  serve(app, "GET /api/studies/:id/events", eventsReply, async (request) => {
    const { after } = read(pageQuery, request.query);
    const { id, head, revealed } = await study(request);
    const stream = streamKey({ kind: "study", id });
    const rows = await eventsAfter(store.db, stream, after);
    return {
      incarnation: store.incarnation,
      revealed,
      head,
      ...(await asideCounts(store.db, stream)),
      heads: await headsOfStream(store.db, stream),
      events: rows.map((row) => shown(row, revealed)),
    };
  });

  serve(app, "GET /api/studies/:id/remarks", remarksReply, async (request) => {
    const { id, revealed } = await study(request);
    if (!revealed) throw problem("access/not-allowed");
    return { remarks: await remarksOf(store.db, id) };
  });

  /** The study asked for. One that the caller may not see looks like one that does not exist. */
  async function study(request: FastifyRequest) {
    const caller = callerOf(request);
    const { id } = read(params, request.params, () => problem("access/not-found"));
    const found = await studyHead(store.db, id);
    if (!found || !mayRead(caller, id, found.revealed)) throw problem("access/not-found");
    return { id, ...found };
  }
}

function mayRead(caller: { role: string; study: string | null }, study: string, revealed: boolean): boolean {
  if (caller.role === "lead") return true;
  return caller.role === "reader" && revealed && (caller.study === null || caller.study === study);
}

/** An event as it may be seen: before the reveal a ballot event is an outline, that something happened, never what. */
function shown(row: EventRow, revealed: boolean): StoredEvent {
  const { position, received_at: receivedAt, chain, hash, text } = row;
  const stored = { position, receivedAt, chain, hash };
  // what a tablet wrote and this server cannot judge may hold an answer as well
  if (revealed || row.role === "lead") return { ...stored, text, outline: null };
  const event = readEvent(text);
  if (!event.ok) return { ...stored, text: null, outline: null };
  const sound = row.held === 0 && event.fact && isPanelKind(event.fact.kind) ? event.fact : null;
  return { ...stored, text: null, outline: sound ? outlineOf(sound) : { ...event.envelope, body: null } };
}
