import type { SparseShape } from "./sparse-cholesky.ts";

/**
 * The diagonal of the inverse of L L', without the entries where L holds nothing.
 *
 * Takes    factor: as `factorSparse` leaves it; size: only so many of the first columns and rows count
 * Source   K. Takahashi, J. Fagan and M.-S. Chin 1973 (from memory): from the last column back, each entry of the inverse in
 *          L's shape follows from those right of it
 */
export function inverseDiagonal({ starts, rows }: SparseShape, factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(factor.length);
  const share = new Float64Array(size + 1);
  const sums = new Float64Array(size + 1);
  const diagonal = new Float64Array(size);
  for (let j = size - 1; j >= 0; j--) {
    const [from, to] = [starts[j] ?? 0, starts[j + 1] ?? 0];
    const pivot = factor[from] ?? 0;
    for (let place = from + 1; place < to; place++) {
      const row = rows[place] ?? 0;
      if (row >= size) continue;
      share[row] = (factor[place] ?? 0) / pivot;
      sums[row] = 0;
    }
    for (let place = from + 1; place < to; place++) {
      const column = rows[place] ?? 0;
      if (column < size) addColumn(column);
    }
    let own = 1 / pivot ** 2;
    for (let place = from + 1; place < to; place++) {
      const row = rows[place] ?? 0;
      if (row >= size) continue;
      inverse[place] = -(sums[row] ?? 0);
      own += (share[row] ?? 0) * (sums[row] ?? 0);
      share[row] = 0;
    }
    inverse[from] = own;
    diagonal[j] = own;
  }
  return diagonal;

  /** What this column of the inverse and, by symmetry, its row give to the sums over the shares. */
  function addColumn(column: number): void {
    const start = starts[column] ?? 0;
    const weight = share[column] ?? 0;
    let across = weight * (inverse[start] ?? 0);
    for (let place = start + 1; place < (starts[column + 1] ?? 0); place++) {
      const row = rows[place] ?? 0;
      if (row >= size) continue;
      sums[row] = (sums[row] ?? 0) + weight * (inverse[place] ?? 0);
      across += (share[row] ?? 0) * (inverse[place] ?? 0);
    }
    sums[column] = (sums[column] ?? 0) + across;
  }
}

/** Solves L' x = side for the first `size` rows; the side is overwritten by x. */
export function solveUpper(
  { starts, rows }: SparseShape,
  factor: Float64Array,
  size: number,
  side: Float64Array,
): void {
  for (let j = size - 1; j >= 0; j--) {
    let rest = side[j] ?? 0;
    for (let place = (starts[j] ?? 0) + 1; place < (starts[j + 1] ?? 0); place++) {
      const row = rows[place] ?? 0;
      if (row < size) rest -= (factor[place] ?? 0) * (side[row] ?? 0);
    }
    side[j] = rest / (factor[starts[j] ?? 0] ?? 0);
  }
}
