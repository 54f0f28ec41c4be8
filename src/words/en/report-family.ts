import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, points, pText, wholeNumber } from "../number.ts";
import { listed, named, plain } from "./phrases.ts";

/** Several properties of a line scale: which share the agreed risk, and all their differences side by side. */

const count = (properties: number): string => `${wholeNumber(properties)} properties that count`;

export const family = {
  /** `steps`: where properties have several scales, that of those below; null for the line. */
  heading: (steps?: number | null) =>
    `All properties side by side${steps === undefined ? "" : steps === null ? ": on the line" : `: in ${steps} steps`}`,
  share: (size: number, alpha: number) =>
    `${wholeNumber(size)} properties were named beforehand to count, and share the risk of ${chosenPercent(alpha)}: their p are adjusted for that (Holm).`,
  shown: (subjects: readonly string[]) => `A difference is shown in ${listed(subjects)}.`,
  notShown: (subjects: readonly string[]) =>
    `In ${listed(subjects)} none is shown, which does not show that there is none.`,
  exploratory: (subjects: readonly string[]) =>
    `${listed(subjects)} ${subjects.length === 1 ? "is" : "are"} exploratory: without a verdict, and a small p among several is easily chance.`,
  pairs: (size: number) =>
    `Comparisons are judged only within a property that differs as a whole. Their adjusted p and their intervals allow for all comparisons of all ${count(size)}.`,
  /** Of two products, where the comparison is the test. */
  steps: (confidence: number) =>
    `Intervals of properties that count are as wide as Holm’s steps ask: ${chosenPercent(confidence)} together. That of an exploratory one speaks of itself alone.`,
  caption: "Differences of every property",
  columns: (confidence: number, products: number, unit: Unit) => [
    "Difference",
    unit === "steps" ? "Steps" : "Points",
    `${chosenPercent(confidence)} interval, together`,
    ...(products > 2 ? ["p of the property, adjusted"] : []),
    "p, adjusted",
    "Found",
  ],
  row: (subject: string, difference: string) => `${subject}: ${difference}`,
  range: (low: number, high: number, decimals: number) => `${points(low, decimals)} to ${points(high, decimals)}`,
  p: (p: number | null, alpha: number) => (p === null ? "–" : pText(p, alpha)),
  found: {
    shown: "shown",
    "not-shown": "not shown",
    "not-judged": "not judged",
    exploratory: "exploratory",
    "no-verdict": "too few people",
  },
  noTest: "no test",
  none: "–",
  marked: (heading: string) => `${heading} (exploratory)`,
  picture: {
    name: "All properties side by side",
    caption: (confidence: number, exploratory: boolean, unit: Unit) =>
      `Mean differences within panelists in ${unit} of the scale, all on one axis, with their ${chosenPercent(confidence)} intervals; dotted: no difference.${exploratory ? " Empty marks belong to properties that are exploratory." : ""}`,
    value: (difference: number, low: number, high: number, decimals: number) =>
      `${points(difference, decimals)} (${points(low, decimals)} to ${points(high, decimals)})`,
  },

  /** Beside a p, where several share the risk. */
  among: (adjusted: number, size: number, alpha: number) => `${pText(adjusted, alpha)} among the ${count(size)} (Holm)`,
  allowsFor: (comparisons: number, size: number) =>
    comparisons > 1
      ? ` that allows for all ${comparisons} comparisons in each of the ${count(size)}`
      : ` that allows for the ${count(size)}`,
  adjustedRow: (size: number) => `p, adjusted for ${count(size)} (Holm)`,
  adjustedValue: (p: number, alpha: number) => plain(pText(p, alpha)),
  /** What the test of a property that counts, beside the question, comes to. */
  counts: {
    shown: (p: number, alpha: number) =>
      `It counts like the first: with adjusted p ${pText(p, alpha)} a difference is shown.`,
    "not-shown": (p: number, alpha: number) =>
      `It counts like the first: with adjusted p ${pText(p, alpha)} no difference is shown, which does not show that there is none.`,
    "no-verdict": "It counts like the first, and there are too few people for a verdict.",
    "no-test": "It counts like the first, and there is no test.",
  },
  /** Behind the name of the adjustment within a property. */
  times: (adjuster: string, size: number) => [adjuster, `times ${wholeNumber(size)}`].filter(Boolean).join(", "),
  holm: "Holm",
  note: (products: number, size: number) =>
    products === 2
      ? `Interval and p “together” allow for the ${count(size)}, by Holm’s steps.`
      : `Together they also allow for the ${count(size)}: each has an even share of the risk for its comparisons.`,
  named,
};
