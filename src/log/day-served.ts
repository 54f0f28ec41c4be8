import type { Key } from "../model/key.ts";
import type { OtherBatch } from "../model/kitchen-record.ts";
import type { Departure } from "../model/record.ts";
import { potsServed } from "./day-batches.ts";
import type { TrayDay } from "./day-trays.ts";
import type { FactOf } from "./fact.ts";

type Change = FactOf<"batch-changed">;
type Batch = { product: string; batch: string };

/** What is in the pot of a label, by the opened key and the changes of the day. Null: nobody can say. */
export type PotNames = (pot: string) => Batch | null;

/**
 * Names what came in the place of a batch after it, with the label under which it was logged: a new batch of its product.
 * Example: "new 3 → KTC".
 */
export function namesOfPots(pots: NonNullable<Key["pots"]>, changes: readonly Change[]): PotNames {
  const locked = new Map(pots.map(({ pot, product, batch }) => [pot, { product, batch }]));
  const origins = (pot: string, visited: Set<string>): Batch[] => {
    const known = locked.get(pot);
    if (known) return [known];
    if (visited.has(pot)) return [];
    visited.add(pot);
    return changes.filter(({ body }) => body.becomes === pot).flatMap(({ body }) => origins(body.pot, visited));
  };
  return (pot) => {
    const known = locked.get(pot);
    if (known) return known;
    const from = origins(pot, new Set());
    const products = new Set(from.map(({ product }) => product));
    const [first] = from;
    // a pot that stands in for two products holds neither for certain
    if (!first || products.size > 1) return null;
    const names = [...new Set(from.map(({ batch }) => batch))].sort();
    return { product: first.product, batch: `${names.join(", ")} \u2192 ${pot}` };
  };
}

type Why = Extract<Departure, { what: "batch-not-recorded" }>["why"];
type Found = { batch: string; why: Why | null };

/** The batches that were really served where they are not those of the key, and trays of which nobody can say it. */
export type Served = { others: OtherBatch[]; unknown: Extract<Departure, { what: "batch-not-recorded" }>[] };

/**
 * Which samples came from another batch than the key says.
 *
 * Takes    planned: labels of each wave; key: opened; trays and changes: of the day
 * Returns  nothing where pots have no labels: older studies
 */
export function batchesServed(
  key: Key,
  planned: readonly { wave: number; pots: readonly string[] }[],
  trays: ReadonlyMap<number, TrayDay>,
  changes: readonly Change[],
): Served {
  if (!key.pots || (changes.length === 0 && [...trays.values()].every(({ planned, wave }) => planned === wave)))
    return { others: [], unknown: [] };
  const { pots } = key;
  const nameOf = namesOfPots(pots, changes);
  const others: OtherBatch[] = [];
  const unknown = new Map<Why, Set<number>>();
  for (const { tray, samples, reference } of key.trays) {
    const day = trays.get(tray);
    if (!day) continue;
    for (const sample of [...samples, ...(reference ? [{ ...reference, code: null }] : [])]) {
      const found = batchOf(sample, day, { pots, planned, changes, nameOf });
      if (found.batch !== sample.batch) others.push({ tray, code: sample.code, batch: found.batch });
      if (found.why) unknown.set(found.why, (unknown.get(found.why) ?? new Set()).add(tray));
    }
  }
  return {
    others,
    unknown: [...unknown].map(([why, numbers]) => ({ what: "batch-not-recorded", why, trays: [...numbers] })),
  };
}

type Kitchen = {
  pots: NonNullable<Key["pots"]>;
  planned: readonly { wave: number; pots: readonly string[] }[];
  changes: readonly Change[];
  nameOf: PotNames;
};

function batchOf(sample: Batch, { tray, planned, wave }: TrayDay, kitchen: Kitchen): Found {
  if (wave === null) return { batch: "", why: "apart" };
  const mine = kitchen.pots.filter(({ product }) => product === sample.product);
  const inWave = kitchen.planned.find((each) => each.wave === wave)?.pots ?? [];
  const from =
    wave === planned
      ? mine.filter(({ batch }) => batch === sample.batch)
      : mine.filter(({ pot }) => inWave.includes(pot));
  const [only] = from;
  if (!only || from.length > 1) return { batch: "", why: "moved" };
  const served = potsServed(
    only.pot,
    tray,
    kitchen.changes.filter(({ body }) => body.wave === wave),
  );
  const [pot] = served;
  if (pot === undefined || served.length > 1) return { batch: "", why: "apart" };
  const found = kitchen.nameOf(pot);
  return found?.product === sample.product ? { batch: found.batch, why: null } : { batch: "", why: "other-product" };
}
