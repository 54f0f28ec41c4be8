import jStat from "jstat";

/**
 * The one door to the package jstat, open only where its figures were measured against 50-digit values.
 * Outside those ranges `normal.ts` goes on with its own.
 */

/** Where `nearDensity` holds: within 4 standard deviations. */
export const densityReach = 4;
/** Where `nearQuantile` holds: probabilities from here to one minus it. */
export const quantileReach = 1e-5;

/** Height of the standard normal curve at x, |x| <= densityReach; relative error 1e-15. */
export const nearDensity = (x: number): number => jStat.normal.pdf(x, 0, 1);

/** Standard normal quantile, quantileReach <= p <= 1 - quantileReach; relative error 1e-13. */
export const nearQuantile = (p: number): number => jStat.normal.inv(p, 0, 1);

/** Sum of a list; 0 for an empty one. */
export const sum = (values: readonly number[]): number => jStat.sum(values);
