import { sum } from "./jstat.ts";

type Node = { at: number; weight: number };
const known = new Map<number, Node[]>();

/**
 * Integral of a smooth function from low to high by Gauss-Legendre, exact for polynomials up to degree 79.
 *
 * Takes    values: smooth within the interval (no kink); points: how many places it is evaluated at
 * Example  integral((x) => x * x, 0, 3) // 9
 */
export function integral(values: (x: number) => number, low: number, high: number, points = 40): number {
  const half = (high - low) / 2;
  const middle = (high + low) / 2;
  return half * sum(nodesOf(points).map(({ at, weight }) => weight * values(middle + half * at)));
}

/**
 * Integral over the whole line of a smooth function that is a normal curve (of unit spread or a product of such) times
 * something no steeper, around `center`: the trapezoid rule, which is exact to the last digits there.
 * Source   L. N. Trefethen and J. A. C. Weideman 2014 (from memory)
 * Example  lineIntegral((x) => Math.exp(-x * x), 0) // 1.77245385090552
 */
export function lineIntegral(values: (x: number) => number, center: number): number {
  let area = values(center);
  for (let at = lineStep; at <= lineReach; at += lineStep) area += values(center - at) + values(center + at);
  return area * lineStep;
}

/** In units of the spread: binary fractions, so that the places are exact. */
const lineStep = 0.3125;
const lineReach = 10;

/** Nodes and weights on [-1, 1]: Newton's method on the Legendre recurrence, from the usual cosine start. */
function nodesOf(points: number): Node[] {
  const found = known.get(points);
  if (found) return found;
  const nodes = Array.from({ length: points }, (_, index) => {
    let at = Math.cos((Math.PI * (index + 0.75)) / (points + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      const legendre = legendreAt(points, at);
      slope = legendre.slope;
      at -= legendre.value / slope;
    }
    return { at, weight: 2 / ((1 - at * at) * slope * slope) };
  });
  known.set(points, nodes);
  return nodes;
}

function legendreAt(degree: number, x: number): { value: number; slope: number } {
  let [before, value] = [1, x];
  for (let k = 2; k <= degree; k++) [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}
