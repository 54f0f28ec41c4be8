import type { Product } from "../model/plan.ts";

/** Grams of one product from what is served back to what is bought. Null: not worked out, for a loss that nobody named. */
export type RawGrams = {
  /** In the cups, those of spare trays among them. */
  served: number;
  /** Out of the heat. */
  cooked: number;
  /** Into the heat. */
  raw: number | null;
  /** Before trimming. */
  bought: number | null;
};

/**
 * How much raw food a product needs.
 *
 * Takes    portions: of the most that the lot can bring; portionGrams: of one portion; losses: each of its own base, cooking
 *          of the raw mass, trimming of the bought mass, what is cooked over and above of the served mass (nothing said: none)
 * Returns  grams, not rounded
 * Exact    mass is neither made nor lost: bought - trimmed - cooked away = cooked
 */
export function rawGrams(
  portions: number,
  portionGrams: number,
  { cookLoss = null, trimLoss = null, cookedOver = null }: Pick<Product, "cookLoss" | "trimLoss" | "cookedOver">,
): RawGrams {
  const served = portions * portionGrams;
  const cooked = (served * (100 + (cookedOver ?? 0))) / 100;
  const raw = cookLoss === null ? null : (cooked * 100) / (100 - cookLoss);
  const bought = raw === null || trimLoss === null ? null : (raw * 100) / (100 - trimLoss);
  return { served, cooked, raw, bought };
}
