import * as z from "zod/mini";
import { chainStart, headsOf } from "../log/chain.ts";
import { readEvent, readOutline } from "../log/facts.ts";
import { type Heads, heads, type StreamName } from "../model/ballot-event.ts";
import { type Fact, kitchenStream } from "../model/event.ts";
import { claimsReply, type EventsReply, eventsReply, streamKey, studiesReply } from "../model/http.ts";
import { Problem } from "../model/problem.ts";
import type { EventStore } from "./event-store.ts";
import { call } from "./transport.ts";

type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/**
 * What is remembered about receiving one stream: how far, with the chain there, so that a database that was put back
 * from a copy is noticed; the server's counts of events kept aside; and its heads, which include those.
 */
const pulled = z.strictObject({
  incarnation: z.string(),
  revealed: z.boolean(),
  position: z.number(),
  chain: z.string(),
  quarantined: z.number(),
  held: z.number(),
  heads,
  /** Received as the kitchen gets it, without key and drafts. */
  kitchen: z._default(z.boolean(), false),
});
export type Pulled = z.infer<typeof pulled>;

/** What is remembered about receiving a stream; null before the first time. */
export async function pulledState(store: EventStore, stream: StreamName): Promise<Pulled | null> {
  const parsed = z.safeParse(pulled, await store.meta(`pulled ${streamKey(stream)}`));
  return parsed.success ? parsed.data : null;
}

/**
 * Fetches what is new in a study's stream and keeps it. Starts from the beginning when the server is another
 * incarnation or its chain is another one (restored, new database), or when the study was revealed since: outlines are
 * then replaced by full texts. What was received before stays, whatever the server has lost.
 * Throws the Problem when the server cannot be reached or refuses.
 */
export const pullStudy = (store: EventStore, fetcher: Fetch, token: string, study: string): Promise<Pulled> =>
  pullStream(store, fetcher, token, { kind: "study", id: study }, `/api/studies/${study}/events`);

/** Fetches what is new of the kitchen's own defaults, for a lead; in all else as `pullStudy` does. */
export const pullKitchen = (store: EventStore, fetcher: Fetch, token: string): Promise<Pulled> =>
  pullStream(store, fetcher, token, kitchenStream, "/api/kitchen/events");

/** Fetches what is new in every claim, for a lead; in all else as `pullStudy` does. */
export async function pullClaims(store: EventStore, fetcher: Fetch, token: string): Promise<void> {
  const outcome = await call(fetcher, claimsReply, "/api/claims", { token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  for (const { id } of outcome.reply.claims) {
    await pullStream(store, fetcher, token, { kind: "claim", id }, `/api/claims/${id}/events`);
  }
}

async function pullStream(
  store: EventStore,
  fetcher: Fetch,
  token: string,
  stream: StreamName,
  path: string,
): Promise<Pulled> {
  const before = await pulledState(store, stream);
  const kitchen = (await store.identity())?.role === "kitchen";
  // a browser of the kitchen that became a lead's has yet to see what was kept from it
  let at = before?.kitchen === kitchen ? before : null;
  for (;;) {
    // the last event known is asked for again: its chain tells whether this is still the same log
    const after = Math.max(0, (at?.position ?? 0) - 1);
    const outcome = await call(fetcher, eventsReply, `${path}?after=${after}`, { token });
    if (!outcome.ok) throw new Problem(outcome.problem);
    const { reply } = outcome;
    if (at && !continues(at, reply)) {
      at = null;
      continue;
    }
    const fresh = reply.events.filter(({ position }) => position > (at?.position ?? 0));
    if (fresh.length > 0) await store.keepReceived(stream, fresh);
    const { incarnation, revealed, quarantined, held, heads } = reply;
    const last = reply.events.at(-1);
    const position = last?.position ?? 0;
    const chain = last?.chain ?? chainStart;
    // in the order of the schema: what was kept comes back in it, and the two are compared as texts
    const next: Pulled = { incarnation, revealed, position, chain, quarantined, held, heads, kitchen };
    at = next;
    if (next.position < reply.head && fresh.length > 0) continue;
    if (JSON.stringify(next) !== JSON.stringify(before)) await store.setMeta(`pulled ${streamKey(stream)}`, next);
    return next;
  }
}

/** Does the reply go on where `at` ended, in the same log and in the same form (outlines, or full texts)? */
function continues(at: Pulled, reply: EventsReply): boolean {
  if (at.incarnation !== reply.incarnation || at.revealed !== reply.revealed) return false;
  if (at.position === 0) return true;
  const known = reply.events[0];
  return known?.position === at.position && known.chain === at.chain;
}

/**
 * How far this device has seen each device's events of a stream without a gap: its own, and as far as the server said
 * it holds. The server counts events that it keeps aside or holds for a newer version too, so that one of those does
 * not make everything after it late.
 */
export async function seenHeads(store: EventStore, stream: StreamName): Promise<Heads> {
  const seen: Heads = headsOf(await knownFacts(store, stream));
  for (const [device, head] of Object.entries((await pulledState(store, stream))?.heads ?? {})) {
    seen[device] = Math.max(seen[device] ?? 0, head);
  }
  return seen;
}

/** Ids of the studies the server knows, for a lead or reader. Throws the Problem when it cannot be reached. */
export async function pullStudies(fetcher: Fetch, token: string): Promise<{ id: string; revealed: boolean }[]> {
  const outcome = await call(fetcher, studiesReply, "/api/studies", { token });
  if (!outcome.ok) throw new Problem(outcome.problem);
  return outcome.reply.studies;
}

/** All this device knows of a stream: its own events and those received (texts or outlines). Any order, repeats. */
export async function knownFacts(store: EventStore, stream: StreamName): Promise<Fact[]> {
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
export async function knownTexts(store: EventStore, stream: StreamName): Promise<string[]> {
  const texts = new Map<string, string>();
  for (const row of await store.ownRows(stream)) texts.set(row.hash, row.text);
  for (const row of await store.received(stream)) if (row.text !== null) texts.set(row.hash, row.text);
  return [...texts.values()];
}

/** Studies of which this device holds own or received events. */
export const knownStudies = (store: EventStore): Promise<string[]> => knownStreams(store, "study");

/** Claims of which this device holds own or received events. */
export const knownClaims = (store: EventStore): Promise<string[]> => knownStreams(store, "claim");

async function knownStreams(store: EventStore, kind: StreamName["kind"]): Promise<string[]> {
  const own = (await store.ownRows()).map((row) => row.stream);
  const received = await store.receivedStreams();
  const prefix = `${kind}:`;
  const ids = [...own, ...received].filter((name) => name.startsWith(prefix)).map((name) => name.slice(prefix.length));
  return [...new Set(ids)];
}
