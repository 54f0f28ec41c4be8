import { leastForVerdict } from "../model/outcome.ts";
import type { RankPair, RankStatistics } from "../model/result-rank.ts";
import { requireAlpha, requireCount } from "./check.ts";
import { chiSquareUpper } from "./chi-square.ts";
import { friedman } from "./friedman.ts";
import { mean, squaresAboutMean } from "./moments.ts";
import { page } from "./page.ts";
import { criticalDifference, type RangeTest, rangeTest } from "./rank-range.ts";
import { midranks, type Ranks, rankSumsExact, sumsOf } from "./rank-sums.ts";
import { studentQuantile } from "./student.ts";

/** One person's ranks as given, by the place of the product; null: none. */
export type GivenRanks = { panelist: string; ranks: readonly (number | null)[] };

export type RankInput = {
  /** Risk of seeing a difference that is not there, above 0 and at most 0.5. */
  alpha: number;
  property: string;
  least: string;
  most: string;
  /** Names in the order of the plan. */
  products: readonly string[];
  /** Their places in the order that was expected, least first; empty where none was. */
  predicted: readonly number[];
  panelists: readonly GivenRanks[];
  positions: RankStatistics["positions"];
  /** False: the numbers stand, and nobody can say what they are of. */
  keyMatches: boolean;
};

/**
 * The statistics of a ranking, people as blocks.
 *
 * Takes    panelists: any numbers in order do as ranks; equal ones share the mean of their places. Whoever did not rank
 *          every product is left out of every sum, and named
 * Returns  no test is an outcome, never an error. With fewer than 6 people in the test there is no verdict
 * Throws   Problem "analysis/risk-out-of-range", "analysis/not-a-count" (more ranks than a result may hold)
 */
export function rankStatistics(input: RankInput): RankStatistics {
  const { alpha, products, panelists, property, least, most, predicted, positions } = input;
  requireAlpha(alpha);
  requireCount("ranks", panelists.length * products.length);
  const whole = panelists.flatMap(({ ranks }) => wholeOf(ranks));
  const people = products.length > 1 ? whole : [];
  const tests = testsOf(people, predicted);
  return {
    family: "rank",
    method: "ranking",
    goal: "difference",
    sides: "two",
    ...{ alpha, confidence: 1 - alpha, property, least, most, products: [...products] },
    predicted: predicted.map((at) => products[at] ?? ""),
    people: whole.length,
    judgments: whole.length * products.length,
    sharing: whole.filter((ranks) => new Set(ranks).size < ranks.length).length,
    outcome: outcomeOf(input, whole.length, tests),
    test: products.length < 2 ? "one-product" : whole.length === 0 ? "no-ranks" : tests.friedman ? "ok" : "all-shared",
    friedman: tests.friedman,
    page: tests.page,
    sums: sumsOfProducts(products, whole, 1 - alpha),
    ...pairsOf(input, people, tests.range),
    panelists: panelists.map(({ panelist, ranks }) => ({ panelist, ranks: wholeOf(ranks)[0] ?? [...ranks] })),
    incomplete: panelists
      .filter(({ ranks }) => ranks.includes(null))
      .map(({ panelist, ranks }) => ({ panelist, missing: products.filter((_, at) => ranks[at] === null) })),
    positions: [...positions],
  };
}

/** A whole ranking as midranks, or nothing. */
const wholeOf = (ranks: readonly (number | null)[]): number[][] => {
  const given = ranks.filter((rank) => rank !== null);
  return given.length < ranks.length || given.length === 0 ? [] : [midranks(given)];
};

type Tests = Pick<RankStatistics, "friedman" | "page"> & { range: RangeTest | null };

function testsOf(people: readonly Ranks[], predicted: readonly number[]): Tests {
  const exact = people.length === 0 ? null : rankSumsExact(people);
  const found = friedman(people, exact);
  if (!found) return { friedman: null, page: null, range: null };
  const approximate = Math.max(Number.MIN_VALUE, chiSquareUpper(found.chiSquare, found.df));
  const inOrder = people.map((ranks) => predicted.map((at) => ranks[at] ?? 0));
  return {
    friedman: { ...found, pValueChiSquare: approximate },
    page: predicted.length === 0 ? null : page(inOrder),
    range: rangeTest(people, exact),
  };
}

/** An order that was predicted is what the study asks about: its test decides, and no second one beside it. */
function outcomeOf({ alpha, keyMatches }: RankInput, people: number, tests: Tests): RankStatistics["outcome"] {
  if (!keyMatches) return "withheld";
  const decides = tests.page ?? tests.friedman;
  if (!decides || people < leastForVerdict) return "too-few";
  return decides.pValue <= alpha ? "reached" : "not-reached";
}

function sumsOfProducts(
  products: readonly string[],
  people: readonly Ranks[],
  confidence: number,
): RankStatistics["sums"] {
  return products.map((product, at) => {
    const own = people.map((ranks) => ranks[at] ?? 0);
    const ranks = [...new Set(own)].sort((a, b) => a - b);
    const middle = own.length === 0 ? null : mean(own);
    const reach = reachOf(own, confidence);
    return {
      product,
      sum: own.reduce((sum, rank) => sum + rank, 0),
      mean: middle,
      low: middle === null || reach === null ? null : Math.max(1, middle - reach),
      high: middle === null || reach === null ? null : Math.min(products.length, middle + reach),
      places: ranks.map((rank) => ({ rank, people: own.filter((other) => other === rank).length })),
    };
  });
}

/** Half the width of a t interval; ranks that are all equal show no spread, which is not to be sold as certainty. */
function reachOf(values: readonly number[], confidence: number): number | null {
  const squares = squaresAboutMean(values);
  if (values.length < 2 || !(squares > 1e-12)) return null;
  const df = values.length - 1;
  return -studentQuantile((1 - confidence) / 2, df) * Math.sqrt(squares / df / values.length);
}

type Pairs = Pick<RankStatistics, "pairs" | "criticalDifference" | "pairsExact">;

/** Every pair, the later product of the plan less the earlier. */
function pairsOf({ products, alpha }: RankInput, people: readonly Ranks[], range: RangeTest | null): Pairs {
  if (!range) return { pairs: [], criticalDifference: null, pairsExact: false };
  const sums = sumsOf(people);
  const step = people.every((ranks) => ranks.every(Number.isInteger)) ? 1 : 0.5;
  const furthest = people.length * (products.length - 1);
  const critical = criticalDifference(range, alpha, step, furthest);
  // what does not reach alpha from a true difference is not excluded
  const reach = critical === null ? 2 * furthest : critical - step;
  const within = (difference: number) => Math.max(-furthest, Math.min(furthest, difference));
  const pairs = products.flatMap((second, at) =>
    products.slice(at + 1).map((first, behind): RankPair => {
      const later = at + 1 + behind;
      const difference = (sums[later] ?? 0) - (sums[at] ?? 0);
      return {
        ...{ first, second, difference },
        low: within(difference - reach),
        high: within(difference + reach),
        pValueAdjusted: range.pValue(difference),
        ...countsOf(people, later, at),
      };
    }),
  );
  return { pairs, criticalDifference: critical, pairsExact: range.exact };
}

/** How many put the one above the other, below it, and in one place with it. */
function countsOf(people: readonly Ranks[], one: number, other: number) {
  const leads = people.map((ranks) => (ranks[one] ?? 0) - (ranks[other] ?? 0));
  const above = leads.filter((lead) => lead > 0).length;
  const below = leads.filter((lead) => lead < 0).length;
  return { above, below, shared: leads.length - above - below };
}
