import type { EventStore } from "../device/event-store.ts";
import { call } from "../device/transport.ts";
import { panelReply } from "../model/http-device.ts";
import type { ProblemData } from "../model/problem.ts";

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/**
 * Asks the server for the packet and the trays that were taken elsewhere, and keeps both.
 *
 * Takes    mayTakePacket: a new packet replaces the old one only while the tablet is at rest; showHalted: told whether tasting
 *          is stopped. That is not kept: a tablet that starts without network knows of no halt, and cannot be stuck in one
 * Returns  the problem when there is no answer, or a refusal; what was kept before stays
 */
export async function lookForNews(
  store: EventStore,
  fetcher: Fetch,
  mayTakePacket: () => boolean,
  showHalted: (halted: boolean) => void,
): Promise<ProblemData | null> {
  const who = await store.identity();
  if (!who) return null;
  const outcome = await call(fetcher, panelReply, "/api/panel", { token: who.token });
  if (!outcome.ok) return outcome.problem;
  const { heads, packet, taken, closed } = outcome.reply;
  showHalted(outcome.reply.halted);
  const now = await store.identity();
  if (now?.device === who.device) await noteEmptied(store, heads);
  await keepIfNew(store, "taken", taken);
  await keepIfNew(store, "closed", closed && packet ? packet.study : null);
  if (mayTakePacket()) await keepIfNew(store, "packet", packet);
  return null;
}

/** The server holds more of this tablet than the tablet does. Said until the lead has seen it. */
async function noteEmptied(store: EventStore, heads: Record<string, number>): Promise<void> {
  const tops = await store.topSeqs();
  if (!Object.entries(heads).some(([stream, head]) => head > (tops[stream] ?? 0))) return;
  const sum = (counts: Record<string, number>) => Object.values(counts).reduce((total, one) => total + one, 0);
  await keepIfNew(store, "emptied", { known: sum(heads), found: sum(tops) });
}

async function keepIfNew(store: EventStore, name: string, value: unknown): Promise<void> {
  if (JSON.stringify(await store.meta(name)) !== JSON.stringify(value)) await store.setMeta(name, value);
}
