import type { Blotting, Drawing } from "../../model/ledger.ts";
import { organizer, plural } from "./organizer.ts";

const { nb } = organizer;

const staysAs = (stored: string, unit: string): string =>
  stored === "" ? "Nothing was stored." : `${stored}${nb}${unit} stays stored.`;

const fieldNames = {
  grams: "Grams",
  tare: "Grams of the dish",
  drip: "Grams of juice caught",
  blotted: "Blotted",
  added: "Grams of liquid added",
  minutes: "Minutes after the heat",
  celsius: "Core temperature in °C",
};

/** The weighing ledger of a claim. */
export const ledgerWords = {
  begin: "Weigh batches here",
  beginHint: "Loss and interval are worked out from the masses of each batch.",
  heading: "Weighed here",
  steps: ["raw", "cooked", "rested", "held"],
  result: "What the masses say",
  notShown: "What this does not show",
  numbers: "Means and differences in numbers",
  setting: "Steps, balance and draw",
  stepsLabel: "Steps, with commas between",
  stepsHint: "The first is the raw mass. Batches are weighed at them in this order.",
  stepsWrong: (most: number) => `Name 2 to ${most}${nb}different steps. The last good list stays.`,
  balance: "Smallest step of the balance, in grams",
  balanceHint: "Such as 0.1. Left empty: the last digit of what was typed.",
  drawn: "Was it drawn which raw pieces got which process?",
  drawings: {
    unknown: "not recorded",
    drawn: "yes, it was drawn",
    "not-drawn": "no, somebody chose",
  } satisfies Record<Drawing, string>,
  drawnFromHint: "An attached study says it. Take that only if these batches are of its draw.",
  drawnFrom: (title: string, drawn: "drawn" | "not-drawn"): string =>
    `Take from the plan of “${title}”: ${ledgerWords.drawings[drawn]}`,
  matters: "Smallest difference that matters",
  mattersHint: "In percentage points of the raw mass, if it was named beforehand. Else leave it empty.",

  process: (name: string, batches: number) => `${name}: ${plural(batches, "batch", "batches")}`,
  addBatch: (name: string) => `Add a batch of ${name}`,
  full: (most: number) => `A claim holds at most ${most}${nb}batches.`,
  batch: (name: string) => `Batch ${name}`,
  columns: {
    step: "step",
    grams: "grams",
    own: "this step",
    raw: "of raw",
    tare: "dish",
    drip: "caught",
    blotted: "blotted",
    added: "liquid added",
    minutes: "minutes",
    celsius: "°C",
  },
  /** What a field is called for those who hear the page. */
  field: (what: keyof typeof fieldNames, step: string, batch: string, process: string): string =>
    `${fieldNames[what]}, ${step}, batch ${batch} of ${process}`,
  reason: "Why did the mass grow?",
  reasonHint: "Such as: marinated. With a reason the mass counts as it is.",
  notAReading: "Type grams as the balance shows them, with a decimal point: 1497.6.",
  stays: (stored: string) => staysAs(stored, "g"),
  minutes: {
    notRead: "Type minutes after the heat: 5 or 2.5.",
    stays: (stored: string) => staysAs(stored, "min"),
  },
  celsius: {
    notRead: "Type degrees Celsius with a decimal point: 62.5.",
    stays: (stored: string) => staysAs(stored, "°C"),
  },
  more: "Dish, juice, liquid, blotting, time, temperature, lot and pair",
  moreHint:
    "Dish: its mass, if the balance was not set to zero with it. Caught and liquid added: grams from the step before to this one. Minutes: after the heat. °C: of the core when weighed.",
  blottings: { unknown: "not recorded", blotted: "yes", "not-blotted": "no" } satisfies Record<Blotting, string>,
  name: "Name or number",
  lot: "Lot or pieces",
  pair: "Pair",
  pairHint: "One word for two batches, one of each process, made from halves of the same raw material.",
  nameWrong: "Give the batch a name or number. The last one stays.",
  pairWrong: "This word already names another batch of the same process. It was not stored.",
  removeBatch: (batch: string, process: string) => `Remove batch ${batch} of ${process}`,
  removedBatch: (batch: string, process: string) => `Removed batch ${batch} of ${process} with its weighings.`,
  removedSteps: "Took steps away with what was weighed at them.",
  remove: "Take the weighings away",
  removed: "Took the weighings away.",
  broken: (batch: string, sentence: string) => `Batch ${batch}: ${sentence}`,

  take: "Take weighings from a CSV file",
  takeHint: "Columns batch, product, step and grams. They replace what stands here.",
  took: (batches: number) => `Took ${plural(batches, "batch", "batches")} from the file.`,
  unreadable: "The file cannot be read. Nothing was taken.",
  nothingTaken: "Nothing was taken.",
  save: "Save the weighings as CSV",
};
