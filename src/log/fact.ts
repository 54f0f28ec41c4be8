import type { Heads } from "../model/ballot-event.ts";
import type { Fact, Kind } from "../model/event.ts";

/** A fact of one kind. */
export type FactOf<K extends Kind> = Extract<Fact, { kind: K }>;

/** Was the fact among what the heads name? Everything was, where there are none. */
export const within = (fact: Pick<Fact, "device" | "seq">, heads: Heads | null): boolean =>
  heads === null || fact.seq <= (heads[fact.device] ?? 0);

/** Facts by id, once each; of two with one id the fuller one. */
export function onceEach(facts: Iterable<Fact>): Map<string, Fact> {
  const known = new Map<string, Fact>();
  for (const fact of facts) {
    const before = known.get(fact.id);
    if (!before || fuller(fact, before)) known.set(fact.id, fact);
  }
  return known;
}

/** Of two facts with one id: the one with a text; of two texts (a conflict) the one with the lower hash, everywhere. */
const fuller = (fact: Fact, before: Fact): boolean =>
  fact.outline === before.outline ? fact.hash < before.hash : before.outline;
