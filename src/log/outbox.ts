import type { Attachment } from "../model/ballot-event.ts";
import type { PushReply, PushRequest, Status } from "../model/http-device.ts";
import { type ProblemData, problem } from "../model/problem.ts";

/**
 * Where an event of this device stands with the server. Only `safe` frees anything; a `kept-aside` one is held by
 * the server too, but needs a look (conflict, fork); a `refused` one is stepped over, kept here and shown.
 */
export const sentStates = ["unsent", "safe", "kept-aside", "refused"] as const;
export type SentState = (typeof sentStates)[number];

/** An event as the device keeps it. `text` never changes once written; `own`: written under the present id. */
export type OutboxEvent = { id: string; stream: string; seq: number; text: string; sent: SentState; own: boolean };

/** What the store of a device must be able to do for sending; `device/store` does it on IndexedDB. */
export type OutboxStore = {
  /** Unsent events in order of stream and sequence number, at most `max` and about `bytes` of text. */
  unsent(max: number, bytes: number): Promise<{ events: OutboxEvent[]; attachments: Attachment[] }>;
  /** Highest sequence number by stream of what the device wrote under its present id. */
  topSeqs(): Promise<Record<string, number>>;
  /**
   * Takes a reply in, in one transaction: the new state of each event sent; events that counted as safe and lie beyond
   * the server's heads become unsent again; so do those of earlier ids when the server is another incarnation, since
   * its heads say nothing of them.
   */
  settle(
    changes: { id: string; sent: SentState }[],
    reply: Pick<PushReply, "incarnation" | "heads">,
  ): Promise<{ lost: number }>;
};

export type PushOutcome =
  | { ok: true; reply: PushReply }
  | { ok: false; problem: ProblemData; retryAfterSeconds: number | null };
export type Transport = { push(request: PushRequest): Promise<PushOutcome> };

export type SendOutcome =
  | { done: "all-sent" }
  /** The server holds more of this device than the device does: its storage was rolled back or cloned. */
  | { done: "rolled-back" }
  | { done: "failed"; problem: ProblemData; retryAfterSeconds: number | null };

/**
 * Sends everything unsent, batch by batch, in order, until nothing is left or something fails.
 *
 * An acknowledgment counts only when the reply echoes every id that was sent: a captive portal's 200 is none, nor
 * is a cut reply. A head lower than what the device holds as safe means that the server lost events (a restored or
 * new database): they become unsent again and go out in the same run.
 */
export async function sendAll(
  store: OutboxStore,
  transport: Transport,
  status: () => Promise<Status | null>,
  batch = { events: 200, bytes: 400_000 },
): Promise<SendOutcome> {
  let asked = false; // the heads are asked for once even when nothing is unsent: that is how a lost server is noticed
  let refills = 0;
  for (;;) {
    const { events, attachments } = await store.unsent(batch.events, batch.bytes);
    if (events.length === 0 && asked) return { done: "all-sent" };
    asked = true;
    const now = await status();
    const outcome = await transport.push({
      events: events.map((event) => event.text),
      attachments,
      // what stays unsent once this batch has arrived: the lead is warned of what a tablet holds, not of what is here
      status: now && { ...now, unsent: Math.max(0, now.unsent - events.length) },
    });
    if (!outcome.ok) {
      if (outcome.problem.code === "request/too-large" && batch.events > 1 && events.length > 1) {
        return sendAll(store, transport, status, { events: Math.ceil(events.length / 2), bytes: batch.bytes });
      }
      return { done: "failed", problem: outcome.problem, retryAfterSeconds: outcome.retryAfterSeconds };
    }
    const { reply } = outcome;
    const changes = changesOf(events, reply);
    if (!changes) return failed("the reply does not name the events that were sent");
    const tops = await store.topSeqs();
    if (Object.entries(reply.heads).some(([stream, head]) => head > (tops[stream] ?? 0)))
      return { done: "rolled-back" };
    const { lost } = await store.settle(changes, reply);
    // somebody else writes under this device's id: a clone, or this device before it was rolled back
    const forks = new Set(reply.verdicts.filter(({ verdict }) => verdict === "fork").map(({ id }) => id));
    if (events.some((event) => event.own && forks.has(event.id))) return { done: "rolled-back" };
    if (lost > 0) {
      refills += 1;
      // a server that keeps losing what it acknowledged must not be asked for ever
      if (refills > 3) return failed("it does not keep what it acknowledges");
    }
  }
}

function failed(reason: string): SendOutcome {
  return { done: "failed", problem: problem("server/not-cloche", { reason }).problem, retryAfterSeconds: null };
}

/** The new state of each event sent; null when the reply does not answer for every one of them. */
export function changesOf(events: OutboxEvent[], reply: PushReply): { id: string; sent: SentState }[] | null {
  const verdicts = new Map(reply.verdicts.map(({ id, verdict }) => [id, verdict]));
  const changes: { id: string; sent: SentState }[] = [];
  for (const { id } of events) {
    switch (verdicts.get(id)) {
      case "stored":
      case "have":
      case "held":
        changes.push({ id, sent: "safe" });
        break;
      case "conflict":
      case "fork":
        changes.push({ id, sent: "kept-aside" });
        break;
      case "refused":
        changes.push({ id, sent: "refused" });
        break;
      default:
        return null;
    }
  }
  return changes;
}

/**
 * Milliseconds to wait after the given number of failures in a row: doubling from 1 s, at most 60 s, with jitter, so
 * that tablets that lost the network together do not come back together. `uniform` is in [0, 1).
 */
export function backOff(failures: number, uniform: number, retryAfterSeconds: number | null): number {
  const ceiling = Math.min(60_000, 1000 * 2 ** Math.max(0, failures - 1));
  return Math.max((retryAfterSeconds ?? 0) * 1000, ceiling / 2 + (ceiling / 2) * uniform);
}
