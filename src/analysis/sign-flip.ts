import { aboveZero, requireCount } from "./check.ts";

/** How often each total of the leads comes up when every lead's sign is as good as the other: index = total + `most`. */
export type SignFlips = { most: number; probabilities: Float64Array };

/**
 * Exact distribution of the total lead if each person leads to either side with equal chances, whatever the size.
 *
 * Takes    leads: each person's own lead, whole; its sign does not matter; all together at most 100 000. A lead of 0 stays 0
 */
export function signFlips(leads: readonly number[]): SignFlips {
  const sizes = leads.map(Math.abs);
  const most = sizes.reduce((sum, size) => sum + size, 0);
  requireCount("judgments", most);
  const probabilities = new Float64Array(2 * most + 1);
  probabilities[most] = 1;
  let reach = 0;
  for (const size of sizes) {
    if (size === 0) continue;
    const before = probabilities.slice(most - reach, most + reach + 1);
    probabilities.fill(0, most - reach, most + reach + 1);
    for (let at = -reach; at <= reach; at++) {
      const half = (before[at + reach] ?? 0) / 2;
      probabilities[most + at - size] = (probabilities[most + at - size] ?? 0) + half;
      probabilities[most + at + size] = (probabilities[most + at + size] ?? 0) + half;
    }
    reach += size;
  }
  return { most, probabilities };
}

/**
 * How likely a total lead at least as large as this one is, to either side, by changing the signs of the people's leads.
 *
 * Takes    leads: each person's net lead for the first product, whole, negative for the second; people without one count
 *          for nothing
 * Returns  1 for a total of 0; never 0; the same when every sign is turned. Exact: sums of positive terms alone
 * Throws   Problem "analysis/not-a-count" for leads of more than 100 000 together
 * Source   R. A. Fisher 1935, the test of paired differences by all changes of sign (from memory)
 * Example  signFlipP([3, 1, 2]) // 2 / 8
 */
export function signFlipP(leads: readonly number[]): number {
  const total = Math.abs(leads.reduce((sum, lead) => sum + lead, 0));
  if (total === 0) return 1;
  const { most, probabilities } = signFlips(leads);
  let tail = 0;
  // the smallest first, so that they are not lost beside the larger ones
  for (let at = 2 * most; at >= most + total; at--) tail += probabilities[at] ?? 0;
  return Math.min(1, aboveZero(2 * tail));
}
