/**
 * The two parts of Loader's saddle-point form of the binomial, for counts up to 100 000 and, since nothing in it needs
 * whole numbers, for the incomplete beta with parameters up to 1e7.
 * C. Loader 2000, "Fast and accurate computation of binomial probabilities" (from memory).
 */

/** A number as an unevaluated sum, so that its last half digit is not lost before a difference is taken. */
export type Split = { high: number; low: number };

/** Means n p and n (1 - p), each with what rounding would drop. */
export function meanOf(n: number, p: number): { right: Split; wrong: Split } {
  const rest = 1 - p;
  const dropped = 1 - rest - p; // exact: what rounding took from 1 - p
  const wrong = times(n, rest);
  return { right: times(n, p), wrong: { high: wrong.high, low: wrong.low + n * dropped } };
}

/** n x for whole n below 2^24: the two partial products are exact, since Math.fround leaves at most 29 bits each. */
function times(n: number, x: number): Split {
  const head = Math.fround(x);
  const a = n * head;
  const b = n * (x - head);
  const high = a + b;
  return { high, low: b - (high - a) };
}

/** x log(x / mean) + mean - x, never negative; without cancellation when x is near the mean. */
export function deviance(x: number, mean: Split): number {
  const correction = (1 - x / mean.high) * mean.low;
  return devianceOf(x, mean.high) + correction;
}

function devianceOf(x: number, mean: number): number {
  const difference = x - mean;
  // between a third and three times the mean the series keeps what a difference of large terms would lose
  if (Math.abs(difference) > 0.5 * (x + mean)) return x * Math.log(x / mean) - difference;
  const ratio = difference / (x + mean);
  const square = ratio * ratio;
  let sum = difference * ratio;
  let power = 2 * x * ratio;
  for (let odd = 3; ; odd += 2) {
    power *= square;
    const next = sum + power / odd;
    if (next === sum) return next;
    sum = next;
  }
}

/** log n! (of a gamma function where n is not whole) minus Stirling's log(sqrt(2 pi n) (n / e)^n), for n > 0. */
export function stirlingRemainder(n: number): number {
  if (n < 16) return wholeRemainders[n] ?? smallRemainder(n);
  const square = n * n;
  // coefficients B(2k) / (2k (2k - 1)) of Stirling's series
  const tail = (1 / 1680 - (1 / 1188 - 691 / 360360 / square) / square) / square;
  return (1 / 12 - (1 / 360 - (1 / 1260 - tail) / square) / square) / n;
}

/** Below 16 the series is too short; each step up to 16 adds (j + 1/2) log(1 + 1/j) - 1. */
function smallRemainder(n: number): number {
  const steps = Math.ceil(16 - n);
  let remainder = stirlingRemainder(n + steps);
  for (let step = steps - 1; step >= 0; step--) {
    const j = n + step;
    remainder += (j + 0.5) * Math.log1p(1 / j) - 1;
  }
  return remainder;
}

/** Of the whole numbers below 16, which counts are: index n; there is none for 0. */
const wholeRemainders: readonly (number | undefined)[] = Array.from({ length: 16 }, (_, n) =>
  n === 0 ? undefined : smallRemainder(n),
);
