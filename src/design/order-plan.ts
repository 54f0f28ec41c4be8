import type { Plan } from "../model/plan.ts";
import { heldOf, type OrderedPlan, ordersOf, partsOf, runsOf } from "./method.ts";
import { inEachSession } from "./seating.ts";
import { letterOf, orderBalance } from "./williams.ts";

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
  /** Incomplete blocks only: `meets[product][other]`, on how many trays both are; on the diagonal how many hold the product. */
  meets: Bounds[][] | null;
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
  const runs = runsOf(plan).map((run) => run.map((order) => partsOf(order).samples));
  const products = plan.products.length;
  const orders = runs.flat().length;
  if (orders === 0 || trays < 1) return null;
  const held = heldOf(plan);
  const dealt = runsDealt(runs, trays);
  const tables = runs.map((run) => ({ ...orderBalance(run, products), meets: meetingsOf(run, products) }));
  const over = (name: "places" | "follows" | "meets"): Bounds[][] =>
    (tables[0]?.[name] ?? []).map((row, product) =>
      row.map((_, at) => sumOf(dealt.map((run, which) => boundsIn(run, tables[which]?.[name][product]?.[at] ?? 0)))),
    );
  return {
    orders,
    rounds: Math.floor(trays / orders),
    left: trays % orders,
    places: over("places").map((row) => row.slice(0, held ?? row.length)),
    follows: over("follows").map((row, product) => row.map((bounds, before) => (product === before ? null : bounds))),
    meets: held === null ? null : over("meets"),
  };
}

/** How often a run of orders is dealt whole, and how many of its orders come once more, by lot. */
type Dealt = { length: number; whole: number; left: number };

/** Runs take turns, each whole before the next. */
function runsDealt(runs: readonly (readonly string[])[], trays: number): Dealt[] {
  const orders = runs.flat().length;
  let rest = trays % orders;
  return runs.map(({ length }) => {
    const more = Math.min(rest, length);
    rest -= more;
    const whole = Math.floor(trays / orders);
    return more === length ? { length, whole: whole + 1, left: 0 } : { length, whole, left: more };
  });
}

/** How often something comes that `count` orders of the run have. */
const boundsIn = ({ length, whole, left }: Dealt, count: number): Bounds => ({
  least: whole * count + Math.max(0, left - (length - count)),
  most: whole * count + Math.min(left, count),
});

const sumOf = (bounds: readonly Bounds[]): Bounds => ({
  least: bounds.reduce((sum, { least }) => sum + least, 0),
  most: bounds.reduce((sum, { most }) => sum + most, 0),
});

/** On how many of the orders each two products are; on the diagonal, on how many each one is. */
function meetingsOf(orders: readonly string[], products: number): number[][] {
  const names = Array.from({ length: products }, (_, product) => letterOf(product));
  return names.map((one) =>
    names.map((other) => orders.filter((order) => order.includes(one) && order.includes(other)).length),
  );
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
