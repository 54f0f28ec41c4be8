import { expect, test } from "vitest";
import { solvePositive } from "../../src/analysis/cholesky.ts";
import { mean, squaresAboutMean } from "../../src/analysis/moments.ts";

/** The matrix of 1 / (i + j - 1); its inverse is whole numbers in closed form (D. Hilbert 1894, from memory). */
const hilbert = (size: number) =>
  Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => 1 / (i + j + 1)));

test("the 4 by 4 Hilbert matrix has the inverse 16 -120 240 -140, ... 2800", () => {
  const unit = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 1 : 0)));
  const inverse = solvePositive(hilbert(4), unit) ?? [];
  const truth = [
    [16, -120, 240, -140],
    [-120, 1200, -2700, 1680],
    [240, -2700, 6480, -4200],
    [-140, 1680, -4200, 2800],
  ];
  // its condition number is 1.6e4
  for (const [i, row] of truth.entries())
    for (const [j, value] of row.entries()) expect(inverse[i]?.[j]).toBeCloseTo(value, 7);
});

test.each([
  [
    "indefinite",
    [
      [1, 2],
      [2, 1],
    ],
  ],
  [
    "singular",
    [
      [1, 1],
      [1, 1],
    ],
  ],
  [
    "singular but for rounding",
    [
      [1, 1],
      [1, 1 + 1e-15],
    ],
  ],
  ["not a number", [[Number.NaN]]],
])("a matrix that is %s has no solution", (_, matrix) => {
  expect(solvePositive(matrix, [[1, 1]])).toBeNull();
});

test("mean and squares of 0.25, 0.5 and 1 at a level of 1e9, where both are exact fractions", () => {
  const values = [1e9 + 0.25, 1e9 + 0.5, 1e9 + 1];
  expect(mean(values) - 1e9).toBeCloseTo(7 / 12, 6);
  expect(squaresAboutMean(values)).toBeCloseTo(7 / 24, 6);
  expect([mean([]), squaresAboutMean([])]).toEqual([0, 0]);
});
