import type { Trays } from "../../../src/design/trays.ts";
import type { Plan } from "../../../src/model/plan.ts";

/*
 * Counts of a serving plan by a program of its own, which knows nothing of how it was made: each order as often as any
 * other, each product in each place and after each other one, and the rules of codes.
 */

/** What does not hold; empty where all does. */
export function faultsOf({ blind, key }: Trays, { products }: Pick<Plan, "products">): string[] {
  const planned = new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray));
  const served = key.trays
    .filter(({ tray }) => planned.has(tray))
    .map(({ samples }) => samples.map(({ product }) => product));
  const faults: string[] = [];
  const even = (name: string, counts: Map<string, number>, cells: number): void => {
    const values = [...counts.values()];
    // orders are dealt in whole blocks: what is left over can put one more into a cell for each of its orders
    if (counts.size !== cells || Math.max(...values) - Math.min(...values) > 1 + (served.length % products.length)) {
      faults.push(`${name} uneven`);
    }
  };
  const k = products.length;
  even("orders", tally(served.map((order) => order.join())), k % 2 === 0 ? k : 2 * k);
  even("places", tally(served.flatMap((order) => order.map((product, at) => `${product} ${at}`))), k * k);
  even(
    "followers",
    tally(served.flatMap((order) => order.slice(1).map((product, at) => `${order[at]} ${product}`))),
    k * (k - 1),
  );
  const codes = blind.flatMap((tray) => tray.codes);
  if (codes.some((code) => !/^[1-9]\d\d$/.test(code) || new Set(code).size < 3))
    faults.push("a code of repeated digits");
  if (codes.some((code) => "0123456789".includes(code) || "9876543210".includes(code)))
    faults.push("a code that is a run");
  if (blind.some((tray) => new Set(tray.codes.map((code) => code[0])).size < tray.codes.length))
    faults.push("a first digit shared on a tray");
  if (
    blind.some((tray) => tray.codes.some((one, at) => tray.codes.slice(at + 1).some((other) => tooAlike(one, other))))
  ) {
    faults.push("codes too alike on a tray");
  }
  const waves = tally(blind.flatMap((tray) => tray.codes.map((code) => `${tray.wave} ${code}`)));
  if ([...waves.values()].some((times) => times > 1)) faults.push("a code twice in a wave");
  return faults;
}

function tooAlike(one: string, other: string): boolean {
  const apart = [0, 1, 2].filter((at) => one[at] !== other[at]).length;
  return apart < 2 || [...one].sort().join() === [...other].sort().join();
}

function tally(keys: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return counts;
}
