import { solvePositive } from "./cholesky.ts";
import { curvature, slopes } from "./derivatives.ts";
import type { MixedDesign } from "./mixed-design.ts";
import { profiledDeviance } from "./mixed-deviance.ts";
import { lowest } from "./nelder-mead.ts";

/** First step of a difference quotient for each ratio: a tenth of it, or of where one level's mean weighs as its rows. */
export const ratioSteps = (design: MixedDesign, ratios: readonly number[]): number[] =>
  ratios.map((ratio, term) => Math.max(0.1 * ratio, 0.1 / Math.sqrt(design.mostRows[term] ?? 1)));

/**
 * Ratios of random to residual deviation at which the restricted likelihood is highest.
 *
 * Returns  one for each random term, 0 where the likelihood falls from 0 on: that spread is not seen
 * Exact    to about 1e-8 of a ratio; a search for the valley, then Newton's steps to its ground. The deviance is the same
 *          at a ratio and its negative, so that the search needs no fence at 0
 */
export function bestRatios(design: MixedDesign): number[] {
  const terms = design.random.map((_, term) => term);
  const deviance = (ratios: readonly number[]) => profiledDeviance(design, ratios);
  const starts = [1, 0.3].map((start) => terms.map(() => start));
  const start = starts.reduce((best, next) => (deviance(next) < deviance(best) ? next : best));
  let ratios = lowest(deviance, start, (start[0] ?? 1) / 2, 1e-4).map(Math.abs);
  const small = terms.filter((term) => (ratios[term] ?? 0) * Math.sqrt(design.mostRows[term] ?? 1) < 0.1);
  const flat = ratios.map((ratio, term) => (small.includes(term) ? 0 : ratio));
  const free = (kept: readonly number[]) => terms.filter((term) => !kept.includes(term));
  if (small.length > 0) {
    ratios = descended(design, flat, free(small));
    const rising = small.filter((term) => bend(design, ratios, term) >= 0);
    if (rising.length === small.length) return ratios;
    const nudged = ratios.map((ratio, term) =>
      small.includes(term) && !rising.includes(term) ? 0.05 / Math.sqrt(design.mostRows[term] ?? 1) : ratio,
    );
    return descended(design, nudged, free(rising));
  }
  return descended(design, ratios, terms);
}

/** How the deviance bends in one ratio where that is 0: upward means that 0 is best. */
function bend(design: MixedDesign, ratios: readonly number[], term: number): number {
  const steps = ratioSteps(design, ratios);
  const along = ([x = 0]: readonly number[]) =>
    profiledDeviance(
      design,
      ratios.map((r, i) => (i === term ? x : r)),
    );
  return curvature(along, [0], [steps[term] ?? 0.1])[0]?.[0] ?? 0;
}

/** Newton's steps in the free ratios, each halved until it does not climb. */
function descended(design: MixedDesign, from: readonly number[], free: readonly number[]): number[] {
  let ratios = [...from];
  if (free.length === 0) return ratios;
  const placed = (point: readonly number[]) =>
    ratios.map((r, i) => (free.includes(i) ? (point[free.indexOf(i)] ?? 0) : r));
  const value = (point: readonly number[]) => profiledDeviance(design, placed(point));
  for (let round = 0; round < 12; round++) {
    const point = free.map((term) => ratios[term] ?? 0);
    const all = ratioSteps(design, ratios);
    const steps = free.map((term) => all[term] ?? 0.1);
    const slope = slopes((at) => [value(at)], point, steps).map(([down = 0]) => down);
    const step = solvePositive(curvature(value, point, steps), [slope])?.[0];
    if (!step) break;
    const here = value(point);
    let share = 1;
    const moved = () => point.map((x, i) => x - share * (step[i] ?? 0));
    while (share > 1e-3 && value(moved()) > here + 1e-9) share /= 2;
    if (share <= 1e-3) break;
    ratios = placed(moved()).map(Math.abs);
    // the step was taken, and the error after it is about its square
    if (Math.max(...step.map(Math.abs)) < 1e-6) break;
  }
  return ratios;
}
