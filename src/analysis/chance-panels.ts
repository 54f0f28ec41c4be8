import { lowerTail, quantile } from "./binomial.ts";

/**
 * 100 panels whose every answer is right with the same probability, for the picture of chance.
 *
 * Takes    judgments: 0 to 100 000; rightShare: 0 to 1
 * Returns  how many of the 100 fall on each count (index = number right): they stand at the middles of 100 equal parts
 *          of the exact distribution
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  chancePanels(2, 1 / 2) // [25, 50, 25]
 */
export function chancePanels(judgments: number, rightShare: number): number[] {
  const middle = (dot: number) => (dot + 0.5) / 100;
  let right = quantile(middle(0), judgments, rightShare);
  const panels = new Array<number>(judgments + 1).fill(0);
  let reached = lowerTail(right, judgments, rightShare);
  for (let dot = 0; dot < 100; dot++) {
    // from one dot's quantile to the next it is a few steps up
    while (right < judgments && reached < middle(dot)) reached = lowerTail(++right, judgments, rightShare);
    panels[right] = (panels[right] ?? 0) + 1;
  }
  return panels;
}

/**
 * The same for any distribution of counts.
 *
 * Takes    probabilities: of each count from 0 on, adding up to 1
 * Example  panelsOf([0.25, 0.5, 0.25]) // [25, 50, 25]
 */
export function panelsOf(probabilities: ArrayLike<number>): number[] {
  const panels = new Array<number>(probabilities.length).fill(0);
  let count = 0;
  let reached = probabilities[0] ?? 0;
  for (let dot = 0; dot < 100; dot++) {
    while (count < probabilities.length - 1 && reached < (dot + 0.5) / 100) reached += probabilities[++count] ?? 0;
    panels[count] = (panels[count] ?? 0) + 1;
  }
  return panels;
}
