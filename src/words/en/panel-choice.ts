import type { AnswerWord } from "../../model/method.ts";
import { panel } from "./panel.ts";

export type ChoiceWords = {
  /** The question; with its property in comparison ("juicier") where the method asks for one. */
  ask: (comparative: string) => string;
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
};

/**
 * Every question of a choice ballot, in the order in which they are asked.
 *
 * Takes    properties: of the plan or of its packet; none where the method asks for none
 * Returns  one question for each property, else the one there is; nothing where the wording is none of a choice
 */
export function choiceQuestions(wording: string, properties: readonly { comparative: string }[]): string[] {
  const ballot = choiceBallots[wording];
  if (!ballot) return [];
  return properties.length === 0
    ? [ballot.ask("")]
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
  /** Pairs of four samples; codes come as they are to be read. */
  pairs: {
    samples: "Samples on your tray",
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
};
