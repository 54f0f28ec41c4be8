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

const reasons: Record<Reason, string> = {
  "not-perceived": "I could not tell",
  "not-understood": "I do not understand the question",
  sample: "The sample is missing, or something is wrong with it",
  other: "Another reason",
};

/** Everything a panelist reads about the line of a line scale. No number of it is ever shown. */
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
    now: <T>(code: T): Woven<T> => ["Take sample ", code, ". Touch its code here as you take the first bite."],
    again: <T>(code: T): Woven<T> => ["Take another bite of sample ", code, ". Touch its code here as you take it."],
  },
  chew: {
    title: "Go on chewing as you usually do.",
    comes: "The next question comes by itself, at its moment. There is nothing to press.",
    free,
  },
  mark: {
    now: "Now",
    ask: <T>(adjective: string, code: T, seconds: number): Woven<T> =>
      seconds > 0
        ? [`How ${adjective} is sample `, code, ` after ${seconds} ${seconds === 1 ? "second" : "seconds"} of chewing?`]
        : [`How ${adjective} is sample `, code, ", at the first bite?"],
    place: (question: number, of: number) => `Question ${question} of ${of} about this sample`,
    meaning: (adjective: string) => `What “${adjective}” means here`,
    first: "Please mark the line first: touch it where your answer lies, or use the arrow keys.",
    due: "The moment of the next question has come. It follows when this one is kept.",
    without: "You said that you cannot judge this. A mark on the line replaces that.",
    noRoom: {
      turn: "The line does not fit on the screen like this. Please turn the tablet on its side.",
      zoom: "This page is zoomed differently than before, so the line would have another length. Please set the zoom back, or ask for help.",
    },
    back: "Back",
    cannot: "I cannot judge this",
  },
  noMark: {
    title: "Why can you not judge this?",
    meaning: "It counts as no answer, not as a place on the line.",
    reasons,
    keep: "Keep without a mark",
  },
};
