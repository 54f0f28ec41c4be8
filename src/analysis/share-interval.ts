import { logLowerTail, logUpperTail } from "./binomial.ts";
import { requireCount, requireRisk } from "./check.ts";
import { normalQuantile } from "./normal.ts";
import { root } from "./root.ts";

/**
 * Exact limits for a share of right answers: C. J. Clopper and E. S. Pearson 1934 (from memory). Each is a beta quantile,
 * found as the share at which a binomial tail equals the given risk; relative error below 1e-12.
 */

/**
 * Share below which `correct` or more of `judgments` would come up with probability less than `tail`.
 *
 * Takes    correct, judgments: whole counts; tail: between 0 and 1, the risk on this one side
 * Returns  0 when nothing was right; beta quantile(tail; correct, judgments - correct + 1) otherwise
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  lowerLimit(1, 20, 0.025) // 0.00126508949794980
 */
export function lowerLimit(correct: number, judgments: number, tail: number): number {
  check(correct, judgments, tail);
  if (correct === 0) return 0;
  if (correct === judgments) return Math.exp(Math.log(tail) / judgments);
  if (correct === 1) return -Math.expm1(Math.log1p(-tail) / judgments);
  return limit(correct, judgments, tail, (share) => logUpperTail(correct, judgments, share) - Math.log(tail));
}

/**
 * Share above which `correct` or fewer of `judgments` would come up with probability less than `tail`.
 *
 * Takes and throws as `lowerLimit`
 * Returns  1 when all were right; beta quantile(1 - tail; correct + 1, judgments - correct) otherwise
 * Example  upperLimit(0, 60, 0.025) // 0.0596294922861669
 */
export function upperLimit(correct: number, judgments: number, tail: number): number {
  check(correct, judgments, tail);
  if (correct === judgments) return 1;
  if (correct === 0) return -Math.expm1(Math.log(tail) / judgments);
  if (correct === judgments - 1) return Math.exp(Math.log1p(-tail) / judgments);
  return limit(correct, judgments, 1 - tail, (share) => Math.log(tail) - logLowerTail(correct, judgments, share));
}

/**
 * Two-sided exact interval, half of the risk on each side.
 * Example  exactInterval(20, 60, 0.95) // { low: 0.21686944543117, high: 0.466872674742831 }
 */
export function exactInterval(correct: number, judgments: number, confidence: number): { low: number; high: number } {
  requireRisk("confidence", confidence);
  const tail = (1 - confidence) / 2;
  return { low: lowerLimit(correct, judgments, tail), high: upperLimit(correct, judgments, tail) };
}

function check(correct: number, judgments: number, tail: number): void {
  requireCount("judgments", judgments);
  requireCount("correct", correct, 0, judgments);
  requireRisk("tail", tail);
}

/** Root in the log odds of the share, from a bracket around E. B. Wilson's 1927 approximation; `rising` rises with it. */
function limit(correct: number, judgments: number, below: number, rising: (share: number) => number): number {
  const at = (logOdds: number) => rising(1 / (1 + Math.exp(-logOdds)));
  const start = wilson(correct, judgments, normalQuantile(below));
  const middle = Math.log(start / (1 - start));
  let width = 0.05;
  let [low, high] = [middle - width, middle + width];
  while (at(low) > 0) low -= width *= 2;
  while (at(high) < 0) high += width *= 2;
  const found = root(at, low, high);
  return 1 / (1 + Math.exp(-(found.bracketed ? found.at : middle)));
}

/** Wilson's limit at `z` standard errors (negative: the lower one); strictly between 0 and 1 for 0 < correct < n. */
function wilson(correct: number, judgments: number, z: number): number {
  const spread = Math.sqrt((correct / judgments) * (judgments - correct) + (z * z) / 4);
  return (correct + (z * z) / 2 + z * spread) / (judgments + z * z);
}
