import type { Key } from "../model/key.ts";
import type { BlindTray } from "../model/packet.ts";
import type { Plan, Product, Wave } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { drawCodes } from "./codes.ts";
import { partsOf, productBounds, runsOf } from "./method.ts";
import { dealOrders, dealToSeats } from "./orders.ts";
import { drawPots, potsByWave } from "./pots.ts";
import { dealtEvenly, seeded, type Uniform } from "./random.ts";
import { seating } from "./seating.ts";

/** The two halves of a serving plan, and who sits where. */
export type Trays = {
  /** What the tablets get: tray, wave, codes in serving order. */
  blind: BlindTray[];
  /** What is sealed: which code is which product and batch, the order labels, the seed. */
  key: Key;
  /** A seat is one person, with all of their planned trays; spare trays have none until they are served. */
  seats: { seat: number; trays: number[] }[];
  /** Labels of each wave's pots, which the key gives a batch. */
  pots: { wave: number; pots: string[] }[];
};

const highestTray = 9999;
const letters = "ABCDEFGHIJKL";

/**
 * Makes the trays of a study.
 *
 * Takes    plan: as many products as its method compares, and waves that seat everybody (see `seating`), a batch named
 *          for each product of each; study: id; random.seed: hex digits from a cryptographic source, for orders and
 *          batches; random.codes: a cryptographic source, for the codes alone
 * Returns  blind half, key and seats. The blind half depends on the numbers of people, repeats, waves, spares and samples,
 *          the codes to avoid and `random.codes`, and on nothing else: neither on which product is which nor on the seed
 * Throws   Problem "plan/too-few-products", "plan/too-many-products", "plan/people-in-waves", "plan/sessions",
 *          "plan/no-batch", "plan/too-many-trays"
 */
export function makeTrays(plan: Plan, study: string, random: { seed: string; codes: Uniform }): Trays {
  const runs = requireRuns(plan);
  const { seats, waveOf } = seating(plan);
  if (waveOf.length + plan.spares > highestTray) {
    throw problem("plan/too-many-trays", { trays: waveOf.length + plan.spares, codes: highestTray });
  }
  const blind = blindHalf(plan, waveOf, partsOf(runs[0]?.[0] ?? "").samples.length, random.codes);
  const pots = drawPots(plan, random.seed);
  return {
    blind,
    key: { v: 1, study, seed: random.seed, trays: keyTrays(plan, runs, blind, seats, random.seed), pots },
    seats,
    pots: potsByWave(plan, pots),
  };
}

function requireRuns(plan: Plan): ReturnType<typeof runsOf> {
  const { least, most } = productBounds(plan);
  const count = plan.products.length;
  if (count < least) throw problem("plan/too-few-products", { count, least });
  if (count > most) throw problem("plan/too-many-products", { count, most });
  return runsOf(plan);
}

/** Waves of planned trays, then of spare ones. */
const withSpares = (plan: Pick<Plan, "spares" | "waves">, planned: readonly number[]): number[] => [
  ...planned,
  // spares are spread over the waves, the last wave first, since there is no later one to fall back on
  ...Array.from({ length: plan.spares }, (_, spare) => Math.ceil(((spare + 1) * plan.waves.length) / plan.spares)),
];

/** A tray as the kitchen counts it: cups, without their codes. */
export type TrayOutline = Pick<BlindTray, "wave" | "spare"> & { cups: number };

/**
 * The trays that a plan will have once it is locked, for lists that are made before. Batches need no names yet.
 *
 * Throws   as `makeTrays`, but for the batches
 */
export function plannedTrays(plan: Plan): TrayOutline[] {
  const runs = requireRuns(plan);
  const { waveOf } = seating(plan);
  const cups = partsOf(runs[0]?.[0] ?? "").samples.length;
  return withSpares(plan, waveOf).map((wave, at) => ({ wave, spare: at >= waveOf.length, cups }));
}

/** The trays with their codes. It is given no product and no seed, so that it cannot tell anything of them. */
function blindHalf(
  plan: Pick<Plan, "spares" | "avoidCodes" | "waves">,
  planned: readonly number[],
  samples: number,
  codes: Uniform,
): BlindTray[] {
  const waveOf = withSpares(plan, planned);
  const sizes = plan.waves.map(() => 0);
  for (const wave of waveOf) sizes[wave - 1] = (sizes[wave - 1] ?? 0) + 1;
  const drawn = drawCodes(sizes, samples, plan.avoidCodes, codes);
  return waveOf.map((wave, at) => ({
    tray: at + 1,
    wave,
    spare: at >= planned.length,
    codes: drawn[wave - 1]?.shift() ?? [],
  }));
}

function keyTrays(
  plan: Plan,
  runs: ReturnType<typeof runsOf>,
  blind: BlindTray[],
  seats: Trays["seats"],
  seed: string,
): Key["trays"] {
  const planned = dealToSeats(runs, seats, seeded(seed, "orders of the planned trays"));
  const spares = dealOrders(runs, plan.spares, seeded(seed, "orders of the spare trays"));
  const inWave = plan.waves.map((): number[] => []);
  for (const { wave, tray } of blind) inWave[wave - 1]?.push(tray);
  const served = plan.products.map((product, at) => ({
    product: product.id,
    batches: batchOf(plan, product, inWave, `${seed} ${letters[at]}`),
  }));
  const inOrder = new Map(runs.flat().map((order) => [order, cupsOf(order, served)]));
  let spared = 0;
  return blind.map(({ tray, spare, codes }) => {
    const order = (spare ? spares[spared++] : planned.get(tray)) ?? "";
    const cups = inOrder.get(order);
    if (!cups) throw new RangeError(`tray ${tray} got the order “${order}”, which the plan does not have`);
    const { reference, samples } = cups;
    return {
      tray,
      order,
      samples: samples.map(({ product, batches }, place) => ({
        code: codes[place] ?? "",
        product,
        batch: batches[tray] ?? "",
      })),
      ...(reference === null
        ? {}
        : { reference: { product: reference.product, batch: reference.batches[tray] ?? "" } }),
    };
  });
}

/** A product with its batch by tray number. */
type Served = { product: string; batches: readonly string[] };

/** What stands in each place of an order, looked up once for all trays that have it. */
function cupsOf(order: string, served: readonly Served[]): { reference: Served | null; samples: Served[] } {
  const { reference, samples } = partsOf(order);
  const cup = (letter: string): Served => {
    const sample = served[letters.indexOf(letter)];
    if (!sample) throw new RangeError(`order ${order} names the product ${letter}, which the plan does not have`);
    return sample;
  };
  return { reference: reference === null ? null : cup(reference), samples: [...samples].map(cup) };
}

/**
 * The batch of one product by tray number: within a wave each batch serves equally many trays, by lot. All cups of
 * one product on a tray come from one batch, or "alike" would not be alike.
 */
function batchOf(plan: Plan, product: Product, inWave: readonly number[][], seed: string): string[] {
  const random = seeded(seed, "batches");
  const batches = Array<string>(1 + inWave.reduce((sum, trays) => sum + trays.length, 0)).fill("");
  plan.waves.forEach((wave, at) => {
    const trays = inWave[at] ?? [];
    const dealt = dealtEvenly(batchesOf(wave, at, product), trays.length, random);
    trays.forEach((tray, place) => {
      batches[tray] = dealt[place] ?? "";
    });
  });
  return batches;
}

function batchesOf(wave: Wave, at: number, product: Product): string[] {
  const batches = wave.batches[product.id] ?? [];
  if (batches.length === 0) {
    throw problem("plan/no-batch", { product: product.name, wave: at + 1 });
  }
  return batches;
}
