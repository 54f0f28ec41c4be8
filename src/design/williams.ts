/**
 * Williams squares (E. J. Williams 1949, from memory): orders in which each product stands in each place, and after
 * each other product, equally often.
 */

const letters = "ABCDEFGHIJKL";

/** A product of the plan in the trade's letters, from 0. */
export const letterOf = (product: number): string => letters.charAt(product);

/**
 * The orders for a number of products: one square of k orders when k is even, a square and its mirror image (2k orders)
 * when k is odd.
 *
 * Takes    products: 2 to 12
 * Returns  order labels in the trade's letters, A = first product of the plan
 * Throws   RangeError outside 2 to 12
 * Example  williamsOrders(3) // ABC BCA CAB CBA ACB BAC
 */
export function williamsOrders(products: number): string[] {
  if (!(Number.isInteger(products) && products >= 2 && products <= letters.length)) {
    throw new RangeError(`no Williams square for ${products} products`);
  }
  const first = zigzag(products);
  const square = Array.from({ length: products }, (_, shift) =>
    first.map((product) => letters[(product + shift) % products]).join(""),
  );
  return products % 2 === 0 ? square : [...square, ...square.map((order) => [...order].reverse().join(""))];
}

/** 0, 1, k-1, 2, k-2 …: neighbors differ by every step but 0, each once (k even) or twice over the mirrored pair. */
function zigzag(products: number): number[] {
  const order: number[] = [];
  for (let place = 0; place < products; place++) {
    order.push(place % 2 === 1 ? (place + 1) / 2 : (products - place / 2) % products);
  }
  return order;
}

export type OrderBalance = {
  /** `places[product][place]`: how often a product stands in a place. */
  places: number[][];
  /** `follows[product][before]`: how often a product comes right after another one. */
  follows: number[][];
};

/** Counts how evenly orders spread the products over places and over the products before them. */
export function orderBalance(orders: readonly string[], products: number): OrderBalance {
  const table = () => Array.from({ length: products }, () => Array<number>(products).fill(0));
  const balance = { places: table(), follows: table() };
  for (const order of orders) {
    [...order].forEach((letter, place) => {
      const product = letters.indexOf(letter);
      add(balance.places, product, place);
      if (place > 0) add(balance.follows, product, letters.indexOf(order[place - 1] ?? ""));
    });
  }
  return balance;
}

function add(table: number[][], row: number, column: number): void {
  const cells = table[row];
  if (cells) cells[column] = (cells[column] ?? 0) + 1;
}
