import type { Key } from "../model/key.ts";
import { type OrderedPlan, ordersOf } from "./method.ts";
import { dealtInRuns, shuffled, type Uniform } from "./random.ts";

/**
 * One order for each tray: every block of trays from the first (six, in a triangle) holds each order once, shuffled;
 * what is left over gets different ones. Tray numbers say nothing about orders.
 *
 * Takes    runs: of the plan (`runsOf`); trays: how many, 0 or more; random: a seeded source
 * Returns  order labels in the trade's letters, A = first product of the plan ("AAB")
 * Source   ISO 4120 deals the six orders out at random within groups of six (an excerpt of the standard says so)
 */
export function dealOrders(runs: readonly (readonly string[])[], trays: number, random: Uniform): string[] {
  return dealtInRuns(runs, trays, random);
}

/**
 * One order for each planned tray, so that in each round every block of people has each order once, and no person has an
 * order again before they had all of them.
 *
 * Takes    runs: of the plan; seats: people with their trays in the order of serving, equally many each
 * Returns  order labels by tray number
 */
export function dealToSeats(
  runs: readonly (readonly string[])[],
  seats: readonly { trays: readonly number[] }[],
  random: Uniform,
): Map<number, string> {
  const dealt = new Map<number, string>();
  const orders = runs.flat();
  const rounds = Math.max(0, ...seats.map(({ trays }) => trays.length));
  let first: number[] = [];
  let shifts: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const cycle = round % orders.length;
    if (cycle === 0) {
      first = dealtInRuns(placesOf(runs), seats.length, random);
      shifts = shiftsOf(orders.length, random);
    }
    // a shift of all orders by one number keeps each block balanced, and gives everybody another order
    seats.forEach(({ trays }, seat) => {
      const at = ((first[seat] ?? 0) + (shifts[cycle] ?? 0)) % orders.length;
      const tray = trays[round];
      if (tray !== undefined) dealt.set(tray, orders[at] ?? "");
    });
  }
  return dealt;
}

/** Where each order of each run stands among all of them. */
function placesOf(runs: readonly (readonly string[])[]): number[][] {
  let before = 0;
  return runs.map((run) => {
    const places = run.map((_, at) => before + at);
    before += run.length;
    return places;
  });
}

/**
 * By how many places the orders shift from round to round. The second round is half the list away: orders that are each
 * other's opposite stand so (same against different, one reference against the other), and then everybody who has two
 * trays has one of each.
 */
function shiftsOf(orders: number, random: Uniform): number[] {
  const half = orders % 2 === 0 ? [orders / 2] : [];
  const rest = Array.from({ length: orders }, (_, at) => at).filter((at) => at > 0 && !half.includes(at));
  return [0, ...half, ...shuffled(rest, random)];
}

/**
 * How many trays of a key have each order: a check of balance.
 *
 * Takes    key; plan: as locked; trays: count only these (the planned, or the answered ones); all when left out
 */
export function orderCounts(
  key: Key,
  plan: OrderedPlan,
  trays?: ReadonlySet<number>,
): { order: string; trays: number }[] {
  const counted = key.trays.filter(({ tray }) => trays === undefined || trays.has(tray));
  return ordersOf(plan).map((order) => ({
    order,
    trays: counted.filter((tray) => tray.order === order).length,
  }));
}
