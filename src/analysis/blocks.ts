import { type BlockFit, fitBlocks, present } from "./block-fit.ts";
import {
  type BlockRow,
  type BlockTable,
  blockTable,
  type PanelistValues,
  type ProductSummary,
  productSummaries,
} from "./block-table.ts";
import { aboveZero, requireRisk } from "./check.ts";
import { allPairs, type Comparison, type ComparisonSet, type Judged, judge } from "./comparisons.ts";
import { fisherUpper } from "./fisher.ts";
import { fUnlessRounding, surplus, unlessRounding } from "./rounding.ts";

/** An F test. The p-value is never 0: below the smallest double that double stands for it. */
export type BlockTest = { fValue: number; numeratorDf: number; denominatorDf: number; pValue: number };

/**
 * One comparison. Interval and `pValue` are those of it alone, the others allow for all that are judged.
 */
export type BlockContrast = Omit<Comparison, "weights"> &
  Judged & { difference: number; standardError: number; df: number };

/** What is said of the marks whether there is a test or not. */
type Marks = {
  /** Every panelist with a mark, in order of appearance. */
  panelists: PanelistValues[];
  products: ProductSummary[];
  /** No panelist lacks a product, and everybody marked each as often. */
  balanced: boolean;
  incomplete: { panelist: string; missing: string[] }[];
  /** Panelists with a mark for one product alone: they say nothing about differences and stay out of the test. */
  uninformative: string[];
  /** Panelists in the test. */
  people: number;
};

export type BlockEstimates = {
  blocks: BlockTest;
  /** Do panelists differ in how high they mark, products taken out. */
  panelistTest: BlockTest;
  panelistMeanSquare: number;
  residual: { meanSquare: number; deviation: number; df: number };
  /** One for each product: its mean, had everybody in the test a mark for every product. */
  leastSquaresMeans: number[];
  contrasts: BlockContrast[];
  /**
   * Components of variance; 0 where the estimate came out below. Without repeats panelist by product cannot be told from
   * the rest: it is null and `residual` holds both. With unequal repeats it is null as well.
   */
  variances: { panelist: number; panelistProduct: number | null; residual: number | null };
};

export type BlockAnalysis = Marks &
  (
    | ({ outcome: "ok" } & BlockEstimates)
    | { outcome: "no-marks" | "one-product" | "one-panelist" }
    | { outcome: "product-missing"; missing: string[] }
    /** No chain of shared panelists joins these groups of products. */
    | { outcome: "disconnected"; groups: string[][] }
    /** Nothing is left to judge chance by: as many effects as values. */
    | { outcome: "too-few" }
    /** Nothing is left once panelists and products are taken out: F is infinite if the products differ, else 0/0. */
    | { outcome: "all-equal"; productsDiffer: boolean; leastSquaresMeans: number[] }
  );

/**
 * Classical analysis of scale marks with panelists as blocks: F test of the products, their means, comparisons.
 *
 * Takes    rows: one for each mark; repeats of a panelist and product are averaged first, so that the error term is
 *          panelist by product. products: in the order of the plan. confidence: of every interval, between 0 and 1. set: the
 *          comparisons, every two products where none are named; together: risk at which they are judged at once
 * Returns  an outcome that data can produce is a field, never an error; missing cells are handled exactly
 * Throws   Problem "analysis/unknown-product", "analysis/out-of-range", "analysis/not-a-share"
 * Source   randomized blocks (R. A. Fisher 1935) and their intra-block analysis (F. Yates 1940); components of variance
 *          after C. R. Henderson 1953, method 3 (from memory)
 */
export function blockAnalysis(
  rows: readonly BlockRow[],
  products: readonly string[],
  confidence: number,
  set: ComparisonSet = allPairs(products),
  together: number = 1 - confidence,
): BlockAnalysis {
  requireRisk("confidence", confidence);
  requireRisk("together", together);
  const table = blockTable(rows, products);
  const inTest = table.panelists.filter(({ values }) => present(values).length >= 2);
  const marks = marksOf(table, inTest, products, confidence);
  if (rows.length === 0) return { ...marks, outcome: "no-marks" };
  if (products.length < 2) return { ...marks, outcome: "one-product" };
  const missing = marks.products.filter((product) => product.marks === 0).map(({ product }) => product);
  if (missing.length > 0) return { ...marks, outcome: "product-missing", missing };
  if (inTest.length < 2) return { ...marks, outcome: "one-panelist" };
  const fit = fitBlocks(
    inTest.map(({ values }) => values),
    products.length,
  );
  if (!fit) return { ...marks, outcome: "disconnected", groups: groupsOf(inTest, products) };
  if (fit.residualDf === 0) return { ...marks, outcome: "too-few" };
  const isRounding = (squares: number) => Math.sqrt(squares / fit.values) <= 16 * Number.EPSILON * table.size;
  if (isRounding(fit.residual)) {
    const productsDiffer = !isRounding(fit.products);
    return { ...marks, outcome: "all-equal", productsDiffer, leastSquaresMeans: fit.means };
  }
  return { ...marks, outcome: "ok", ...estimates(fit, inTest.length, table, products, { confidence, together, set }) };
}

function marksOf(
  table: BlockTable,
  inTest: readonly PanelistValues[],
  products: readonly string[],
  confidence: number,
): Marks {
  const incomplete = table.panelists.flatMap(({ panelist, values }) => {
    const missing = products.filter((_, at) => values[at] === null);
    return missing.length === 0 ? [] : [{ panelist, missing }];
  });
  return {
    panelists: table.panelists,
    products: productSummaries(table, products, confidence),
    balanced: new Set(table.repeats.flat()).size <= 1,
    incomplete,
    uninformative: table.panelists.filter((panelist) => !inTest.includes(panelist)).map(({ panelist }) => panelist),
    people: inTest.length,
  };
}

type Asked = { confidence: number; together: number; set: ComparisonSet };

function estimates(
  fit: BlockFit,
  people: number,
  table: BlockTable,
  products: readonly string[],
  asked: Asked,
): BlockEstimates {
  const df = fit.residualDf;
  const meanSquare = fit.residual / df;
  const test = (squares: number, numeratorDf: number): BlockTest => {
    const fValue = fUnlessRounding(squares / numeratorDf / meanSquare);
    return { fValue, numeratorDf, denominatorDf: df, pValue: aboveZero(fisherUpper(fValue, numeratorDf, df)) };
  };
  const panelistMeanSquare = fit.panelists / (people - 1);
  return {
    blocks: test(fit.products, products.length - 1),
    panelistTest: test(fit.panelists, people - 1),
    panelistMeanSquare,
    residual: { meanSquare, deviation: Math.sqrt(meanSquare), df },
    leastSquaresMeans: fit.means,
    contrasts: contrastsOf(fit, meanSquare, products, asked),
    variances: {
      panelist: Math.max(0, (surplus(panelistMeanSquare, meanSquare) * (people - 1)) / (fit.values - products.length)),
      ...residualVariances(table, meanSquare),
    },
  };
}

function contrastsOf(
  fit: BlockFit,
  meanSquare: number,
  products: readonly string[],
  { confidence, together, set }: Asked,
): BlockContrast[] {
  const df = fit.residualDf;
  const estimates = set.list.map(({ weights }) => {
    const standardError = Math.sqrt(meanSquare * fit.covariance(weights, weights));
    return {
      difference: unlessRounding(fit.contrast(weights), standardError),
      standardError,
      df,
      covariances: set.list.map((other) => fit.covariance(weights, other.weights)),
    };
  });
  const rule = { adjustment: set.adjustment, products: products.length, risk: 1 - confidence, together };
  const judged = judge(estimates, rule);
  return set.list.flatMap(({ compared, first, second }, at) => {
    const [estimate, own] = [estimates[at], judged[at]];
    if (!estimate || !own) return [];
    const { difference, standardError } = estimate;
    return [{ compared, first, second, difference, standardError, df, ...own }];
  });
}

/** What the mean square of panelist by product is made of. Repeats must be equally many for the two to be told apart. */
function residualVariances({ within, repeats }: BlockTable, meanSquare: number) {
  const counts = new Set(repeats.flat().filter((count) => count > 0));
  const [each = 1] = counts;
  if (within.df === 0) return { panelistProduct: null, residual: meanSquare };
  const residual = within.squares / within.df;
  return { panelistProduct: counts.size === 1 ? Math.max(0, meanSquare - residual / each) : null, residual };
}

/** Products that panelists of the test join, directly or over others. */
function groupsOf(panelists: readonly PanelistValues[], products: readonly string[]): string[][] {
  let groups = products.map((_, at) => new Set([at]));
  for (const { values } of panelists) {
    const joined = groups.filter((group) => [...group].some((at) => values[at] !== null));
    groups = [...groups.filter((group) => !joined.includes(group)), new Set(joined.flatMap((group) => [...group]))];
  }
  const named = groups.map((group) => [...group].sort((a, b) => a - b));
  return named.sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0)).map((group) => group.map((at) => products[at] ?? ""));
}
