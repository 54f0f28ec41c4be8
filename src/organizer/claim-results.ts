import { weighedFindingOf } from "../analysis/finding.ts";
import { recordOfFile } from "../archive/study-file.ts";
import type { EventStore } from "../device/event-store.ts";
import { knownTexts, pulledState } from "../device/pull.ts";
import type { StudyState } from "../log/fold.ts";
import type { Claim } from "../model/claim.ts";
import type { Plan } from "../model/plan.ts";
import type { Result } from "../model/result.ts";
import { appVersion } from "../ui/app-version.ts";
import { readStudies } from "./facts.ts";
import { planOf } from "./study-stage.ts";

/**
 * A study as a claim sees it. `result`: null before the reveal, and where this device lacks part of it; then `waits`
 * says why.
 */
export type ClaimStudy = {
  id: string;
  plan: Plan;
  revealed: boolean;
  result: Result | null;
  waits: "draft" | "sealed" | "not-here" | "failed" | null;
};

/** Results of studies by the texts they were computed from: a page asks again after every change of anything. */
const computed = new Map<string, Result>();

/**
 * The studies that this device knows, and of those attached to a claim the results, computed as the report does. Nothing
 * of a study is read before its reveal.
 */
export async function studiesWithResults(store: EventStore, attached: readonly string[]): Promise<ClaimStudy[]> {
  const studies: ClaimStudy[] = [];
  for (const { id, state } of await readStudies(store)) {
    const plan = planOf(state);
    if (plan) studies.push({ id, plan, ...(await standOf(store, id, state, attached.includes(id))) });
  }
  return studies;
}

type Stand = Pick<ClaimStudy, "revealed" | "result" | "waits">;

async function standOf(store: EventStore, id: string, state: StudyState, wanted: boolean): Promise<Stand> {
  if (!state.reveal) return { revealed: false, result: null, waits: state.lock ? "sealed" : "draft" };
  const whole = [...state.facts.values()].every((fact) => !fact.outline);
  if (!state.lock || !whole) return { revealed: true, result: null, waits: "not-here" };
  if (!wanted) return { revealed: true, result: null, waits: null };
  try {
    return { revealed: true, result: await resultOf(store, id), waits: null };
  } catch {
    // its report says what is wrong with it, in full
    return { revealed: true, result: null, waits: "failed" };
  }
}

async function resultOf(store: EventStore, id: string): Promise<Result> {
  const stream = { kind: "study" as const, id };
  const events = await knownTexts(store, stream);
  const quarantined = (await pulledState(store, stream))?.quarantined ?? 0;
  const key = `${id} ${events.length} ${quarantined}`;
  const before = computed.get(key);
  if (before) return before;
  // fetched only now: most pages of the lead compute nothing
  const { analyse } = await import("../analysis/analyse.ts");
  const result = analyse(recordOfFile({ study: id, events, quarantined }, id).record, appVersion);
  computed.set(key, result);
  return result;
}

/** How many results a claim waits for, and how many are in: each attached study, each typed or weighed one, each thing without any. */
export function resultsIn(claim: Claim, isRevealed: (study: string) => boolean): { known: number; all: number } {
  const parts = claim.measures.flatMap(({ attached, typed, weighed }) => [
    ...attached.map(({ study }) => isRevealed(study)),
    ...(typed === null ? [] : [true]),
    ...(weighed === null ? [] : [weighedFindingOf(weighed) !== null]),
    ...(attached.length === 0 && typed === null && weighed === null ? [false] : []),
  ]);
  return { known: parts.filter(Boolean).length, all: parts.length };
}
