import { requireShare } from "./check.ts";
import { normalDensity, normalLower } from "./normal.ts";
import { integral } from "./quadrature.ts";
import { root } from "./root.ts";

/**
 * From d-prime to the share of right answers and back, for the triangle.
 *
 * Model: each sample gives one normal percept of unit spread, the odd product's mean lies d-prime away, and the pick is
 * the sample farthest from the two nearest each other. Psychometric function after J. E. R. Frijters 1979 and
 * D. M. Ennis 1993 (from memory); it is the upper tail of a noncentral F(1, 1) at 3.
 */

/** Past this the share is 1 to the last digit; larger distances are taken as this one. */
const farthest = 30;
const guess = 1 / 3;

/**
 * Share of right answers that a distance gives; 1/3 at 0. Absolute error below 1e-14.
 * Takes d-prime, 0 or more. Example: triangleRight(1) // 0.418046674714639
 */
export function triangleRight(dPrime: number): number {
  const shift = shiftOf(dPrime);
  const inside = (z: number) => normalLower(shift - z * Math.sqrt(3)) + normalLower(-shift - z * Math.sqrt(3));
  return Math.min(1, 2 * halfLine(shift, (z) => normalDensity(z) * inside(z)));
}

/** Share of wrong answers, with its own digits where it is small. Example: triangleWrong(0) // 0.666666666666667 */
export function triangleWrong(dPrime: number): number {
  const shift = shiftOf(dPrime);
  // the two tails apart: their difference from 1 would lose the digits of a small share
  const inside = (z: number) => normalLower(z * Math.sqrt(3) - shift) - normalLower(-z * Math.sqrt(3) - shift);
  return Math.min(1, 2 * halfLine(shift, (z) => normalDensity(z) * inside(z)));
}

/**
 * The distance that gives a share of right answers.
 *
 * Takes    right: 0 to 1
 * Returns  0 at or below guessing; null at 1, which no finite distance gives; absolute error below 1e-10
 * Throws   Problem "analysis/not-a-share"
 * Example  triangleDPrime(0.418046674714639) // 1
 */
export function triangleDPrime(right: number): number | null {
  requireShare("rightShare", right);
  if (right <= guess) return 0;
  if (right === 1) return null;
  const off =
    right <= 0.5
      ? (dPrime: number) => triangleRight(dPrime) - right
      : (dPrime: number) => Math.log((1 - right) / triangleWrong(dPrime));
  const found = root(off, 0, farthest, 1e-14);
  return found.bracketed ? found.at : 0; // no crossing: nearer to guessing than a double can tell
}

const shiftOf = (dPrime: number): number => Math.min(dPrime, farthest) * Math.sqrt(2 / 3);

/** Integral from 0 to where nothing is left, in two pieces: the bulk of the curve, and the step that a far shift makes. */
function halfLine(shift: number, values: (z: number) => number): number {
  const cut = 4 + shift / 6;
  return integral(values, 0, cut) + integral(values, cut, 2 * cut + 2);
}
