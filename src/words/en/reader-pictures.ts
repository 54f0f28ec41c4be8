import type { Moment } from "../../model/attribute.ts";
import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, nbsp, percent, points, pText, shortNumber, wholeNumber } from "../number.ts";
import { differenceOf, leadText, mixedText } from "./mixed.ts";
import { momentPhrase } from "./moment.ts";
import { listed, minus, plural } from "./reader-parts.ts";

type Bounds = { estimate: number | null; low: number | null; high: number | null; confidence: number };

/** On a scale with steps many people share a place. */
const rings = (people: number, averaged: boolean, steps: boolean): string =>
  `Each ring is a ${averaged ? "panelist’s mean over repeats" : "mark"}${steps ? ", larger where more people share it" : ""}; a thin line joins those of one panelist (${plural(people, "panelist", "panelists")} in all)${steps ? ", wider for more of them" : ""}. Thick strokes are means.`;
const quoted = (name: string): string => `“${name}”`;
const interval = (low: number, high: number, decimals: number): string =>
  `${points(low, decimals)} to ${points(high, decimals)}`;
const minusOf = (first: string, second: string): string => `${first} ${minus} ${second}`;
const equals = (p: number, alpha?: number): string =>
  `p${p < 0.0001 || (p > 0.9999 && p < 1) ? " " : `${nbsp}=${nbsp}`}${pText(p, alpha)}`;

/** Captions and labels of the pictures, and heads of the tables that say the same. */
export const pictures = {
  asTable: "The picture as a table",
  joined: (counts: number) => `Columns hold up to ${counts} neighboring counts.`,
  chance: {
    name: "Chance and the count seen",
    right: "number right",
    panels: "of 100 guessing panels",
    panelsAtLimit: "of 100 panels at the limit",
    mark: "mark",
    kindsOf: "of 100 panels that cannot tell",
    votesOf: "of 100 panels without a preference",
  },
  shares: {
    name: "Shares of everybody asked",
    prefer: (product: string) => `prefer ${quoted(product)}`,
    none: "no preference",
    alone: (estimate: number | null) => (estimate === null ? "no answers" : `${percent(estimate)}, estimate only`),
    value: ({ estimate, low, high }: Bounds) =>
      estimate === null ? "no answers" : `${percent(estimate)} (${percent(low ?? 0)} to ${percent(high ?? 1)})`,
    caption: (people: number, confidence: number, offered: boolean) =>
      `Of all ${wholeNumber(people)} asked, each share with its exact ${chosenPercent(confidence)} interval, in percent.${
        offered ? "" : " “No preference” was not an answer."
      }`,
    heads: { answer: "Answer", count: "Answers", share: "Share of all asked", range: "Interval" },
  },
  people: {
    name: "Everybody’s own counts",
    caption:
      "A row for each person, under the pseudonym of the seat: filled marks are right answers, empty ones are not.",
    captionFirst: (product: string) =>
      `A row for each person, under the pseudonym of the seat: filled marks are answers for ${quoted(product)}, empty ones are not.`,
  },
  questions: {
    name: "Question by question",
    label: (property: string, inFamily: boolean) => (inFamily ? property : `${property} (exploratory)`),
    caption: (guessing: number, confidence: number) =>
      `For each question the share that chose as asked, in percent, with its ${chosenPercent(confidence)} interval; guessing gives ${guessing}. Intervals are not adjusted for the number of questions.`,
  },
  marks: {
    name: (attribute: string) => `Everybody’s marks: ${attribute}`,
    mean: (value: number | null, decimals: number) => (value === null ? "no mark" : `mean ${points(value, decimals)}`),
    difference: (low: number, high: number, value: number, confidence: number, decimals: number) =>
      `${points(value, decimals)} (${interval(low, high, decimals)}, ${chosenPercent(confidence)} interval)`,
    captionTwo: (people: number, averaged: boolean, steps: boolean, mixed = false) =>
      `${rings(people, averaged, steps)} Below, on the same scale: the ${differenceOf(mixed)} with its interval, its zero under the mean it is counted from.`,
    captionMore: (people: number, averaged: boolean, steps: boolean) =>
      `${rings(people, averaged, steps)} A line ends where a mark is missing.`,
    heads: { panelist: "Panelist", mean: "Mean", none: "no mark" },
  },
  contrasts: {
    name: (attribute: string) => `Comparisons: ${attribute}`,
    row: (difference: string, low: string, high: string, p: string) => `${difference} (${low} to ${high}), ${p}`,
    p: (p: number, alpha: number) => `adjusted ${equals(p, alpha)}`,
    caption: (confidence: number, unit: Unit, mixed: boolean, holm: boolean) =>
      `One row for each comparison: the ${differenceOf(mixed)}, in ${unit} of the scale, with its ${holm ? "interval after Holm" : `${chosenPercent(confidence)} interval`}; dotted: no difference. ${holm ? "The adjusted p allow for all comparisons shown; an interval leaves out 0 just when its own is at most the risk." : "Intervals and p allow for all comparisons shown."}`,
  },
};

/** What stands around the tables of a line scale. */
export const scale = {
  minusOf,
  byOf: (first: string, second: string): string => `${first} by ${second}`,
  moment: (moment: Moment): string =>
    momentPhrase(moment, (seconds) => `after ${plural(seconds, "second", "seconds")} of chewing`),
  further: "Looked at beside the question",
  furtherNote: (counting: number) =>
    counting > 1
      ? `The question was about what stands first, and the verdict speaks of it alone. ${counting} properties share the risk; among the others a small p is easily chance.`
      : "The question was about what stands first, and the verdict speaks of it alone. Among several others a small p is easily chance.",
  tests: {
    mixed: mixedText,
    lead: leadText,
    caption: (subject: string) => `Tests: ${subject}`,
    term: "Source",
    terms: {
      product: "Products",
      panelist: "Panelists",
      session: "Sessions, mixed model",
      position: "Place on the tray, mixed model",
    },
    mixedProduct: "Products, mixed model",
    df: "Degrees of freedom",
    f: "F",
    p: "p",
    dfIs: (numerator: number, denominator: number) => `${shortNumber(numerator)} and ${shortNumber(denominator)}`,
  },
  incomplete: (panelists: readonly { panelist: string; missing: readonly string[] }[]) =>
    `Without a mark: ${panelists.map(({ panelist, missing }) => `${panelist} (${listed(missing.map(quoted))})`).join("; ")}. No mark is no answer, not zero.`,
  positions: {
    heading: "By place on the tray",
    note: "A check of the serving, not a second chance at a verdict.",
    place: "Place",
    marks: "Marks",
    mean: "Mean",
  },
};
