import { requireCount, requireNumber } from "./check.ts";
import { deviance, stirlingRemainder } from "./saddle-point.ts";

/**
 * Probability that a chi-square value on `df` degrees of freedom is at least `value`.
 *
 * Takes    value: 0 or more; df: whole, 1 to 100 000
 * Returns  relative error below 1e-12 down to 1e-300; 0 when a double cannot hold it
 * Throws   Problem "analysis/out-of-range", "analysis/not-a-count"
 * Source   series near the mean and below, A.-M. Legendre's continued fraction above it; prefactor as in C. Loader 2000
 *          (from memory)
 * Example  chiSquareUpper(18.307038053275143, 10) // 0.05
 */
export function chiSquareUpper(value: number, df: number): number {
  check(value, df);
  const [x, a] = [value / 2, df / 2];
  return x < a + 1 ? 1 - series(a, x) : fraction(a, x);
}

/** Probability that it is at most `value`; see `chiSquareUpper`. */
export function chiSquareLower(value: number, df: number): number {
  check(value, df);
  const [x, a] = [value / 2, df / 2];
  return x < a + 1 ? series(a, x) : 1 - fraction(a, x);
}

function check(value: number, df: number): void {
  requireNumber("chiSquare", value, 0, Number.MAX_VALUE);
  requireCount("df", df, 1);
}

/** x^a e^-x / gamma(a + 1), from Stirling's formula with its remainder, so that nothing large cancels. */
function prefactor(a: number, x: number): number {
  return Math.exp(-stirlingRemainder(a) - deviance(a, { high: x, low: 0 })) / Math.sqrt(2 * Math.PI * a);
}

/** 1 + x / (a + 1) + x^2 / ((a + 1)(a + 2)) + ... */
function series(a: number, x: number): number {
  if (x === 0) return 0;
  let [term, sum] = [1, 1];
  for (let step = 1; term > sum * 1e-17; step++) {
    term *= x / (a + step);
    sum += term;
  }
  return prefactor(a, x) * sum;
}

/** By W. J. Lentz's method: a / (x + 1 - a - 1 (1 - a) / (x + 3 - a - ...)). */
function fraction(a: number, x: number): number {
  let bottom = x + 1 - a;
  let ratio = 1 / 1e-300;
  let inverse = 1 / bottom;
  let value = inverse;
  for (let step = 1; step < 100_000; step++) {
    const top = -step * (step - a);
    bottom += 2;
    inverse = 1 / (top * inverse + bottom || 1e-300);
    ratio = bottom + top / ratio || 1e-300;
    const change = inverse * ratio;
    value *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return prefactor(a, x) * a * value;
}
