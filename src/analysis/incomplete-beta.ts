import { requireNumber } from "./check.ts";
import { deviance, type Split, stirlingRemainder } from "./saddle-point.ts";

/** Least and largest parameter: what the tails were checked for. */
export const leastParameter = 0.05;
export const mostParameter = 1e7;

/**
 * Both tails of the beta distribution: the regularized incomplete beta function and its complement.
 *
 * Takes    a, b: 0.05 to 1e7; x, y: 0 to 1 with x + y = 1. Both are asked for, since a caller often knows the small one
 *          of the two to more digits than a subtraction leaves
 * Returns  lower: P(X <= x), upper: P(X >= x); relative error of each below 1e-12 down to 1e-10, 2e-12 down to 1e-300
 * Throws   Problem "analysis/out-of-range"
 * Source   continued fraction of A. R. DiDonato and A. H. Morris 1992, prefactor after C. Loader 2000 (from memory)
 * Example  betaTails(2, 3, 0.25, 0.75) // { lower: 0.26171875, upper: 0.73828125 }
 */
export function betaTails(a: number, b: number, x: number, y: number): { lower: number; upper: number } {
  requireNumber("a", a, leastParameter, mostParameter);
  requireNumber("b", b, leastParameter, mostParameter);
  requireNumber("x", x, 0, 1);
  requireNumber("y", y, 0, 1);
  requireNumber("x + y", x + y, 1 - 1e-15, 1 + 1e-15);
  if (x === 0 || y === 0) return { lower: x, upper: y };
  // below the mean the lower tail is the small one and its fraction settles fast; above it the same holds mirrored
  const aboveX = a * y - b * x;
  if (aboveX >= 0) {
    const lower = tail(a, b, x, y, aboveX);
    return { lower, upper: 1 - lower };
  }
  const upper = tail(b, a, y, x, -aboveX);
  return { lower: 1 - upper, upper };
}

/** P(X <= x) for x at or below the mean. `above` is a - (a + b) x, taken without cancellation. */
function tail(a: number, b: number, x: number, y: number, above: number): number {
  // so near 0 the tail is a power of x to the last digit; the mean a + b times x could underflow
  if (x < tiny) return tail(a, b, tiny, y, above) * (x / tiny) ** a;
  return Math.min(1, Math.exp(logPrefactor(a, b, x, y, above)) / fraction(a, b, x, y, above));
}

/** Logarithm of x^a y^b / B(a, b). */
function logPrefactor(a: number, b: number, x: number, y: number, above: number): number {
  const n = a + b;
  return (
    stirlingRemainder(n) -
    stirlingRemainder(a) -
    stirlingRemainder(b) -
    deviance(a, meanOf(a, n * x, above)) -
    deviance(b, meanOf(b, n * y, -above)) +
    0.5 * Math.log((a / (2 * Math.PI)) * (b / n))
  );
}

/** A mean with what its rounding dropped, known from its distance to the count; far from the count it does not matter. */
function meanOf(count: number, high: number, above: number): Split {
  const near = Math.abs(above) <= 0.5 * (count + high);
  return { high, low: near ? count - high - above : 0 };
}

/** The continued fraction that the prefactor is divided by, by Lentz's method as I. J. Thompson and A. R. Barnett put it. */
function fraction(a: number, b: number, x: number, y: number, above: number): number {
  const denominator = (m: number) =>
    m + (m * (b - m) * x) / (a + 2 * m - 1) + ((a + m) / (a + 2 * m + 1)) * (above + 1 + m * (1 + y));
  let value = (a / (a + 1)) * (above + 1);
  let [front, back] = [value, 0];
  for (let m = 1; m <= mostSteps; m++) {
    const numerator = ((a + m - 1) / (a + 2 * m - 1)) * ((a + b + m - 1) / (a + 2 * m - 1)) * m * (b - m) * x * x;
    front = notZero(denominator(m) + numerator / front);
    back = 1 / notZero(denominator(m) + numerator * back);
    value *= front * back;
    if (Math.abs(front * back - 1) < 1e-16) break;
  }
  return value;
}

const tiny = 1e-290;
/** Far more than the some thousand steps that the largest parameters take. */
const mostSteps = 100_000;
const notZero = (value: number): number => (value === 0 ? 1e-300 : value);
