import type { ChewResult, ChewWarning } from "../../model/result-chew.ts";
import { nbsp, points, pText, shortNumber } from "../number.ts";
import { firstListed, named } from "./phrases.ts";
import {
  type Bounds,
  boundsText,
  confidenceText,
  decimalsOf,
  degrees,
  lostText,
  moreOrLess,
  percentOf,
  pointsWord,
  ratioText,
  within,
} from "./weighing.ts";

/** What two products' gains differ by. `bounds` null: chance cannot be told. */
export type GainFacts = {
  first: string;
  second: string;
  points: number;
  bounds: Bounds | null;
  verdict: boolean;
  alone: boolean;
};

const people = (count: number): string => `${count} ${count === 1 ? "person" : "people"}`;
/** "1 second", "1.25 seconds". */
const secondsText = (seconds: number): string => {
  const text = shortNumber(seconds, 2);
  return `${text} ${text === "1" ? "second" : "seconds"}`;
};
const portionsWord = (count: number): string => `${count} ${count === 1 ? "portion" : "portions"}`;

export const chewWords = {
  heading: (panelists: number, portions: number) =>
    `Chew and weigh: ${portionsWord(portions)} of ${people(panelists)}.`,

  /** The first sentence: what was found between two products. */
  found({ first, second, points: by, bounds, verdict, alone }: GainFacts): string {
    const decimals = within(bounds, by);
    const amount = pointsWord(points(Math.abs(by), decimals));
    const way = by < 0 ? "less" : "more";
    const plainly = `portions of ${named(second)} gained ${amount} ${way} than those of ${named(first)}`;
    const whose = alone ? "With this person" : "In this panel";
    if (!bounds) return `${verdict ? whose : "In numbers only:"} ${plainly}. There is no interval.`;
    const turned = by < 0 ? { ...bounds, low: -bounds.high, high: -bounds.low } : bounds;
    if (!verdict) return `In numbers only: ${plainly} (${boundsText(turned, decimals)}).`;
    if (bounds.low > 0 || bounds.high < 0) return `${whose} ${plainly} (${boundsText(turned, decimals)}).`;
    const ends = `from ${moreOrLess(bounds.low, decimals)} to ${moreOrLess(bounds.high, decimals)}, ${confidenceText(bounds)}`;
    return `It was not shown that portions of ${named(second)} gain more or less than those of ${named(first)}: they differ by ${amount} (${ends}). That does not say that they gain the same.`;
  },
  alone: (product: string, percent: number, bounds: Bounds | null) =>
    `Portions of ${named(product)} gained ${percentOf(percent)} of their mass${bounds ? ` (${boundsText(bounds, 1)})` : ""}.`,
  nothing: "Nothing can be compared: the file holds no gain.",
  bothMeans: (first: { product: string; percent: number }, second: { product: string; percent: number }) =>
    first.percent < 0 || second.percent < 0
      ? `Of their own mass portions of ${named(first.product)} ${lostText(-first.percent)}, those of ${named(second.product)} ${lostText(-second.percent)}.`
      : `Of their own mass portions of ${named(first.product)} gained ${percentOf(first.percent)}, those of ${named(second.product)} ${percentOf(second.percent)}.`,
  grams: (grams: number, bounds: Bounds | null) => {
    const decimals = Math.abs(grams) < 1 ? 3 : 2;
    const ends = bounds
      ? ` (from ${moreOrLess(bounds.low, decimals)} to ${moreOrLess(bounds.high, decimals)}, ${confidenceText(bounds)})`
      : "";
    return `In grams: ${points(Math.abs(grams), decimals)}${nbsp}g ${grams < 0 ? "less" : "more"} a portion${ends}.`;
  },
  ratio: (first: string, second: string, ratio: number, bounds: Bounds) =>
    `The gain of ${named(second)} is ${ratioText(ratio)} times that of ${named(first)} (${ratioText(bounds.low)} to ${ratioText(bounds.high)}, ${confidenceText(bounds)}).`,
  noRatio: (first: string) =>
    `How many times the gain of ${named(first)} it is cannot be said: that gain cannot be told from none.`,
  test: (design: "independent" | "paired", units: readonly [number, number], df: number, pValue: number) => {
    const of =
      design === "paired"
        ? `Paired t test over the means of ${people(units[0])}`
        : `Welch’s t test of ${units[0]} and ${portionsWord(units[1])}`;
    return `${of}: ${degrees(df)}, p${pValue < 0.0001 ? " is " : `${nbsp}=${nbsp}`}${pText(pValue)}.`;
  },
  control: (product: string, percent: number, bounds: Bounds | null) =>
    `The control ${named(product)} gained ${percentOf(percent)}${bounds ? ` (${boundsText(bounds, 1)})` : ""}: what the mouth adds to a portion that gives no juice.`,

  tables: {
    means: "Mean gains",
    meansColumns: ["product", "percent of the portion", "grams", "seconds", "people", "portions"],
    persons: "Each person’s means",
    personsColumns: ["person", "product", "percent of the portion", "grams", "seconds", "portions"],
  },

  unit: {
    panelist: "People are the unit: each person’s repeats are averaged first.",
    portion: "There is one person: portions are the unit, and all of this is said of that person alone.",
  } satisfies Record<ChewResult["unit"], string>,
  /** Always: what a gain is made of. */
  meaning:
    "A gain is saliva taken up, less juice and bits that were swallowed or lost. Dry food draws saliva, and so do smell and flavor; juice is swallowed. So neither a larger nor a smaller gain shows that a product is juicier.",
  severalCompared: (products: number) =>
    `${products - 1} products are held against the first; each interval carries an even share of the risk.`,

  warning(warning: ChewWarning): string {
    switch (warning.what) {
      case "one-person":
        return chewWords.unit.portion;
      case "few-people":
        return `${people(warning.people)} had both products: under ${warning.least} there are numbers and no verdict.`;
      case "few-portions":
        return `${portionsWord(warning.portions)} of the two products were chewed: under ${warning.least} there are numbers and no verdict.`;
      case "left-out":
        return `Left out of the comparison with ${named(warning.second)}, since they had only one of the two: ${firstListed(warning.panelists)}.`;
      case "repeats-differ":
        return `People chewed from ${warning.fewest} to ${portionsWord(warning.most)} of a product: means of few portions are less sure and count the same.`;
      case "seconds-unknown":
        return `For ${warning.portions} of ${portionsWord(warning.of)} the seconds of chewing are not recorded: a gain grows with them.`;
      case "seconds-off":
        return `${warning.portions} of ${portionsWord(warning.of)} were chewed more than a second longer or shorter than the ${shortNumber(warning.planned)} planned.`;
      case "seconds-differ":
        return `${named(warning.second)} was chewed ${secondsText(Math.abs(warning.seconds))} ${warning.seconds < 0 ? "shorter" : "longer"} than ${named(warning.first)} on average. If mass rises evenly with time, that alone makes about ${pointsWord(points(warning.points, 1))}.`;
      case "coarse": {
        const effect = `the ${pointsWord(points(warning.effect, decimalsOf(warning.effect)))} ${warning.sought ? "sought" : "found"}`;
        return `The balance shows steps of ${warning.balanceStep} g. Twice that on ${shortNumber(warning.grams, 3)} g are ${pointsWord(points(warning.points, 2))}, more than a quarter of ${effect}: weigh on a finer balance, or larger portions.`;
      }
    }
  },
};

/** What cannot be of a portion, and what to do. */
export type ChewRefusedFacts =
  | { what: "no-portion" }
  | { what: "cup-above-out"; gramsOut: number; less: number }
  | { what: "too-much"; gramsIn: number; gramsBack: number }
  | { what: "below-nothing"; percent: number };

const grams = (value: number): string => `${shortNumber(value, 6)} g`;

export function chewRefusedText(facts: ChewRefusedFacts): string {
  switch (facts.what) {
    case "no-portion":
      return "The portion has no mass. Type what went into the mouth, in grams.";
    case "cup-above-out":
      return `Cup and rinse water (${grams(facts.less)}) weigh more than what came back with them (${grams(facts.gramsOut)}). Look whether two numbers are exchanged.`;
    case "too-much":
      return `${shortNumber(facts.gramsBack / facts.gramsIn)} times the portion came back. Look whether the empty cup and the rinse water were taken off, and whether all is in grams.`;
    case "below-nothing":
      return `A gain of ${percentOf(facts.percent)} would be more than the whole portion lost. Type percent of the portion, gains above 0 and losses below.`;
  }
}
