/**
 * Solves a symmetric positive definite system for several right sides, by Cholesky's factors.
 *
 * Takes    matrix: n rows of n numbers, of which the lower triangle is read; sides: lists of n numbers
 * Returns  one solution for each side; null when the matrix is not positive definite to within rounding
 * Source   textbook (G. H. Golub and C. F. Van Loan, from memory)
 * Example  solvePositive([[4, 2], [2, 3]], [[8, 8]]) // [[1, 2]]
 */
export function solvePositive(matrix: readonly number[][], sides: readonly number[][]): number[][] | null {
  const factor = factorOf(matrix);
  return factor && sides.map((side) => backward(factor, forward(factor, side)));
}

/** Lower triangle L with L L' = matrix. */
function factorOf(matrix: readonly number[][]): number[][] | null {
  const factor: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const made: number[] = [];
    for (let j = 0; j < i; j++) {
      const above = factor[j] ?? [];
      made.push((at(row, j) - product(made, above, j)) / at(above, j));
    }
    const pivot = at(row, i) - product(made, made, i);
    // what is left of a pivot after cancellation is noise when it is this small beside what it came from
    if (!(pivot > 1e-12 * at(row, i))) return null;
    factor.push([...made, Math.sqrt(pivot)]);
  }
  return factor;
}

function forward(factor: readonly number[][], side: readonly number[]): number[] {
  const solution: number[] = [];
  for (const [i, row] of factor.entries()) solution.push((at(side, i) - product(row, solution, i)) / at(row, i));
  return solution;
}

function backward(factor: readonly number[][], side: readonly number[]): number[] {
  const solution = [...side];
  for (let i = factor.length - 1; i >= 0; i--) {
    let rest = at(solution, i);
    for (let j = i + 1; j < factor.length; j++) rest -= at(factor[j] ?? [], i) * at(solution, j);
    solution[i] = rest / at(factor[i] ?? [], i);
  }
  return solution;
}

/** Sum of the products of the first `count` pairs. */
function product(a: readonly number[], b: readonly number[], count: number): number {
  let total = 0;
  for (let i = 0; i < count; i++) total += at(a, i) * at(b, i);
  return total;
}

const at = (values: readonly number[], index: number): number => values[index] ?? 0;
