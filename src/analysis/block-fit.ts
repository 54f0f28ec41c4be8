import { solvePositive } from "./cholesky.ts";
import { sum } from "./jstat.ts";
import { mean, squaresAboutMean } from "./moments.ts";

/** One panelist's value for each product, in the order of the products; null where there is none. */
export type Block = readonly (number | null)[];

/** Least squares of value = panelist + product. All figures are for the blocks with two values or more. */
export type BlockFit = {
  /** Product effects as least-squares means: the mean over the panelists, had each of them a value for every product. */
  means: number[];
  /** Sums of squares: products with panelists taken out, panelists with products taken out, and what is left. */
  products: number;
  panelists: number;
  residual: number;
  residualDf: number;
  /** A sum of product effects with weights that add up to 0. */
  contrast: (weights: readonly number[]) => number;
  /** Covariance of two such sums, in residual variances. */
  covariance: (one: readonly number[], other: readonly number[]) => number;
  /** Number of values. */
  values: number;
};

/**
 * Fits panelists and products by least squares, panelists eliminated first: exact whatever is missing.
 *
 * Takes    blocks: each with two values or more; products: how many
 * Returns  null when the products are not joined by shared panelists: differences cannot be estimated
 * Exact    values are centered first, residuals are formed one by one and sums of squares only added up, so that a shift
 *          of all values costs no digits beyond those that it takes from the values themselves
 * Source   intra-block analysis (F. Yates 1940, from memory)
 */
export function fitBlocks(blocks: readonly Block[], products: number): BlockFit | null {
  const center = mean(blocks.flatMap(present));
  const cells = blocks.map((block) => block.map((value) => (value === null ? null : value - center)));
  const solved = solvePositive(informationOf(cells, products), [totalsOf(cells, products), ...unit(products - 1)]);
  if (!solved) return null;
  const [effects = [], ...inverse] = solved.map((solution) => [0, ...solution]); // against the first product
  const effect = (product: number) => effects[product] ?? 0;
  const cover = (i: number, j: number) => (i === 0 ? 0 : (inverse[i - 1]?.[j] ?? 0));
  const levels = cells.map((block) => mean(present(block)) - mean(ofPresent(block, effect)));
  const level = mean(levels);
  const values = sum(cells.map((block) => present(block).length));
  const residuals = cells.flatMap((block, at) =>
    block.flatMap((value, product) => (value === null ? [] : [value - effect(product) - (levels[at] ?? 0)])),
  );
  return {
    means: Array.from({ length: products }, (_, product) => center + level + effect(product)),
    contrast: (weights) => sum(weights.map((weight, product) => weight * effect(product))),
    covariance: (one, other) =>
      sum(one.flatMap((weight, i) => other.map((another, j) => weight * another * cover(i, j)))),
    products: sum(cells.map((block) => squaresAboutMean(ofPresent(block, effect)))),
    panelists: panelistSquares(cells, products, levels),
    residual: sum(residuals.map((value) => value * value)),
    residualDf: values - blocks.length - products + 1,
    values,
  };
}

/** Products minus the first: how much each says about each other, once panelists are taken out. */
function informationOf(cells: readonly Block[], products: number): number[][] {
  const table = Array.from({ length: products }, () => new Array<number>(products).fill(0));
  for (const block of cells) {
    const had = ofPresent(block, (product) => product);
    for (const i of had) {
      const row = table[i] ?? [];
      for (const j of had) row[j] = (row[j] ?? 0) + (i === j ? 1 : 0) - 1 / had.length;
    }
  }
  return table.slice(1).map((row) => row.slice(1));
}

/** Per product but the first, the sum of its values, each less the mean of its panelist. */
function totalsOf(cells: readonly Block[], products: number): number[] {
  const own = cells.map((block) => mean(present(block)));
  return Array.from({ length: products - 1 }, (_, at) =>
    sum(cells.map((block, i) => (isNumber(block[at + 1]) ? (block[at + 1] ?? 0) - (own[i] ?? 0) : 0))),
  );
}

/** One panelist's values, and the products they were given to. */
export type Dealt = { places: readonly number[]; values: readonly number[] };

/**
 * The sum of squares of products, panelists eliminated, for many ways to deal the same values within panelists.
 *
 * Returns  `of`: of one way, every panelist's values in the places of their block; `all`: the squares of all values about
 *          their panelist's mean. Null when the products are not joined by shared panelists, or nothing varies
 */
export function productSums(
  blocks: readonly Block[],
  products: number,
): { all: number; of: (dealt: readonly Dealt[]) => number } | null {
  const own = blocks.map((block) => mean(present(block)));
  const all = sum(blocks.map((block) => squaresAboutMean(present(block))));
  const inverse = solvePositive(informationOf(blocks, products), unit(products - 1));
  if (!inverse || all <= 0) return null;
  const totals = new Float64Array(products);
  return {
    all,
    of: (dealt) => {
      totals.fill(0);
      for (let block = 0; block < dealt.length; block++) {
        const { places = [], values = [] } = dealt[block] ?? {};
        for (let at = 0; at < places.length; at++) {
          const product = places[at] ?? 0;
          totals[product] = (totals[product] ?? 0) + (values[at] ?? 0) - (own[block] ?? 0);
        }
      }
      let squares = 0;
      for (let i = 1; i < products; i++) {
        for (let j = 1; j < products; j++) {
          squares += (totals[i] ?? 0) * (inverse[i - 1]?.[j - 1] ?? 0) * (totals[j] ?? 0);
        }
      }
      return squares;
    },
  };
}

/** Sum of squares of panelists with products taken out: what their fitted levels add to a fit of products alone. */
function panelistSquares(cells: readonly Block[], products: number, levels: readonly number[]): number {
  const perProduct = Array.from({ length: products }, (_, product) =>
    squaresAboutMean(levels.filter((_, at) => isNumber(cells[at]?.[product]))),
  );
  return sum(perProduct);
}

const isNumber = (value: number | null | undefined): value is number => typeof value === "number";

/** The values that are there. */
export const present = (block: Block): number[] => block.filter(isNumber);

/** The same, one figure for each product that has a value. */
const ofPresent = (block: Block, figure: (product: number) => number): number[] =>
  block.flatMap((value, product) => (value === null ? [] : [figure(product)]));

const unit = (size: number): number[][] =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)));
