import type { Fact } from "../model/event.ts";
import type { FactOf } from "./fact.ts";

/**
 * Halts of serving that nobody has ended, oldest first.
 *
 * Takes    facts of a study in any order
 * Returns  those that no resumption names which stands: a halt itself cannot be taken back, or anybody might end it; a halt that arrives later than the resumption
 *          goes on: whoever resumed did not know of it
 */
export function openHalts(facts: readonly Fact[]): FactOf<"serving-halted">[] {
  const of = <K extends Fact["kind"]>(kind: K) => facts.filter((fact): fact is FactOf<K> => fact.kind === kind);
  const voided = new Set(of("entry-voided").map(({ body }) => body.target));
  const ended = new Set(
    of("serving-resumed")
      .filter(({ id }) => !voided.has(id))
      .flatMap(({ body }) => body.halts),
  );
  return of("serving-halted")
    .filter(({ id }) => !ended.has(id))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}
