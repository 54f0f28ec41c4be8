import * as z from "zod/mini";
import { readEvent, readOutline } from "../log/facts.ts";
import type { Fact, StreamName } from "../model/event.ts";
import { eventsReply, streamKey, studiesReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import type { DeviceStore } from "./store.ts";
import { call } from "./transport.ts";

type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/** What is remembered about receiving one stream. `quarantined` and `held` are the server's counts of events kept aside. */
const pulled = z.strictObject({
  incarnation: z.string(),
  revealed: z.boolean(),
  position: z.number(),
  quarantined: z.number(),
  held: z.number(),
});
export type Pulled = z.infer<typeof pulled>;

/** What is remembered about receiving a stream; null before the first time. */
export async function pulledState(store: DeviceStore, stream: StreamName): Promise<Pulled | null> {
  const parsed = z.safeParse(pulled, await store.meta(`pulled ${streamKey(stream)}`));
  return parsed.success ? parsed.data : null;
}

/**
 * Fetches what is new in a study's stream and keeps it. Starts from the beginning when the server is another
 * incarnation (restored, new database) or the study was revealed since: outlines are then replaced by full texts.
 * Throws the Problem when the server cannot be reached or refuses; what was received before stays.
 */
export async function pullStudy(store: DeviceStore, fetcher: Fetch, token: string, study: string): Promise<Pulled> {
  const stream: StreamName = { kind: "study", id: study };
  let state = await pulledState(store, stream);
  for (;;) {
    const after = state?.position ?? 0;
    const outcome = await call(fetcher, eventsReply, `/api/studies/${study}/events?after=${after}`, { token });
    if (!outcome.ok) throw new Problem(outcome.problem);
    const { incarnation, revealed, events, head, quarantined, held } = outcome.reply;
    const anew = state !== null && (state.incarnation !== incarnation || state.revealed !== revealed);
    if (anew && after > 0) {
      state = { incarnation, revealed, position: 0, quarantined, held };
      continue;
    }
    if (events.length > 0) await store.keepReceived(stream, events, after === 0);
    const position: number = events.at(-1)?.position ?? after;
    const next = { incarnation, revealed, position, quarantined, held };
    if (JSON.stringify(next) !== JSON.stringify(state)) await store.setMeta(`pulled ${streamKey(stream)}`, next);
    state = next;
    if (position >= head || events.length === 0) return next;
  }
}

/** Ids of the studies the server knows, for a lead or reader. Throws the Problem when it cannot be reached. */
export async function pullStudies(fetcher: Fetch, token: string): Promise<{ id: string; revealed: boolean }[]> {
  const outcome = await call(fetcher, studiesReply, "/api/studies", { token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  return outcome.reply.studies;
}

/** All this device knows of a stream: its own events and those received (texts or outlines). Any order, repeats. */
export async function knownFacts(store: DeviceStore, stream: StreamName): Promise<Fact[]> {
  const facts = await store.ownFacts(stream);
  for (const row of await store.received(stream)) {
    if (row.text !== null) {
      const read = readEvent(row.text);
      if (read.ok && read.fact) facts.push(read.fact);
    } else {
      const outline = readOutline(row.outline, row.hash);
      if (outline) facts.push(outline);
    }
  }
  return facts;
}

/** Exact texts of a stream's events, once each: for the study file. Outlines have none and are left out. */
export async function knownTexts(store: DeviceStore, stream: StreamName): Promise<string[]> {
  const texts = new Map<string, string>();
  for (const row of await store.ownRows(stream)) texts.set(row.hash, row.text);
  for (const row of await store.received(stream)) if (row.text !== null) texts.set(row.hash, row.text);
  return [...texts.values()];
}

/** Streams of which this device holds own or received events. */
export async function knownStudies(store: DeviceStore): Promise<string[]> {
  const own = (await store.ownRows()).map((row) => row.stream);
  const received = await store.receivedStreams();
  const studies = [...own, ...received].filter((name) => name.startsWith("study:")).map((name) => name.slice(6));
  return [...new Set(studies)];
}
