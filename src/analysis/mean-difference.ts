import type { Interval } from "../model/interval.ts";
import { aboveZero } from "./check.ts";
import { root } from "./root.ts";
import { studentQuantile, studentTwoSided } from "./student.ts";

/** Means of a few values with Student's t: of one group, of two that are independent (Welch), of two that are paired. */

/** How many, their mean, and the variance of that mean; of one value alone, and where all are the same, it is 0. */
export type Moments = { count: number; mean: number; variance: number };

/**
 * Mean of values and the variance of that mean.
 *
 * Takes    finite values, one or more
 * Returns  0 as variance where the values differ by no more than the rounding of doubles
 */
export function momentsOf(values: readonly number[]): Moments {
  const count = values.length;
  const origin = values[0] ?? 0;
  const moved = values.map((value) => value - origin);
  const shift = sum(moved) / count;
  const squares = sum(moved.map((value) => (value - shift) ** 2));
  const noise = 4 * Number.EPSILON * Math.max(...values.map(Math.abs));
  const scatters = count > 1 && Math.sqrt(squares / count) > noise;
  return { count, mean: origin + shift, variance: scatters ? squares / (count - 1) / count : 0 };
}

/** A test of a mean, or of a difference of means, against 0. */
export type MeanTest = { estimate: number; standardError: number; df: number; tValue: number; pValue: number };

/**
 * Mean with its interval after Student.
 * Returns  bounds null, and kind "none", where one value or values without scatter tell no chance
 */
export function meanInterval(values: readonly number[], confidence: number): Interval {
  return intervalOf(testOfMean(momentsOf(values)), momentsOf(values).mean, confidence);
}

/**
 * Second mean less first, of two groups that have nothing to do with each other and may scatter differently.
 *
 * Returns  null where neither group scatters, or one has a single value
 * Source   B. L. Welch 1947, Biometrika 34 (from memory); R's t.test is the outside check
 */
export function welch(first: readonly number[], second: readonly number[]): MeanTest | null {
  return first.length < 2 || second.length < 2 ? null : welchOf(momentsOf(first), momentsOf(second));
}

function welchOf(first: Moments, second: Moments): MeanTest | null {
  const variance = first.variance + second.variance;
  if (variance === 0) return null;
  const parts = [first, second].map((each) => (each.variance / variance) ** 2 / (each.count - 1));
  return testOf(second.mean - first.mean, variance, 1 / sum(parts));
}

/** Mean of second less first within pairs; null where there is one pair, or where the differences do not scatter. */
export const paired = (first: readonly number[], second: readonly number[]): MeanTest | null =>
  testOfMean(momentsOf(second.map((value, at) => value - (first[at] ?? 0))));

const testOfMean = ({ count, mean, variance }: Moments): MeanTest | null =>
  variance === 0 ? null : testOf(mean, variance, count - 1);

function testOf(estimate: number, variance: number, df: number): MeanTest {
  const standardError = Math.sqrt(variance);
  const tValue = estimate / standardError;
  return { estimate, standardError, df, tValue, pValue: aboveZero(studentTwoSided(tValue, df)) };
}

/** The interval that goes with a test; none where there is no test. */
export function intervalOf(test: MeanTest | null, estimate: number | null, confidence: number): Interval {
  if (!test) return { estimate, low: null, high: null, confidence, kind: "none" };
  const reach = -studentQuantile((1 - confidence) / 2, test.df) * test.standardError;
  const { estimate: middle } = test;
  return { estimate: middle, low: middle - reach, high: middle + reach, confidence, kind: "two-sided" };
}

/**
 * Second mean over first, with the ratios that a t test of `second - ratio * first` does not reject: after Fieller.
 *
 * Takes    pairs: are the values paired? Then both lists have one length and order
 * Returns  no bounds where there is no scatter, and where the first mean cannot be told from 0: then every bound would
 *          let some ratios through, however large. An estimate null where the first mean is not above 0
 * Source   E. C. Fieller 1954, J. Roy. Statist. Soc. B 16 (from memory). Unpaired: with Welch's degrees of freedom at
 *          each ratio tried. Outside check: R's t.test, inverted by uniroot
 */
export function meanRatio(
  first: readonly number[],
  second: readonly number[],
  pairs: boolean,
  confidence: number,
): Interval {
  const [one, other] = [momentsOf(first), momentsOf(second)];
  if (!(one.mean > 0)) return { estimate: null, low: null, high: null, confidence, kind: "none" };
  const estimate = other.mean / one.mean;
  const none: Interval = { estimate, low: null, high: null, confidence, kind: "none" };
  const risk = (1 - confidence) / 2;
  const test = (ratio: number): MeanTest | null => {
    if (pairs) return testOfMean(momentsOf(second.map((value, at) => value - ratio * (first[at] ?? 0))));
    return welchOf({ ...one, mean: ratio * one.mean, variance: ratio ** 2 * one.variance }, other);
  };
  if (Math.min(first.length, second.length) < 2) return none;
  // as the ratio grows without end, the test becomes that of the first mean against 0
  const ofFirst = testOfMean(one);
  if (ofFirst && Math.abs(ofFirst.tValue) <= -studentQuantile(risk, ofFirst.df)) return none;
  if (test(estimate) === null) return none;
  const beyond = (ratio: number): number => {
    const found = test(ratio);
    return found === null ? 1 : Math.abs(found.tValue) + studentQuantile(risk, found.df);
  };
  const [low, high] = [-1, 1].map((side) => edge(beyond, estimate, side));
  return low == null || high == null ? none : { estimate, low, high, confidence, kind: "two-sided" };
}

/** Where a function that is below 0 at `from` comes to 0 on one side of it; null where it does not. */
function edge(beyond: (at: number) => number, from: number, side: number): number | null {
  let reach = 0.01 * Math.max(1, Math.abs(from));
  for (let step = 0; step < 60 && beyond(from + side * reach) < 0; step++) reach *= 2;
  const found = root(beyond, from, from + side * reach);
  return found.bracketed ? found.at : null;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
