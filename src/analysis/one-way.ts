/** A classical one-way analysis of variance. */
export type OneWay =
  | { outcome: "no-marks" | "one-group" }
  /** Every group holds one value, so that nothing tells chance. */
  | { outcome: "too-few" }
  /** No group varies within itself: F is infinite when the groups differ, else 0/0. */
  | { outcome: "all-equal"; groupsDiffer: boolean }
  | {
      outcome: "ok";
      fValue: number;
      numeratorDf: number;
      denominatorDf: number;
      betweenSquares: number;
      withinSquares: number;
      means: number[];
    };

/**
 * F test of groups of values, such as the marks that one panelist gave each product.
 *
 * Takes    groups: the values of each, finite; groups without a value are passed over
 * Returns  an outcome that data can produce is a field, never an error. `means` are those of the groups with values
 * Exact    values are taken from the first of them, which costs no digit when they lie close together, and sums carry
 *          their own rounding along: F is that of the doubles given to about 1e-13, however far they lie from 0
 * Source   R. A. Fisher 1925 (from memory); compensated sums after A. Neumaier 1974 (from memory)
 *          Of 1, 2, 3 and 3, 4, 5 F is 6 on 1 and 4 degrees of freedom
 */
export function oneWay(groups: readonly (readonly number[])[]): OneWay {
  const filled = groups.filter((group) => group.length > 0);
  const origin = filled[0]?.[0];
  if (origin === undefined) return { outcome: "no-marks" };
  if (filled.length < 2) return { outcome: "one-group" };
  const moved = filled.map((group) => group.map((value) => value - origin));
  const means = moved.map((group) => carefulSum(group) / group.length);
  const values = moved.flat().length;
  const grand = carefulSum(moved.flat()) / values;
  const betweenSquares = carefulSum(moved.map((group, at) => group.length * ((means[at] ?? 0) - grand) ** 2));
  const withinSquares = carefulSum(moved.flatMap((group, at) => group.map((value) => (value - (means[at] ?? 0)) ** 2)));
  const [numeratorDf, denominatorDf] = [filled.length - 1, values - filled.length];
  if (denominatorDf === 0) return { outcome: "too-few" };
  const noise = Number.EPSILON * Math.max(...filled.map((group) => Math.abs(group[0] ?? 0)));
  const isRounding = (squares: number) => Math.sqrt(squares / values) <= noise;
  if (isRounding(withinSquares)) return { outcome: "all-equal", groupsDiffer: !isRounding(betweenSquares) };
  return {
    outcome: "ok",
    fValue: betweenSquares / numeratorDf / (withinSquares / denominatorDf),
    numeratorDf,
    denominatorDf,
    betweenSquares,
    withinSquares,
    means: means.map((mean) => origin + mean),
  };
}

/** A sum that keeps what each addition rounds away. */
function carefulSum(values: readonly number[]): number {
  let [total, lost] = [0, 0];
  for (const value of values) {
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return total + lost;
}
