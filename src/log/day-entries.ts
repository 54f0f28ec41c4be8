import type { Fact } from "../model/event.ts";
import { isKitchenKind, type KitchenKind } from "../model/kitchen-event.ts";
import { standing } from "./entries.ts";
import { type FactOf, within } from "./fact.ts";
import type { StudyState } from "./fold.ts";

/** What the kitchen wrote down, of every kind. */
export type KitchenFact = FactOf<KitchenKind>;

/** An entry that was wrong, and the entry that says so. */
export type VoidedEntry = { entry: KitchenFact; by: FactOf<"entry-voided"> };

/** The entries that count, in the order of their ids, and those that were taken back. */
export type DayEntries = {
  of: <K extends KitchenKind>(kind: K) => FactOf<K>[];
  /** Those of the entries of one thing that stand: an entry that was taken back leaves what it followed where it was. */
  latest: <T extends KitchenFact & { body: { after: readonly string[] } }>(entries: readonly T[]) => T[];
  voided: VoidedEntry[];
};

type Following = Extract<KitchenFact, { body: { after: readonly string[] } }>;

const follows = (fact: KitchenFact): fact is Following => "after" in fact.body;

export const isKitchenFact = (fact: Fact): fact is KitchenFact => isKitchenKind(fact.kind);

/**
 * What the kitchen wrote down.
 *
 * Takes    facts: in any order
 * Returns  without what was taken back; an entry that takes another back, and a halt, cannot be taken back
 */
export function entriesOf(facts: Iterable<Fact>): DayEntries {
  const sorted = [...facts].filter(isKitchenFact).sort((a, b) => (a.id < b.id ? -1 : 1));
  const voids = new Map<string, FactOf<"entry-voided">>();
  for (const fact of sorted) {
    if (fact.kind === "entry-voided" && !voids.has(fact.body.target)) voids.set(fact.body.target, fact);
  }
  const gone = (fact: KitchenFact) =>
    fact.kind === "entry-voided" || fact.kind === "serving-halted" ? undefined : voids.get(fact.id);
  const counting = sorted.filter((fact) => gone(fact) === undefined);
  const takenBack = sorted.filter((fact) => gone(fact) !== undefined).filter(follows);
  return {
    of: <K extends KitchenKind>(kind: K) => counting.filter((fact): fact is FactOf<K> => fact.kind === kind),
    latest: (entries) => standing(entries, takenBack),
    voided: sorted.flatMap((entry) => {
      const by = gone(entry);
      return by ? [{ entry, by }] : [];
    }),
  };
}

/** The kitchen's facts that count: after the reveal nothing more does, since whoever writes then has seen the key. */
export const kitchenFactsOf = ({ facts, reveal }: StudyState): KitchenFact[] =>
  [...facts.values()].filter(isKitchenFact).filter((fact) => within(fact, reveal?.body.heads ?? null));
