/** Below this share of its standard error a difference is what rounding left: t is then good to no digit. */
const leastRatio = 1e-9;

/** A difference, 0 where rounding alone made it. Takes it and its standard error, in one unit. */
export const unlessRounding = (difference: number, standardError: number): number =>
  Math.abs(difference) < leastRatio * standardError ? 0 : difference;

/** F of such differences: a mean of squared t, and so 0 where all of them are. */
export const fUnlessRounding = (fValue: number): number => (fValue < leastRatio ** 2 ? 0 : fValue);

/** What a mean square has more than another one, and nothing where rounding alone made it. Below 0 where it has less. */
export const surplus = (meanSquare: number, other: number): number => {
  const more = meanSquare - other;
  return Math.abs(more) < 1e-12 * other ? 0 : more;
};
