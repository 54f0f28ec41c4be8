import type { FastifyInstance } from "fastify";
import { type PanelReply, panelReply } from "../../model/http.ts";
import { headsOfDevice } from "../query/push.ts";
import { eventText, isClosed, isHalted, lockEvent, takenTrays } from "../query/studies.ts";
import { callerOf, type House, serve } from "../serve.ts";

/**
 * All that a panel device gets: the blind packet of the study it serves, and which trays were answered elsewhere.
 *
 * The packet is taken out of the locking event whole; the exit schema then refuses anything a packet must not hold.
 */
export function panelRoutes(app: FastifyInstance, { store, presence }: House): void {
  // an event never changes, so its packet is read once; one study is served at a time, or a few
  const packets = new Map<string, PanelReply["packet"]>();

  async function packetOf(study: string): Promise<PanelReply["packet"]> {
    const event = await lockEvent(store.db, study);
    if (event === null) return null;
    const known = packets.get(event);
    if (known !== undefined) return known;
    const { body } = JSON.parse(await eventText(store.db, event)) as { body: { packet: PanelReply["packet"] } };
    if (packets.size > 20) packets.clear();
    packets.set(event, body.packet);
    return body.packet;
  }

  serve(app, "GET /api/panel", panelReply, async (request) => {
    const { id, ids, study } = callerOf(request);
    presence.note(id, null);
    return {
      incarnation: store.incarnation,
      heads: await headsOfDevice(store.db, id),
      packet: study === null ? null : await packetOf(study),
      taken: study === null ? [] : await takenTrays(store.db, study, ids),
      closed: study !== null && (await isClosed(store.db, study)),
      halted: study !== null && (await isHalted(store.db, study)),
    };
  });
}
