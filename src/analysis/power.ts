import { criticalNumber, upperTail } from "./binomial.ts";
import { choiceMethod, rightShareOf } from "./method.ts";

/**
 * Chance that a panel reaches the critical number when a given share of people can tell: exact, one judgment each.
 *
 * Takes    method: a choice method's name; judgments: 0 to 100 000; alpha: between 0 and 1; discriminatorShare: 0 to 1
 * Returns  0 to 1; 0 when no number right would reach alpha
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share", "analysis/unknown-method", "analysis/method-not-yet"
 * Example  power("triangle", 24, 0.05, 0.3) // 0.550475132488567
 */
export function power(method: string, judgments: number, alpha: number, discriminatorShare: number): number {
  const needed = criticalNumber(judgments, choiceMethod(method).guessProbability, alpha);
  const share = rightShareOf(method, discriminatorShare);
  return needed === null ? 0 : upperTail(needed, judgments, share);
}
