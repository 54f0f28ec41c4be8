import { methodShapes, type Plannable, shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import { incompleteBlocks, mostProducts } from "./incomplete-blocks.ts";
import { williamsOrders } from "./williams.ts";

/** What an order is made from: which letter is the reference, which is expected to have more; A = first product. */
export type Roles = {
  products: number;
  /** Letters of the products that are the reference on some trays. */
  references: readonly string[];
  /** The product that is expected to have more of the property, and the other one. */
  stronger: string;
  weaker: string;
};

/** What sets one method apart from another before anybody tastes. A further method is one more entry in the table. */
export type DesignMethod = {
  /**
   * Serving orders in the trade's letters, A = first product of the plan; each is used equally often. What stands before
   * a colon is in the uncoded reference cup.
   */
  orders: (roles: Roles) => readonly string[];
  /** Version of the ballot's wording: a packet names it, the words ship with the app. */
  wording: string;
};

const pairOrders = () => ["AB", "BA"];

/** Source of the orders: ISO 4120 for the triangle, ISO 10399 for the duo-trio (excerpts seen); the others common practice. */
export const designMethods: Record<Plannable, DesignMethod> = {
  triangle: { orders: () => ["AAB", "ABA", "BAA", "BBA", "BAB", "ABB"], wording: "triangle-1" },
  "duo-trio": {
    orders: ({ references }) => references.flatMap((reference) => [`${reference}:AB`, `${reference}:BA`]),
    wording: "duo-trio-1",
  },
  "paired-difference": { orders: pairOrders, wording: "paired-difference-1" },
  "three-alternative": {
    orders: ({ stronger: s, weaker: w }) => [`${s}${w}${w}`, `${w}${s}${w}`, `${w}${w}${s}`],
    wording: "three-alternative-1",
  },
  tetrad: { orders: () => ["AABB", "ABAB", "ABBA", "BAAB", "BABA", "BBAA"], wording: "tetrad-1" },
  "same-different": { orders: () => ["AA", "BB", "AB", "BA"], wording: "same-different-1" },
  "a-not-a": {
    orders: ({ references: [a = "A"] }) => [`${a}:A`, `${a}:B`],
    wording: "a-not-a-1",
  },
  "paired-preference": { orders: pairOrders, wording: "paired-preference-1" },
  "line-scale": { orders: ({ products }) => williamsOrders(products), wording: "line-scale-1" },
  ranking: { orders: ({ products }) => williamsOrders(products), wording: "ranking-1" },
  "chew-and-weigh": { orders: ({ products }) => williamsOrders(products), wording: "chew-and-weigh-1" },
};

export const designMethod = (method: Plannable): DesignMethod => designMethods[method];

/** How many of the products a tray holds, where it does not hold them all. */
export const heldOf = ({ method, perTray }: Pick<Plan, "method" | "perTray">): number | null =>
  shapeOf(method).answer === "marks" ? perTray : null;

/** How many products a study of the plan compares. */
export function productBounds(plan: Pick<Plan, "method" | "perTray">): { least: number; most: number } {
  const held = heldOf(plan);
  return held === null ? shapeOf(plan.method).products : { least: held + 1, most: mostProducts };
}

/** What of a plan its serving orders follow from. */
export type OrderedPlan = Pick<Plan, "method" | "products" | "reference" | "properties" | "perTray">;

/**
 * Serving orders of a plan in the runs in which they are dealt: a run is balanced by itself, so each is served whole before
 * the next begins. One run for all methods but incomplete blocks; none while the plan has fewer or more products than its
 * method compares.
 */
export function runsOf(plan: OrderedPlan): readonly (readonly string[])[] {
  const { least, most } = productBounds(plan);
  const { length } = plan.products;
  if (length < least || length > most) return [];
  const held = heldOf(plan);
  if (held === null) return [designMethod(plan.method).orders(rolesOf(plan))];
  const { orders } = incompleteBlocks(length, held);
  return Array.from({ length: orders.length / length }, (_, run) => orders.slice(run * length, (run + 1) * length));
}

/** All serving orders of a plan. */
export const ordersOf = (plan: OrderedPlan): readonly string[] => runsOf(plan).flat();

/** The parts that products play. What nobody has said yet falls to the first product: a plan cannot be locked so. */
export function rolesOf({ method, products, reference, properties }: OrderedPlan): Roles {
  const letterOf = (id: string | null | undefined): string => (products[1]?.id === id ? "B" : "A");
  // "A" of A-not-A is one product on every tray, whatever the plan says of a reference's kind
  const constant = reference.kind === "constant" || methodShapes[method].reference === "A";
  const stronger = letterOf(properties[0]?.expected);
  return {
    products: products.length,
    references: constant ? [letterOf(reference.product)] : ["A", "B"],
    stronger,
    weaker: stronger === "A" ? "B" : "A",
  };
}

/** An order in its parts. Example: partsOf("A:BA") // { reference: "A", samples: "BA" } */
export function partsOf(order: string): { reference: string | null; samples: string } {
  const [before = "", after] = order.split(":");
  return after === undefined ? { reference: null, samples: before } : { reference: before, samples: after };
}
