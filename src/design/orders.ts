import type { Key } from "../model/key.ts";
import { dealtInBlocks, type Uniform } from "./random.ts";

/** The six orders of a triangle, A = first product of the plan. ISO 4120 serves each equally often. */
export const triangleOrders = ["AAB", "ABA", "BAA", "BBA", "BAB", "ABB"] as const;

/**
 * One order for each tray: every run of six trays from the first holds all six orders, shuffled; what is left over
 * gets different ones. Tray numbers say nothing about orders.
 *
 * Takes    trays: how many, 0 or more; random: a seeded source
 * Source   ISO 4120 deals the orders at random within groups of six (excerpt of the standard; domain knowledge)
 */
export function dealOrders(trays: number, random: Uniform): string[] {
  return dealtInBlocks(triangleOrders, trays, random);
}

/** Place of the odd sample, 1 to 3, in a triangle's order ("ABA" gives 2). Throws when the order is no triangle's. */
export function oddPosition(order: string): number {
  const letters = [...order];
  const odd = letters.findIndex((letter) => letters.filter((other) => other === letter).length === 1);
  if (letters.length !== 3 || odd < 0) throw new RangeError(`not a triangle's order: ${order}`);
  return odd + 1;
}

/** How many trays of a key have each of the six orders; a check of balance, for planned trays or for all. */
export function orderCounts(key: Key, trays?: ReadonlySet<number>): { order: string; trays: number }[] {
  const counted = key.trays.filter(({ tray }) => trays === undefined || trays.has(tray));
  return triangleOrders.map((order) => ({ order, trays: counted.filter((tray) => tray.order === order).length }));
}
