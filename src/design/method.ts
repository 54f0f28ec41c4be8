import { choiceMethod } from "../analysis/method.ts";
import type { Plannable } from "../model/plan.ts";
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

const table: Record<Plannable, DesignMethod> = {
  triangle: {
    products: { least: 2, most: 2 },
    orders: () => choiceMethod("triangle").orders,
    wording: "triangle-1",
  },
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
