import type { Key } from "../model/key.ts";
import { potLetters } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { seeded, shuffled } from "./random.ts";

/** Every label of two letters, in the order of the alphabet. */
const labels = [...potLetters].flatMap((first) => [...potLetters].map((second) => `${first}${second}`));

/**
 * Draws a label for each batch of the plan, under which the kitchen writes down what happens to it on the day.
 *
 * Takes    seed: hex digits of the design, sealed until the reveal
 * Returns  a batch that serves several waves has one label; in the order of the labels, which tells nothing
 * Throws   Problem "plan/too-many-batches"
 */
export function drawPots(plan: Pick<Plan, "products" | "waves">, seed: string): NonNullable<Key["pots"]> {
  const batches = plan.products.flatMap(({ id }) => {
    const names = new Set(plan.waves.flatMap((wave) => wave.batches[id] ?? []));
    return [...names].map((batch) => ({ product: id, batch }));
  });
  if (batches.length > labels.length)
    throw problem("plan/too-many-batches", { batches: batches.length, most: labels.length });
  const drawn = shuffled(labels, seeded(seed, "labels of the pots"));
  return batches.map((batch, at) => ({ pot: drawn[at] ?? "", ...batch })).sort((a, b) => (a.pot < b.pot ? -1 : 1));
}

/** Which labels each wave is served from, each list in the order of the alphabet. */
export function potsByWave(
  { waves }: Pick<Plan, "waves">,
  pots: NonNullable<Key["pots"]>,
): { wave: number; pots: string[] }[] {
  return waves.map(({ batches }, at) => ({
    wave: at + 1,
    pots: pots.filter(({ product, batch }) => batches[product]?.includes(batch)).map(({ pot }) => pot),
  }));
}
