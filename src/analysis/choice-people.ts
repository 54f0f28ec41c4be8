import type { ChoiceStatistics } from "../model/result-choice.ts";
import type { PersonCounts } from "./beta-binomial.ts";
import { type ChoiceCounts, type ChoiceGoal, choiceStatistics, type OfCounts } from "./choice.ts";
import { choiceMethod, discriminatorShareOf } from "./method.ts";
import { limitShare } from "./similarity.ts";
import { meanBelow, spreadChiSquare, spreadFit } from "./spread.ts";

export type ChoiceGiven = ChoiceGoal & Pick<ChoiceCounts, "method" | "alpha" | "confidence" | "sought">;
export type Person = PersonCounts & { panelist: string };

/**
 * The statistics of a choice test from the counts of its people.
 *
 * Takes    people: with one answer or more each; ofCounts: see `analyse`
 * Returns  with one answer each what `choiceStatistics` gives. With several, what they say of how people differ; and for
 *          likeness the mean share who can tell is held against the limit with people free to differ, since pooled counts
 *          bound nothing. One person alone is tested as one: their answers are the sample
 * Throws   what `choiceStatistics` throws
 */
export function choiceOfPeople(
  given: ChoiceGiven,
  people: readonly Person[],
  ofCounts: OfCounts = choiceStatistics,
): ChoiceStatistics {
  const correct = people.reduce((sum, { right }) => sum + right, 0);
  const judgments = people.reduce((sum, { of }) => sum + of, 0);
  const counts = { ...given, correct, judgments };
  if (people.length === judgments) return ofCounts(counts);
  const { guessProbability } = choiceMethod(given.method);
  const confidence = given.confidence ?? 0.95;
  return {
    ...pooled(counts, people, ofCounts),
    people: people.length,
    panelists: people.map(({ panelist, right, of }) => ({ panelist, correct: right, judgments: of })),
    betaBinomial: spreadFit(people, 0, confidence),
    chanceCorrected: spreadFit(people, guessProbability, confidence),
    spread: spreadChiSquare(people),
  };
}

function pooled(counts: ChoiceCounts, people: readonly Person[], ofCounts: OfCounts): ChoiceStatistics {
  if (counts.goal === "difference") return ofCounts({ ...counts, people: people.length });
  // of one person alone the answers are what is counted, as of many people with one each
  if (people.length === 1) return choiceStatistics(counts);
  const { limit, method } = counts;
  const { guessProbability } = choiceMethod(method);
  const share = discriminatorShareOf(method, limitShare(method, limit));
  const bySpread = meanBelow(people, guessProbability, share, limit.beta);
  return choiceStatistics({ ...counts, people: people.length, limit: { ...limit, bySpread } });
}

/** Answers gathered person by person, in the order in which people first appear. */
export function peopleOf(answers: readonly { panelist: string; correct: boolean }[]): Person[] {
  const people = new Map<string, Person>();
  for (const { panelist, correct } of answers) {
    const known = people.get(panelist) ?? { panelist, right: 0, of: 0 };
    people.set(panelist, { panelist, right: known.right + (correct ? 1 : 0), of: known.of + 1 });
  }
  return [...people.values()];
}

/** How a person of a study is named: by seat, since no name is in the log. */
export const seatName = (seat: number): string => `seat ${seat}`;
