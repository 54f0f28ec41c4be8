import { choiceMethod } from "../analysis/method.ts";
import type { Key } from "../model/key.ts";
import type { Method } from "../model/plan.ts";
import { dealtInBlocks, type Uniform } from "./random.ts";

/**
 * One order for each tray: every block of trays from the first (six, in a triangle) holds each order once, shuffled;
 * what is left over gets different ones. Tray numbers say nothing about orders.
 *
 * Takes    method: a choice method; trays: how many, 0 or more; random: a seeded source
 * Returns  order labels in the trade's letters, A = first product of the plan ("AAB")
 * Source   ISO 4120 deals the six orders out at random within groups of six (an excerpt of the standard says so)
 */
export function dealOrders(method: Method, trays: number, random: Uniform): string[] {
  return dealtInBlocks(choiceMethod(method).orders, trays, random);
}

/** Place of the odd sample, 1 to 3, in a triangle's order ("ABA" gives 2). Throws when the order is no triangle's. */
export function oddPosition(order: string): number {
  const letters = [...order];
  const odd = letters.findIndex((letter) => letters.filter((other) => other === letter).length === 1);
  if (letters.length !== 3 || odd < 0) throw new RangeError(`not a triangle's order: ${order}`);
  return odd + 1;
}

/**
 * How many trays of a key have each order: a check of balance.
 *
 * Takes    key; method: of the plan; trays: count only these (the planned, or the answered ones); all when left out
 */
export function orderCounts(key: Key, method: Method, trays?: ReadonlySet<number>): { order: string; trays: number }[] {
  const counted = key.trays.filter(({ tray }) => trays === undefined || trays.has(tray));
  return choiceMethod(method).orders.map((order) => ({
    order,
    trays: counted.filter((tray) => tray.order === order).length,
  }));
}
