import type { MixedDesign } from "./mixed-design.ts";
import { factorSparse } from "./sparse-cholesky.ts";
import { inverseDiagonal, solveUpper } from "./sparse-inverse.ts";

/** What a choice of ratios makes of the model, in the inner unit of the values. */
export type MixedState = {
  ratios: readonly number[];
  /** Cholesky's factor of the system augmented by the values, in the design's shape. */
  factor: Float64Array;
  /** Logarithm of the determinants that REML counts. */
  logDeterminant: number;
  /** Penalized residual sum of squares. */
  squares: number;
};

/** How the two parts of the deviance change with each ratio. */
export type MixedSlopes = { logDeterminant: number[]; squares: number[] };

/**
 * Solves the penalized least squares at given ratios of random to residual deviation, one for each random term.
 *
 * Returns  null when the fixed part has more columns than the rows can tell apart, or nothing is left over
 * Source   D. Bates, M. Machler, B. Bolker and S. Walker 2015, Journal of Statistical Software 67 (from memory): one
 *          Cholesky factor of the system augmented by the values
 */
export function mixedState(design: MixedDesign, ratios: readonly number[]): MixedState | null {
  const { shape, termOf } = design;
  const { size, starts, rows } = shape;
  const scales = new Float64Array(size).fill(1);
  for (let column = 0; column < size; column++) {
    if ((termOf[column] ?? 0) >= 0) scales[column] = ratios[termOf[column] ?? 0] ?? 0;
  }
  const factor = design.products.slice();
  for (let column = 0; column < size; column++) {
    const from = starts[column] ?? 0;
    const scale = scales[column] ?? 0;
    for (let place = from; place < (starts[column + 1] ?? 0); place++) {
      factor[place] = (factor[place] ?? 0) * scale * (scales[rows[place] ?? 0] ?? 0);
    }
    if ((termOf[column] ?? 0) >= 0) factor[from] = (factor[from] ?? 0) + 1;
  }
  if (!factorSparse(shape, factor)) return null;
  const last = size - 1;
  let logDeterminant = 0;
  // deviances count a determinant twice: that of L L'
  for (let column = 0; column < last; column++) logDeterminant += 2 * Math.log(factor[starts[column] ?? 0] ?? 0);
  return { ratios, factor, logDeterminant, squares: (factor[starts[last] ?? 0] ?? 0) ** 2 };
}

/** Twice the negative restricted log likelihood, residual variance at its best, but for the constant of the unit. */
export function profiledDeviance(design: MixedDesign, state: MixedState | null): number {
  if (!state) return Number.POSITIVE_INFINITY;
  const free = design.rows - design.columns.length;
  return state.logDeterminant + free * (1 + Math.log((2 * Math.PI * state.squares) / free));
}

/**
 * Slopes in each ratio, which have to be positive. Exact but for rounding: no difference quotients.
 *
 * A ratio scales its columns and rows but not the ones that were added to the diagonal. So the determinant's slope is twice
 * the term's levels less their part of the inverse's diagonal, over the ratio; that of the squares, which are lowest where
 * the effects stand, is what the penalty of the term's effects takes.
 */
export function mixedSlopes(design: MixedDesign, { ratios, factor }: MixedState): MixedSlopes {
  const { shape, termOf } = design;
  const last = shape.size - 1;
  const diagonal = inverseDiagonal(shape, factor, last);
  const solved = solvedValues(design, factor);
  const inside = new Float64Array(ratios.length);
  const penalty = new Float64Array(ratios.length);
  for (let column = 0; column < last && (termOf[column] ?? 0) >= 0; column++) {
    const term = termOf[column] ?? 0;
    inside[term] = (inside[term] ?? 0) + 1 - (diagonal[column] ?? 0);
    penalty[term] = (penalty[term] ?? 0) + (solved[column] ?? 0) ** 2;
  }
  return {
    logDeterminant: ratios.map((ratio, term) => (2 * (inside[term] ?? 0)) / ratio),
    squares: ratios.map((ratio, term) => (-2 * (penalty[term] ?? 0)) / ratio),
  };
}

/** Random effects over their ratio, and fixed effects, in the order of the design's columns. */
function solvedValues({ shape }: MixedDesign, factor: Float64Array): Float64Array {
  const last = shape.size - 1;
  const side = new Float64Array(last);
  // the values are in every column's shape, and their row is the last
  for (let column = 0; column < last; column++) side[column] = factor[(shape.starts[column + 1] ?? 0) - 1] ?? 0;
  solveUpper(shape, factor, last, side);
  return side;
}

/** Effects of the fixed columns, and their covariance in residual variances. */
export function effectsOf(design: MixedDesign, { factor }: MixedState): { effects: number[]; covariance: number[][] } {
  const first = design.shape.size - 1 - design.columns.length;
  return {
    effects: [...solvedValues(design, factor).subarray(first)],
    covariance: inverseColumns(design, factor).map((column) => [...column.subarray(first)]),
  };
}

/** How the covariance of the effects, in residual variances, changes with each ratio that is not 0. */
export function covarianceSlopes(design: MixedDesign, { ratios, factor }: MixedState): number[][][] {
  const { shape, termOf, columns } = design;
  const first = shape.size - 1 - columns.length;
  const inverse = inverseColumns(design, factor);
  const sums = new Float64Array(ratios.length);
  const tables = ratios.map(() => columns.map(() => columns.map(() => 0)));
  for (const [i, one] of inverse.entries()) {
    for (const [j, other] of inverse.slice(0, i + 1).entries()) {
      sums.fill(0);
      for (let level = 0; level < first; level++) {
        const term = termOf[level] ?? 0;
        sums[term] = (sums[term] ?? 0) + (one[level] ?? 0) * (other[level] ?? 0);
      }
      for (const [term, table] of tables.entries()) {
        const slope = (2 * (sums[term] ?? 0)) / (ratios[term] ?? 1);
        for (const [row, column] of [
          [i, j],
          [j, i],
        ] as const) {
          const own = table[row];
          if (own) own[column] = slope;
        }
      }
    }
  }
  return tables;
}

const inverseColumns = (design: MixedDesign, factor: Float64Array): Float64Array[] =>
  design.columns.map((_, c) => inverseColumn(design, factor, design.shape.size - 1 - design.columns.length + c));

/** One column of the inverse of L L', which is among the fixed part's. */
function inverseColumn({ shape }: MixedDesign, factor: Float64Array, column: number): Float64Array {
  const { starts, rows, size } = shape;
  const side = new Float64Array(size);
  side[column] = 1;
  for (let j = column; j < size - 1; j++) {
    const value = (side[j] ?? 0) / (factor[starts[j] ?? 0] ?? 0);
    side[j] = value;
    for (let place = (starts[j] ?? 0) + 1; place < (starts[j + 1] ?? 0); place++) {
      const row = rows[place] ?? 0;
      side[row] = (side[row] ?? 0) - value * (factor[place] ?? 0);
    }
  }
  side[size - 1] = 0;
  solveUpper(shape, factor, size - 1, side);
  return side.subarray(0, size - 1);
}
