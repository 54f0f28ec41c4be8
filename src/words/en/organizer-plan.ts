import { listed, organizer, plural } from "./organizer.ts";
import { figure, inHundred, oneDecimal, percent, risk } from "./organizer-figures.ts";
import { safety } from "./organizer-safety.ts";
import { summaries } from "./organizer-summaries.ts";
import { planPartNames } from "./planning.ts";

/** Words of the plan page: its parts, their one-sentence summaries, hints and notes in the margin. */
const { nb } = organizer;

const question = {
  title: "Title of the study",
  titleHint: "For you and the readers. Tablets never get it.",
  objective: "What is the question?",
  objectiveHint:
    "One pair of products, one kind of people. \u201cCan our staff tell the new process from the current one?\u201d",
  ifYes: "If yes, what will be done?",
  ifNo: "If no, what will be done?",
  standsFor: "Who does the panel stand for?",
  note: "Without two different actions, one for yes and one for no, there is nothing to test.",
  standsForHint: "Leave it empty if these people stand for themselves only; the report then says so.",
};

const method = {
  name: "Method",
  triangle: "Triangle",
  triangleIs:
    "Three coded samples, two alike and one different. The panelist picks the different one; a guess is right one time in three.",
  yesTerm: "If yes",
  noTerm: "If no",
  yes: "A yes lets you say that people like these notice a difference. It does not say what differs, which one is better, or which way.",
  no: "A no does not let you say that they are the same: the panel may have been too small.",
  only: "The triangle is the one method that can be planned in this version. If you know which property differs, a paired question would need far fewer people.",
  goal: "Goal",
  difference: "To show a difference",
  alpha: "How often may chance fool you?",
  alphaHint: "The risk of seeing a difference that is not there, called alpha. It is fixed at lock.",
  alphaOptions: [
    { value: 0.05, label: `5${nb}%: one study in twenty`, hint: "usual" },
    { value: 0.01, label: `1${nb}%: one study in a hundred`, hint: "when a false yes is costly" },
    { value: 0.1, label: `10${nb}%: one study in ten`, hint: "when a missed difference is costly" },
  ],
  otherAlpha: (alpha: number) => `${percent(alpha)}: ${risk(alpha)}`,
  preview: "What the panelist reads",
};

const people = {
  people: "People you can seat",
  peopleSlider: "People, by slider",
  spares: "Spare trays",
  sparesNote:
    "Spare trays are for dropped samples and for people who turn up. They are drawn at lock and served in order.",
  share: "Share who can tell, to be found",
  shareSlider: "Share who can tell, by slider",
  shareNote: `As a rule of thumb, fewer than 25${nb}% who can tell is a small difference, more than 35${nb}% a large one.`,
  finds: (count: number, chance: number) =>
    `With ${plural(count, "person", "people")} this plan finds it in ${inHundred(chance)} such studies.`,
  other: (count: number, chance: number) => `With ${count}: ${inHundred(chance).replace(" of 100", "")}.`,
  never: (count: number) => `With ${plural(count, "person", "people")} no result can count, not even if all are right.`,
  tooFew: (count: number, least: number) =>
    `${plural(count, "person gives", "people give")} no verdict, whatever they answer. Plan at least ${least}.`,
  glaring: (share: number) =>
    `This panel finds only a glaring difference: ${percent(share)} of people must be able to tell before it is found in 80 of 100 studies.`,
  tooMany:
    "No kitchen seats the people that this would take. Look for a larger difference, or ask a narrower question.",
  needed: (count: number, needed: number, chance: number) =>
    `${count}${nb}people need ${needed}${nb}right. Fooled by chance: ${oneDecimal(chance * 100)} in 100.`,
  jump: "Why the dots jump: the number needed is whole, so one more person can make it harder for a moment.",
  source: "Source: exact binomial.",
  picture: (share: number) =>
    `Chance of finding ${percent(share)} who can tell, in 100 such studies, by number of people. Your choice is the large dot.`,
  axis: "people",
  asTable: "The picture as a table",
  columns: {
    people: "people",
    needed: "needed right",
    finds: (share: number) => `finds ${percent(share)}`,
    fooled: "fooled by chance",
  },
  none: "none",
  ofHundred: inHundred,
  chosen: "your choice",
};

const samples = {
  products: "The two products",
  letter: (at: number) => `Product ${String.fromCharCode(65 + at)}`,
  name: "Name",
  preparation: "Preparation, up to the cup",
  add: "Add a product",
  remove: (name: string) => `Remove ${name || "this product"}`,
  removed: (name: string) => `Removed ${name ? `\u201c${name}\u201d` : "a product"} and its batches and declaration.`,
  looks: "Could you tell them apart by looking?",
  looksOptions: [
    { value: "alike", label: "No, they look alike", hint: "" },
    { value: "masked", label: "Yes, and it will be masked", hint: "" },
    { value: "differ", label: "Yes, and it will not be masked", hint: "the report says so" },
  ] as const,
  masking: "How is it masked?",
  maskingHint: "Light, lidded cups, colored cups, cutting.",
  portion: "Portion",
  grams: "g",
  celsius: "\u00b0C",
  temperature: "Served at",
  vessel: "Vessel",
  vesselHint: "The same for both, within and between trays.",
  cleanser: "To clear the palate",
  pause: "Pause between samples",
  seconds: "seconds",
  pauseHint: "At least 30 s is usual.",
  swallow: "Swallow or spit",
  swallowOptions: [
    { value: "swallow", label: "Swallow every sample", hint: "" },
    { value: "spit", label: "Spit every sample out", hint: "" },
    { value: "either", label: "As each likes, but the same for every sample", hint: "" },
  ] as const,
  retaste: "Going back to a sample of the same tray is allowed",
  warmUp: "A warm-up sample comes first: the same for everybody, not counted",
  warmUpWhat: "What is the warm-up sample?",
  palette: "Screen of the tablets",
  paletteOptions: [
    { value: "day", label: "Light, for a lit room", hint: "" },
    { value: "dim", label: "Dark, for dim or colored light", hint: "" },
  ] as const,
  sample: "Food and cup",
  tasting: "How it is tasted",
  notePreparation: "Preparation is everything done to it, so that a reader sees that only the treatment differs.",
  note: "Both products are prepared out of sight and alike in all but the treatment. Cups, portion and temperature are the same within and between trays.",
  noteBatch:
    "Two batches of each product are the least if the result is to say something about the process and not about one pan.",
};

const serving = {
  waves: "Waves",
  wave: (at: number) => `Wave ${at + 1}`,
  starts: "Begins at",
  people: "People",
  batches: (name: string) => `Batches of ${name || "this product"}`,
  batchesNote:
    "Batches: one name for each pot or pan, with commas between, like C1, C2. The names stay in the kitchen.",
  add: "Add a wave",
  remove: (at: number) => `Remove wave ${at + 1}`,
  removed: (at: number) => `Removed wave ${at + 1}.`,
  count: (inWaves: number, planned: number) =>
    inWaves === planned
      ? `The waves seat all ${planned}.`
      : inWaves < planned
        ? `The waves seat ${inWaves} of ${planned}; ${planned - inWaves} more to place.`
        : `The waves seat ${inWaves}, but the plan has ${planned} people.`,
  needsProducts: "Batches can be named once part 4 has its products.",
  place: "Place",
  placeHint: "Room, light, booths.",
  server: "Does whoever carries the trays know which code is which?",
  serverOptions: [
    { value: "no", label: "No", hint: "" },
    { value: "yes", label: "Yes, one person fills and carries", hint: "the report says so" },
  ] as const,
  avoid: "Codes that mean something here",
  avoidHint: "Room numbers, bus lines, local slang; three digits each, with spaces between. They are not drawn.",
  badCodes: (bad: string) => `${bad} is not a three-digit code from 100 to 999. Codes have spaces between: 112 404.`,
  note: "Trays of one wave come from the batches named for it. Both cups of one product on a tray come from one batch.",
};

export const planWords = {
  parts: planPartNames,
  change: "change",
  done: "done",
  /** For people who hear the page: which part the button belongs to. */
  ofPart: (part: string) => `: ${part}`,
  begun: (instant: string) => `begun ${organizer.day(instant)}`,
  notStarted: "Not started.",
  stillOpen: "Still open:",
  nextPart: "Next",
  undo: "Undo",
  versions: (count: number) =>
    `This plan was changed on ${count} devices at the same time. You see the newest version; the others are kept in the log.`,
  percent,
  figure,
  number: {
    notANumber: (label: string) => `${label}: type a number, like 12 or 12.5.`,
    whole: (label: string) => `${label}: type a whole number.`,
    range: (label: string, low: number, high: number) => `${label}: between ${low} and ${high}.`,
    stays: (value: string) => `Until then ${value} stays in the plan.`,
    empty: "nothing",
  },
  summaries,
  question,
  method,
  people,
  samples,
  serving,
  safety,
  lockLine: "Locking fixes all of this for good and seals the key.",
  lockOpen: (parts: readonly string[]) =>
    `Lock the plan: ${listed(parts)} ${parts.length === 1 ? "is" : "are"} still open.`,
  toLock: "Lock the plan\u2026",
};
