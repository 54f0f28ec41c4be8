import type { Moment } from "../../model/attribute.ts";
import type { Compared } from "../../model/result-scale.ts";
import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, points, pText, statistic } from "../number.ts";
import { momentPhrase } from "./moment.ts";
import { listed, named, pIs } from "./phrases.ts";
import { family } from "./report-family.ts";
import type { TestFacts } from "./report-scale.ts";

const fText = ({ fValue, numeratorDf, denominatorDf }: TestFacts): string =>
  `F(${numeratorDf}, ${denominatorDf}) is ${statistic(fValue)}`;
const found = (test: TestFacts): string => `${fText(test)}, ${pIs(test.pValue, 1)}`;
const when = (moment: Moment): string => momentPhrase(moment, (seconds) => `after ${seconds} s`);
const range = (low: number, high: number, decimals: number): string =>
  `${points(low, decimals)} to ${points(high, decimals)}`;
const wentBy = (by: number, unit: Unit): string =>
  Number(by.toFixed(1)) === 0 ? "stayed as it was" : `${by < 0 ? "fell" : "rose"} by ${points(Math.abs(by))} ${unit}`;
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What is said of one property over the chew. */
export const curve = {
  heading: (attribute: string) => `${attribute} over the chew`,
  changeHeading: (attribute: string) => `${attribute}: what changed over the chew`,
  when,

  shape: {
    differs: (test: TestFacts) =>
      `The curves of the products differ in shape (${found(test)}): how they compare depends on the moment.`,
    notShown: (test: TestFacts) =>
      `That the curves of the products differ in shape is not shown (${found(test)}). It does not show that they have one shape.`,
    none: "Whether the curves of the products differ in shape cannot be tested: too few people marked every product at every moment, or nothing is left to judge chance by.",
    people: (people: number) =>
      `Shapes are compared within the ${people} people who marked every product at every moment, and differences between moments are taken to vary alike.`,
  },
  means: {
    caption: (attribute: string) => `Means of ${attribute} by moment`,
    product: "Product",
    cell: (estimate: number, bounds: { low: number; high: number } | null, decimals: number) =>
      bounds
        ? `${points(estimate, decimals)} (${range(bounds.low, bounds.high, decimals)})`
        : points(estimate, decimals),
    none: "none",
    note: (confidence: number, unit: Unit) =>
      `In ${unit}, with the ${chosenPercent(confidence)} interval of each mean. Moments are never pooled: each has its own test.`,
  },

  change: {
    /** What each product's mean did. */
    went: (from: Moment, to: Moment, means: readonly { product: string; by: number }[], unit: Unit) =>
      `From ${from.at === "first-bite" ? "the first bite" : when(from)} to ${to.at === "before-swallowing" ? "just before swallowing" : when(to)}: ${listed(means.map(({ product, by }) => `${named(product)} ${wentBy(by, unit)}`))}.`,
    differ: (test: TestFacts) => `The products differ in this change: ${found(test)}.`,
    notShown: (test: TestFacts) =>
      `That the products differ in this change is not shown: ${found(test)}. It does not show that they change alike.`,
    noTest: (reason: string) => `The changes are not compared: ${reason}`,
  },
  area: {
    is: (seconds: number, means: readonly { product: string; area: number }[], unit: Unit) =>
      `Area under the marks over ${seconds} seconds, by the planned times, in ${unit} times seconds: ${listed(means.map(({ product, area }) => `${named(product)} ${points(area, 0)} (${points(area / seconds)} ${unit} on average)`))}.`,
    differ: (test: TestFacts) => `The products differ in this area: ${found(test)}.`,
    notShown: (test: TestFacts) =>
      `That the products differ in this area is not shown: ${found(test)}. It does not show that their areas are alike.`,
    noTest: (reason: string) => `The areas are not compared: ${reason}`,
    none: "There is no area under the curve: not every moment has seconds that were planned.",
  },
  beside: "Looked at beside the question: no verdict was planned for it.",
  contrasts: {
    caption: (attribute: string) => `Differences in what changed of ${attribute}`,
    columns: (confidence: number, holm: boolean) => [
      "Difference",
      "Estimate",
      holm ? "Interval, after Holm" : `${chosenPercent(confidence)} interval`,
      "p",
      "p, adjusted",
    ],
    change: (compared: Compared, first: string, second: string, unit: Unit) =>
      upper(
        compared === "interaction"
          ? `change, ${named(first)} by ${named(second)}, ${unit}`
          : `change of ${named(first)} less that of ${named(second)}, ${unit}`,
      ),
    area: (compared: Compared, first: string, second: string, unit: Unit) =>
      upper(
        compared === "interaction"
          ? `area, ${named(first)} by ${named(second)}, ${unit} times seconds`
          : `area of ${named(first)} less that of ${named(second)}, ${unit} times seconds`,
      ),
    range,
    p: (p: number, alpha: number) => pText(p, alpha),
    note: (holm: boolean) =>
      `One value a person and product: the last mark of a chew less its first, or the area under all of them. ${holm ? "Adjusted p allow" : "Intervals and adjusted p allow"} for all comparisons of their kind; p speaks of its own alone.${holm ? ` ${family.afterHolm}` : ""}`,
  },
  picture: {
    name: (attribute: string) => `Curves over the chew: ${attribute}`,
    caption: (confidence: number, timed: boolean, unit: Unit) =>
      `Means in ${unit} at each moment, a line and a mark of its own for each product, with their ${chosenPercent(confidence)} intervals. Products stand a little apart so that these can be seen.${timed ? "" : " Moments stand evenly: not all have seconds."}`,
  },
};
