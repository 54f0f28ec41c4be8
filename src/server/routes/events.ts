import type { FastifyInstance } from "fastify";
import { pushReply, pushRequest } from "../../model/http.ts";
import { read } from "../../model/schema.ts";
import { judge } from "../judge.ts";
import { headsOfDevice, pushBatch } from "../query/push.ts";
import { callerOf, type House, instantOf, serve } from "../serve.ts";

/** Taking in what devices wrote. The reply leaves after the commit has reached the disk. */
export function eventRoutes(app: FastifyInstance, { store, now, presence }: House): void {
  serve(app, "POST /api/events", pushReply, async (request) => {
    const caller = callerOf(request);
    const { events, attachments, status } = read(pushRequest, request.body);
    const judged = events.map((text) => judge(text, caller.role, caller.ids));
    const verdicts = await pushBatch(store.db, caller, judged, attachments, instantOf(now()));
    presence.note(caller.id, status);
    const heads = await headsOfDevice(store.db, caller.id);
    return { incarnation: store.incarnation, verdicts, heads };
  });
}
