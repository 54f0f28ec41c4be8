/**
 * Eigenvalues and unit eigenvectors of a small symmetric matrix.
 *
 * Returns  one pair for each row, in no order
 * Source   rotations of C. G. J. Jacobi 1846, row by row (from memory)
 *          Those of 2, 1 and 1, 2 are 1 and 3
 */
export function symmetricEigen(matrix: readonly number[][]): { value: number; vector: number[] }[] {
  const size = matrix.length;
  const a = matrix.map((row) => [...row]);
  const vectors = a.map((_, i) => a.map((_, j) => (i === j ? 1 : 0)));
  const get = (table: number[][], i: number, j: number) => table[i]?.[j] ?? 0;
  const trace = a.reduce((sum, row, i) => sum + Math.abs(row[i] ?? 0), 0);
  for (let sweep = 0; sweep < 60; sweep++) {
    let largest = 0;
    for (let p = 0; p < size; p++) {
      for (let q = p + 1; q < size; q++) {
        const off = get(a, p, q);
        largest = Math.max(largest, Math.abs(off));
        if (off === 0) continue;
        const half = (get(a, q, q) - get(a, p, p)) / (2 * off);
        const tangent = (half >= 0 ? 1 : -1) / (Math.abs(half) + Math.hypot(half, 1));
        const cosine = 1 / Math.hypot(tangent, 1);
        rotate(a, vectors, p, q, cosine, tangent * cosine);
      }
    }
    if (largest <= 1e-17 * trace) break;
  }
  return a.map((_, i) => ({ value: get(a, i, i), vector: vectors.map((row) => row[i] ?? 0) }));
}

function rotate(a: number[][], vectors: number[][], p: number, q: number, cosine: number, sine: number): void {
  const turn = (row: number[]) => {
    const [x, y] = [row[p] ?? 0, row[q] ?? 0];
    row[p] = cosine * x - sine * y;
    row[q] = sine * x + cosine * y;
  };
  for (const row of a) turn(row);
  const [first, second] = [a[p] ?? [], a[q] ?? []];
  for (let i = 0; i < a.length; i++) {
    const [x, y] = [first[i] ?? 0, second[i] ?? 0];
    first[i] = cosine * x - sine * y;
    second[i] = sine * x + cosine * y;
  }
  for (const row of vectors) turn(row);
}
