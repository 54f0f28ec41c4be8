import type { Key } from "../model/key.ts";
import type { Plan } from "../model/plan.ts";
import { ordersOf } from "./method.ts";
import { dealtInBlocks, type Uniform } from "./random.ts";

/**
 * One order for each tray: every block of trays from the first (six, in a triangle) holds each order once, shuffled;
 * what is left over gets different ones. Tray numbers say nothing about orders.
 *
 * Takes    orders: of the method (`ordersOf`); trays: how many, 0 or more; random: a seeded source
 * Returns  order labels in the trade's letters, A = first product of the plan ("AAB")
 * Source   ISO 4120 deals the six orders out at random within groups of six (an excerpt of the standard says so)
 */
export function dealOrders(orders: readonly string[], trays: number, random: Uniform): string[] {
  return dealtInBlocks(orders, trays, random);
}

/**
 * How many trays of a key have each order: a check of balance.
 *
 * Takes    key; plan: as locked; trays: count only these (the planned, or the answered ones); all when left out
 */
export function orderCounts(
  key: Key,
  plan: Pick<Plan, "method" | "products">,
  trays?: ReadonlySet<number>,
): { order: string; trays: number }[] {
  const counted = key.trays.filter(({ tray }) => trays === undefined || trays.has(tray));
  return ordersOf(plan.method, plan.products.length).map((order) => ({
    order,
    trays: counted.filter((tray) => tray.order === order).length,
  }));
}
