import type { Moment } from "../../model/attribute.ts";
import type { Adjustment, Compared, ScaleOutcome, ScaleStatistics } from "../../model/result-scale.ts";
import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, points, pText, shortNumber, statistic, wholeNumber } from "../number.ts";
import { leadText, type Uneven } from "./mixed.ts";
import { momentPhrase } from "./moment.ts";
import { agreedStep, howOften, listed, named, othersNotShown, pIs, plain } from "./phrases.ts";
import { family } from "./report-family.ts";

/**
 * One comparison, turned so that `higher` was marked higher: `by` is 0 or more; of an interaction, which has no higher one, the
 * two factors, and `by` as it is. Several together: interval and adjusted p allow for all of them. `decimals` suit the scale.
 */
export type PairFacts = {
  compared: Compared;
  higher: string;
  lower: string;
  by: number;
  low: number;
  high: number;
  pValue: number;
  /** Its own where there is one. */
  pValueAdjusted: number;
  confidence: number;
  decimals: number;
  unit: Unit;
  /** How many are judged. */
  among: number;
  /** How many properties share the risk. */
  family: number;
  /** Does the interval stand at the risk that Holm's steps left it? */
  holm: boolean;
};

/** What the heads of a table of comparisons depend on. `batches`: their spread is taken out of the residual. */
type ContrastHeads = { confidence: number; adjuster: string; unit: Unit; holm: boolean; batches: boolean };

type Named = Pick<PairFacts, "compared" | "higher" | "lower">;

export type TestFacts = { fValue: number; numeratorDf: number; denominatorDf: number; pValue: number };

/** What the sentences of one attribute are made from. */
export type ScaleFacts = {
  /** The attribute with its moment, as `subject` writes it. */
  subject: string;
  products: readonly string[];
  people: number;
  judgments: number;
  test: TestFacts | null;
  /** How many properties share the risk, and p with that taken into account; null where it is exploratory. */
  family: number;
  adjusted: number | null;
  pair: PairFacts | null;
  /** Pairs that stand out by adjusted p, the one marked higher first. */
  /** Comparisons in all, and those that stand out. */
  comparisons: number;
  standOut: readonly Named[];
  alpha: number;
  planned: boolean;
  leastForVerdict: number;
};

const momentText = (moment: Moment): string =>
  momentPhrase(moment, (seconds) => `${seconds} ${seconds === 1 ? "second" : "seconds"} after the first bite`);

const byPoints = ({ by, decimals, unit }: PairFacts): string => `${points(by, decimals)} ${unit}`;
const allowsFor = ({ among, family: size }: PairFacts): string => {
  if (size > 1) return family.allowsFor(among, size);
  return among > 1 ? ` that allows for all ${among} comparisons` : "";
};
const interval = (pair: PairFacts): string =>
  `${points(pair.low, pair.decimals)} to ${points(pair.high, pair.decimals)}, ${pair.holm ? "interval after Holm, which goes with the adjusted p" : `${chosenPercent(pair.confidence)} interval${allowsFor(pair)}`}`;
/** p of the test of all products, and where several properties share the risk what it is among them. */
const testP = ({ test, alpha, family: size, adjusted }: ScaleFacts): string => {
  if (!test) return "";
  const own = pIs(test.pValue, alpha);
  return size > 1 && adjusted !== null ? `${own}, ${family.among(adjusted, size, alpha)}` : own;
};
const over = ({ compared, higher, lower }: Named): string =>
  compared === "interaction"
    ? `how far ${named(higher)} depends on ${named(lower)}`
    : `${named(higher)} over ${named(lower)}`;
const higherBy = (pair: PairFacts): string =>
  pair.compared === "interaction"
    ? `${over(pair)}, ${byPoints(pair)}`
    : `${named(pair.higher)} ${byPoints(pair)} higher than ${named(pair.lower)}`;
/** The test of all products decides, as locked; a pair that would stand out beside it is named all the same. */
const pairsAside = ({ standOut, products }: ScaleFacts): string =>
  products.length > 2 && standOut.length > 0
    ? ` Of the comparisons, ${listed(standOut.map(over))} would stand out; the rule is the test of all products together.`
    : "";
const risk = ({ alpha, planned }: ScaleFacts): string =>
  `the ${planned ? "risk locked beforehand" : "risk"} is ${chosenPercent(alpha)}`;
const fText = ({ fValue, numeratorDf, denominatorDf }: TestFacts): string =>
  `F(${numeratorDf}, ${shortNumber(denominatorDf)}) is ${statistic(fValue)}`;
const adjusters: Record<Adjustment, string> = { none: "", tukey: "Tukey", dunnett: "Dunnett", holm: "Holm" };
const ifShown = "if a difference is shown";
const ifNot = "if that is not shown";

/** Why an attribute has no test, as the data have it. `missing` are products that nobody marked. */
const noTest: Record<Exclude<ScaleOutcome, "ok">, (missing: readonly string[], productsDiffer: boolean) => string> = {
  "no-marks": () => "no mark was made, so there is nothing to compare.",
  "one-product": () => "there is one product only, so there is nothing to compare it with.",
  "product-missing": (missing) => `nobody marked ${listed(missing.map(named))}, so the products cannot be compared.`,
  "one-panelist": () =>
    "fewer than two people marked more than one product, and one person’s way with the scale cannot be told from a difference.",
  disconnected: () =>
    "no chain of people who marked both joins all the products, so some of them cannot be compared with the others.",
  "too-few": () =>
    "there are too few marks: once people and products are taken out, nothing is left to judge chance by.",
  "all-equal": (_, productsDiffer) =>
    productsDiffer
      ? "everybody set the products equally far apart, so nothing is left to judge chance by."
      : "every mark of a person is equal to that person’s others, so there is no variation to compare.",
  "just-right": () => "the middle of this scale is the goal, so means are not compared.",
  withheld: () => "the opened key does not match the seal made at lock, so nobody can say which product a mark is of.",
};
const unevenText = ({ some, repeats }: Uneven): string =>
  [...(some ? ["marks are missing"] : []), ...(repeats ? ["repeats are not equally many"] : [])].join(", ") ||
  "no mark is missing";
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What is said of a line scale. */
export const scale = {
  /** “Juiciness”, 10 seconds after the first bite. */
  subject: (attribute: string, moment: Moment | null, text: string) => {
    const when = moment ? momentText(moment) : text;
    return `${attribute === "" ? "the property judged" : named(attribute)}${when === "" ? "" : `, ${when}`}`;
  },
  heading: (attribute: string, moment: Moment | null, text: string) => {
    const when = moment ? momentText(moment) : text;
    return `${attribute === "" ? "The property judged" : attribute}${when === "" ? "" : `, ${when}`}`;
  },
  ends: (low: number, high: number, lowAnchor: string, highAnchor: string, lengthMm: number | null) =>
    `${low} is “${lowAnchor}”, ${high} is “${highAnchor}”${lengthMm === null ? "" : `; the line was to be ${lengthMm} mm long`}.`,

  verdict: {
    reached: (f: ScaleFacts) => {
      const p = testP(f);
      if (f.products.length === 2 && f.pair) {
        return `This panel marked ${named(f.pair.higher)} higher than ${named(f.pair.lower)} in ${f.subject}: by ${byPoints(f.pair)}, ${p}, and ${risk(f)}.`;
      }
      const pairs =
        f.standOut.length > 0
          ? `Of the comparisons, these stand out: ${listed(f.standOut.map(over))}.${f.standOut.length < f.comparisons ? ` ${othersNotShown}` : ""}`
          : "Of the comparisons, none stands out.";
      return `Taken together, this panel marked ${listed(f.products.map(named))} apart in ${f.subject}: ${f.test ? fText(f.test) : ""}, ${p}, and ${risk(f)}. ${pairs}`;
    },
    "not-reached": (f: ScaleFacts) =>
      `This panel did not show that ${listed(f.products.map(named))} differ in ${f.subject}: ${f.products.length === 2 && f.pair ? `the means lie ${byPoints(f.pair)} apart` : f.test ? fText(f.test) : ""}, ${testP(f)}, and ${risk(f)}. It does not show that they do not.${pairsAside(f)}`,
    tooFewPeople: (f: ScaleFacts) =>
      `There are too few people for a verdict: ${f.people} marked more than one product, and a panel is at least ${f.leastForVerdict}. The numbers stand without one.`,
    noTest: (reason: string) => `There is no verdict: ${reason}`,
    nothing: "No mark was counted, so there is no result.",
    withheld:
      "No verdict: the opened key does not match the seal made at lock, so nobody can say which product a mark is of.",
  },
  noTest,
  size: {
    pair: (pair: PairFacts) =>
      pair.among > 1
        ? `The clearest difference is estimated at ${byPoints(pair)} (${over(pair)}); the answers fit anything from ${interval(pair)}.`
        : `The difference is estimated at ${byPoints(pair)}; the answers fit anything from ${interval(pair)}.`,
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string, _ifNo: string) => agreedStep(ifShown, ifYes),
    "not-reached": (_ifYes: string, ifNo: string) => agreedStep(ifNot, ifNo),
  },
  pInWords: ({ pValue, fValue }: TestFacts, alpha: number) =>
    `If the products did not differ in this, an F of ${statistic(fValue)} or more would come up ${howOften(pValue)} (${pIs(pValue, alpha)}).`,

  /** What was found for one attribute, without a verdict. */
  finding: {
    two: (pair: PairFacts) =>
      `${named(pair.higher)} was marked ${byPoints(pair)} higher than ${named(pair.lower)} (${interval(pair)}; ${pIs(pair.pValue, 1)}).`,
    even: (pair: PairFacts) => `The means lie ${byPoints(pair)} apart (${interval(pair)}; ${pIs(pair.pValue, 1)}).`,
    many: (test: TestFacts, pair: PairFacts) =>
      `${fText(test)} (${pIs(test.pValue, 1)}). The clearest difference: ${higherBy(pair)} (${interval(pair)}; adjusted ${pIs(pair.pValueAdjusted, 1)}).`,
    noTest: (reason: string) => `No test: ${reason}`,
  },
  beside: "Looked at beside the question: no verdict was planned for it.",
  lead: leadText,

  rows: {
    people: "People who marked more than one product",
    judgments: "Marks",
    fValue: "F, products",
    pValue: "p",
    error: "Judged against",
    classical: "Classical F beside it",
    within: (batches: boolean) => `Spread within people${batches ? " and batches" : ""} (residual standard deviation)`,
    between: "Spread between people (standard deviation)",
  },
  values: {
    count: (value: number) => plain(wholeNumber(value)),
    marks: (judgments: number, repeats: number, averaged: boolean) => ({
      value: wholeNumber(judgments),
      behind:
        repeats > 1 ? `up to ${wholeNumber(repeats)} of one person and product${averaged ? ", averaged" : ""}` : "",
    }),
    fValue: ({ fValue, numeratorDf, denominatorDf }: TestFacts) => ({
      value: statistic(fValue),
      behind: `${numeratorDf} and ${shortNumber(denominatorDf)} degrees of freedom`,
    }),
    mixedError: (perTray: number | null, uneven: Uneven) => ({
      value: "what a mixed model leaves",
      behind: `${perTray === null ? unevenText(uneven) : `each person got ${perTray} of the products`}; people count as drawn from many`,
    }),
    classical: ({ fValue, numeratorDf, denominatorDf, pValue }: TestFacts, alpha: number) => ({
      value: statistic(fValue),
      behind: `${numeratorDf} and ${shortNumber(denominatorDf)} degrees of freedom, ${pIs(pValue, alpha)}`,
    }),
    p: (p: number, alpha: number) => plain(pText(p, alpha)),
    error: (repeats: number, uneven: Uneven, perTray: number | null) => ({
      value: repeats > 1 ? "people by products" : "what people and products leave",
      behind:
        perTray !== null
          ? `each person got ${perTray} of the products; those who marked both are compared`
          : `${unevenText(uneven)}${uneven.some ? "; people who marked both are compared" : uneven.repeats ? "; each person’s are averaged first" : ""}`,
    }),
    points: (value: number, decimals: number, unit: Unit) => plain(`${points(value, decimals)} ${unit}`),
  },

  means: {
    caption: (subject: string) => `Means of ${subject}`,
    columns: (confidence: number) => ({
      product: "Product",
      marks: "Marks",
      mean: "Mean",
      interval: `${chosenPercent(confidence)} interval`,
      deviation: "Standard deviation",
      adjusted: "Mean, had everybody marked all",
    }),
    none: "none",
    range: (low: number, high: number, decimals: number) => `${points(low, decimals)} to ${points(high, decimals)}`,
  },
  contrasts: {
    caption: (subject: string) => `Differences in ${subject}`,
    name: (compared: Compared, first: string, second: string) =>
      compared === "interaction" ? `${named(first)} by ${named(second)}` : `${named(first)} less ${named(second)}`,
    adjusters,
    columns: ({ confidence, adjuster, unit, holm, batches }: ContrastHeads) => ({
      pair: "Difference",
      difference: unit === "steps" ? "Steps" : "Points",
      interval: `${chosenPercent(confidence)} interval`,
      intervalTogether: holm ? "Interval, after Holm" : `${chosenPercent(confidence)} interval, all together`,
      effect: `In residual standard deviations${batches ? ", within batches" : ""}`,
      pValue: "p",
      pValueAdjusted: `p, adjusted (${adjuster})`,
    }),
    notes: {
      none: "",
      tukey:
        "The first interval and p speak of their own pair; those together allow for every pair of this property, by the studentized range.",
      dunnett:
        "The first interval and p speak of their own comparison; those together allow for every comparison with the reference.",
      holm: `The first interval and p speak of their own comparison; the adjusted p allows for all that were named beforehand. ${family.afterHolm}`,
    } satisfies Record<Adjustment, string>,
    interaction:
      "An interaction is a difference of differences: by how much the effect of the one factor is another at the second level of the other.",
  },
  picture: {
    two: (confidence: number) =>
      `Every panelist’s two marks, joined by a line; beside them the difference with its ${chosenPercent(confidence)} interval.`,
    many: (confidence: number, holm: boolean) =>
      `Above, every panelist’s marks, joined by lines; below, one row for each comparison: the difference with its ${holm ? "interval after Holm, which goes with the adjusted p" : `${chosenPercent(confidence)} interval, which allows for all of them`}.`,
    noTest: "Every panelist’s marks, joined by lines.",
    /** For whoever listens: one panelist's marks. */
    panelist: (name: string, values: readonly (string | null)[]) =>
      `${name}: ${values.map((value) => value ?? "no answer").join(", ")}`,
  },
  checks: { order: "Order served", trays: "Trays", position: "Place on the tray", marks: "Marks", mean: "Mean" },
  sentence,
} satisfies {
  verdict: Partial<Record<ScaleStatistics["outcome"], unknown>> & Record<string, unknown>;
  [part: string]: unknown;
};
