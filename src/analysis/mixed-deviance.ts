import type { MixedDesign } from "./mixed-design.ts";
import { at, factorSparse } from "./sparse-cholesky.ts";

/** What a choice of ratios makes of the model, in the inner unit of the values. */
export type MixedState = {
  /** Logarithm of the determinants that REML counts. */
  logDeterminant: number;
  /** Penalized residual sum of squares. */
  squares: number;
  /** Lower triangle of the fixed part, L with L L' its information, and the right side solved by it. */
  lower: number[][];
  side: number[];
};

/**
 * Solves the penalized least squares at given ratios of random to residual deviation, one for each random term.
 *
 * Returns  null when the fixed part has more columns than the rows can tell apart, or nothing is left over
 * Source   D. Bates, M. Machler, B. Bolker and S. Walker 2015, Journal of Statistical Software 67 (from memory): one
 *          Cholesky factor of the system augmented by the values
 */
export function mixedState(design: MixedDesign, ratios: readonly number[]): MixedState | null {
  const { shape, termOf } = design;
  const scales = Float64Array.from(termOf, (term) => (term < 0 ? 1 : (ratios[term] ?? 0)));
  const values = design.products.slice();
  for (let column = 0; column < shape.size; column++) {
    const from = at(shape.starts, column);
    const scale = at(scales, column);
    for (let place = from; place < at(shape.starts, column + 1); place++) {
      values[place] = at(values, place) * scale * at(scales, at(shape.rows, place));
    }
    if (at(termOf, column) >= 0) values[from] = at(values, from) + 1;
  }
  if (!factorSparse(shape, values)) return null;
  return readState(design, values);
}

function readState({ shape, columns, termOf }: MixedDesign, values: Float64Array): MixedState {
  const last = shape.size - 1;
  const first = last - columns.length;
  let logDeterminant = 0;
  for (let column = 0; column < last; column++) {
    // deviances count a determinant twice: that of L L'
    logDeterminant += 2 * Math.log(at(values, at(shape.starts, column)));
  }
  const lower = columns.map(() => new Array<number>(columns.length).fill(0));
  const side = columns.map(() => 0);
  for (let c = 0; c < columns.length; c++) {
    for (let place = at(shape.starts, first + c); place < at(shape.starts, first + c + 1); place++) {
      const row = at(shape.rows, place);
      if (row === last) side[c] = at(values, place);
      else if (at(termOf, row) < 0) {
        const own = lower[row - first];
        if (own) own[c] = at(values, place);
      }
    }
  }
  return { logDeterminant, squares: at(values, at(shape.starts, last)) ** 2, lower, side };
}

/** Twice the negative restricted log likelihood, residual variance at its best, but for the constant of the unit. */
export function profiledDeviance(design: MixedDesign, ratios: readonly number[]): number {
  const state = mixedState(design, ratios);
  if (!state) return Number.POSITIVE_INFINITY;
  const free = design.rows - design.columns.length;
  return state.logDeterminant + free * (1 + Math.log((2 * Math.PI * state.squares) / free));
}

/** Effects of the fixed columns and their covariance in residual variances. */
export function effectsOf({ lower, side }: MixedState): { effects: number[]; covariance: number[][] } {
  const size = side.length;
  const inverse = side.map(() => new Array<number>(size).fill(0));
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let rest = i === j ? 1 : 0;
      for (let k = j; k < i; k++) rest -= (lower[i]?.[k] ?? 0) * (inverse[k]?.[j] ?? 0);
      const row = inverse[i];
      if (row) row[j] = rest / (lower[i]?.[i] ?? 1);
    }
  }
  const joined = (i: number, j: number) => inverse.reduce((total, row) => total + (row[i] ?? 0) * (row[j] ?? 0), 0);
  return {
    effects: side.map((_, i) => inverse.reduce((total, row, k) => total + (row[i] ?? 0) * (side[k] ?? 0), 0)),
    covariance: side.map((_, i) => side.map((_, j) => joined(i, j))),
  };
}
