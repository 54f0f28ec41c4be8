import type { StudyState } from "../log/fold.ts";
import type { Plan } from "../model/plan.ts";

/** draft: may change. locked: no ballot yet. collecting: at least one. closed: no more. revealed: the key is open. */
export type Stage = "draft" | "locked" | "collecting" | "closed" | "revealed";

export function stageOf(state: StudyState): Stage {
  if (state.reveal) return "revealed";
  if (state.close) return "closed";
  if (!state.lock) return "draft";
  return [...state.trays.values()].some((tray) => tray.ballots.length > 0) ? "collecting" : "locked";
}

/** The plan as locked, else as drafted; null for a stream of which only other events arrived so far. */
export const planOf = (state: StudyState): Plan | null => state.lock?.body.plan ?? state.draft?.plan ?? null;

/** When something last happened, by the clock of the device that did it; null when nothing is known. */
export function lastAt(state: StudyState): string | null {
  let last: string | null = null;
  for (const fact of state.facts.values()) if (last === null || fact.at > last) last = fact.at;
  return last;
}
