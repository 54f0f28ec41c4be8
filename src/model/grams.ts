/**
 * Readings of a balance, in grams, as they were typed: "12.0" is not "12". Sums and differences of readings are taken in
 * whole units of the last digit, so that 1520.0 less 22.4 is 1497.6 and no binary neighbor of it.
 */

/** Digits with a decimal point, without a sign: up to ten million grams, to a millionth of one. */
export const readingPattern = /^\d{1,7}(\.\d{1,6})?$/;

/** How many decimals a reading has. */
export const decimalsOf = (reading: string): number => reading.split(".")[1]?.length ?? 0;

/** The smallest step that a reading can show: 0.1 for "12.0". */
export const lastDigit = (reading: string): number => 1 / 10 ** decimalsOf(reading);

/**
 * Readings added up, less others, in grams.
 *
 * Takes    readings as `readingPattern` has them; an empty one was not taken and counts as nothing
 * Returns  the double nearest to the exact decimal; may be negative
 * Example  gramsOf(["1520.0"], ["22.4"]) // 1497.6
 */
export function gramsOf(added: readonly string[], less: readonly string[] = []): number {
  const decimals = Math.max(...[...added, ...less].map(decimalsOf));
  const units = (total: number, reading: string): number => {
    const [whole = "", fraction = ""] = reading.split(".");
    return total + Number(whole + fraction.padEnd(decimals, "0"));
  };
  return (added.reduce(units, 0) - less.reduce(units, 0)) / 10 ** decimals;
}
