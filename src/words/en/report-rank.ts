import type { RankStatistics, RankTest } from "../../model/result-rank.ts";
import { chosenPercent, points, pText, shortNumber, statistic, wholeNumber } from "../number.ts";
import { agreedStep, howOften, listed, named, othersNotShown, pIs, plain } from "./phrases.ts";

/** A pair, turned so that the rank sum of `higher` is no lower: `by` is 0 or more. `above`: people who put it above. */
export type RankPairFacts = {
  higher: string;
  lower: string;
  by: number;
  low: number;
  high: number;
  pValueAdjusted: number;
  above: number;
  apart: number;
};

/** What the sentences of a ranking are made from. */
export type RankFacts = {
  property: string;
  products: readonly string[];
  /** Names from least to most, where an order was expected. */
  predicted: readonly string[];
  people: number;
  test: RankStatistics["friedman"];
  page: RankStatistics["page"];
  /** Pairs in all, those that stand out, and the one whose rank sums lie farthest apart. */
  pairs: number;
  standOut: readonly RankPairFacts[];
  farthest: RankPairFacts | null;
  /** The largest difference of rank sums that is not excluded, and the largest there can be. */
  allowed: number;
  most: number;
  alpha: number;
  confidence: number;
  planned: boolean;
  leastForVerdict: number;
};

const inProperty = ({ property }: RankFacts): string =>
  property.trim() === "" ? "the property asked for" : named(property.trim());
const risk = ({ alpha, planned }: RankFacts): string =>
  `the ${planned ? "risk locked beforehand" : "risk"} is ${chosenPercent(alpha)}`;
const friedmanText = ({ chiSquare, df }: { chiSquare: number; df: number }): string =>
  `Friedman\u2019s chi-square is ${statistic(chiSquare)} on ${df} ${df === 1 ? "degree" : "degrees"} of freedom`;
const pageText = ({ value, expected }: { value: number; expected: number }): string =>
  `Page\u2019s L is ${shortNumber(value)}, where chance alone gives ${shortNumber(expected)} on average`;
const over = ({ higher, lower }: RankPairFacts): string => `${named(higher)} over ${named(lower)}`;
const inOrder = (names: readonly string[]): string => names.map(named).join(", ");
const stillAllowed = ({ allowed, most }: RankFacts): string =>
  `It does not show that they do not: two rank sums may still lie up to ${shortNumber(allowed)} apart, where ${shortNumber(most)} is the most there can be.`;
const pairsOf = ({ standOut, pairs }: RankFacts): string =>
  standOut.length > 0
    ? `Pair by pair, these stand out: ${listed(standOut.map(over))}.${standOut.length < pairs ? ` ${othersNotShown}` : ""}`
    : "Taken pair by pair, none of them stands out.";
/** The locked test decides; a pair that would stand out beside it is named all the same. */
const pairsAside = ({ standOut }: RankFacts): string =>
  standOut.length > 0
    ? ` Pair by pair ${listed(standOut.map(over))} would stand out; the rule is the test of all products together.`
    : "";
const who = (people: number): string => (people === 1 ? "1 person" : `${wholeNumber(people)} people`);

/** Why there is no test. */
const noTest: Record<Exclude<RankTest, "ok">, string> = {
  "no-ranks": "nobody ranked every product, so there is nothing to compare.",
  "one-product": "there is one product only, so there is nothing to compare it with.",
  "all-shared": "everybody gave all products one place, so there is no order to compare.",
};

/** What is said of a ranking. */
export const rank = {
  verdict: {
    reached: (f: RankFacts) =>
      f.page
        ? `This panel\u2019s orders of ${inProperty(f)} rise as expected, ${inOrder(f.predicted)}: ${pageText(f.page)}, ${pIs(f.page.pValue, f.alpha)}, and ${risk(f)}. ${pairsOf(f)}`
        : `Taken together, this panel ranked ${listed(f.products.map(named))} apart in ${inProperty(f)}: ${f.test ? friedmanText(f.test) : ""}, ${f.test ? pIs(f.test.pValue, f.alpha) : ""}, and ${risk(f)}. ${pairsOf(f)}`,
    "not-reached": (f: RankFacts) =>
      f.page
        ? `This panel did not show that its orders of ${inProperty(f)} rise as expected, ${inOrder(f.predicted)}: ${pageText(f.page)}, ${pIs(f.page.pValue, f.alpha)}, and ${risk(f)}. ${stillAllowed(f)}${pairsAside(f)}`
        : `This panel showed no clear difference between ${listed(f.products.map(named))} in ${inProperty(f)}: ${f.test ? friedmanText(f.test) : ""}, ${f.test ? pIs(f.test.pValue, f.alpha) : ""}, and ${risk(f)}. ${stillAllowed(f)}${pairsAside(f)}`,
    tooFewPeople: (f: RankFacts) =>
      `There are too few people for a verdict: ${f.people} ranked every product, and a panel is at least ${f.leastForVerdict}. The numbers stand without one.`,
    noTest: (test: Exclude<RankTest, "ok">) => `There is no verdict: ${noTest[test]}`,
    withheld:
      "No verdict: the opened key does not match the seal made at lock, so nobody can say which product a rank is of.",
  },
  size: {
    pair: (f: RankFacts, pair: RankPairFacts) =>
      `The rank sums lie farthest apart between ${named(pair.higher)} and ${named(pair.lower)}: by ${shortNumber(pair.by)}, or ${shortNumber(pair.by / f.people)} ranks a person; the orders fit anything from ${points(pair.low, pair.low % 1 === 0 ? 0 : 1)} to ${points(pair.high, pair.high % 1 === 0 ? 0 : 1)} (${chosenPercent(f.confidence)}, all pairs together). ${wholeNumber(pair.above)} of ${who(f.people)} put ${named(pair.higher)} above ${named(pair.lower)}.`,
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string) => agreedStep("if a difference is shown", ifYes),
    "not-reached": (ifNo: string) => agreedStep("if that is not shown", ifNo),
  },
  meaning: (f: RankFacts) =>
    f.page
      ? `If nobody\u2019s order hung on the products, an L of ${shortNumber(f.page.value)} or more would come up ${howOften(f.page.pValue)} (${pIs(f.page.pValue, f.alpha)}).`
      : f.test
        ? `If nobody\u2019s order hung on the products, rank sums so far apart or farther would come up ${howOften(f.test.pValue)} (${pIs(f.test.pValue, f.alpha)}).`
        : "",
  rows: {
    people: "People who ranked every product",
    sharing: "Of them, with products in one place",
    friedman: "Friedman\u2019s chi-square",
    pValue: (exact: boolean) => (exact ? "p, exact" : "p, by chi-square"),
    approximate: "p, by chi-square",
    concordance: "Agreement of the orders, Kendall\u2019s W",
    page: "Page\u2019s L, for the order expected",
    pagePValue: (exact: boolean) =>
      exact ? "p of that, one-sided, exact" : "p of that, one-sided, by the normal curve",
    critical: "Least difference of two rank sums that counts",
  },
  values: {
    count: (value: number) => plain(wholeNumber(value)),
    friedman: (chiSquare: number, df: number) => ({
      value: statistic(chiSquare),
      behind: `${df} ${df === 1 ? "degree" : "degrees"} of freedom`,
    }),
    p: (p: number, alpha: number) => plain(pText(p, alpha)),
    concordance: (value: number) => ({ value: shortNumber(value, 2), behind: "0: none, 1: one and the same order" }),
    page: (value: number, expected: number, most: number) => ({
      value: shortNumber(value),
      behind: `${shortNumber(expected)} by chance, ${shortNumber(most)} at most`,
    }),
    critical: (value: number | null, alpha: number, exact: boolean) =>
      value === null
        ? plain(`no difference reaches ${chosenPercent(alpha)}`)
        : {
            value: shortNumber(value),
            behind: `risk ${chosenPercent(alpha)} over all pairs, ${exact ? "exact" : "by the range of normal values"}`,
          },
  },
  sums: {
    heading: "Rank sums",
    caption: "Rank sums and mean ranks",
    lead: (least: string, most: string) =>
      least.trim() === ""
        ? "Rank 1 is the least."
        : `Rank 1 is \u201c${least.trim()}\u201d, the last is \u201c${most.trim()}\u201d.`,
    columns: (confidence: number) => ["Product", "Rank sum", "Mean rank", `${chosenPercent(confidence)} interval`],
    none: "none",
    mean: (value: number) => points(value, 2),
    range: (low: number, high: number) => `${points(low, 2)} to ${points(high, 2)}`,
    note: "Each interval is that of its own mean rank, from how far people\u2019s ranks differ.",
  },
  pairs: {
    heading: "Pair by pair",
    caption: "Differences of the rank sums",
    pair: (first: string, second: string) => `${named(first)} less ${named(second)}`,
    columns: (confidence: number) => [
      "Difference",
      "Rank sums",
      `${chosenPercent(confidence)} interval`,
      "p, adjusted",
      "Put the first above",
    ],
    above: (above: number, apart: number, shared: number) =>
      `${wholeNumber(above)} of ${wholeNumber(apart)}${shared > 0 ? `, ${wholeNumber(shared)} in one place` : ""}`,
    counts: (critical: number) =>
      `Two rank sums count as different where they lie ${shortNumber(critical)} or more apart.`,
    noneCounts: "With so few people no difference of two rank sums counts, however large.",
    number: (value: number) => points(value, value % 1 === 0 ? 0 : 1),
    range: (low: number, high: number) =>
      `${points(low, low % 1 === 0 ? 0 : 1)} to ${points(high, high % 1 === 0 ? 0 : 1)}`,
    note: "The intervals and the adjusted p allow for all pairs together.",
  },
  places: {
    heading: "How often each product got each rank",
    caption: "People by product and rank",
    product: "Product",
    lead: "Whether people agree on a product\u2019s place, or fall into camps, shows here and not in the sums.",
    note: "",
  },
  picture: {
    name: "Everybody\u2019s ranks",
    caption: (people: number) =>
      `Each dot is the rank that one of ${who(people)} gave a product; the upright stroke is the mean rank.`,
    sum: (sum: number) => `rank sum ${shortNumber(sum)}`,
    panelist: "Panelist",
    total: "Rank sum",
    none: "none",
  },
  differences: {
    name: "Differences of the rank sums",
    caption: (confidence: number) =>
      `Each difference with what the orders still allow (${chosenPercent(confidence)}, all pairs together). An interval that leaves out 0 stands out.`,
    row: (difference: number, low: number, high: number, p: number, alpha: number) =>
      `${points(difference, 0)} (${points(low, 0)} to ${points(high, 0)}), ${pIs(p, alpha)}`,
  },
};
