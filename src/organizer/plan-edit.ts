import { usualDPrime } from "../design/size-test.ts";
import { type Allergen, allergens } from "../model/allergen.ts";
import { type Caution, cautions } from "../model/attribute.ts";
import { type Plannable, shapeOf } from "../model/method.ts";
import type { Declaration, Plan, Product } from "../model/plan.ts";
import { withUsualPortions } from "./plan-chew.ts";
import { withoutCompared } from "./plan-comparisons.ts";
import { predictedOf } from "./plan-ranking.ts";

/** Changes of a plan, as functions from one plan to the next. Ids are given, never made here. */

/**
 * What is sought until the lead says otherwise: one share who can tell means a far smaller difference where a property is
 * named, so that there a distance stands in its place.
 */
const soughtAtFirst = (method: Plannable): number | null => (shapeOf(method).property ? usualDPrime : null);

/**
 * Another method; what was typed for the one before stays. Likeness, or looks, are nothing for every method. Chewed portions
 * bring figures of their own along, where nothing was typed.
 */
export const withMethod = (plan: Plan, method: Plannable): Plan =>
  withUsualPortions(
    {
      ...plan,
      method,
      dPrimeSought: plan.dPrimeSought === soughtAtFirst(plan.method) ? soughtAtFirst(method) : plan.dPrimeSought,
      stopping: ["marks", "order", "portions"].includes(shapeOf(method).answer) ? { rule: "fixed" } : plan.stopping,
      goal: shapeOf(method).similarity ? plan.goal : "difference",
    },
    plan.method,
  );

/** What is eaten is another: the lead's word that all of it is declared no longer holds. */
const otherFood = (plan: Plan): Plan => ({ ...plan, declarationsComplete: false });

export const withProduct = (plan: Plan, id: string): Plan =>
  withPredicted(otherFood({ ...plan, products: [...plan.products, { id, name: "", preparation: "" }] }));

/** A predicted order is one of all products there are. */
const withPredicted = (plan: Plan): Plan => ({
  ...plan,
  ranking: { ...plan.ranking, predicted: predictedOf(plan) },
});

/** Changes a product. Another name is the same food; another preparation is not. */
export function changeProduct(plan: Plan, id: string, change: Partial<Product>): Plan {
  const before = plan.products.find((product) => product.id === id);
  // the cups of a blank study hold one food: what is written of one product holds for all
  const shared = plan.blank && change.preparation !== undefined ? { preparation: change.preparation } : {};
  const products = plan.products.map((product) => ({ ...product, ...shared, ...(product.id === id ? change : {}) }));
  const same = change.preparation === undefined || change.preparation === before?.preparation;
  return same ? { ...plan, products } : otherFood({ ...plan, products });
}

/** Parts of the serving rules that say what is eaten. */
const eaten = ["cleanser", "warmUp", "warmUpWhat"] as const satisfies readonly (keyof Plan["serving"])[];

export function changeServing(plan: Plan, change: Partial<Plan["serving"]>): Plan {
  const serving = { ...plan.serving, ...change };
  const same = eaten.every((part) => serving[part] === plan.serving[part]);
  return same ? { ...plan, serving } : otherFood({ ...plan, serving });
}

/** Takes a product out, and what was said of it elsewhere in the plan. */
export const withoutProduct = (plan: Plan, id: string): Plan => {
  const { ranking } = plan;
  return otherFood({
    ...plan,
    ranking: { ...ranking, predicted: ranking.predicted.filter((product) => product !== id) },
    products: plan.products.filter((product) => product.id !== id),
    properties: plan.properties.map((property) =>
      property.expected === id ? { ...property, expected: null } : property,
    ),
    reference: plan.reference.product === id ? { ...plan.reference, product: null } : plan.reference,
    comparisons: withoutCompared(plan.comparisons, id),
    chew: { ...plan.chew, control: plan.chew.control === id ? null : plan.chew.control },
    declarations: plan.declarations.filter(({ of }) => of !== id),
    waves: plan.waves.map((wave) => ({
      ...wave,
      batches: Object.fromEntries(Object.entries(wave.batches).filter(([product]) => product !== id)),
    })),
  });
};

export type DeclaredAs = "contains" | "mayContain" | "free";

const blankDeclaration = (of: string): Declaration => ({ of, contains: [], mayContain: [], other: "", none: false });

/** Changes a declaration, making it when there is none. A changed recipe needs the lead's word anew. */
export function changeDeclaration(plan: Plan, of: string, change: (before: Declaration) => Declaration): Plan {
  const before = plan.declarations.find((declaration) => declaration.of === of);
  const after = change(before ?? blankDeclaration(of));
  const declarations = before
    ? plan.declarations.map((declaration) => (declaration.of === of ? after : declaration))
    : [...plan.declarations, after];
  return otherFood({ ...plan, declarations });
}

/** Says whether there is a carrier, and what it is. The declaration of one that there is not goes with it. */
export const withCarrier = (plan: Plan, change: Partial<Pick<Plan, "carrier" | "carrierWhat">>): Plan => {
  const changed = { ...plan, ...change };
  return otherFood(
    changed.carrier === false
      ? { ...changed, carrierWhat: "", declarations: plan.declarations.filter(({ of }) => of !== "carrier") }
      : changed,
  );
};

/** Says whether a caution applies. Where alcohol is served, samples are spat out unless somebody plans otherwise. */
export const withCaution = (plan: Plan, caution: Caution, applies: boolean): Plan => ({
  ...plan,
  cautionsApplying: cautions.filter((each) => (each === caution ? applies : plan.cautionsApplying.includes(each))),
  serving: caution === "alcohol" && applies ? { ...plan.serving, swallow: "spit" } : plan.serving,
});

/** Says how one allergen stands in one thing; both lists stay in the order of the law's list. */
export const declareAllergen = (declaration: Declaration, allergen: Allergen, as: DeclaredAs): Declaration => ({
  ...declaration,
  contains: listWith(declaration.contains, allergen, as === "contains"),
  mayContain: listWith(declaration.mayContain, allergen, as === "mayContain"),
  none: declaration.none && as === "free",
});

/** Says, or takes back, that a thing holds none of the list; saying it clears both lists. */
export const declareNone = (declaration: Declaration, none: boolean): Declaration =>
  none ? { ...declaration, contains: [], mayContain: [], none } : { ...declaration, none };

const listWith = (list: Allergen[], allergen: Allergen, wanted: boolean): Allergen[] =>
  allergens.filter((each) => (each === allergen ? wanted : list.includes(each)));
