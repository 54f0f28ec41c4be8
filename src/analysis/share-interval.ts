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

/**
 * Two-sided score interval of E. B. Wilson 1927 (from memory): closer to its level on average than the exact one, but it
 * may fall short of it.
 *
 * Returns  0 for `low` when nothing was right and 1 for `high` when all were; 0 and 1 without answers
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  scoreInterval(20, 60, 0.95) // { low: 0.227292615235227, high: 0.459431335478803 }
 */
export function scoreInterval(correct: number, judgments: number, confidence: number): { low: number; high: number } {
  requireRisk("confidence", confidence);
  check(correct, judgments, (1 - confidence) / 2);
  const z = normalQuantile((1 + confidence) / 2);
  return {
    low: correct === 0 ? 0 : wilson(correct, judgments, -z),
    high: correct === judgments ? 1 : wilson(correct, judgments, z),
  };
}

/**
 * Two-sided likelihood interval: the shares whose likelihood falls short of the largest by no more than chi-square on one
 * degree of freedom allows.
 *
 * Takes    least: shares below this cannot be (guessing, where somebody can be right by chance); the largest likelihood
 *          is then looked for from there on
 * Returns  `least` for `low` where that is within reach; 1 for `high` when all were right; least and 1 without answers
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  likelihoodInterval(20, 60, 0.95) // { low: 0.222808835241503, high: 0.457810250171609 }
 */
export function likelihoodInterval(
  correct: number,
  judgments: number,
  confidence: number,
  least = 0,
): { low: number; high: number } {
  requireRisk("confidence", confidence);
  check(correct, judgments, (1 - confidence) / 2);
  if (judgments === 0) return { low: least, high: 1 };
  const reach = normalQuantile((1 + confidence) / 2) ** 2 / 2;
  const best = Math.max(least, correct / judgments);
  const fall = (share: number) => logLikelihood(correct, judgments, best) - logLikelihood(correct, judgments, share);
  const lowest = () => (correct === judgments ? Math.exp(-reach / judgments) : fallsBy(reach, fall, best, -1));
  return {
    low: best === least || fall(least) <= reach ? least : lowest(),
    high: correct === judgments ? 1 : best === 0 ? -Math.expm1(-reach / judgments) : fallsBy(reach, fall, best, 1),
  };
}

function logLikelihood(correct: number, judgments: number, share: number): number {
  const right = correct === 0 ? 0 : correct * Math.log(share);
  return right + (correct === judgments ? 0 : (judgments - correct) * Math.log1p(-share));
}

/** Where the log likelihood has fallen by `reach` on one side of its best share, which is neither 0 nor 1. */
function fallsBy(reach: number, fall: (share: number) => number, best: number, side: 1 | -1): number {
  const at = (logOdds: number) => fall(1 / (1 + Math.exp(-logOdds))) - reach;
  const middle = Math.log(best / (1 - best));
  let width = 0.25;
  while (at(middle + side * width) < 0) width *= 2;
  const found = root(at, middle, middle + side * width);
  return 1 / (1 + Math.exp(-(found.bracketed ? found.at : middle)));
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
