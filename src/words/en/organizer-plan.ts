import { listed, organizer } from "./organizer.ts";
import { figure, percent } from "./organizer-figures.ts";
import { method } from "./organizer-method.ts";
import { people } from "./organizer-people.ts";
import { ranking } from "./organizer-ranking.ts";
import { safety } from "./organizer-safety.ts";
import { scale } from "./organizer-scale.ts";
import { summaries } from "./organizer-summaries.ts";
import { numberWord, planPartNames } from "./planning.ts";

/** Words of the plan page: its parts, their one-sentence summaries, hints and notes in the margin. */
const letterOf = (at: number): string => String.fromCharCode(65 + at);
const ordinals = ["1st", "2nd", "3rd", "4th", "5th", "6th"];
const times = (count: number): string => (count === 1 ? "once" : count === 2 ? "twice" : `${count} times`);

const question = {
  title: "Title of the study",
  titleHint: "For you and the readers. Tablets never get it.",
  objective: "What is the question?",
  objectiveHint:
    "One comparison, one kind of people. \u201cCan our staff tell the new process from the current one?\u201d",
  ifYes: "If yes, what will be done?",
  ifNo: "If no, what will be done?",
  standsFor: "Who does the panel stand for?",
  note: "Without two different actions, one for yes and one for no, there is nothing to test.",
  standsForHint: "Leave it empty if these people stand for themselves only; the report then says so.",
};

const samples = {
  letter: (at: number) => `Product ${letterOf(at)}`,
  name: "Name",
  preparation: "Preparation, up to the cup",
  add: "Add a product",
  compares: (least: number, most: number) =>
    least === most
      ? `This method compares ${numberWord(least)} products.`
      : `This method compares ${numberWord(least)} to ${numberWord(most)} products in a sitting.`,
  perTray: "Products on each tray, if not all",
  perTrayHint:
    "Empty: every tray holds all of them. With more than six, or a food that tires, each person gets some of them, so that every two products meet equally often (balanced incomplete blocks). From 2 to 6.",
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
  vesselHint: "The same for all, within and between trays.",
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
  retasteOnLine: "More than one bite of the sample at hand is allowed",
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
  note: "Products are prepared out of sight and alike in all but the treatment. Cups, portion and temperature are the same within and between trays.",
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
  orders: {
    heading: "Serving orders",
    none: "They follow from the products of part 4 and the people of part 3.",
    dealt: (orders: number, rounds: number, left: number) => {
      if (rounds === 0) return `${left} of the ${orders} orders are served, by lot, each once.`;
      const each = `${orders} orders, each served ${times(rounds)}`;
      return left === 0
        ? `${each}. Which tray has which is drawn at lock.`
        : `${each}; ${left} of them, by lot, once more.`;
    },
    uneven: (count: number, orders: number) => {
      const below = Math.floor(count / orders) * orders;
      const even = below === 0 ? String(orders) : `${below} or ${below + orders}`;
      return `What stays uneven: ${count} people are no multiple of ${orders}. With ${even} nothing would.`;
    },
    /** Incomplete blocks: `people` trays of a design with `orders` of them, in runs of as many as there are products. */
    held: (held: number, products: number, orders: number, people: number) => {
      const runs = Math.floor(people / products);
      const rest = people % products;
      const served =
        runs === 0
          ? `${people} of a run's ${products} trays are served, by lot.`
          : `${people} people are ${runs === 1 ? "one run" : `${runs} runs`} of ${products} trays${rest === 0 ? "" : ` and ${rest} by lot`}.`;
      return `Each tray holds ${held} of the ${products} products, in balanced incomplete blocks. ${served} In a whole run every product stands in every place once; after ${orders} trays every two products have met equally often.`;
    },
    heldUneven: (people: number, orders: number) => {
      const below = Math.floor(people / orders) * orders;
      const even = below === 0 ? String(orders) : `${below} or ${below + orders}`;
      return `What stays uneven: not every two products meet equally often; the counts are below. With ${even} people they would.`;
    },
    meets:
      "Meetings: on how many trays two products (row and column) stand together; with itself, how often a product is tasted",
    other: (at: number) => letterOf(at),
    letters: (names: readonly string[]) =>
      names.map((name, at) => `${letterOf(at)} is ${name || "not named yet"}`).join("; "),
    letter: (at: number) => letterOf(at),
    product: "product",
    places: "Places: how often a product (row) stands in each place",
    place: (place: number) => ordinals[place - 1] ?? String(place),
    follows: "Carry-over: how often a product (row) comes right after another one (column)",
    after: (before: number) => letterOf(before),
    itself: "\u2013",
    times: (least: number, most: number) => (least === most ? String(least) : `${least} to ${most}`),
  },
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
  note: "Trays of one wave come from the batches named for it. All cups of one product on a tray come from one batch.",
};

export const planWords = {
  parts: planPartNames,
  change: "change",
  done: "close",
  /** For people who hear the page: which part the button belongs to. */
  ofPart: (part: string) => `: ${part}`,
  begun: (instant: string) => `begun ${organizer.day(instant)}`,
  notStarted: "Not started.",
  stillOpen: "Still open:",
  nextPart: "Next",
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
  scale,
  ranking,
  people,
  samples,
  serving,
  safety,
  lockLine: "Locking fixes all of this for good and seals the key.",
  lockOpen: (parts: readonly string[]) =>
    `Lock the plan: ${listed(parts)} ${parts.length === 1 ? "is" : "are"} still open.`,
  toLock: "Lock the plan\u2026",
};
