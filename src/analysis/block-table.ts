import { problem } from "../model/problem.ts";
import type { Block } from "./block-fit.ts";
import { requireNumber } from "./check.ts";
import { mean, squaresAbout, squaresAboutMean } from "./moments.ts";
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
  const places = new Map(products.map((product, at) => [product, at]));
  const people = new Map<string, (number | null)[]>();
  // most cells hold one mark: only those with more get a list
  const several = new Map<(number | null)[], Map<number, number[]>>();
  let size = 0;
  for (const { panelist, product, value } of rows) {
    requireNumber("value", value, -mostValue, mostValue);
    const at = places.get(product);
    if (at === undefined) throw problem("analysis/unknown-product", { product });
    size = Math.max(size, Math.abs(value));
    let own = people.get(panelist);
    if (own === undefined) {
      own = new Array<number | null>(products.length).fill(null);
      people.set(panelist, own);
    }
    const first = own[at] ?? null;
    if (first === null) own[at] = value;
    else {
      const lists = several.get(own) ?? new Map<number, number[]>();
      several.set(own, lists.set(at, [...(lists.get(at) ?? [first]), value]));
    }
  }
  const lists = [...several.values()].flatMap((own) => [...own.values()]);
  const panelists: PanelistValues[] = [];
  const repeats: number[][] = [];
  // most people marked every product once: all of them share one row of counts
  const once = products.map(() => 1);
  for (const [panelist, own] of people) {
    const again = several.size > 0 ? several.get(own) : undefined;
    panelists.push({ panelist, values: again ? averaged(own, again) : own });
    const whole = !again && !own.includes(null);
    repeats.push(whole ? once : own.map((value, at) => (value === null ? 0 : (again?.get(at)?.length ?? 1))));
  }
  return {
    panelists,
    repeats,
    within: {
      squares: lists.reduce((total, list) => total + squaresAboutMean(list), 0),
      df: lists.reduce((total, list) => total + list.length - 1, 0),
    },
    size,
  };
}

/** A panelist's first marks, with the mean in place of those that were given again. */
const averaged = (own: readonly (number | null)[], lists: ReadonlyMap<number, number[]>): Block =>
  own.map((value, at) => {
    const list = lists.get(at);
    return list ? mean(list) : value;
  });

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
    const values: number[] = [];
    for (const panelist of table.panelists) {
      const value = panelist.values[at] ?? null;
      if (value !== null) values.push(value);
    }
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
  const deviation = Math.sqrt(squaresAbout(middle, values) / df);
  const standardError = deviation / Math.sqrt(values.length);
  const reach = standardError * intervalReach(confidence, df);
  return { mean: middle, deviation, standardError, low: middle - reach, high: middle + reach };
}

/** How many standard errors a two-sided t interval reaches. Example: intervalReach(0.95, 22) // 2.07387306790403 */
export const intervalReach = (confidence: number, df: number): number => -studentQuantile((1 - confidence) / 2, df);
