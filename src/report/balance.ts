import type { Result } from "../model/result.ts";

const letters = "ABCDEFGHIJKL";

/** How the trays that count were balanced, by product in the order of the plan. */
export type Balance = {
  /** `places[product][place]`: how often it stood there. */
  places: number[][];
  /** `follows[product][before]`: how often it came right after another one. */
  follows: number[][];
};

/**
 * Counts places and carry-over of the trays behind a result, from its orders ("CAB", A = first product of the plan).
 *
 * Takes    products: how many
 */
export function balanceOf(orders: Result["orders"], products: number): Balance {
  const table = (): number[][] => Array.from({ length: products }, () => Array<number>(products).fill(0));
  const balance = { places: table(), follows: table() };
  for (const { order, judgments } of orders) {
    [...order].forEach((letter, place) => {
      const product = letters.indexOf(letter);
      add(balance.places, product, place, judgments);
      if (place > 0) add(balance.follows, product, letters.indexOf(order[place - 1] ?? ""), judgments);
    });
  }
  return balance;
}

function add(table: number[][], row: number, column: number, more: number): void {
  const cells = table[row];
  const before = cells?.[column];
  if (cells && before !== undefined) cells[column] = before + more;
}
