import type { EventStore } from "../device/event-store.ts";
import { panelEvents } from "../device/panel-store.ts";

/** What of this tablet the server does not have yet. */
export type Standing = {
  /** Kept answers that are on this tablet only. */
  unsentAnswers: number;
  /** All records that are: openings, stops and remarks too. */
  unsentRecords: number;
  /** When the oldest of those records was made, by this tablet's clock; null when there is none. */
  oldestUnsentAt: string | null;
  /** Records that the server put aside or refused. */
  aside: number;
};

/** Reads it from the store; null when the store cannot be read, which must not take an answer off the screen. */
export async function readStanding(store: EventStore): Promise<Standing | null> {
  try {
    const { unsent, aside } = await store.counts();
    if (unsent === 0) return { unsentAnswers: 0, unsentRecords: 0, oldestUnsentAt: null, aside };
    let answers = 0;
    let oldestUnsentAt: string | null = null;
    for (const row of await store.ownRows()) {
      if (row.sent !== "unsent") continue;
      const read = panelEvents.readEvent(row.text);
      if (!read.ok) continue;
      if (read.fact?.kind === "answer-kept") answers += 1;
      if (oldestUnsentAt === null || read.envelope.at < oldestUnsentAt) oldestUnsentAt = read.envelope.at;
    }
    return { unsentAnswers: answers, unsentRecords: unsent, oldestUnsentAt, aside };
  } catch {
    return null;
  }
}

/** Whole minutes for which something has waited to be sent; null under five, when it is not worth a word. */
export function waitingMinutes(oldest: string | null, now: string): number | null {
  if (oldest === null) return null;
  const minutes = Math.floor((Date.parse(now) - Date.parse(oldest)) / 60_000);
  return minutes >= 5 ? minutes : null;
}
