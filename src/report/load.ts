import { analyse } from "../analysis/analyse.ts";
import { recordOfFile } from "../archive/study-file.ts";
import type { EventStore } from "../device/event-store.ts";
import { knownFacts, knownStudies, knownTexts, pulledState, pullStudies, pullStudy } from "../device/pull.ts";
import { foldStudy } from "../log/fold.ts";
import type { StreamName } from "../model/ballot-event.ts";
import { Problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Result } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";
import { type Occasion, occasionOf } from "./occasion.ts";

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

/** An opened study with everything its page draws. */
export type Opened = {
  record: StudyRecord;
  result: Result;
  occasion: Occasion;
  /** Exact texts of its events: what the study file holds and what verifying reads. */
  texts: string[];
  quarantined: number;
  /** Events that close or reveal saw and this device lacks, and those that this version cannot read. */
  missing: number;
  /** The tray of each remark, by the id of its event. The remarks themselves are fetched apart, by a lead only. */
  remarkTrays: Map<string, number>;
  /** Why the server gave nothing, when this is what the device held before; null when it is fresh. */
  failure: unknown;
};

export type Loaded = { at: "sealed" } | { at: "unknown" } | { at: "opened"; study: Opened };

/**
 * Fetches what is new of a study and computes its result.
 *
 * Returns  "sealed" while the key is not opened, or while anything of a ballot is known in outline only: a result is
 *          computed from whole logs, never from part of one without saying so
 * Throws   the Problem when the server cannot be reached and this device holds no opened study
 */
export async function loadStudy(
  store: EventStore,
  fetcher: Fetch,
  token: string,
  id: string,
  app: string,
): Promise<Loaded> {
  const stream: StreamName = { kind: "study", id };
  const failure = await pullStudy(store, fetcher, token, id).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  const state = foldStudy(await knownFacts(store, stream));
  const whole = [...state.facts.values()].every((fact) => !fact.outline);
  if (!state.lock || !state.reveal || !whole) {
    if (failure === null) return { at: "sealed" };
    if (isRefusal(failure)) return { at: "unknown" };
    throw failure;
  }
  const quarantined = (await pulledState(store, stream))?.quarantined ?? 0;
  return { at: "opened", study: { ...openedStudy(id, await knownTexts(store, stream), quarantined, app), failure } };
}

/**
 * Everything the page draws of an opened study, from the exact texts of its events: by the same way as from its file, so
 * that both give one result. Throws what `recordOfFile` and `analyse` throw.
 */
export function openedStudy(study: string, texts: string[], quarantined: number, app: string): Omit<Opened, "failure"> {
  const file = { study, events: texts, quarantined };
  const { record, state, held, missing } = recordOfFile(file, reader.exports.study);
  const remarkTrays = new Map<string, number>();
  for (const fact of state.facts.values()) {
    if (fact.kind === "remark-kept") remarkTrays.set(fact.id, fact.body.tray);
  }
  return {
    ...{ record, texts, quarantined, remarkTrays },
    result: analyse(record, app),
    occasion: occasionOf(state),
    missing: missing + held,
  };
}

export type Listed = { id: string; title: string; objective: string; revealedAt: string; invented: boolean };

/** The opened studies, latest first. When the server cannot be reached: those this device holds, if any. */
export async function loadList(store: EventStore, fetcher: Fetch, token: string): Promise<Listed[]> {
  let ids: string[];
  try {
    const studies = await pullStudies(fetcher, token);
    ids = studies.filter(({ revealed }) => revealed).map(({ id }) => id);
    for (const id of ids) await pullStudy(store, fetcher, token, id);
  } catch (thrown) {
    ids = await knownStudies(store);
    if (ids.length === 0 || isRefusal(thrown) || isNotEnrolled(thrown)) throw thrown;
  }
  const list: Listed[] = [];
  for (const id of ids) {
    const { lock, reveal } = foldStudy(await knownFacts(store, { kind: "study", id }));
    if (lock && reveal) {
      const { title, objective, invented } = lock.body.plan;
      list.push({ id, title, objective, revealedAt: reveal.at, invented });
    }
  }
  return list.sort((a, b) => (a.revealedAt < b.revealedAt ? 1 : -1));
}

/** Was this device withdrawn, or is it not known to this server? */
export const isNotEnrolled = (thrown: unknown): boolean =>
  thrown instanceof Problem && thrown.problem.code === "access/not-enrolled";

const isRefusal = (thrown: unknown): boolean =>
  thrown instanceof Problem &&
  (thrown.problem.code === "access/not-found" || thrown.problem.code === "access/not-allowed");
