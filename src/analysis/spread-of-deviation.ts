import { stirlingRemainder } from "./saddle-point.ts";

/** Integrals over a standard deviation that was estimated: what makes a normal statistic one of Student's kind. */

/** How far below log s = 0 a top is looked for. */
const farthest = 700;

/** Terms this much smaller than the sum no longer change it. */
const negligible = 1e-19;

/**
 * Mean of a function of s, where s^2 is a chi-square with df degrees of freedom, over df.
 *
 * Takes    value: of s, never negative; df: above 0, or Infinity, where s is 1; step: of the trapezoid rule in log s, at
 *          most; narrower steps are taken where s varies little
 * Returns  the integral, by the trapezoid rule on the whole line, which for such functions gains digits with every step
 *          (L. N. Trefethen and J. A. C. Weideman 2014, from memory). Added up from the largest term outward, so that a far
 *          tail keeps its digits
 */
export function overDeviation(value: (s: number) => number, df: number, step: number): number {
  if (df === Number.POSITIVE_INFINITY) return value(1);
  const width = Math.min(step, 0.38 / Math.sqrt(df));
  const constant = logConstant(df);
  const term = (at: number): number => {
    const log = at * width;
    // df (log s - (s^2 - 1) / 2): 0 at s = 1, so that large df lose nothing
    return Math.exp(constant + df * (log - Math.expm1(2 * log) / 2)) * value(Math.exp(log));
  };
  const top = topOf(term, width);
  let sum = term(top);
  for (const side of [1, -1]) {
    for (let at = top + side; ; at += side) {
      const next = term(at);
      sum += next;
      if (next <= sum * negligible) break;
    }
  }
  return sum * width;
}

/** Density of log s at its middle, as a logarithm: 2 (df/2)^(df/2) exp(-df/2) / Gamma(df/2). */
function logConstant(df: number): number {
  const half = df / 2;
  // Gamma(half) = half! / half, and half! is Stirling's sqrt(2 pi half) (half / e)^half times exp(remainder)
  return Math.log(2) + Math.log(half) - 0.5 * Math.log(2 * Math.PI * half) - stirlingRemainder(half);
}

/** Where the terms are largest: far below s = 1 for the far tail of a statistic that s divides. */
function topOf(term: (at: number) => number, width: number): number {
  // where the value at s = 1 is too small for a double, the top lies below, where s makes it larger
  let start = 0;
  while (term(start) === 0 && start * width > -farthest) start -= Math.ceil(0.5 / width);
  let [top, most] = [start, term(start)];
  for (const side of [-1, 1]) {
    // coarse first, so that a far-off top is found, then finer about it
    for (
      let stride = Math.max(1, Math.round(0.25 / width));
      stride >= 1;
      stride = stride > 1 ? Math.ceil(stride / 4) : 0
    ) {
      for (;;) {
        const next = term(top + side * stride);
        if (!(next > most)) break;
        [top, most] = [top + side * stride, next];
      }
      if (stride === 1) break;
    }
  }
  return top;
}
