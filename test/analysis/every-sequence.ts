/** What a rule says after so many answers with so many right. */
export type Rule = (judgments: number, correct: number) => "yes" | "no" | "go-on";
export type Outcome = { judgments: number; correct: number; said: "yes" | "no" | "go-on" };

/**
 * Every sequence of right and wrong answers, one by one, each with its probability, and where a rule stops it: a second
 * way to all chances of a stopping rule that shares nothing with the first.
 *
 * Takes    looks: numbers of answers at which the rule is asked, rising; the last one is the end
 */
export function everySequence(looks: readonly number[], share: number, rule: Rule): [Outcome, number][] {
  const end = looks.at(-1) ?? 0;
  return Array.from({ length: 2 ** end }, (_, bits) => {
    const right = Array.from({ length: end }, (_, at) => (bits >> at) & 1);
    const chance = right.reduce((product, one) => product * (one === 1 ? share : 1 - share), 1);
    return [stopOf(right, looks, rule), chance];
  });
}

function stopOf(right: readonly number[], looks: readonly number[], rule: Rule): Outcome {
  let outcome: Outcome = { judgments: 0, correct: 0, said: "go-on" };
  for (const judgments of looks) {
    const correct = right.slice(0, judgments).reduce((sum, one) => sum + one, 0);
    outcome = { judgments, correct, said: rule(judgments, correct) };
    if (outcome.said !== "go-on") break;
  }
  return outcome;
}

export const chanceOf = (all: readonly [Outcome, number][], holds: (outcome: Outcome) => boolean): number =>
  all.reduce((sum, [outcome, chance]) => (holds(outcome) ? sum + chance : sum), 0);

/** Is the one outcome as far towards yes as the other, or further? An earlier yes is further, an earlier no less. */
export function asFar(one: Outcome, other: Outcome): boolean {
  if (one.judgments === other.judgments) return one.correct >= other.correct;
  return one.judgments < other.judgments ? one.said === "yes" : other.said === "no";
}
