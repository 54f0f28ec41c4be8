import { usualDPrime } from "../design/size-test.ts";
import { type Allergen, allergens } from "../model/allergen.ts";
import { type Caution, cautions } from "../model/attribute.ts";
import { type Plannable, shapeOf } from "../model/method.ts";
import type { OpenPart } from "../model/open-part.ts";
import type { Declaration, Plan, Product, Wave } from "../model/plan.ts";
import { withoutCompared } from "./plan-comparisons.ts";
import { predictedOf } from "./plan-ranking.ts";

/** Changes of a plan, as functions from one plan to the next. Ids are given, never made here. */

/**
 * What is sought until the lead says otherwise: one share who can tell means a far smaller difference where a property is
 * named, so that there a distance stands in its place.
 */
const soughtAtFirst = (method: Plannable): number | null => (shapeOf(method).property ? usualDPrime : null);

/** Another method; what was typed for the one before stays. Likeness, or looks, are nothing for every method. */
export const withMethod = (plan: Plan, method: Plannable): Plan => ({
  ...plan,
  method,
  dPrimeSought: plan.dPrimeSought === soughtAtFirst(plan.method) ? soughtAtFirst(method) : plan.dPrimeSought,
  stopping: ["marks", "order", "portions"].includes(shapeOf(method).answer) ? { rule: "fixed" } : plan.stopping,
  goal: shapeOf(method).similarity ? plan.goal : "difference",
});

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

/** A new wave with the people who have no seat yet, as many as there are seats where that was said. */
export function withWave(plan: Plan, id: string): Plan {
  const seated = plan.waves.reduce((sum, wave) => sum + wave.people, 0);
  const people = Math.min(Math.max(0, plan.people - seated), plan.pace.seats ?? plan.people);
  return {
    ...plan,
    waves: [...plan.waves, { id, starts: "", people, session: plan.waves.at(-1)?.session ?? "", batches: {} }],
  };
}

export const changeWave = (plan: Plan, id: string, change: Partial<Wave>): Plan => ({
  ...plan,
  waves: plan.waves.map((wave) => (wave.id === id ? { ...wave, ...change } : wave)),
});

export const withoutWave = (plan: Plan, id: string): Plan => ({
  ...plan,
  waves: plan.waves.filter((wave) => wave.id !== id),
});

/** Batch names as typed, with commas between; blanks and repeats are left out. */
export const readBatches = (typed: string): string[] => [
  ...new Set(
    typed
      .split(",")
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  ),
];

/** Codes as typed, with spaces or commas between: the ones that are codes, and the first that is not. */
export function readCodes(typed: string): { codes: string[]; bad: string | null } {
  const parts = typed.split(/[\s,;]+/).filter((part) => part !== "");
  const isCode = (part: string) => /^[1-9]\d\d$/.test(part);
  return { codes: [...new Set(parts.filter(isCode))], bad: parts.find((part) => !isCode(part)) ?? null };
}

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

/** The field of the plan page that answers an open part: the id of its control. */
export function fieldOf(open: OpenPart): string {
  switch (open.what) {
    case "title":
    case "objective":
    case "if-yes":
    case "if-no":
      return `question-${open.what}`;
    case "goal":
      return "method-goal";
    case "alpha":
      return "method-alpha";
    case "share-sought":
      return "people-share";
    case "distance-sought":
      return "people-distance";
    case "properties":
      return "property-add";
    case "property-field":
      return `property-${open.property}-${open.field}`;
    case "same-property":
      return `property-${open.property}-comparative`;
    case "stopping":
      return "method-stopping";
    case "look-numbers":
      return "method-looks";
    case "blank-norm":
      return "norm-none";
    case "repeats":
    case "repeats-in-blocks":
      return "people-repeats";
    case "reference":
      return "samples-reference";
    case "expected":
      return `samples-expected-${open.property}`;
    case "one-expected":
      return "samples-expected-1";
    case "sessions":
      return "wave-0-session";
    case "people":
    case "too-few-people":
    case "no-critical-number":
      return "people-people";
    case "attributes":
      return "scale-add";
    case "attribute-field":
      return `attribute-${open.attribute}-${open.field}`;
    case "same-attribute":
    case "mixed-clocks":
      return `attribute-${open.attribute}-moment`;
    case "same-anchors":
      return `attribute-${open.attribute}-high-anchor`;
    case "step-label":
      return `attribute-${open.attribute}-step-${open.step}`;
    case "same-labels":
      return `attribute-${open.attribute}-step-0`;
    case "first-just-right":
      return `attribute-${open.attribute}-form`;
    case "just-right-moments":
      return `attribute-${open.attribute}-moment-1`;
    case "ranking-field":
      return `ranking-${open.field}`;
    case "same-ends":
      return "ranking-most";
    case "predicted-order":
      return "ranking-predicted";
    case "balance-step":
    case "tolerance":
      return `chew-${open.what}`;
    case "one-chewer":
      return "people-repeats";
    case "control":
    case "beside-control":
      return "chew-control";
    case "portion":
      return "samples-portion";
    case "products":
      // too many: the first that would have to go
      return open.count > open.most ? `product-${open.most}-remove` : "samples-add";
    case "product-name":
      return `product-${open.product}-name`;
    case "window":
      return "window-to";
    case "blank-preparations":
      return "product-1-preparation";
    case "product-preparation":
      return `product-${open.product}-preparation`;
    case "same-name":
      return `product-${open.product}-name`;
    case "comparison-reference":
      return "comparison-reference";
    case "comparison-pairs":
      return "comparison-add";
    case "comparison-pair":
      return `comparison-${open.pair}-first`;
    case "factor-words":
      return "factor-0-name";
    case "factor-cells":
      return "cell-0-0";
    case "looks":
      return "samples-looks";
    case "masking":
      return "samples-masking";
    case "waves":
      return "serving-add";
    case "wave-start":
      return `wave-${open.wave}-starts`;
    case "wave-people":
      return `wave-${open.wave}-people`;
    case "people-in-session":
    case "people-in-waves":
      return "wave-0-people";
    case "batch":
      return `wave-${open.wave}-batch-${open.product}`;
    case "warm-up":
      return "samples-warm-up-what";
    case "raw-uneven":
      return "raw-divided";
    case "server":
      return "serving-server";
    case "declaration":
      return `declare-${open.of}`;
    case "declarations-complete":
      return "safety-complete";
    case "caution":
      return `caution-${open.caution}`;
    case "carrier":
    case "carrier-what":
    case "cooking-limit":
    case "responsible":
    case "served":
    case "contact":
      return `safety-${open.what}`;
  }
}

/** Open parts that are answered in another part of the page than the one they belong to. */
const movedTo: Partial<Record<OpenPart["what"], OpenPart["part"]>> = {
  "warm-up": "samples",
  "predicted-order": "samples",
  "share-sought": "people",
  "distance-sought": "people",
};

/** The part of the page where an open part is answered: the warm-up, and an order of the products, with the samples. */
export const pagePartOf = (open: OpenPart): OpenPart["part"] => movedTo[open.what] ?? open.part;

/** A name of an open part that no other of the same plan has: for lists. */
export const keyOf = (open: OpenPart): string =>
  `${fieldOf(open)} ${open.what}${open.what === "people-in-session" ? ` ${open.session}` : ""}`;
