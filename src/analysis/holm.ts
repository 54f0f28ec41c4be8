import { requireShare } from "./check.ts";

/**
 * P-values adjusted so that the risk of one false alarm or more among all of them stays what it was for one.
 *
 * Takes    pValues: 0 to 1 each, in any order
 * Returns  as many, in the order given: the smallest times their number, the next times one less and so on; none below
 *          the one before it, none above 1. The family is rejected step by step exactly where adjusted p <= alpha
 * Throws   Problem "analysis/not-a-share"
 * Source   S. Holm 1979, Scandinavian Journal of Statistics 6 (from memory)
 * Example  holm([0.01, 0.04, 0.03]) // [0.03, 0.06, 0.06]
 */
export function holm(pValues: readonly number[]): number[] {
  for (const pValue of pValues) requireShare("pValue", pValue);
  const rising = pValues.map((pValue, at) => ({ pValue, at })).sort((a, b) => a.pValue - b.pValue);
  const adjusted = new Array<number>(pValues.length).fill(1);
  let least = 0;
  rising.forEach(({ pValue, at }, step) => {
    least = Math.min(1, Math.max(least, pValue * (rising.length - step)));
    adjusted[at] = least;
  });
  return adjusted;
}
