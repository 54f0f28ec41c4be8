import { choiceMethod } from "../analysis/method.ts";
import type { Plannable } from "../model/method.ts";
import { williamsOrders } from "./williams.ts";

/** What sets one method apart from another before anybody tastes. A further method is one more entry in the table. */
export type DesignMethod = {
  /** How many products a study of it compares. */
  products: { least: number; most: number };
  /** Serving orders in the trade's letters, A = first product of the plan; each is used equally often. */
  orders: (products: number) => readonly string[];
  /** Version of the ballot's wording: a packet names it, the words ship with the app. */
  wording: string;
};

/** Judges manage about six samples of a savory food a sitting (advice for cooked pork, seen in an abstract). */
const mostSamples = 6;

const two = { least: 2, most: 2 };
const table: Record<Plannable, DesignMethod> = {
  triangle: {
    products: { least: 2, most: 2 },
    orders: () => choiceMethod("triangle").orders,
    wording: "triangle-1",
  },
  "duo-trio": { products: two, orders: () => ["A:AB", "A:BA", "B:AB", "B:BA"], wording: "duo-trio-1" },
  "paired-difference": { products: two, orders: () => ["AB", "BA"], wording: "paired-difference-1" },
  "three-alternative": { products: two, orders: () => ["ABB", "BAB", "BBA"], wording: "three-alternative-1" },
  tetrad: {
    products: two,
    orders: () => ["AABB", "ABAB", "ABBA", "BAAB", "BABA", "BBAA"],
    wording: "tetrad-1",
  },
  "same-different": { products: two, orders: () => ["AA", "BB", "AB", "BA"], wording: "same-different-1" },
  "a-not-a": { products: two, orders: () => ["A:A", "A:B"], wording: "a-not-a-1" },
  "paired-preference": {
    products: { least: 2, most: 2 },
    orders: () => ["AB", "BA"],
    wording: "paired-preference-1",
  },
  "line-scale": {
    products: { least: 2, most: mostSamples },
    orders: (products) => williamsOrders(products),
    wording: "line-scale-1",
  },
};

export const designMethod = (method: Plannable): DesignMethod => table[method];

/** Serving orders of a plan; none while it has fewer or more products than its method compares. */
export function ordersOf(method: Plannable, products: number): readonly string[] {
  const { products: bounds, orders } = designMethod(method);
  return products >= bounds.least && products <= bounds.most ? orders(products) : [];
}
