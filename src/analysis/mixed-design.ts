import { type MixedCells, mixedCells, numbered } from "./mixed-cells.ts";
import { mean, squaresAboutMean } from "./moments.ts";
import { type SparseShape, sparseShape } from "./sparse-cholesky.ts";

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
  const values = rows.map(({ value }) => value);
  const center = mean(values);
  const unit = Math.sqrt(squaresAboutMean(values) / values.length) || 1;
  const inner = values.map((value) => (value - center) / unit);
  const cells = mixedCells(rows, [...new Set([...Object.keys(factors), ...random.flat()])], inner);
  const levels = random.map((term) => numbered(cells.levels, term));
  const columns = fixedColumns(factors, fixed);
  const { held, termOf } = heldColumns(cells, levels, columns);
  const shape = sparseShape(held, termOf.length);
  return {
    ...{ rows: rows.length, factors, fixed, random, columns, shape, termOf, center, unit },
    products: crossProducts(shape, held, cells),
    randomLevels: levels.map(({ count }) => count),
    mostRows: levels.map(({ of, count }) => most(of, count, cells.counts)),
  };
}

type Numbered = ReturnType<typeof numbered>;

/** For each cell the columns in which it has something, rising; and which random term each column belongs to. */
function heldColumns(cells: MixedCells, levels: readonly Numbered[], columns: readonly FixedColumn[]) {
  const order = [...levels.entries()].sort(([, a], [, b]) => b.count - a.count);
  const firstFixed = levels.reduce((sum, { count }) => sum + count, 0);
  const last = firstFixed + columns.length;
  const termOf = new Int32Array(last + 1).fill(-1);
  const held: number[][] = cells.levels.map(() => []);
  let start = 0;
  for (const [term, { of, count }] of order) {
    termOf.fill(term, start, start + count);
    for (let i = 0; i < held.length; i++) held[i]?.push(start + (of[i] ?? 0));
    start += count;
  }
  for (const [i, cell] of cells.levels.entries()) {
    for (let c = 0; c < columns.length; c++) if (holds(columns[c], cell)) held[i]?.push(firstFixed + c);
    held[i]?.push(last);
  }
  return { held, termOf };
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

function holds(column: FixedColumn | undefined, cell: MixedRow["levels"]): boolean {
  for (const factor in column?.levels) if (cell[factor] !== column.levels[factor]) return false;
  return true;
}

/** Sums over the rows of the product of each pair of columns; the last column holds the values, all others ones. */
function crossProducts(shape: SparseShape, held: readonly number[][], cells: MixedCells): Float64Array {
  const products = new Float64Array(shape.rows.length);
  const last = shape.size - 1;
  for (const [cell, own] of held.entries()) {
    const [count, total] = [cells.counts[cell] ?? 0, cells.totals[cell] ?? 0];
    for (let i = 0; i < own.length - 1; i++) {
      const column = own[i] ?? last;
      let place = shape.starts[column] ?? 0;
      for (let k = i; k < own.length; k++) {
        const row = own[k] ?? last;
        while ((shape.rows[place] ?? 0) < row) place++;
        products[place] = (products[place] ?? 0) + (row < last ? count : total);
      }
    }
    products[products.length - 1] = (products[products.length - 1] ?? 0) + (cells.squares[cell] ?? 0);
  }
  return products;
}

function most(of: Int32Array, count: number, weights: Float64Array): number {
  const sums = new Float64Array(count);
  for (let i = 0; i < of.length; i++) sums[of[i] ?? 0] = (sums[of[i] ?? 0] ?? 0) + (weights[i] ?? 0);
  return Math.max(0, ...sums);
}
