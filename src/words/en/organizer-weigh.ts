import type { portionStages } from "../../model/kitchen-event.ts";
import { nbsp, shortNumber } from "../number.ts";
import { plural } from "./organizer.ts";

type Stage = (typeof portionStages)[number];

/** What cannot be of a portion's readings, as `portionRefusalOf` of the analysis finds it. */
export type PortionRefusedFacts =
  | { what: "no-portion" }
  | { what: "no-cup" }
  | { what: "thousandfold"; grams: number; beside: number }
  | { what: "cup-above-after"; after: number; cup: string; rinse: string }
  | { what: "too-much"; portion: number; back: number };

const grams = (value: number): string => `${shortNumber(value, 6)}${nbsp}g`;
const typed = (reading: string): string => `${reading}${nbsp}g`;

/** Words of the weighing page. They name trays, codes and masses, and never a product. */
export const weighWords = {
  heading: "Weigh portions",
  toWeigh: "Weigh portions",
  whole: (whole: number, of: number) => `${whole} of ${plural(of, "portion", "portions")} weighed in full`,
  blind: "By tray and code. Which product a code is, nobody sees here.",
  over: "The key is open: what is entered now would count no more.",
  notWeighed: "In this study no portions are weighed: its method has no scales.",
  offPlan: (count: number) =>
    `${plural(count, "reading", "readings")} came for a tray or a code that the plan does not have. They are kept and do not count.`,
  target: (tray: string, code: string) => `Tray ${tray}, ${code}`,
  stages: {
    cup: "Empty cup with lid",
    portion: "Portion, before it is chewed",
    after: "Closed cup, after chewing",
  } satisfies Record<Stage, string>,
  unit: "g",
  rinse: "Rinse water in it",
  rinseHint: "Grams of water that were spat into this cup with the portion. None: leave it empty.",
  hints: {
    cup: "Dry, with its lid on.",
    portion: "Without the cup.",
    after: "With its lid on.",
  } satisfies Record<Stage, string>,
  planned: (planned: number, tolerance: number) => `Planned: ${grams(planned)}, give or take ${grams(tolerance)}.`,
  replaces: (reading: string) => `Now ${typed(reading)}. A new reading takes its place; the log keeps both.`,
  contested: (readings: readonly string[]) =>
    `Entered without knowing of each other: ${readings.map(typed).join(" and ")}. None counts. Read the balance again, or type the one that holds.`,
  keep: "Keep",
  keepAllTheSame: (reading: string) => `Keep ${typed(reading)} all the same`,
  notAReading: "Type grams as the balance shows them, like 12.31.",
  /** `withCup`: so far above the plan that the cup may have been on the balance. */
  off: (reading: string, by: number, allowed: number, withCup: boolean) =>
    `${typed(reading)} is ${grams(Number(Math.abs(by).toFixed(6)))} ${by < 0 ? "less" : "more"} than planned, where ${grams(allowed)} are allowed. ${withCup ? "Was it weighed with its cup? Here the portion stands alone. " : ""}Cut it to size, or keep it: it counts, and the report says so.`,
  nothingWaits:
    "Nothing waits at the moment. A closed cup is asked for as soon as its panelist has chewed; any other reading can be picked below.",
  allDone: "Every portion is weighed.",
  last: (target: string, stage: Stage, reading: string) =>
    `Last kept here: ${target}, ${weighWords.short[stage]} ${typed(reading)}.`,
  lastFile: (count: number, name: string) => `Last kept here: ${plural(count, "reading", "readings")} from ${name}.`,
  takeBack: "Take it back",
  takeBackAll: "Take them back",
  tookBack: "Taken back. The log keeps it, marked as taken back.",
  otherTray: "Another tray",
  otherTrayHint: "The number on the card, with its check digit.",
  go: "Go",
  noTray: (text: string) => `“${text}” is no tray of this study. Type the number with its check digit, such as 17-4.`,
  wave: (wave: number) => `Wave ${wave}`,
  ofWave: (whole: number, of: number) => `${whole} of ${of}`,
  columns: { tray: "tray", code: "code", cup: "cup", portion: "portion", after: "after" },
  short: { cup: "empty cup", portion: "portion", after: "closed cup" } satisfies Record<Stage, string>,
  /** What a cell's button is called for those who hear the page. */
  pick: (stage: Stage, target: string, reading: string) =>
    `${target}, ${weighWords.short[stage]}: ${reading === "" ? "enter" : reading}`,
  /** A closed cup that waits, for so many whole minutes. */
  waits: (minutes: number) => (minutes === 0 ? "now" : `${minutes}${nbsp}min`),
  waited: (minutes: number) =>
    minutes === 0
      ? "Chewed: the cup has waited for less than a minute, as far as this page knows."
      : `Chewed: the cup has waited for ${plural(minutes, "minute", "minutes")} at least.`,
  waitedTooLong: (within: number) =>
    `Chewed: the cup has waited for longer than the planned ${within}${nbsp}s. Weigh it all the same: it counts, and the report says so.`,
  several: "settle",
  spare: "spare",

  files: "Weighings as a file",
  take: "Take weighings from a CSV file",
  takeHint:
    "Columns tray and code, and either stage (cup, portion or after) with grams, or cup, portion and after. Also rinse. What is there already is left as it is; another number takes its place.",
  took: (count: number, same: number) =>
    count === 0
      ? "All readings of the file are there already."
      : `Took ${plural(count, "reading", "readings")} from the file.${same > 0 ? ` ${same} were there already.` : ""}`,
  save: "Save the weighings as CSV",
  fileName: "weighings.csv",
  unreadable: "The file cannot be read.",
  nothingTaken: "Nothing was taken.",
  twice: (line: number) => `The same reading stands on line ${line} already.`,
  stopped: (done: number, of: number) =>
    `${done} of ${of} were kept before that. Take the same file once more: what is there already is left as it is.`,
};

/** One sentence for each: what cannot be, and what to do. */
export function portionRefusedText(facts: PortionRefusedFacts): string {
  switch (facts.what) {
    case "no-portion":
      return "A portion weighs more than 0 g. Read the balance again.";
    case "no-cup":
      return "An empty cup weighs more than 0 g. Take the tare off the balance and weigh the cup with its lid.";
    case "thousandfold":
      return `${grams(facts.grams)} beside ${grams(facts.beside)} looks like kilograms or milligrams typed for grams. Type all masses in grams.`;
    case "cup-above-after":
      return `The closed cup (${grams(facts.after)}) weighs less than the empty one (${typed(facts.cup)})${facts.rinse === "" ? "" : ` with ${typed(facts.rinse)} of rinse water`}. Look whether two cups are exchanged.`;
    case "too-much":
      return `${grams(facts.back)} came back of ${grams(facts.portion)}: more than anybody adds by chewing. Look whether two cups are exchanged, and whether the rinse water is named.`;
  }
}
