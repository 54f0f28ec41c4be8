/** Where a sparse lower triangle has entries, worked out once for many factorizations of one shape. */
export type SparseShape = {
  size: number;
  /** Column j holds the entries from `starts[j]` to before `starts[j + 1]`, the diagonal first, rows rising. */
  starts: Int32Array;
  rows: Int32Array;
  /** Entries left of the diagonal in row i: their columns and places, from `leftStarts[i]` on. */
  leftStarts: Int32Array;
  leftColumns: Int32Array;
  leftPlaces: Int32Array;
};

/**
 * The shape of the factor of a symmetric matrix, fill included.
 *
 * Takes    columns: for each column, the rows below its diagonal that hold something
 * Source   a column's fill passes to the column of its first row below the diagonal: elimination tree
 *          (J. W. H. Liu 1990, from memory)
 */
export function sparseShape(columns: readonly ReadonlySet<number>[]): SparseShape {
  const size = columns.length;
  const passed = columns.map((column) => new Set(column));
  const filled = passed.map((column) => {
    const below = [...column].sort((a, b) => a - b);
    const next = passed[below[0] ?? -1];
    for (const row of below.slice(1)) next?.add(row);
    return below;
  });
  const starts = new Int32Array(size + 1);
  const leftStarts = new Int32Array(size + 1);
  for (const [j, below] of filled.entries()) {
    starts[j + 1] = at(starts, j) + 1 + below.length;
    for (const row of below) leftStarts[row + 1] = at(leftStarts, row + 1) + 1;
  }
  for (let i = 0; i < size; i++) leftStarts[i + 1] = at(leftStarts, i) + at(leftStarts, i + 1);
  const rows = Int32Array.from(filled.flatMap((below, j) => [j, ...below]));
  const leftColumns = new Int32Array(at(leftStarts, size));
  const leftPlaces = new Int32Array(at(leftStarts, size));
  const next = leftStarts.slice();
  for (let j = 0; j < size; j++) {
    for (let place = at(starts, j) + 1; place < at(starts, j + 1); place++) {
      const row = at(rows, place);
      const slot = at(next, row);
      leftColumns[slot] = j;
      leftPlaces[slot] = place;
      next[row] = slot + 1;
    }
  }
  return { size, starts, rows, leftStarts, leftColumns, leftPlaces };
}

/**
 * Factors a matrix of this shape in place: L with L L' = matrix, column after column.
 *
 * Takes    values: the lower triangle in the order of `shape.rows`, zeros where fill will be
 * Returns  false when a pivot is not positive to within rounding; `values` are then of no use
 */
export function factorSparse(shape: SparseShape, values: Float64Array): boolean {
  const { size, starts, rows, leftStarts, leftColumns, leftPlaces } = shape;
  const column = new Float64Array(size);
  for (let j = 0; j < size; j++) {
    const [from, to] = [at(starts, j), at(starts, j + 1)];
    const before = at(values, from);
    for (let place = from; place < to; place++) column[at(rows, place)] = at(values, place);
    for (let left = at(leftStarts, j); left < at(leftStarts, j + 1); left++) {
      const first = at(leftPlaces, left);
      const factor = at(values, first);
      const end = at(starts, at(leftColumns, left) + 1);
      for (let place = first; place < end; place++) {
        const row = at(rows, place);
        column[row] = at(column, row) - factor * at(values, place);
      }
    }
    const pivot = at(column, j);
    // what is left after cancellation is noise when it is this small beside what it came from
    if (!(pivot > 1e-13 * before)) return false;
    const root = Math.sqrt(pivot);
    values[from] = root;
    for (let place = from + 1; place < to; place++) values[place] = at(column, at(rows, place)) / root;
  }
  return true;
}

/** A typed array's entry; 0 beyond its end. */
export const at = (values: Float64Array | Int32Array | readonly number[], index: number): number => values[index] ?? 0;
