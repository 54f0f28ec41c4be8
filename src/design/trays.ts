import type { Key } from "../model/key.ts";
import type { BlindTray } from "../model/packet.ts";
import type { Plan, Product, Wave } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { drawCodes } from "./codes.ts";
import { designMethod, ordersOf } from "./method.ts";
import { dealOrders } from "./orders.ts";
import { dealtEvenly, seeded, type Uniform } from "./random.ts";

/** The two halves of a serving plan, and who sits where. */
export type Trays = {
  /** What the tablets get: tray, wave, codes in serving order. */
  blind: BlindTray[];
  /** What is sealed: which code is which product and batch, the order labels, the seed. */
  key: Key;
  /** One seat for each planned tray; spare trays have none until they are served. */
  seats: { seat: number; trays: number[] }[];
};

const highestTray = 9999;
const letters = "ABCDEFGHIJKL";

/**
 * Makes the trays of a study.
 *
 * Takes    plan: as many products as its method compares, and waves whose people add up to the plan's, a batch named for each product of each;
 *          study: id; random.seed: hex digits from a cryptographic source, for orders and batches;
 *          random.codes: a cryptographic source, for the codes alone
 * Returns  blind half, key and seats. The blind half depends on the numbers of people, waves, spares and samples, the
 *          codes to avoid and `random.codes`, and on nothing else: neither on which product is which nor on the seed
 * Throws   Problem "plan/too-few-products", "plan/too-many-products", "plan/people-in-waves", "plan/no-batch",
 *          "plan/too-many-trays"
 */
export function makeTrays(plan: Plan, study: string, random: { seed: string; codes: Uniform }): Trays {
  const orders = requireOrders(plan);
  requireWaves(plan);
  const blind = blindHalf(plan, orders[0]?.length ?? 0, random.codes);
  const planned = blind.filter((tray) => !tray.spare);
  return {
    blind,
    key: { v: 1, study, seed: random.seed, trays: keyTrays(plan, orders, blind, random.seed) },
    seats: planned.map(({ tray }) => ({ seat: tray, trays: [tray] })),
  };
}

function requireOrders({ method, products }: Plan): readonly string[] {
  const { least, most } = designMethod(method).products;
  if (products.length < least) throw problem("plan/too-few-products", { count: products.length, least });
  if (products.length > most) throw problem("plan/too-many-products", { count: products.length, most });
  return ordersOf(method, products.length);
}

function requireWaves(plan: Plan): void {
  const inWaves = plan.waves.reduce((sum, wave) => sum + wave.people, 0);
  if (plan.people < 1 || inWaves !== plan.people) {
    throw problem("plan/people-in-waves", { planned: plan.people, inWaves });
  }
  if (plan.people + plan.spares > highestTray) {
    throw problem("plan/too-many-trays", { trays: plan.people + plan.spares, codes: highestTray });
  }
}

/** The trays with their codes. It is given no product and no seed, so that it cannot tell anything of them. */
function blindHalf(
  plan: Pick<Plan, "people" | "spares" | "avoidCodes" | "waves">,
  samples: number,
  codes: Uniform,
): BlindTray[] {
  const waveOf = [
    ...plan.waves.flatMap((wave, at) => Array<number>(wave.people).fill(at + 1)),
    // spares are spread over the waves, the last wave first, since there is no later one to fall back on
    ...Array.from({ length: plan.spares }, (_, spare) => Math.ceil(((spare + 1) * plan.waves.length) / plan.spares)),
  ];
  const sizes = plan.waves.map((_, at) => waveOf.filter((wave) => wave === at + 1).length);
  const drawn = drawCodes(sizes, samples, plan.avoidCodes, codes);
  return waveOf.map((wave, at) => ({
    tray: at + 1,
    wave,
    spare: at >= plan.people,
    codes: drawn[wave - 1]?.shift() ?? [],
  }));
}

function keyTrays(plan: Plan, orders: readonly string[], blind: BlindTray[], seed: string): Key["trays"] {
  const dealt = [
    ...dealOrders(orders, plan.people, seeded(seed, "orders of the planned trays")),
    ...dealOrders(orders, plan.spares, seeded(seed, "orders of the spare trays")),
  ];
  const served = plan.products.map((product, at) => ({
    product,
    batches: batchOf(plan, product, blind, `${seed} ${letters[at]}`),
  }));
  return blind.map(({ tray, codes }, at) => {
    const order = dealt[at] ?? "";
    const samples = codes.map((code, place) => {
      const sample = served[letters.indexOf(order[place] ?? "")];
      if (!sample) throw new RangeError(`order ${order} has no product at place ${place + 1}`);
      return { code, product: sample.product.id, batch: sample.batches.get(tray) ?? "" };
    });
    return { tray, order, samples };
  });
}

/**
 * The batch of one product for each tray: within a wave each batch serves equally many trays, by lot. All cups of
 * one product on a tray come from one batch, or "alike" would not be alike.
 */
function batchOf(plan: Plan, product: Product, blind: BlindTray[], seed: string): Map<number, string> {
  const random = seeded(seed, "batches");
  return new Map(
    plan.waves.flatMap((wave, at) => {
      const trays = blind.filter((tray) => tray.wave === at + 1).map(({ tray }) => tray);
      const dealt = dealtEvenly(batchesOf(wave, at, product), trays.length, random);
      return trays.map((tray, place) => [tray, dealt[place] ?? ""] as const);
    }),
  );
}

function batchesOf(wave: Wave, at: number, product: Product): string[] {
  const batches = wave.batches[product.id] ?? [];
  if (batches.length === 0) {
    throw problem("plan/no-batch", { product: product.name, wave: at + 1 });
  }
  return batches;
}
