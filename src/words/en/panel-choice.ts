import type { AnswerWord } from "../../model/method.ts";
import { panel } from "./panel.ts";

/** The ends of a ranking: "least juicy", "most juicy". */
export type Ends = { least: string; most: string };

export type ChoiceWords = {
  /** The question; with its property in comparison ("juicier"), or the ends of the order, where the method asks for them. */
  ask: (comparative: string, ends?: Ends) => string;
  /** What to do, where a touch on an answer does not say it all. */
  how: string;
  /** For somebody who cannot tell. */
  unsure: string;
  /** The same, said to somebody who is about to leave without an answer. */
  cannotTell: string;
};

const oneAllTheSame = "If you cannot tell, choose one all the same and tick the box below.";
const goBackAndTick = "If you tasted everything but cannot tell, go back, choose one and tick “This was a guess”.";
const goBack = "If you tasted everything but are not sure, go back and choose the answer that comes closer.";
const noEnds: Ends = { least: "", most: "" };
const one = { how: "", unsure: oneAllTheSame, cannotTell: goBackAndTick };

/**
 * What a choice test asks, by version of the wording, which the plan locks. A version that was used is never changed:
 * another wording is another version. No word hints at an answer or names a product.
 */
export const choiceBallots: Record<string, ChoiceWords> = {
  "triangle-1": {
    ...one,
    ask: () => "Two of these samples are the same and one is different. Which one is different?",
  },
  "duo-trio-1": {
    ...one,
    ask: () => "One of the two coded samples is the same as the reference\u00a0R. Which one is it?",
  },
  "paired-difference-1": { ...one, ask: (comparative) => `Which sample is ${comparative}?` },
  "three-alternative-1": {
    ...one,
    ask: (comparative) => `One of these samples is ${comparative} than the other two. Which one is it?`,
  },
  "tetrad-1": {
    ask: () => "These four samples are two pairs of two alike. Which ones go together?",
    how: "Touch two that are alike. The other two make the second pair.",
    unsure: "If you cannot tell, make two pairs all the same and tick the box below.",
    cannotTell: "If you tasted everything but cannot tell, go back, make two pairs and tick “This was a guess”.",
  },
  "same-different-1": {
    ask: () => "Are these two samples the same, or are they different?",
    how: "",
    unsure: "If you are not sure, choose the answer that comes closer.",
    cannotTell: goBack,
  },
  "a-not-a-1": {
    ask: () => "You tasted sample\u00a0A first. Is the coded sample\u00a0A, or is it not\u00a0A?",
    how: "",
    unsure: "If you are not sure, choose the answer that comes closer.",
    cannotTell: goBack,
  },
  "paired-preference-1": {
    ask: () => "Which sample do you prefer?",
    how: "",
    unsure: "",
    cannotTell: "If you tasted both and find it hard to say, go back and choose one of the answers.",
  },
  "ranking-1": {
    ask: (_, { least, most } = noEnds) =>
      `Put the samples in order from ${least.trim()} to ${most.trim()}. Use each place once.`,
    how: "Touch them in that order. Touch one again to take it out.",
    unsure: "If two seem alike, decide all the same.",
    cannotTell: "If you tasted everything but are not sure, go back and choose the order that comes closest.",
  },
};

/**
 * Every question of a choice ballot, in the order in which they are asked.
 *
 * Takes    properties: of the plan or of its packet; none where the method asks for none. ends: of a ranking
 * Returns  one question for each property, else the one there is; nothing where the wording is none of a choice
 */
export function choiceQuestions(
  wording: string,
  properties: readonly { comparative: string }[],
  ends: Ends | null = null,
): string[] {
  const ballot = choiceBallots[wording];
  if (!ballot) return [];
  return properties.length === 0
    ? [ballot.ask("", ends ?? noEnds)]
    : properties.map(({ comparative }) => ballot.ask(comparative.trim()));
}

/** Answers that are words and no code. */
export const choiceAnswers: Record<AnswerWord, string> = {
  none: panel.question.noPreference,
  same: "The same",
  different: "Different",
  a: "A",
  "not-a": "Not A",
};

/** Everything else that a panelist reads about a choice. */
export const panelChoice = {
  cannot: {
    title: "You cannot answer this?",
    lines: (cannotTell: string, question: number) => [
      "For example because a sample is missing or was spilled, or because you could not taste it.",
      cannotTell,
      question > 1
        ? "What you kept before stays. Without this answer the tray ends here and cannot be opened again."
        : "Without an answer this tray ends here. It cannot be opened again.",
    ],
    confirm: "End without an answer",
  },
  place: (question: number, of: number) => `Question ${question} of ${of}`,
  meaning: (comparative: string) => `What “${comparative}” means here`,
  /** Under the letter of the uncoded cup, beside the answers: it is not one of them. */
  reference: "reference",
  onTray: "On your tray",
  samples: "Samples on your tray",
  /** Pairs of four samples; codes come as they are to be read. */
  pairs: {
    first: "first pair",
    second: "second pair",
    held: "touch its partner",
    goesWith: (code: string) => `with ${code}`,
    swap: "Swap partners",
    none: "No pair yet.",
    waits: (code: string) => `${code} is chosen. Now choose the one that goes with it.`,
    together: (one: readonly string[], other: readonly string[]) =>
      `${one.join(" and ")} go together; ${other.join(" and ")} go together.`,
    pairFirst: "Please touch two samples that go together first.",
  },
  /** Samples put in order; codes come as they are to be read. */
  ranking: {
    meaning: (least: string, most: string) => `What \u201c${least}\u201d and \u201c${most}\u201d mean here`,
    order: "Your order",
    places: ["first", "second", "third", "fourth", "fifth", "sixth"],
    free: "still free",
    undo: "Take back the last",
    clear: "Start over",
    none: "No sample has a place yet.",
    stands: (code: string, place: string, left: number) =>
      `${code} is ${place}. ${left === 1 ? "One sample has" : `${left} samples have`} no place yet.`,
    complete: (codes: readonly string[]) => `All have a place: ${codes.join(", then ")}.`,
    placeFirst: "Please give every sample a place first.",
  },
};
