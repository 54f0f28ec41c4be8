import type { KindsMethod } from "../model/method.ts";
import { requireNumber } from "./check.ts";
import { normalCentral, normalDensity, normalLower, normalQuantile, normalUpper } from "./normal.ts";
import { root } from "./root.ts";

/**
 * How people come to call a tray different (or not A), as two shares of a distance d-prime and a line that they draw:
 * percepts are normal, of unit spread, independent. Each share comes with its complement, so that a small one keeps its
 * digits.
 *
 * a-not-a          told when the percept lies beyond the line; `criterion` is its distance from the middle of A
 * same-different   told when the two percepts lie farther apart than the line; `criterion` is that distance, 0 or more
 *
 * Sources, from memory: D. M. Green and J. A. Swets 1966; N. A. Macmillan and C. D. Creelman 1991 (differencing model)
 */
export type KindsModel = {
  like: (criterion: number) => Told;
  unlike: (dPrime: number, criterion: number) => Told;
  /** Least line there is. */
  leastCriterion: number;
  /** The line at which a share of like trays is told, 0 < share < 1. */
  criterionOf: (likeShare: number) => number;
  /** How fast the two shares change: of like trays with the line, of unlike ones with the line and with the distance. */
  slopes: (dPrime: number, criterion: number) => { like: number; unlike: number; unlikeByDistance: number };
};
export type Told = { told: number; not: number };

const rootTwo = Math.sqrt(2);

const aNotA: KindsModel = {
  like: (criterion) => ({ told: normalUpper(criterion), not: normalLower(criterion) }),
  unlike: (dPrime, criterion) => ({ told: normalUpper(criterion - dPrime), not: normalLower(criterion - dPrime) }),
  leastCriterion: Number.NEGATIVE_INFINITY,
  criterionOf: (likeShare) => -normalQuantile(likeShare),
  slopes: (dPrime, criterion) => ({
    like: -normalDensity(criterion),
    unlike: -normalDensity(criterion - dPrime),
    unlikeByDistance: normalDensity(criterion - dPrime),
  }),
};

const sameDifferent: KindsModel = {
  like: (criterion) => ({ told: 2 * normalUpper(criterion / rootTwo), not: normalCentral(criterion / rootTwo) }),
  unlike: (dPrime, criterion) => {
    const [near, far] = [(criterion - dPrime) / rootTwo, (criterion + dPrime) / rootTwo];
    return { told: normalUpper(near) + normalUpper(far), not: normalLower(near) - normalUpper(far) };
  },
  leastCriterion: 0,
  criterionOf: (likeShare) => -rootTwo * normalQuantile(likeShare / 2),
  slopes: (dPrime, criterion) => {
    const near = normalDensity((criterion - dPrime) / rootTwo) / rootTwo;
    const far = normalDensity((criterion + dPrime) / rootTwo) / rootTwo;
    return {
      like: -rootTwo * normalDensity(criterion / rootTwo),
      unlike: -near - far,
      unlikeByDistance: near - far,
    };
  },
};

const models: Record<KindsMethod, KindsModel> = { "a-not-a": aNotA, "same-different": sameDifferent };
export const kindsModel = (method: KindsMethod): KindsModel => models[method];

/** Past this distance nobody errs to the last digit. */
export const farthestKinds = 30;

/**
 * Shares of unlike and of like trays that are told, by people who lean to neither answer: they err as often on the one
 * kind as on the other. What power is computed for, since a plan cannot know how people will lean.
 *
 * Takes    dPrime: 0 to 30
 * Throws   Problem "analysis/out-of-range"
 * Example  unbiasedShares("a-not-a", 1).unlike // 0.691462461274013
 */
export function unbiasedShares(
  method: KindsMethod,
  dPrime: number,
): { unlike: number; like: number; criterion: number } {
  requireNumber("dPrime", dPrime, 0, farthestKinds);
  const model = kindsModel(method);
  const off = (criterion: number) => model.like(criterion).told - model.unlike(dPrime, criterion).not;
  const found = root(off, Math.max(model.leastCriterion, -1), dPrime + 10, 1e-15);
  const criterion = found.bracketed ? found.at : 0;
  return { unlike: model.unlike(dPrime, criterion).told, like: model.like(criterion).told, criterion };
}
