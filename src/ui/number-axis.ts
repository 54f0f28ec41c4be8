import { shortNumber } from "../words/number.ts";

/** A straight axis: where a value stands, in pixels, and the round values to print along it. */
export type NumberAxis = { at: (value: number) => number; ticks: { value: number; x: number; text: string }[] };

/** Pixels that a printed tick needs at least. */
const tickRoom = 46;

/**
 * An axis from `low` to `high` over the pixels `from` to `to`.
 *
 * Takes    low < high; ticks stand within `shown` (all of the axis when left out)
 */
export function numberAxis(
  { low, high }: { low: number; high: number },
  { from, to }: { from: number; to: number },
  shown: { low: number; high: number } = { low, high },
): NumberAxis {
  const perUnit = (to - from) / (high - low);
  const at = (value: number): number => from + (value - low) * perUnit;
  const step = roundStep(tickRoom / perUnit);
  const first = Math.ceil(shown.low / step - 1e-9);
  const last = Math.floor(shown.high / step + 1e-9);
  const ticks = Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => {
    const value = (first + index) * step;
    return { value, x: at(value), text: signed(Number(value.toPrecision(12)), 6) };
  });
  return { at, ticks };
}

/** An axis of steps has a number at each of them, from 1; of a line (null) it stays as it is. */
export const stepAxis = ({ at, ticks }: NumberAxis, steps: number | null): NumberAxis => ({
  at,
  ticks:
    steps === null
      ? ticks
      : Array.from({ length: steps }, (_, before) => ({
          ...{ value: before + 1, x: at(before + 1), text: String(before + 1) },
        })),
});

/** The smallest of 1, 2 and 5 times a power of ten that is no smaller than this; 0.1, 0.2, 0.5, 1, … */
export function roundStep(least: number): number {
  const ten = 10 ** Math.floor(Math.log10(least) + 1e-9);
  return [1, 2, 5, 10].map((times) => times * ten).find((step) => step >= least * (1 - 1e-9)) ?? 10 * ten;
}

/** A range that holds all values and begins and ends at round ones; one unit around a single value. */
export function roundRange(values: readonly number[]): { low: number; high: number } {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  if (!Number.isFinite(least) || !Number.isFinite(most)) return { low: 0, high: 1 };
  const spread = most > least ? most - least : Math.max(1, Math.abs(most) / 10);
  const step = roundStep(spread / 8);
  const low = Math.floor((most > least ? least : least - spread / 2) / step) * step;
  return { low, high: Math.max(low + step, Math.ceil((most > least ? most : most + spread / 2) / step) * step) };
}

/** A number with a minus sign as long as a plus, at most so many decimals. */
export const signed = (value: number, decimals = 1): string => shortNumber(value, decimals).replace(/^-/, "\u2212");
