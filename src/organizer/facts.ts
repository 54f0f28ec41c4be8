import { useEffect, useState } from "preact/hooks";
import type { EventStore } from "../device/event-store.ts";
import {
  knownClaims,
  knownFacts,
  knownStudies,
  pullClaims,
  pullKitchen,
  pullStudies,
  pullStudy,
} from "../device/pull.ts";
import { type ClaimState, foldClaim } from "../log/claim.ts";
import { foldStudy, type StudyState } from "../log/fold.ts";
import { foldKitchen, type KitchenState } from "../log/kitchen.ts";
import { kitchenStream } from "../model/event.ts";
import { useReading } from "../ui/use-store.ts";
import type { Lead } from "./app-context.ts";

/** The store's changes as `useReading` wants them. */
export const watchOf = (store: EventStore) => (changed: () => void) => {
  const stop = store.onChange(changed);
  return () => {
    stop();
  };
};

/** A study from all this device knows of it. */
export const readStudy = async (store: EventStore, study: string): Promise<StudyState> =>
  foldStudy(await knownFacts(store, { kind: "study", id: study }));

/** The same; undefined until it was read, and read again after every change. */
export const useStudy = (store: EventStore, study: string): StudyState | undefined =>
  useReading(() => readStudy(store, study), watchOf(store), [study]);

/** All studies of which this device holds something, folded. */
export async function readStudies(store: EventStore): Promise<{ id: string; state: StudyState }[]> {
  const ids = await knownStudies(store);
  return Promise.all(ids.map(async (id) => ({ id, state: await readStudy(store, id) })));
}

/** The same, read again after every change. */
export const useStudies = (store: EventStore): { id: string; state: StudyState }[] | undefined =>
  useReading(() => readStudies(store), watchOf(store), []);

/** The kitchen's defaults from all this device knows of them; undefined until they were read. */
export const useKitchen = (store: EventStore): KitchenState | undefined =>
  useReading(async () => foldKitchen(await knownFacts(store, kitchenStream)), watchOf(store), []);

/** A claim from all this device knows of it; undefined until it was read. */
export const useClaim = (store: EventStore, claim: string): ClaimState | undefined =>
  useReading(async () => foldClaim(await knownFacts(store, { kind: "claim", id: claim })), watchOf(store), [claim]);

/** All claims of which this device holds something, folded, and read again after every change. */
export const useClaims = (store: EventStore): { id: string; state: ClaimState }[] | undefined =>
  useReading(
    async () => {
      const ids = await knownClaims(store);
      return Promise.all(
        ids.map(async (id) => ({ id, state: foldClaim(await knownFacts(store, { kind: "claim", id })) })),
      );
    },
    watchOf(store),
    [],
  );

/** How fetching goes: when it last worked, and what was thrown by the last try, if it failed. */
export type Fetching = { at: string | null; thrown: unknown };

/** Does `work` now and every few seconds while the page can be seen; one run at a time. */
export function usePolling(lead: Lead, work: () => Promise<void>, everyMs: number, on: unknown[]): Fetching {
  const [fetching, setFetching] = useState<Fetching>({ at: null, thrown: null });
  useEffect(() => {
    let stopped = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const run = async (): Promise<void> => {
      if (document.visibilityState === "visible") {
        try {
          await work();
          if (!stopped) setFetching({ at: lead.now(), thrown: null });
        } catch (thrown) {
          if (!stopped) setFetching((before) => ({ at: before.at, thrown }));
        }
      }
      if (!stopped) timer = setTimeout(() => void run(), everyMs);
    };
    void run();
    return () => {
      stopped = true;
      clearTimeout(timer);
    };
  }, on);
  return fetching;
}

/** Fetches what is new in one study. */
export const fetchStudy = async (lead: Lead, study: string): Promise<void> => {
  await pullStudy(lead.store, lead.fetcher, lead.who.token, study);
};

/** Fetches the list of studies, and what is new in each. */
export async function fetchStudies(lead: Lead): Promise<void> {
  for (const { id } of await pullStudies(lead.fetcher, lead.who.token)) await fetchStudy(lead, id);
}

/** Fetches what is new of the kitchen's defaults. */
export const fetchKitchen = async (lead: Lead): Promise<void> => {
  await pullKitchen(lead.store, lead.fetcher, lead.who.token);
};

/** Fetches what is new in every claim. */
export const fetchClaims = async (lead: Lead): Promise<void> => {
  await pullClaims(lead.store, lead.fetcher, lead.who.token);
};
