/** Every study size, risk and guessing share for which a critical number is asked. */
export type Grid = {
  least: number;
  greatest: number;
  alphas: readonly number[];
  /** As R reads it and as a number: 1/3 must be the same double on both sides. */
  guesses: readonly { of: string; value: number }[];
};

/** The risks of the printed tables, and half of each for the two-sided test of a preference. */
export const grid: Grid = {
  least: 5,
  greatest: 200,
  alphas: [0.2, 0.1, 0.05, 0.025, 0.01, 0.005, 0.001, 0.0005],
  guesses: [
    { of: "1/2", value: 1 / 2 },
    { of: "1/3", value: 1 / 3 },
  ],
};

export type Place = { n: number; alpha: number; guess: number };

/** All places of the grid, n changing fastest: the order in which R makes its own. */
export function placesOf({ least, greatest, alphas, guesses }: Grid): Place[] {
  const sizes = Array.from({ length: greatest - least + 1 }, (_, at) => least + at);
  return guesses.flatMap(({ value: guess }) => alphas.flatMap((alpha) => sizes.map((n) => ({ n, alpha, guess }))));
}
