import type { Plan } from "../model/plan.ts";
import { dayTime, type Remedy } from "./day-time.ts";

/** What a plan may do and yet is worth a second look before it is locked. */
export type Flag =
  /** The last cup is tasted so many minutes after the heat, and the plan allows `to`. */
  | { what: "last-cup"; at: number; to: number; remedy: Remedy }
  | { what: "many-samples"; samples: number; most: number }
  | { what: "short-pause"; seconds: number }
  | { what: "looks" }
  /** Products with one batch in all. */
  | { what: "one-batch"; products: string[] };

/** Flags of the time at the table. */
export function timeFlags(plan: Plan): Flag[] {
  const { samples, tooMany, shortPause, past, lastCupAt, remedy } = dayTime(plan);
  const { windowTo, mostSamples } = plan.pace;
  return [
    ...(past && lastCupAt !== null && windowTo !== null
      ? [{ what: "last-cup" as const, at: lastCupAt, to: windowTo, remedy }]
      : []),
    ...(tooMany ? [{ what: "many-samples" as const, samples, most: mostSamples }] : []),
    ...(shortPause ? [{ what: "short-pause" as const, seconds: plan.serving.pauseSeconds }] : []),
  ];
}

/** All of them, in the order of the plan's parts. A blank study is to be of one batch. */
export function planFlags(plan: Plan): Flag[] {
  const single = plan.blank ? [] : plan.products.filter(({ id }) => batchesOf(plan, id) === 1);
  return [
    ...(plan.looks === "differ" ? [{ what: "looks" as const }] : []),
    ...(single.length > 0 ? [{ what: "one-batch" as const, products: single.map(({ name }) => name.trim()) }] : []),
    ...timeFlags(plan),
  ];
}

const batchesOf = ({ waves }: Plan, product: string): number =>
  new Set(waves.flatMap(({ batches }) => (batches[product] ?? []).map((name) => name.trim()))).size;
