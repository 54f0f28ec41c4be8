import type { Plan } from "../model/plan.ts";
import { type OrderedPlan, ordersOf, partsOf } from "./method.ts";
import { inEachSession } from "./seating.ts";
import { orderBalance } from "./williams.ts";

/** The least and the most that a lot can bring: the same where nothing is left to it. */
export type Bounds = { least: number; most: number };

/** How evenly a number of people spreads the orders, before the lot has dealt them. */
export type OrderPlan = {
  orders: number;
  /** How often every order is served for sure, and how many different orders are served once more, by lot. */
  rounds: number;
  left: number;
  /** `places[product][place]`: how often a product stands in a place. */
  places: Bounds[][];
  /** `follows[product][before]`: how often a product comes right after another one; null on the diagonal. */
  follows: (Bounds | null)[][];
};

/**
 * What is sure of the orders of a plan, and what is left to the lot, since they are dealt in whole blocks.
 *
 * Takes    plan; trays: the planned ones, spares left out
 * Returns  null while the method does not compare so many products, or nobody is planned. `follows` has a diagonal of
 *          nulls: what comes after itself, as in a triangle, is not counted
 * Example  of a line scale with three products and 14 trays: places[0]?.[0] // { least: 4, most: 6 }
 */
export function orderPlan(plan: OrderedPlan, trays: number): OrderPlan | null {
  const orders = ordersOf(plan).map((order) => partsOf(order).samples);
  const products = plan.products.length;
  if (orders.length === 0 || trays < 1) return null;
  const rounds = Math.floor(trays / orders.length);
  const left = trays % orders.length;
  const { places, follows } = orderBalance(orders, products);
  const bounds = (count: number): Bounds => ({
    least: rounds * count + Math.max(0, left - (orders.length - count)),
    most: rounds * count + Math.min(left, count),
  });
  return {
    orders: orders.length,
    rounds,
    left,
    places: places.map((row) => row.map(bounds)),
    follows: follows.map((row, product) => row.map((count, before) => (product === before ? null : bounds(count)))),
  };
}

/** More samples than this tire a judge in one sitting (advice for cooked pork, seen in an abstract). */
export const mostInSitting = 6;

/** Samples that one person tastes in a sitting, the reference of each tray among them. */
export function samplesInSitting(plan: Plan): number {
  const [order] = ordersOf(plan);
  if (order === undefined) return 0;
  const { reference, samples } = partsOf(order);
  return (samples.length + (reference === null ? 0 : 1)) * (inEachSession(plan) ? 1 : plan.repeats);
}
