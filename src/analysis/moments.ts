import { sum } from "./jstat.ts";

/** Arithmetic mean, in two passes so that a far-off level leaves no rounding behind; 0 for none. Example: mean([1, 2, 6]) // 3 */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const rough = sum(values) / values.length;
  return rough + sum(values.map((value) => value - rough)) / values.length;
}

/** Sum of squared distances from the mean. Example: squaresAboutMean([1, 2, 6]) // 14 */
export function squaresAboutMean(values: readonly number[]): number {
  const middle = mean(values);
  return sum(values.map((value) => (value - middle) ** 2));
}
