import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, points, pText, wholeNumber } from "../number.ts";
import { differenceOf } from "./mixed.ts";
import { listed, named, plain } from "./phrases.ts";

/** Several properties of a line scale: which share the agreed risk, and all their differences side by side. */

const count = (properties: number): string => `${wholeNumber(properties)} properties that count`;

/** Intervals by themselves, together, or at the risk that Holm's steps left each. */
export type IntervalKind = "own" | "together" | "holm";
/** `mixed`: does the mixed model lead in all of the strip, in none of it, or in some? */
type StripFacts = {
  confidence: number;
  exploratory: boolean;
  unit: Unit;
  mixed: "all" | "none" | "some";
  holm: boolean;
};
const leads: Record<StripFacts["mixed"], string> = {
  all: differenceOf(true),
  none: differenceOf(false),
  some: `${differenceOf(false)}, or where marks are uneven the ${differenceOf(true)},`,
};

const afterHolm =
  "The interval after Holm leaves out 0 just when its adjusted p is at most the risk, and promises no more.";

export const family = {
  afterHolm,
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
  pairs: (size: number, holm: boolean) =>
    `Comparisons are judged only within a property that differs as a whole. Their adjusted p ${holm ? "" : "and their intervals "}allow for all comparisons of all ${count(size)}.${holm ? ` ${afterHolm}` : ""}`,
  /** Of two products, where the comparison is the test. */
  steps: (alpha: number) =>
    `The interval of a property that counts is that after Holm: it leaves out 0 just when its adjusted p is at most ${chosenPercent(alpha)}, and promises no more. That of an exploratory one speaks of itself alone.`,
  caption: "Differences of every property",
  columns: (confidence: number, products: number, unit: Unit, kind: IntervalKind) => [
    "Difference",
    unit === "steps" ? "Steps" : "Points",
    kind === "holm"
      ? "Interval, after Holm"
      : `${chosenPercent(confidence)} interval${kind === "together" ? ", together" : ""}`,
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
    caption: ({ confidence, exploratory, unit, mixed, holm }: StripFacts) =>
      `Of every property the ${leads[mixed]} in ${unit} of the scale, all on one axis, with its ${holm ? "interval, after Holm where the property counts" : `${chosenPercent(confidence)} interval`}; dotted: no difference.${exploratory ? " Empty marks belong to properties that are exploratory." : ""}`,
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
      ? `The adjusted p allows for the ${count(size)}, by Holm’s steps. ${afterHolm}`
      : `They also allow for the ${count(size)}: each has an even share of the risk for its comparisons.`,
  named,
};
