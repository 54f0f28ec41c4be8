import { gramsOf } from "../model/grams.ts";
import { isBelowNothing, mostTimes } from "../model/portion-check.ts";
import type { PortionMasses } from "../model/served-portion.ts";

/** One chewed portion: readings, or a gain in percent that was worked out elsewhere. */
export type ChewRow = {
  panelist: string;
  product: string;
  repeat: string;
  readings: PortionMasses | null;
  gainPercent: number | null;
  seconds: number | null;
};

export type Gain = { grams: number; percent: number };

/**
 * What a portion gained in the mouth: mass out less mass in.
 *
 * Returns  grams, exact in decimals, and percent of the portion; below 0 where more was swallowed or lost than came in
 * Example  gainOf({ gramsIn: "4.00", gramsOut: "3.50", cup: "", rinse: "" }) // { grams: -0.5, percent: -12.5 }
 */
export function gainOf({ gramsIn, gramsOut, cup, rinse }: PortionMasses): Gain {
  const grams = gramsOf([gramsOut], [cup, rinse, gramsIn]);
  return { grams, percent: (100 * grams) / gramsOf([gramsIn]) };
}

/** What a portion cannot be. */
export type ChewRefusal =
  | { what: "no-portion" }
  /** Cup and rinse water weigh more than what came back with them. */
  | { what: "cup-above-out"; gramsOut: number; less: number }
  /** Many times the portion came back: a cup that was not taken off, or another unit. */
  | { what: "too-much"; gramsIn: number; gramsBack: number }
  /** More than the whole portion went. */
  | { what: "below-nothing"; percent: number };

/** What of a row cannot be; null where all can. `balanceStep`: in grams, empty where only the last digits tell it. */
export function chewRefusalOf({ readings, gainPercent }: ChewRow, balanceStep: string): ChewRefusal | null {
  if (!readings) {
    if (gainPercent !== null && gainPercent < -100) return { what: "below-nothing", percent: gainPercent };
    return gainPercent !== null && gainPercent > 100 * (mostTimes - 1)
      ? { what: "too-much", gramsIn: 1, gramsBack: 1 + gainPercent / 100 }
      : null;
  }
  const { gramsIn, gramsOut, cup, rinse } = readings;
  const portion = gramsOf([gramsIn]);
  if (portion <= 0) return { what: "no-portion" };
  const back = gramsOf([gramsOut], [cup, rinse]);
  if (isBelowNothing(back, [gramsOut, cup, rinse], balanceStep))
    return { what: "cup-above-out", gramsOut: gramsOf([gramsOut]), less: gramsOf([cup, rinse]) };
  return back > portion * mostTimes ? { what: "too-much", gramsIn: portion, gramsBack: back } : null;
}
