import type { EventStore } from "../device/event-store.ts";
import { knownFacts, knownStudies, knownTexts, pulledState, pullStudies, pullStudy } from "../device/pull.ts";
import { foldStudy } from "../log/fold.ts";
import type { StreamName } from "../model/ballot-event.ts";
import { Problem } from "../model/problem.ts";
import type { Compute } from "./computing.ts";
import type { Opened } from "./opened-study.ts";

export type Fetch = (input: string, init: RequestInit) => Promise<Response>;

export type Loaded = { at: "sealed" } | { at: "unknown" } | { at: "opened"; study: Opened };

/**
 * Fetches what is new of a study and computes its result.
 *
 * Takes    compute: where it is computed; see `computing.ts`
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
  compute: Compute,
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
  const texts = await knownTexts(store, stream);
  const opened = await compute({ job: "study", study: id, texts, quarantined, app });
  return { at: "opened", study: { ...opened, texts, failure } };
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
