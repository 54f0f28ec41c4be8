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
 * The shape of the factor of a table of cross products, fill included. Its last row is in every column.
 *
 * Takes    held: for each row of the data the columns in which it has something, rising
 * Source   a column's fill passes to the column of its first row below the diagonal: elimination tree
 *          (J. W. H. Liu 1990, from memory)
 */
export function sparseShape(held: readonly (readonly number[])[], size: number): SparseShape {
  const filled = filledColumns(held, size);
  const starts = new Int32Array(size + 1);
  const leftStarts = new Int32Array(size + 1);
  for (const [j, below] of filled.entries()) {
    starts[j + 1] = (starts[j] ?? 0) + 1 + below.length;
    for (const row of below) leftStarts[row + 1] = (leftStarts[row + 1] ?? 0) + 1;
  }
  for (let i = 0; i < size; i++) leftStarts[i + 1] = (leftStarts[i] ?? 0) + (leftStarts[i + 1] ?? 0);
  const rows = Int32Array.from(filled.flatMap((below, j) => [j, ...below]));
  const leftColumns = new Int32Array(leftStarts[size] ?? 0);
  const leftPlaces = new Int32Array(leftStarts[size] ?? 0);
  const next = leftStarts.slice();
  for (let j = 0; j < size; j++) {
    for (let place = (starts[j] ?? 0) + 1; place < (starts[j + 1] ?? 0); place++) {
      const row = rows[place] ?? 0;
      const slot = next[row] ?? 0;
      leftColumns[slot] = j;
      leftPlaces[slot] = place;
      next[row] = slot + 1;
    }
  }
  return { size, starts, rows, leftStarts, leftColumns, leftPlaces };
}

/** For each column the rows below its diagonal, rising. */
function filledColumns(held: readonly (readonly number[])[], size: number): number[][] {
  const givers: (readonly number[])[][] = Array.from({ length: size }, () => []);
  for (const own of held) for (const column of own) givers[column]?.push(own);
  const seen = new Int32Array(size).fill(-1);
  return givers.map((lists, j) => {
    const below = j < size - 1 ? [size - 1] : [];
    seen[size - 1] = j;
    for (const list of lists) {
      for (const row of list) {
        if (row <= j || (seen[row] ?? 0) === j) continue;
        seen[row] = j;
        below.push(row);
      }
    }
    below.sort((a, b) => a - b);
    givers[below[0] ?? -1]?.push(below);
    return below;
  });
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
    const [from, to] = [starts[j] ?? 0, starts[j + 1] ?? 0];
    const before = values[from] ?? 0;
    for (let place = from; place < to; place++) column[rows[place] ?? 0] = values[place] ?? 0;
    for (let left = leftStarts[j] ?? 0; left < (leftStarts[j + 1] ?? 0); left++) {
      const first = leftPlaces[left] ?? 0;
      const factor = values[first] ?? 0;
      const end = starts[(leftColumns[left] ?? 0) + 1] ?? 0;
      for (let place = first; place < end; place++) {
        const row = rows[place] ?? 0;
        column[row] = (column[row] ?? 0) - factor * (values[place] ?? 0);
      }
    }
    const pivot = column[j] ?? 0;
    // what is left after cancellation is noise when it is this small beside what it came from
    if (!(pivot > 1e-13 * before)) return false;
    const root = Math.sqrt(pivot);
    values[from] = root;
    for (let place = from + 1; place < to; place++) values[place] = (column[rows[place] ?? 0] ?? 0) / root;
  }
  return true;
}
