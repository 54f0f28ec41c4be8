import { sum } from "./jstat.ts";

/** Arithmetic mean, in two passes so that a far-off level leaves no rounding behind; 0 for none. Example: mean([1, 2, 6]) // 3 */
export function mean(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const rough = sum(values) / values.length;
  return rough + sum(values.map((value) => value - rough)) / values.length;
}

/** Sum of squared distances from the mean. Example: squaresAboutMean([1, 2, 6]) // 14 */
export const squaresAboutMean = (values: readonly number[]): number => squaresAbout(mean(values), values);

/** The same about a mean that is known already. Example: squaresAbout(3, [1, 2, 6]) // 14 */
export const squaresAbout = (middle: number, values: readonly number[]): number =>
  sum(values.map((value) => (value - middle) ** 2));

/** Correlation of two lists of equal length; null where one of them is constant. Example: correlation([1, 2, 3], [2, 4, 6]) // 1 */
export function correlation(one: readonly number[], other: readonly number[]): number | null {
  const spread = Math.sqrt(squaresAboutMean(one) * squaresAboutMean(other));
  if (!(spread > 0)) return null;
  const [middleOne, middleOther] = [mean(one), mean(other)];
  const together = sum(one.map((value, at) => (value - middleOne) * ((other[at] ?? 0) - middleOther)));
  // rounding may carry a perfect correlation a hair beyond 1
  return Math.max(-1, Math.min(1, together / spread));
}
