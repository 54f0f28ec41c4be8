import type { Plan, Product } from "../model/plan.ts";
import { dayTime } from "./day-time.ts";
import { ordersOf, partsOf, runsOf } from "./method.ts";
import type { Bounds } from "./order-plan.ts";
import type { TrayOutline } from "./trays.ts";

/**
 * What the kitchen buys and prepares for each wave, from the plan and the numbers of its trays alone. Nothing here knows
 * the key, so that how many portions a product needs is what the lot can bring at the least and at the most.
 */

/** One product of one wave. */
export type PreparedProduct = {
  product: Product;
  portions: Bounds;
  /** Portions of these that are for spare trays, as many as the lot can bring. */
  spare: number;
  /** Its batches in the plan's order, with the portions that each has to give; none while the plan names none. */
  batches: { batch: string; portions: Bounds }[];
};

export type PreparedWave = {
  /** From 1. */
  wave: number;
  starts: string;
  session: string;
  people: number;
  trays: number;
  spareTrays: number;
  products: PreparedProduct[];
  /** Cups with a code, cups marked as the reference, and warm-ups, one a person. */
  coded: number;
  references: number;
  warmUps: number;
  /** Minutes from the start of the wave, as planned: when the food leaves the heat, until when it is as it should be. */
  outOfHeat: number | null;
  bestUntil: number | null;
  /** Minutes from the start at which the last cup is tasted, and at which the wave is over. */
  lastCup: number;
  over: number;
};

/**
 * The waves of a study.
 *
 * Takes    plan: with as many products as its method compares; trays: as locked, or as planned (see `plannedTrays`)
 * Returns  portions with those of spare trays; the warm-up has its own count
 */
export function preparation(plan: Plan, trays: readonly TrayOutline[]): PreparedWave[] {
  const cups = partsOf(ordersOf(plan)[0] ?? "").reference === null ? 0 : 1;
  let before = 0;
  return plan.waves.map((wave, at) => {
    const here = trays.filter((tray) => tray.wave === at + 1);
    const planned = here.filter(({ spare }) => !spare).length;
    const time = dayTime({ ...plan, people: wave.people, waves: [wave] });
    const { windowFrom, windowTo } = plan.pace;
    const from = before;
    before += planned;
    return {
      ...{ wave: at + 1, starts: wave.starts.trim(), session: wave.session.trim(), people: wave.people },
      ...{ trays: planned, spareTrays: here.length - planned },
      products: plan.products.map((product, letter) => {
        const portions = portionsOf(plan, letter, { from, planned, spares: here.length - planned });
        const batches = wave.batches[product.id] ?? [];
        const spare = portionsOf(plan, letter, { from, planned: 0, spares: here.length - planned }).most;
        return { product, portions, spare, batches: shares(plan, letter, { batches, trays: here.length, portions }) };
      }),
      coded: here.reduce((sum, { cups: each }) => sum + each, 0),
      references: cups * here.length,
      warmUps: plan.serving.warmUp ? wave.people : 0,
      outOfHeat: windowTo === null ? null : -(windowFrom ?? 0),
      bestUntil: windowTo === null ? null : windowTo - (windowFrom ?? 0),
      lastCup: time.lastCupSeconds / 60,
      over: time.waveSeconds / 60,
    };
  });
}

/** How many cups of a product an order has, its reference among them; A is the first product. */
function cupsIn(order: string, letter: number): number {
  const { reference, samples } = partsOf(order);
  const name = String.fromCodePoint(("A".codePointAt(0) ?? 0) + letter);
  return [...(reference ?? ""), ...samples].filter((each) => each === name).length;
}

/**
 * Portions of one product in a wave. Where each person has one tray the planned trays stand in whole blocks of orders, one
 * after the other, and a block that lies in the wave leaves nothing to the lot. Elsewhere, and for spares, every tray may
 * have any order.
 */
function portionsOf(
  plan: Plan,
  letter: number,
  { from, planned, spares }: { from: number; planned: number; spares: number },
): Bounds {
  const counts = ordersOf(plan).map((order) => cupsIn(order, letter));
  const runs = runsOf(plan);
  const inBlocks = plan.repeats === 1 && runs.length === 1;
  const blocks = inBlocks ? pieces(from, planned, counts.length) : Array<number>(planned).fill(1);
  return [...blocks, ...Array<number>(spares).fill(1)]
    .map((size) => ofSome(counts, size))
    .reduce((sum, each) => ({ least: sum.least + each.least, most: sum.most + each.most }), { least: 0, most: 0 });
}

/** A stretch of trays cut where a block of orders ends: how many trays of it lie in each block. */
function pieces(from: number, trays: number, block: number): number[] {
  const cut: number[] = [];
  for (let at = from; at < from + trays && block > 0; ) {
    const size = Math.min(from + trays, (Math.floor(at / block) + 1) * block) - at;
    cut.push(size);
    at += size;
  }
  return cut;
}

/** Cups on so many different orders of a block: on those with fewest, and on those with most. */
function ofSome(counts: readonly number[], size: number): Bounds {
  const sorted = counts.toSorted((one, other) => one - other);
  const sum = (some: readonly number[]): number => some.reduce((total, count) => total + count, 0);
  return { least: sum(sorted.slice(0, size)), most: sum(sorted.slice(Math.max(0, sorted.length - size))) };
}

/** Trays are dealt evenly to the batches; on each tray all cups of a product come from one of them. */
function shares(
  plan: Plan,
  letter: number,
  { batches, trays, portions }: { batches: readonly string[]; trays: number; portions: Bounds },
): PreparedProduct["batches"] {
  const counts = ordersOf(plan).map((order) => cupsIn(order, letter));
  const each = {
    least: Math.floor(trays / batches.length) * Math.min(...counts),
    most: Math.min(portions.most, Math.ceil(trays / batches.length) * Math.max(...counts)),
  };
  return batches.map((batch) => ({ batch, portions: batches.length === 1 ? portions : each }));
}
