import { requireShare } from "./check.ts";
import { normalCentral, normalDensity, normalLower, normalQuantile, normalUpper } from "./normal.ts";
import { integral, lineIntegral } from "./quadrature.ts";

/**
 * From d-prime to the share of right answers and back.
 *
 * Model of all of them: each sample gives one normal percept of unit spread, independent of the others; the means of the
 * two products lie d-prime apart; nobody leans to an answer. Sources, all from memory: J. E. R. Frijters 1979 and
 * D. M. Ennis 1993 (triangle, duo-trio), M. J. Hacker and R. Ratcliff 1979 (alternatives), J. M. Ennis and
 * V. Jesionka 2011 (tetrad). The slopes are the derivatives of those integrals, which can be taken in closed form.
 */
export type Psychometric = {
  /** Share of right answers that a guess gives: the value of `right` at 0. */
  guess: number;
  /** Share of right answers at a distance, 0 or more; absolute error below 1e-14. Past 30 it is taken as 30. */
  right: (dPrime: number) => number;
  /** Share of wrong answers, with its own digits where it is small: relative error below 1e-12. */
  wrong: (dPrime: number) => number;
  /**
   * How fast `right` rises with the distance; relative error below 1e-12. Exactly 0 at 0 for triangle, duo-trio and
   * tetrad, which is why a d-prime of 0 has no standard error there; above 0 for the alternatives.
   */
  slope: (dPrime: number) => number;
};

/** Past this the share is 1 to the last digit; larger distances are taken as this one. */
const farthest = 30;
const near = (dPrime: number): number => Math.min(dPrime, farthest);
const [rootTwo, rootThree, rootSix] = [Math.sqrt(2), Math.sqrt(3), Math.sqrt(6)];

/** Triangle: the pick is the sample farthest from the two nearest each other; the upper tail of F(1, 1) at 3. */
export const triangle: Psychometric = {
  guess: 1 / 3,
  right: triangleRight,
  wrong: triangleWrong,
  slope: (dPrime) => Math.sqrt(2 / 3) * normalDensity(dPrime / rootSix) * normalCentral(dPrime / rootTwo),
};

/** Duo-trio: the pick is the sample nearer to the reference. */
export const duoTrio: Psychometric = {
  guess: 1 / 2,
  right: (dPrime) => {
    const [a, b] = [near(dPrime) / rootTwo, near(dPrime) / rootSix];
    return normalLower(a) * normalLower(b) + normalUpper(a) * normalUpper(b);
  },
  wrong: (dPrime) => {
    const [a, b] = [near(dPrime) / rootTwo, near(dPrime) / rootSix];
    return normalLower(a) * normalUpper(b) + normalUpper(a) * normalLower(b);
  },
  slope: (dPrime) => {
    const [a, b] = [dPrime / rootTwo, dPrime / rootSix];
    return (normalDensity(a) / rootTwo) * normalCentral(b) + (normalDensity(b) / rootSix) * normalCentral(a);
  },
};

/** Two alternatives (paired difference): the pick is the stronger percept. Signed distances are good too. */
export const twoAlternative: Psychometric = {
  guess: 1 / 2,
  right: twoAfcRight,
  wrong: (dPrime) => normalUpper(dPrime / rootTwo),
  slope: (dPrime) => normalDensity(dPrime / rootTwo) / rootTwo,
};

/** Three alternatives: the pick is the strongest percept of three, of which one lies `dPrime` higher. */
export const threeAlternative: Psychometric = {
  guess: 1 / 3,
  right: (dPrime) => 1 - threeWrong(near(dPrime)),
  wrong: (dPrime) => threeWrong(near(dPrime)),
  slope: (dPrime) => rootTwo * normalDensity(dPrime / rootTwo) * normalLower(dPrime / rootSix),
};

/** Tetrad: the pairs are the two lowest and the two highest percepts. */
export const tetrad: Psychometric = {
  guess: 1 / 3,
  right: (dPrime) => 1 - tetradWrong(near(dPrime)),
  wrong: (dPrime) => tetradWrong(near(dPrime)),
  slope: (dPrime) => 2 * rootTwo * normalDensity(dPrime / rootTwo) * normalCentral(dPrime / rootSix),
};

/**
 * The distance that gives a share of right answers: the inverse of `right`.
 *
 * Takes    right: 0 to 1
 * Returns  0 at or below guessing; null at 1, which no finite distance gives; absolute error below 1e-10
 * Throws   Problem "analysis/not-a-share"
 * Example  dPrimeFrom(triangle, 0.418046674714639) // 1
 */
export function dPrimeFrom(method: Psychometric, right: number): number | null {
  requireShare("rightShare", right);
  if (right <= method.guess) return 0;
  if (right === 1) return null;
  // in the logarithm of the wrong answers, which bends little: a few of Newton's steps, halving where one would leave
  let [low, high, at] = [0, farthest, 1.5];
  for (let step = 0; step < 100; step++) {
    const wrong = method.wrong(at);
    const off = Math.log((1 - right) / wrong);
    if (off < 0) low = at;
    else high = at;
    const next = at - (off * wrong) / method.slope(at);
    if (Math.abs(next - at) <= 1e-9) return Math.max(0, next); // after so small a step only rounding is left
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return at;
}

/**
 * Share that picks the first of two when it lies `dPrime` above the second; below 1/2 for a negative distance.
 * Relative error below 1e-13 down to 1e-300. Example: twoAfcRight(-1) // 0.239750061093477
 */
export function twoAfcRight(dPrime: number): number {
  return normalLower(dPrime / rootTwo);
}

/**
 * Signed distance by which the first of two lies above the second: the inverse of `twoAfcRight`.
 *
 * Takes    share: 0 to 1, of those that pick the first
 * Returns  negative below 1/2, exactly opposite for the complement where a double holds it; null at 0 and at 1, which no
 *          finite distance gives
 * Throws   Problem "analysis/not-a-share"
 * Example  twoAfcDPrime(0.75) // 0.953872552408940
 */
export function twoAfcDPrime(share: number): number | null {
  requireShare("share", share);
  return share === 0 || share === 1 ? null : rootTwo * normalQuantile(share);
}

/** Share of right answers in a triangle; 1/3 at 0. Example: triangleRight(1) // 0.418046674714639 */
export function triangleRight(dPrime: number): number {
  const shift = shiftOf(dPrime);
  const inside = (z: number) => normalLower(shift - z * rootThree) + normalLower(-shift - z * rootThree);
  return Math.min(1, 2 * halfLine(shift, (z) => normalDensity(z) * inside(z)));
}

/** Share of wrong answers, with its own digits where it is small. Example: triangleWrong(0) // 0.666666666666667 */
export function triangleWrong(dPrime: number): number {
  const shift = shiftOf(dPrime);
  // the two tails apart: their difference from 1 would lose the digits of a small share
  const inside = (z: number) => normalLower(z * rootThree - shift) - normalLower(-z * rootThree - shift);
  return Math.min(1, 2 * halfLine(shift, (z) => normalDensity(z) * inside(z)));
}

/** The inverse for a triangle; see `dPrimeFrom`. Example: triangleDPrime(0.418046674714639) // 1 */
export const triangleDPrime = (right: number): number | null => dPrimeFrom(triangle, right);

const shiftOf = (dPrime: number): number => near(dPrime) * Math.sqrt(2 / 3);

/** Integral from 0 to where nothing is left, in two pieces: the bulk of the curve, and the step that a far shift makes. */
function halfLine(shift: number, values: (z: number) => number): number {
  const cut = 4 + shift / 6;
  return integral(values, 0, cut) + integral(values, cut, 2 * cut + 2);
}

/** One of the two weaker percepts is the highest: a sum of positive parts, so that a small one keeps its digits. */
function threeWrong(dPrime: number): number {
  return lineIntegral((z) => normalDensity(z - dPrime) * normalUpper(z) * (1 + normalLower(z)), dPrime / 2);
}

/** The two pairs lie mixed: likewise positive throughout, since the farther product's percept lies lower less often. */
function tetradWrong(dPrime: number): number {
  return lineIntegral((z) => {
    const lower = normalLower(z - dPrime);
    return 2 * normalDensity(z) * lower * (2 * normalLower(z) - lower);
  }, dPrime / 2);
}
