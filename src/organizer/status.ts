import { mustEnrollAgain } from "../device/enrolled.ts";
import type { SendOutcome } from "../log/outbox.ts";
import { organizer } from "../words/en/organizer.ts";
import type { KeepState } from "./draft-keeper.ts";

/** What is known of sending: when everything was last with the server, and how the last try went. */
export type Sent = {
  at: string | null;
  failed: boolean;
  /** The server said that it does not know this browser, and nothing else since. */
  unknown: boolean;
};
export const neverSent: Sent = { at: null, failed: false, unknown: false };

/** The next state of sending after a run. */
export function afterRun(before: Sent, outcome: SendOutcome, at: string): Sent {
  if (outcome.done === "all-sent") return { at, failed: false, unknown: false };
  if (outcome.done === "rolled-back") return { at: before.at, failed: true, unknown: false };
  // a network that is away says nothing about who the server knows
  const spoke = outcome.problem.code.startsWith("access/");
  return { at: before.at, failed: true, unknown: spoke ? mustEnrollAgain(outcome.problem) : before.unknown };
}

/**
 * The quiet line at the right of the header. It never says kept before the write is on disk, and never sent while
 * something is not.
 */
export function statusText(
  facts: { counts: { unsent: number; aside: number }; lastKept: string | null; sent: Sent; keep: KeepState | null },
  words = organizer.status,
): string {
  const { counts, lastKept, sent, keep } = facts;
  const parts: string[] = [];
  if (keep?.at === "failed") parts.push(words.failed);
  else if (keep?.at === "waiting") parts.push(words.waiting);
  else if (keep?.at === "keeping") parts.push(words.keeping);
  else if (counts.unsent > 0) parts.push(words.notSent(counts.unsent));
  else if (lastKept) {
    parts.push(words.kept(lastKept));
    if (sent.at && sent.at >= lastKept) parts.push(words.sent(sent.at));
  } else if (sent.at) parts.push(words.sent(sent.at));
  if (sent.unknown) parts.push(words.unknown);
  if (counts.aside > 0) parts.push(words.aside(counts.aside));
  return parts.join(words.join);
}
