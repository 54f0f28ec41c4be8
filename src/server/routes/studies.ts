import type { FastifyInstance, FastifyRequest } from "fastify";
import * as z from "zod/mini";
import { callsReply, eventsReply, remarksReply, type Status, streamKey, studiesReply } from "../../model/http.ts";
import { problem } from "../../model/problem.ts";
import { id as idSchema, read } from "../../model/schema.ts";
import { type Compared, comparedIn } from "../paper-compared.ts";
import { allDevices, type Caller } from "../query/devices.ts";
import { asideCounts, eventsAfter, headsOfStream } from "../query/streams.ts";
import { allStudies, remarksOf, studyHead } from "../query/studies.ts";
import { callerOf, type House, serve } from "../serve.ts";
import { shown, shownToKitchen } from "../shown.ts";

const params = z.object({ id: idSchema });
export const pageQuery = z.object({
  after: z._default(z.coerce.number().check(z.int(), z.minimum(0)), 0),
  // which form the caller has been reading; the reply says which one it gives
  revealed: z.optional(z.enum(["0", "1"])),
});

/** What the lead, until the reveal the kitchen and after it a reader get of a study. */
export function studyRoutes(app: FastifyInstance, { store, presence }: House): void {
  serve(app, "GET /api/studies", studiesReply, async (request) => {
    const caller = callerOf(request);
    presence.note(caller.id, null);
    const studies = await allStudies(store.db);
    const visible = studies.filter((study) => mayRead(caller, study.id, study));
    return {
      incarnation: store.incarnation,
      studies: visible.map(({ id, head, revealed }) => ({ id, head, revealed })),
    };
  });

  serve(app, "GET /api/studies/:id/events", eventsReply, async (request) => {
    const { after } = read(pageQuery, request.query);
    const { id, role, head, revealed } = await study(request);
    const stream = streamKey({ kind: "study", id });
    const rows = await eventsAfter(store.db, stream, after);
    const compared: Compared = revealed ? new Map() : await comparedIn(store.db, stream, rows);
    return {
      incarnation: store.incarnation,
      revealed,
      head,
      ...(await asideCounts(store.db, stream)),
      heads: await headsOfStream(store.db, stream),
      events: rows.map((row) => (role === "kitchen" ? shownToKitchen(row) : shown(row, revealed, compared))),
    };
  });

  serve(app, "GET /api/studies/:id/calls", callsReply, async (request) => {
    const { id } = await study(request);
    const devices = await allDevices(store.db);
    const tablets = devices.filter((device) => device.study === id && device.role === "panel" && device.revoked === 0);
    return {
      calls: tablets.flatMap(({ id: device, name, last_seen, status }) => {
        const seen = presence.of(device);
        const said = seen?.status ?? (status === null ? null : (JSON.parse(status) as Status));
        const lastSeen = seen?.lastSeen ?? last_seen;
        return said?.help != null && lastSeen !== null ? [{ device, name, tray: said.help, lastSeen }] : [];
      }),
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
    if (!found || !mayRead(caller, id, found)) throw problem("access/not-found");
    return { id, role: caller.role, ...found };
  }
}

/** A lead reads everything; a reader what was revealed; the kitchen what is locked and not revealed. */
function mayRead(
  caller: Pick<Caller, "role" | "study">,
  study: string,
  at: { locked: boolean; revealed: boolean },
): boolean {
  if (caller.role === "lead") return true;
  if (caller.study !== null && caller.study !== study) return false;
  if (caller.role === "kitchen") return at.locked && !at.revealed;
  return caller.role === "reader" && at.revealed;
}
