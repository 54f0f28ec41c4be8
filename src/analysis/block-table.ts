import { problem } from "../model/problem.ts";
import { type Block, present } from "./block-fit.ts";
import { requireNumber } from "./check.ts";
import { mean, squaresAboutMean } from "./moments.ts";
import { studentQuantile } from "./student.ts";

/** One mark: what a panelist gave a product. Several of one panelist and product are repeats. */
export type BlockRow = { panelist: string; product: string; value: number };

/** Values this far from 0 have no use and could overflow as squares. */
const mostValue = 1e12;

/** What a panelist gave each product, in the order of the products; repeats averaged; null: no mark. */
export type PanelistValues = { panelist: string; values: Block };

export type BlockTable = {
  panelists: PanelistValues[];
  /** Marks of each panelist and product, in the same order: 1 where there are no repeats. */
  repeats: number[][];
  /** Squared distances of repeats from their own mean, summed, and how many of them are free. */
  within: { squares: number; df: number };
  /** Largest mark, by size: what rounding is measured against. */
  size: number;
};

/**
 * Marks sorted into panelists and products.
 *
 * Returns  panelists in the order they first appear
 * Throws   Problem "analysis/unknown-product", "analysis/out-of-range" (no finite number, or beyond 1e12)
 */
export function blockTable(rows: readonly BlockRow[], products: readonly string[]): BlockTable {
  const marks = new Map<string, number[][]>();
  for (const { panelist, product, value } of rows) {
    requireNumber("value", value, -mostValue, mostValue);
    const own = marks.get(panelist) ?? products.map(() => []);
    const cell = own[products.indexOf(product)];
    if (!cell) throw problem("analysis/unknown-product", { product });
    cell.push(value);
    marks.set(panelist, own);
  }
  const cells = [...marks.values()];
  return {
    panelists: [...marks].map(([panelist, own]) => ({ panelist, values: own.map(cellMean) })),
    repeats: cells.map((own) => own.map((cell) => cell.length)),
    within: {
      squares: cells.flat().reduce((total, cell) => total + squaresAboutMean(cell), 0),
      df: cells.flat().reduce((total, cell) => total + Math.max(0, cell.length - 1), 0),
    },
    size: rows.reduce((largest, { value }) => Math.max(largest, Math.abs(value)), 0),
  };
}

const cellMean = (marks: readonly number[]): number | null => (marks.length === 0 ? null : mean(marks));

/** A product's own marks, whoever gave them. */
export type ProductSummary = {
  product: string;
  /** Marks, repeats counted. */
  marks: number;
  /** Panelists who gave them: what mean, deviation and interval are of, since repeats of one person belong together. */
  panelists: number;
  mean: number | null;
  /** Standard deviation between panelists, standard error of the mean and its t interval, panelists - 1 degrees. */
  deviation: number | null;
  standardError: number | null;
  low: number | null;
  high: number | null;
};

/** Each product by its own marks, in the order given; what too few marks cannot tell is null. */
export function productSummaries(table: BlockTable, products: readonly string[], confidence: number): ProductSummary[] {
  return products.map((product, at) => {
    const values = present(table.panelists.map((panelist) => panelist.values[at] ?? null));
    const marks = table.repeats.reduce((total, counts) => total + (counts[at] ?? 0), 0);
    return { product, marks, panelists: values.length, ...summary(values, confidence) };
  });
}

function summary(values: readonly number[], confidence: number) {
  const none = { deviation: null, standardError: null, low: null, high: null };
  if (values.length === 0) return { mean: null, ...none };
  const middle = mean(values);
  if (values.length === 1) return { mean: middle, ...none };
  const df = values.length - 1;
  const deviation = Math.sqrt(squaresAboutMean(values) / df);
  const standardError = deviation / Math.sqrt(values.length);
  const reach = standardError * intervalReach(confidence, df);
  return { mean: middle, deviation, standardError, low: middle - reach, high: middle + reach };
}

/** How many standard errors a two-sided t interval reaches. Example: intervalReach(0.95, 22) // 2.07387306790403 */
export const intervalReach = (confidence: number, df: number): number => -studentQuantile((1 - confidence) / 2, df);
