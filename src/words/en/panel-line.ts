import type { AskedAttribute, Moment } from "../../model/attribute.ts";
import type { Body } from "../../model/event.ts";
import type { BlindPacket } from "../../model/packet.ts";
import type { Woven } from "./panel.ts";

const tenths = ["", "one tenth", "two tenths", "three tenths", "four tenths", "half", "six tenths", "seven tenths"];
const share = (count: number): string => tenths[count] ?? (count === 8 ? "eight tenths" : "nine tenths");

type Reason = NonNullable<Body<"mark-kept">["why"]>;

const free: Record<BlindPacket["swallow"], string> = {
  swallow: "Swallow whenever you like.",
  spit: "Spit it into your own lidded cup whenever you like.",
  either: "Swallow it or spit it into your own lidded cup, whenever you like.",
};

/** The end of the chew, as the swallowing rule of the study has it. */
const beforeGone: Record<BlindPacket["swallow"], string> = {
  swallow: "just before you swallow",
  spit: "just before you spit it out",
  either: "just before you swallow it or spit it out",
};

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** The moment, as it follows the sample's code in a question. */
function asked(moment: Moment, swallow: BlindPacket["swallow"]): string {
  switch (moment.at) {
    case "first-bite":
      return ", at the first bite?";
    case "after":
      return ` after ${counted(moment.seconds, "second", "seconds")} of chewing?`;
    case "chews":
      return ` after ${counted(moment.chews, "chew", "chews")}?`;
    case "before-swallowing":
      return `, ${beforeGone[swallow]}?`;
  }
}

type Question = Pick<AskedAttribute, "adjective" | "form" | "moment">;

/** The question up to the sample's code. */
function opening({ adjective, form }: Question): string {
  const word = adjective.trim();
  if (form.kind === "just-right") return `How do you find the ${word} of sample `;
  if (form.kind === "line" || !form.liking) return `How ${word} is sample `;
  return word === "" ? "How much do you like sample " : `How much do you like the ${word} of sample `;
}

const reasons: Record<Reason, string> = {
  "not-perceived": "I could not tell",
  "not-understood": "I do not understand the question",
  sample: "The sample is missing, or something is wrong with it",
  other: "Another reason",
};

/** Everything a panelist reads about a scale, line or steps. No number of it is ever shown. */
export const panelLine = {
  line: {
    none: "no mark yet",
    how: "Choose a place on the line: press an arrow key, a digit key, Home or End, or touch the line.",
    removed: "The mark is taken away.",
    ends: (low: string, high: string) => `The line runs from ${low} to ${high}.`,
    place: (count: number, low: string, high: string) => {
      if (count <= 0) return `at the end: ${low}`;
      if (count >= 10) return `at the end: ${high}`;
      return `about ${share(count)} of the way from ${low} to ${high}`;
    },
    left: "a little left",
    right: "a little right",
  },
  compare: {
    title: "Do these codes stand on your tray, from left to right?",
    match: "Yes, they match",
  },
  take: {
    title: "Take the samples one after the other.",
    /** `last`: what is said of the end of the chew; empty where nothing is asked then. */
    now: <T>(code: T, last: string): Woven<T> => [
      "Take sample ",
      code,
      `. Touch its code here as you take the first bite.${last}`,
    ],
    again: <T>(code: T, last: string): Woven<T> => [
      "Take another bite of sample ",
      code,
      `. Touch its code here as you take it.${last}`,
    ],
    last: (swallow: BlindPacket["swallow"]) => ` The last question of it comes ${beforeGone[swallow]}.`,
  },
  chew: {
    title: "Go on chewing as you usually do.",
    comes: "The next question comes by itself, at its moment. There is nothing to press.",
    free,
    /** A moment that only the panelist knows. */
    say: (moment: Moment, swallow: BlindPacket["swallow"]) =>
      moment.at === "chews"
        ? `Touch “Now” after ${counted(moment.chews, "chew", "chews")}, counted from the first bite.`
        : `Touch “Now” ${beforeGone[swallow]}.`,
    now: "Now",
    missed: "I missed it",
    ahead: (swallow: BlindPacket["swallow"]) => `The last question of this sample comes ${beforeGone[swallow]}.`,
  },
  mark: {
    now: "Now",
    ask: <T>(question: Question, code: T, swallow: BlindPacket["swallow"]): Woven<T> => [
      opening(question),
      code,
      asked(question.moment, swallow),
    ],
    place: (question: number, of: number) => `Question ${question} of ${of} about this sample`,
    meaning: (word: string) => (word === "" ? "What this means here" : `What “${word}” means here`),
    first: "Please mark the line first: touch it where your answer lies, or use the arrow keys.",
    stepFirst: "Please choose an answer first: touch it, or use the arrow keys or its digit.",
    due: "The moment of the next question has come. It follows when this one is kept.",
    without: "You said that you cannot judge this. A mark or an answer replaces that.",
    noRoom: {
      turn: "The line does not fit on the screen like this. Please turn the tablet on its side.",
      zoom: "This page is zoomed differently than before, so the line would have another length. Please set the zoom back, or ask for help.",
    },
    back: "Back",
    cannot: "I cannot judge this",
  },
  noMark: {
    title: "Why can you not judge this?",
    meaning: "It counts as no answer, and stands nowhere on the scale.",
    reasons,
    keep: "Keep without an answer",
  },
  /** Of a step without words of its own. */
  step: (step: number, of: number) => `step ${step} of ${of}`,
};
