import { mean, squaresAboutMean } from "./moments.ts";
import { at, type SparseShape, sparseShape } from "./sparse-cholesky.ts";

/** One value and what it belongs to: a level for each factor, by name. */
export type MixedRow = { levels: Readonly<Record<string, string>>; value: number };

/** Factors whose levels are crossed: one factor, or several for an interaction. */
export type MixedTerm = readonly string[];

/** A column of the fixed part: 1 in rows with these levels, which are never a factor's first. */
export type FixedColumn = { term: number; levels: Readonly<Record<string, string>> };

export type MixedDesign = {
  rows: number;
  /** Levels of each factor of the fixed part, the first being the one that others are compared with. */
  factors: Readonly<Record<string, readonly string[]>>;
  fixed: readonly MixedTerm[];
  random: readonly MixedTerm[];
  columns: FixedColumn[];
  /** Levels of each random term in the data. */
  randomLevels: number[];
  /** Most rows that one level of each random term has. */
  mostRows: number[];
  /** Random levels from the term with the most to that with the fewest, then fixed columns, then the values. */
  shape: SparseShape;
  /** Cross products of all columns in that shape, and which random term each row of it belongs to (-1: none). */
  products: Float64Array;
  termOf: Int32Array;
  /** Values are (value - center) / unit inside. */
  center: number;
  unit: number;
};

/**
 * Rows as one table of cross products, so that each trial of variances costs the same however many rows there are.
 *
 * Takes    factors: levels of each factor of the fixed part in their order; every row names a level for each factor
 */
export function mixedDesign(
  rows: readonly MixedRow[],
  factors: Readonly<Record<string, readonly string[]>>,
  fixed: readonly MixedTerm[],
  random: readonly MixedTerm[],
): MixedDesign {
  const labels = random.map((term) =>
    rows.map((row) => JSON.stringify(term.map((factor) => row.levels[factor] ?? ""))),
  );
  const levels = labels.map((own) => [...new Set(own)]);
  const order = levels.map((_, term) => term).sort((a, b) => (levels[b]?.length ?? 0) - (levels[a]?.length ?? 0));
  const columns = fixedColumns(factors, fixed);
  const values = rows.map(({ value }) => value);
  const center = mean(values);
  const unit = Math.sqrt(squaresAboutMean(values) / values.length) || 1;
  const places = new Map<string, number>();
  const terms: number[] = [];
  for (const term of order) {
    for (const level of levels[term] ?? []) {
      places.set(`${term} ${level}`, terms.length);
      terms.push(term);
    }
  }
  const firstFixed = terms.length;
  const last = firstFixed + columns.length;
  const entries = rows.map((row, i) => {
    const own = order.map((term) => places.get(`${term} ${labels[term]?.[i] ?? ""}`) ?? 0);
    const held = columns.flatMap((column, c) => (holds(column, row) ? [firstFixed + c] : []));
    return { own: [...own, ...held, last], value: (row.value - center) / unit };
  });
  const { shape, products } = crossProducts(entries, last);
  return {
    ...{ rows: rows.length, factors, fixed, random, columns, shape, products, center, unit },
    randomLevels: levels.map((own) => own.length),
    mostRows: labels.map(mostAlike),
    termOf: Int32Array.from([...terms, ...new Array<number>(columns.length + 1).fill(-1)]),
  };
}

/** The mean, then for each term every choice of levels that are not the first of their factor. */
function fixedColumns(factors: MixedDesign["factors"], fixed: readonly MixedTerm[]): FixedColumn[] {
  const choices = (term: MixedTerm): Record<string, string>[] =>
    term.reduce<Record<string, string>[]>(
      (made, factor) =>
        made.flatMap((levels) => (factors[factor] ?? []).slice(1).map((level) => ({ ...levels, [factor]: level }))),
      [{}],
    );
  return [
    { term: -1, levels: {} },
    ...fixed.flatMap((term, at) => choices(term).map((levels) => ({ term: at, levels }))),
  ];
}

const holds = (column: FixedColumn, row: MixedRow): boolean =>
  Object.entries(column.levels).every(([factor, level]) => row.levels[factor] === level);

/** Sums over the rows of the product of each pair of columns; the last column holds the values, all others ones. */
function crossProducts(entries: readonly { own: number[]; value: number }[], last: number) {
  const below = Array.from({ length: last + 1 }, () => new Set<number>());
  for (const { own } of entries) {
    for (const [i, column] of own.entries()) for (const row of own.slice(i + 1)) below[column]?.add(row);
  }
  // every column may be joined with the values
  for (const column of below.slice(0, -1)) column.add(last);
  const shape = sparseShape(below);
  const products = new Float64Array(shape.rows.length);
  const place = (column: number, row: number): number => {
    let [low, high] = [at(shape.starts, column), at(shape.starts, column + 1) - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (at(shape.rows, middle) < row) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  for (const { own, value } of entries) {
    const weight = (column: number) => (column === last ? value : 1);
    for (const [i, column] of own.entries()) {
      for (let k = i; k < own.length; k++) {
        const row = own[k] ?? last;
        const found = place(column, row);
        products[found] = at(products, found) + weight(column) * weight(row);
      }
    }
  }
  return { shape, products };
}

function mostAlike(labels: readonly string[]): number {
  const counts = new Map<string, number>();
  for (const label of labels) counts.set(label, (counts.get(label) ?? 0) + 1);
  return Math.max(0, ...counts.values());
}
