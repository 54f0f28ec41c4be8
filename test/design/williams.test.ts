import { describe, expect, test } from "vitest";
import { orderBalance, williamsOrders } from "../../src/design/williams.ts";
import reference from "../reference/williams-squares/values.json" with { type: "json" };

const numbers = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];

describe("Williams squares, properties", () => {
  test.each(numbers)("%d products: each order holds every product once, and no order comes twice", (products) => {
    const orders = williamsOrders(products);
    expect(orders).toHaveLength(products % 2 === 0 ? products : 2 * products);
    expect(new Set(orders).size).toBe(orders.length);
    for (const order of orders) expect([...order].sort().join("")).toBe("ABCDEFGHIJKL".slice(0, products));
  });
  test.each(numbers)(
    "%d products: each stands in each place, and after each other product, equally often",
    (products) => {
      const orders = williamsOrders(products);
      const { places, follows } = counted(orders);
      expect([...places.values()]).toEqual(new Array(products ** 2).fill(orders.length / products));
      // t(t - 1) ordered pairs share what each of the orders has, t - 1
      expect(follows.size).toBe(products * (products - 1));
      expect(new Set(follows.values())).toEqual(new Set([products % 2 === 0 ? 1 : 2]));
    },
  );
  test.each([1, 0, 13, 2.5, Number.NaN])("%d products have no such square", (products) => {
    expect(() => williamsOrders(products)).toThrow(RangeError);
  });
});

describe("Williams squares, printed and computed elsewhere", () => {
  test.each(reference.rows.filter(({ where }) => where.startsWith("computed") || where.startsWith("manual")))(
    "$t products by the cyclic construction, $where: the same set of orders",
    ({ t, orders }) => {
      expect(williamsOrders(t).sort()).toEqual([...orders].sort());
    },
  );
  test("4 products as printed: ABDC BCAD CDBA DACB", () => {
    expect(williamsOrders(4)).toEqual(["ABDC", "BCAD", "CDBA", "DACB"]);
  });
});

describe("balance of orders, counted", () => {
  test.each(reference.rows)("$t products, $where: every place alike, every pair $eachOrderedPair times", (row) => {
    const { t, orders, eachOrderedPair } = row;
    const { places, follows } = orderBalance(orders, t);
    const even = Array.from({ length: t }, () => new Array<number>(t).fill(orders.length / t));
    expect(places).toEqual(even);
    expect(follows).toEqual(even.map((_, i) => even.map((_, j) => (i === j ? 0 : eachOrderedPair))));
  });
  test("orders that are not balanced show it: ABC ABC BAC by hand", () => {
    expect(orderBalance(["ABC", "ABC", "BAC"], 3)).toEqual({
      places: [
        [2, 1, 0],
        [1, 2, 0],
        [0, 0, 3],
      ],
      // row: the product; column: the one right before it
      follows: [
        [0, 1, 0],
        [2, 0, 0],
        [1, 2, 0],
      ],
    });
  });
  test("no orders, no counts", () => {
    expect(orderBalance([], 2)).toEqual({
      places: [
        [0, 0],
        [0, 0],
      ],
      follows: [
        [0, 0],
        [0, 0],
      ],
    });
  });
});

/** A second way to count, by text: "A1" for A in the first place, "AB" for B right after A. */
function counted(orders: readonly string[]): { places: Map<string, number>; follows: Map<string, number> } {
  const [places, follows] = [new Map<string, number>(), new Map<string, number>()];
  const add = (table: Map<string, number>, key: string) => table.set(key, (table.get(key) ?? 0) + 1);
  for (const order of orders) {
    for (let place = 0; place < order.length; place++) {
      add(places, `${order[place]}${place + 1}`);
      if (place > 0) add(follows, order.slice(place - 1, place + 1));
    }
  }
  return { places, follows };
}
