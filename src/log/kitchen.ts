import type { Fact } from "../model/event.ts";
import type { Kitchen } from "../model/kitchen.ts";
import { type FactOf, onceEach } from "./fact.ts";
import { leavesOf } from "./leaves.ts";

/** One version of the kitchen's defaults, and who wrote it when (a clock: shown, never compared). */
export type KitchenVersion = { event: string; device: string; at: string; kitchen: Kitchen };

/** The version that counts, and others that were written without knowing of it; null where nobody wrote any. */
export type KitchenState = { current: KitchenVersion | null; others: KitchenVersion[] };

/**
 * The kitchen's defaults from their facts, by the rule of drafts: of versions that nobody wrote over, the one with the
 * highest id counts, everywhere; the others are given beside it, so that nothing is lost.
 *
 * Takes    facts in any order, repeated or not
 * Returns  the same state for the same set, whatever the order
 */
export function foldKitchen(facts: Iterable<Fact>): KitchenState {
  const saves = [...onceEach(facts).values()]
    .filter((fact): fact is FactOf<"kitchen-saved"> => fact.kind === "kitchen-saved")
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const versions = leavesOf(saves).map(({ id, device, at, body }) => ({
    event: id,
    device,
    at,
    kitchen: body.kitchen,
  }));
  return { current: versions.at(-1) ?? null, others: versions.slice(0, -1).reverse() };
}
