import type { mouths } from "../../model/chew.ts";
import type { BlindPacket } from "../../model/packet.ts";
import { duration, type Woven } from "./panel.ts";
import { panelRules } from "./panel-rules.ts";

type Mouth = (typeof mouths)[number];
type Chew = NonNullable<BlindPacket["chew"]>;

/** Words of the ballot for portions that are chewed and weighed, version 1. Nothing hurries, and nothing hints at a product. */
const prepare: Record<Mouth, { title: string; text: string; done: string }> = {
  "rinsed-and-waited": {
    title: "Rinse your mouth with water.",
    text: "Swallow the water, or spit it into the basin: not into a cup with a code.",
    done: "I have rinsed",
  },
  rinsed: {
    title: "Rinse your mouth with water.",
    text: "Swallow the water, or spit it into the basin: not into a cup with a code. Then go on at once.",
    done: "I have rinsed",
  },
  dried: {
    title: "Dry your mouth with the paper cloth.",
    text: "Press it to tongue and cheeks. It goes into the bin, not into a cup with a code.",
    done: "My mouth is dry",
  },
};

export const panelChew = {
  /** How to taste, line by line. */
  rules: ({ seconds, mouth, rinseGrams }: Chew, pauseSeconds: number, onPaper = false): string[] => [
    panelRules.alone,
    "Each portion comes in a lidded cup of its own, with a code. Chew it, and spit everything back into that cup.",
    "Wash your hands first. Touch no cup but your own, and only at the outside.",
    `Before each portion, ${mouth === "dried" ? "dry your mouth with the paper cloth" : "rinse your mouth with water"}. ${onPaper ? "The server says" : "The tablet says"} when to go on.`,
    `Chew at your own pace, without swallowing. After ${duration(seconds)} ${onPaper ? "the server" : "the tablet"} says when to spit.`,
    "You may spit, or swallow, at any moment before that. Nobody counts it against you: say so when you are asked.",
    ...(rinseGrams === null ? [] : ["Then rinse with the water beside the cup, and spit that into the same cup."]),
    "Close the lid at once and hand the cup in.",
    ...(pauseSeconds > 0 ? [`Between portions is a pause of ${duration(pauseSeconds)}.`] : []),
    panelRules.stop,
    "Your seconds and answers are kept under the tray number, without your name.",
  ],
  compare: {
    title: "These codes must stand on your tray, from left to right.",
    match: "The codes match",
  },
  rest: {
    title: "Rest a moment.",
    text: "The next portion follows by itself. There is no hurry.",
  },
  prepare,
  wait: {
    title: "Now wait with an empty mouth.",
    text: (seconds: number) => `About ${duration(seconds)}. The tablet says when to go on; breathe through your nose.`,
  },
  bite: {
    title: <T>(code: T): Woven<T> => ["Take all of portion ", code, "."],
    text: "Open its cup, put all of the portion into your mouth, and touch the code at that very moment.",
    touch: "touch when it is in your mouth",
  },
  chew: {
    title: "Chew at your own pace, and do not swallow.",
    text: "The word comes by itself. You may spit before it, if you want to.",
    now: "Now",
    spit: <T>(code: T): Woven<T> => ["Spit everything into cup ", code, "."],
    lost: "The page was loaded anew, so the seconds of this portion are not known. That is all right.",
    done: "It is in the cup",
  },
  whole: {
    title: "Was all of it spat out?",
    yes: "Yes, all of it",
    no: "Some was swallowed or lost",
    fine: "Both answers are fine.",
    keep: "Keep this",
    pick: "Please choose one of the two first.",
  },
  lid: {
    title: <T>(code: T): Woven<T> => ["Close cup ", code, "."],
    rinse: (grams: number) =>
      `First rinse with the water that stands beside the cup (${grams} g), all of it, and spit it into the same cup.`,
    close: "Put the lid on at once and hand the cup in.",
    done: "The cup is closed",
  },
  paper: {
    how: (seconds: number) =>
      `With a watch: from the portion in the mouth to everything in the cup. Say \u201cNow\u201d after ${seconds} seconds, and write the real ones.`,
    seconds: "Real seconds",
  },
  chosen: "chosen",
  /** Where in the tray this is. */
  place: (at: number, of: number) => `portion ${at} of ${of}`,
};
