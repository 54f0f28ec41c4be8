import type { Caution } from "../../model/attribute.ts";
import type { Body } from "../../model/event.ts";
import { allergenNames } from "./allergens.ts";

type StopReason = Body<"tray-stopped">["reason"];

/** A sentence with something set into it (a code in its own type), in the order of the language. */
export type Woven<T> = (string | T)[];

const cautions: Record<Caution, string> = {
  choking:
    "Sit down to taste, take no more at once than is comfortable, and take your time; water is at hand. Please sit out if you have trouble swallowing, loose teeth or dentures, or a cold.",
  hygiene:
    "Wash your hands first, and use only your own cups. Please sit out if you have a cold or sores in your mouth.",
  undercooked:
    "This food is raw or less cooked than usual on purpose. Pregnant people, young children, people over 65 and people with weakened immunity should not take part.",
  alcohol: "There is alcohol in what is served. You may spit it out. Do not drive afterward.",
};

const stopped: Record<StopReason, { title: string; lines: string[] }> = {
  stopped: {
    title: "Please stop tasting.",
    lines: [
      "There is nothing more to answer, and nobody asks why.",
      "If you feel unwell, tell the staff now. In an emergency, call the emergency number that applies here.",
    ],
  },
  "not-cleared": {
    title: "Please do not taste anything.",
    lines: [
      "Thank you for taking care. Leave the tray as it is and tell the staff that you are not taking part.",
      "Nobody asks why. This tablet keeps only that the tray was not cleared.",
    ],
  },
  "cannot-answer": {
    title: "This tray ends without an answer.",
    lines: ["That is all right. It counts as no answer, not as a wrong one.", "Please leave the tray as it is."],
  },
};

const times = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

/** A length of time in whole minutes and seconds, as it is said. */
export const duration = (seconds: number): string =>
  seconds >= 120 && seconds % 60 === 0 ? `${seconds / 60} minutes` : times(seconds, "second", "seconds");

/** What the lead typed, as typed, at the end of a sentence; a period of its own is not doubled. */
export const rinsing = (sentence: string, cleanser: string): string => {
  const typed = cleanser.trim().replace(/\.$/, "");
  return typed === "" ? `${sentence}.` : `${sentence}: ${typed}.`;
};

/** Versions of the ballot's wording that this app has the words for. */
export const wordings: readonly string[] = [
  "triangle-1",
  "duo-trio-1",
  "paired-difference-1",
  "three-alternative-1",
  "tetrad-1",
  "same-different-1",
  "a-not-a-1",
  "paired-preference-1",
  "line-scale-1",
  "ranking-1",
  "chew-and-weigh-1",
];

/** Everything a panelist reads on a tablet. Neutral throughout: no word hints at an answer or praises one. */
export const panel = {
  lang: "en",
  direction: "ltr",
  tray: (label: string, sample?: string) =>
    sample === undefined ? `Tray ${label}` : `Tray ${label} · sample ${sample}`,
  stopNow: "Stop now",
  goBack: "Go back",
  tryAgain: "Try again",
  nextPerson: "Next person",

  starting: "One moment.",
  failed: {
    title: "This tablet cannot go on.",
    /** Below the sentence of the problem. */
    kept: "Nothing that was kept on this tablet is deleted by that.",
    blame: (message: string) => `Something in the app failed: ${message}. Please ask for help.`,
    again: "Show the tray again",
  },

  insecure: {
    title: "This address is not secure (http). Answers are kept on this tablet and sent all the same, but:",
    lines: [
      "the page cannot be opened while the network is away;",
      "the screen may go dark in the middle of a tray;",
      "the browser may clear what is kept here sooner.",
    ],
    advice: "The lead can open this tablet under the secure address (https) instead.",
  },

  /** What is said of it before its page is loaded. */
  enroll: {
    again: "Answers that are on this tablet stay here and are sent after it is enrolled again.",
  },

  rest: {
    title: "Please take the tray with its card.",
    lead: "Enter the tray number on the card.",
    resumed: "If you were in the middle of a tray, enter its number again. Nothing is lost.",
    field: "Tray number",
    empty: "_ _ - _",
    keypad: "Digits",
    erase: "Delete",
    eraseLast: "Delete the last digit",
    open: "Open tray",
    nothingTyped: "Please enter the tray number first, with the digit after the dash.",
    noStudyTitle: "No tasting is set up on this tablet yet.",
    noStudy: "The lead can assign one to it. This screen looks for it by itself.",
    closedTitle: "Please call the lead before going on.",
    emptiedSeen: "The lead has seen this",
    enrollAgain: "Enroll again",
    update: "A new version of Cloche is ready.",
    updateNow: "Update now",
    updateLater: "Another window of this tablet has a tray open. Update when that tray is finished.",
  },

  /** Ways to the pages of the staff, from a tablet at rest. */
  tools: { check: "Check this tablet", wipe: "Clean the screen", paper: "Paper ballots" },

  /** The page before that; its text comes with the packet. */
  consent: {
    title: "What this is, and your choice.",
    agree: "I take part",
    decline: "I would rather not",
  },

  clearance: {
    title: "Before you taste anything, please read this.",
    contains: "What is served contains",
    mayContain: "It may contain",
    other: "Also declared",
    nothing: "None of the listed allergens is declared for what is served.",
    cautions: "Please note",
    allergens: allergenNames,
    caution: cautions,
    disclaimer:
      "This app does not replace food law, your hygiene plan or medical advice; local codes and the responsible person decide.",
    privacy: "Whatever you choose, nobody asks why, and no reason is kept.",
    clear: "None of these concerns me",
    concerned: "Stop: something concerns me",
    otherTray: "This is not my tray",
  },

  /** The lines between are in `panel-rules.ts`. */
  rules: { title: "How to taste", go: "Go on to the samples" },

  tasting: {
    title: "These codes must stand on your tray, from left to right.",
    titleWithReference: "These samples must stand on your tray, from left to right.",
    now: <T>(code: T): Woven<T> => ["Taste sample ", code, ". When you have tasted it, touch its code."],
    /** The cup without a code, which goes first. */
    nowReference: {
      R: <T>(cup: T): Woven<T> => ["Taste the reference ", cup, " first. When you have tasted it, touch its letter."],
      A: <T>(cup: T): Woven<T> => ["Taste sample ", cup, " first. When you have tasted it, touch its letter."],
    },
    resting: (cleanser: string) => rinsing("Rest a moment and clear your palate", cleanser),
    left: (seconds: number) => `The next sample follows in about ${duration(seconds)}.`,
    early: "The pause is not over yet. There is no hurry.",
    tasted: "tasted",
    next: "taste now",
    notYet: "later",
    codes: "Codes on your tray",
    differ: "My tray has other codes",
  },

  differ: {
    title: "Please ask for help: the codes do not match.",
    lines: [
      "Do not taste. Compare the number on the tray card with the one at the top of this screen.",
      "Nothing is lost: this tray can be opened again.",
    ],
    /** What must stand on it, where one cup has a letter and no code. */
    withReference: (letter: string) => `One cup has the letter ${letter} and no code; it stands first.`,
    back: "Back to the codes",
    other: "Enter another tray number",
  },

  question: {
    chosen: "chosen",
    noPreference: "No preference",
    guess: "This was a guess",
    cannot: "I cannot answer",
    keep: "Keep this",
    pickFirst: "Please choose one of the answers first.",
  },

  remark: {
    title: "Your answer is kept.",
    label: "Anything you noticed? (optional)",
    note: "Please write no names. The lead reads remarks after the tasting.",
    kept: "Your remark is kept.",
    go: "Finish",
  },

  thanks: {
    title: "Thank you. This tray is finished.",
    lines: [
      "Please leave the tray as it is, and do not talk about the samples until everybody has finished.",
      "Then press the button for the next person.",
    ],
  },

  stopped,

  status: {
    offline: "works without network",
    online: "needs the network to start",
    sent: "everything sent",
    unsent: (answers: number) => `${times(answers, "answer", "answers")} only on this tablet, not sent yet`,
    unsentRecords: (records: number) =>
      `every answer sent, ${times(records, "other record", "other records")} not sent yet`,
    since: (minutes: number) =>
      minutes < 120 ? `for ${times(minutes, "minute", "minutes")}` : `for ${Math.floor(minutes / 60)} hours`,
    aside: (records: number) => `${times(records, "record", "records")} for the lead to look at`,
    enrollAgain: "this tablet must be enrolled again",
    unreadable: "what is kept here cannot be read right now",
  },
};
export type PanelWords = typeof panel;
