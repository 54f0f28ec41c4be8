import type { Measured } from "../../model/measured.ts";
import { chosenPercent, nbsp, points } from "../number.ts";
import { listed, named } from "./phrases.ts";
import { percentOf, pointsWord, within } from "./weighing.ts";

/** Masses beside what was perceived: two kinds of numbers, each with its own interval. */

const measuredHeading = (row: Measured): string =>
  row.what === "gain"
    ? "Gained by chewed portions"
    : row.what === "step-loss"
      ? `Lost at ${named(row.step)}, of the step\u2019s start`
      : `Lost up to ${named(row.step)}, of the raw mass`;

const unitWords = { batches: "batches", panelists: "people", portions: "portions" } as const;

/** "4 and 4 batches"; of pairs the number once. */
function unitsOf({ unit, units: [first, second], design }: Measured): string {
  if (design === "paired") return `${first} ${unitWords[unit]}, each both`;
  return `${first} and ${second} ${unitWords[unit]}`;
}

/** A difference without its unit, with decimals that fit its interval. */
const estimate = ({ difference: { estimate, low, high, confidence } }: Measured): string => {
  const bounds = low === null || high === null ? null : { low, high, confidence };
  return points(estimate ?? 0, within(bounds, estimate ?? 0));
};

export const beside = {
  heading: "Side by side: perceived and measured",
  perceived: (size: string) => `Perceived: ${size}`,
  apart:
    "Each difference has its own interval, and none is put together with another: what people feel and what a balance shows are only loosely linked, and a smaller loss is no proof of a juicier bite.",
  points: (products: number) =>
    `No correlation is given: it would have ${products} points here, one for each product, and fewer than 8 say nothing.`,
  batches: "The batches that were weighed need not be those that were tasted.",
  gain: "Chewed portions gain saliva and lose juice and bits: a gain is no measure of juiciness, and neither direction of it was expected.",
  afterReveal: "The masses were put beside the answers when the key was open.",
  measuredHeading,
  between: (second: string, first: string) => `${named(second)} less ${named(first)}`,
  row: (what: string, between: string) => `${what}: ${between}`,
  measured: (titles: readonly string[]) => `Measured: ${listed(titles.map(named))}.`,
  caption: "Differences perceived and measured",
  columns: (confidence: string) => ["What, and between which", "Difference", `${confidence} interval`, "Of how many"],
  confidence: (shares: readonly number[]) => (shares.length === 1 ? chosenPercent(shares[0] ?? 0) : "Its own"),
  people: (people: number) => `${people} people`,
  scaleUnit: (value: string, unit: "points" | "steps") => `${value}${nbsp}${unit}`,
  estimate,
  difference: (row: Measured): string => pointsWord(estimate(row)),
  range: (row: Measured): string => {
    const { low, high, confidence, estimate } = row.difference;
    if (low === null || high === null) return "none";
    const decimals = within({ low, high, confidence }, estimate ?? 0);
    return `${points(low, decimals)} to ${points(high, decimals)}`;
  },
  /** The two means behind a difference. */
  means: ({ first, second, firstPercent, secondPercent, what }: Measured): string =>
    firstPercent === null || secondPercent === null
      ? ""
      : `${named(second)} ${what === "gain" ? "gained" : "lost"} ${percentOf(secondPercent)}, ${named(first)} ${percentOf(firstPercent)}.`,
  unitsOf,
  pictures: {
    perceived: {
      name: "Perceived",
      caption: (what: string) => `Perceived: ${what}. Dots are differences, lines their intervals.`,
    },
    measured: {
      name: "Measured",
      caption: "Measured: differences of masses in percentage points. Dots are differences, lines their intervals.",
    },
  },
};
