import { type Plannable, shapeOf, sidesFor } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import type { AdviceReason, AdviceWarning, Advised, AlternativeReason, Asked } from "../model/plan-question.ts";
import { seeksLikeness } from "./size-test.ts";

/** From plain answers to a method: what a plan is advised to do, why, what else would do, and what to beware of. */

export type Alternative = Advised & { why: AlternativeReason };
export type Advice = Advised & {
  /** Duo-trio: is the same product always the reference? */
  reference: Plan["reference"]["kind"];
  why: AdviceReason[];
  warnings: AdviceWarning[];
  alternatives: Alternative[];
};

/** What the advice follows from. */
export type AdvicePlan = Pick<Plan, "asked" | "looks" | "panelType">;
type Choice = { method: Plannable; why: AdviceReason; others: [Plannable, AlternativeReason][] };

/**
 * The questions whose answers bear on the advice, by what was answered so far, in the order in which they are asked.
 * Who the panel is and whether looks differ stand in the plan itself and are always asked.
 */
export function askedNext({ asked, looks }: Pick<Plan, "asked" | "looks">): (keyof Asked)[] {
  const { want, products, property, aim } = asked;
  if (want === null) return ["want"];
  if (want === "chewed-mass") return ["want", "products", "aim"];
  const overall = want === "any-difference";
  const byProperty = overall && property === "yes" && aim !== "too-small";
  const direct = (byProperty || want === "more-of" || want === "order") && products !== "few" && products !== "many";
  const whole = overall && property !== null && !byProperty && (looks !== "differ" || aim === "too-small");
  return [
    ...(["want", "products", "aim"] as const),
    ...(overall ? (["property"] as const) : []),
    ...(direct ? (["expected"] as const) : []),
    ...(whole ? (["food"] as const) : []),
    ...(whole && asked.food !== "tiring" ? (["knows"] as const) : []),
  ];
}

/** The answers that bear on the advice; one to a question that is no longer asked stays in the plan and counts for nothing. */
function heardOf(plan: Pick<Plan, "asked" | "looks">): Asked {
  const next = askedNext(plan);
  const heard = (question: keyof Asked) => next.includes(question);
  const { want, products, aim, property, expected, food, knows } = plan.asked;
  return {
    want,
    products: heard("products") ? products : null,
    aim: heard("aim") ? aim : null,
    property: heard("property") ? property : null,
    expected: heard("expected") ? expected : null,
    food: heard("food") ? food : null,
    knows: heard("knows") ? knows : null,
  };
}

/**
 * The method that the answers ask for.
 *
 * Takes    given: the answers of a plan; what was not answered counts as the usual: two products, a difference, no property known,
 *          an ordinary food, nothing said of who has more
 * Returns  null until it was said what is to be found out
 * Source   which method fits what: scopes of ISO 4120, 10399, 5495, 8587, 8588, 4121, 11136, ASTM E2139, E2263 and E3009
 *          (excerpts or abstracts seen); that the paired difference comes first where the property is known, and tetrad
 *          before triangle for mild food: their power (exact binomial on the usual Thurstonian functions). What looks do
 *          to A-not-A is from memory
 */
export function advice(given: AdvicePlan): Advice | null {
  const plan = { ...given, asked: heardOf(given) };
  const { asked, looks } = plan;
  if (asked.want === null) return null;
  const { method, why, others } = chosen(plan);
  const alike = asked.aim === "too-small" && canBeAlike(method);
  const sides = sidesFor(method, !alike && asked.expected !== "yes" ? "two" : "one");
  const goal = alike ? ("similarity" as const) : ("difference" as const);
  const either = shapeOf(method).sides === "either";
  return {
    method,
    goal,
    sides,
    reference: method === "duo-trio" && asked.knows === "one" ? "constant" : "balanced",
    why: [
      why,
      ...(either && !alike ? [sides === "one" ? ("one-sided" as const) : ("two-sided" as const)] : []),
      ...(alike ? ["likeness" as const] : []),
    ],
    warnings: warningsOf(plan, method, alike),
    alternatives: others
      .filter(([other]) => !(looks === "differ" && isOverall(other)) && (!alike || canBeAlike(other)))
      // its trays hold the product that is expected to have more once: it has to be known which that is
      .filter(([other]) => other !== "three-alternative" || alike || asked.expected === "yes")
      .slice(0, 3)
      .map(([other, reason]) => ({ method: other, goal, sides: sidesFor(other, sides), why: reason })),
  };
}

/** The advice alone, as a plan keeps it; null while its answers give none. */
export function advisedOf(plan: AdvicePlan): Advised | null {
  const given = advice(plan);
  return given && { method: given.method, goal: given.goal, sides: given.sides };
}

const canBeAlike = (method: Plannable): boolean => shapeOf(method).similarity;
const isOverall = (method: Plannable): boolean => method === "triangle" || method === "tetrad" || method === "duo-trio";

function chosen(plan: AdvicePlan): Choice {
  const { want, products, property } = plan.asked;
  const two = products !== "few" && products !== "many";
  // more than a sitting bears are shared out in incomplete blocks, which only the line scale has
  if (want === "chewed-mass") return { method: "chew-and-weigh", why: "chewed-mass", others: [] };
  if (products === "many" && (want !== "any-difference" || property === "yes")) {
    return { method: "line-scale", why: "many-products", others: [] };
  }
  switch (want) {
    case "liking":
      return two
        ? { method: "paired-preference", why: "liking", others: [["line-scale", "how-much-too"]] }
        : { method: "ranking", why: "several-liked", others: [["line-scale", "how-much-too"]] };
    case "how-much":
      return {
        method: "line-scale",
        why: "how-much",
        others: [two ? ["paired-difference", "quicker"] : ["ranking", "quicker"]],
      };
    case "order":
      return two
        ? { ...directed, why: "pair-is-an-order" }
        : { method: "ranking", why: "order", others: [["line-scale", "how-much-too"]] };
    case "more-of":
      return two
        ? {
            method: "paired-difference",
            why: "which-more",
            others: directed.others.filter(([, why]) => why !== "other-properties"),
          }
        : { method: "ranking", why: "order", others: [["line-scale", "how-much-too"]] };
    default:
      return overall(plan, two);
  }
}

const directed = {
  method: "paired-difference" as const,
  others: [
    ["three-alternative", "fewer-people"],
    ["tetrad", "other-properties"],
    ["line-scale", "how-much-too"],
  ] satisfies [Plannable, AlternativeReason][],
};

/**
 * Is there any difference? With a property in hand, that is asked; else whatever the food and the panel bear. That a
 * difference is too small to be noticed at all is not shown by one property: others may give it away.
 */
function overall({ asked, looks }: AdvicePlan, two: boolean): Choice {
  // only tests that can show likeness are left where that is the aim
  const difference = asked.aim !== "too-small";
  if (asked.property === "yes" && difference) {
    return two
      ? { ...directed, why: "property-known" }
      : { method: "line-scale", why: "how-much", others: [["ranking", "quicker"]] };
  }
  const named: [Plannable, AlternativeReason] = [
    "paired-difference",
    asked.property === "yes" ? "that-property-alone" : "if-property",
  ];
  if (looks === "differ" && difference) return { method: "a-not-a", why: "looks-differ", others: [named] };
  if (asked.food === "tiring" && difference) {
    return { method: "same-different", why: "tiring-food", others: [["duo-trio", "fewer-people"], named] };
  }
  if (asked.knows === "confused" || asked.food === "tiring") {
    return {
      method: "duo-trio",
      why: asked.knows === "confused" ? "three-confuse" : "tiring-food",
      others: [["triangle", "fewer-people"], named],
    };
  }
  if (asked.food === "mild") {
    return {
      method: "tetrad",
      why: "mild-food",
      others: [["triangle", "fewer-cups"], ["duo-trio", "easier-task"], named],
    };
  }
  if (asked.knows === "one") {
    return {
      method: "duo-trio",
      why: "one-known",
      others: [["triangle", "fewer-people"], ["tetrad", "fewer-people"], named],
    };
  }
  return {
    method: "triangle",
    why: "ordinary-food",
    others: [["tetrad", "fewer-people"], ["duo-trio", "easier-task"], named],
  };
}

function warningsOf({ asked, looks, panelType }: AdvicePlan, method: Plannable, alike: boolean): AdviceWarning[] {
  const several = asked.products === "few" || asked.products === "many";
  const tooSmall = asked.aim === "too-small";
  const warnings: [AdviceWarning, boolean][] = [
    ["not-customers", asked.want === "liking" && panelType !== "consumers"],
    ["two-at-a-time", several && shapeOf(method).products.most === 2],
    ["too-many-for-a-sitting", asked.products === "many" && method === "line-scale"],
    ["likeness-needs-a-side", alike && shapeOf(method).sides === "either" && asked.expected !== "yes"],
    ["likeness-not-by-pairs", tooSmall && !alike && asked.want === "liking"],
    ["no-likeness", tooSmall && !alike && asked.want !== "liking"],
    ["mask-first", looks === "differ" && method !== "a-not-a" && method !== "chew-and-weigh"],
    ["up-to-four", several && method === "chew-and-weigh"],
    ["gain-alone", method === "chew-and-weigh"],
  ];
  return warnings.flatMap(([warning, applies]) => (applies ? [warning] : []));
}

/** What stands beside a method whose plan has no advice: the ones that are held against it most often. */
const beside: Partial<Record<Plannable, readonly Plannable[]>> = {
  triangle: ["tetrad", "duo-trio", "paired-difference"],
  "duo-trio": ["triangle", "tetrad", "paired-difference"],
  tetrad: ["triangle", "duo-trio", "paired-difference"],
  "same-different": ["duo-trio", "triangle", "paired-difference"],
  "a-not-a": ["paired-difference"],
  "paired-difference": ["three-alternative", "tetrad"],
  "three-alternative": ["paired-difference", "tetrad"],
  "paired-preference": ["line-scale"],
  "line-scale": ["ranking"],
  ranking: ["line-scale"],
};

/** At most three methods to hold a plan against: the advised one first where the plan has another. */
export function alternativesTo(plan: AdvicePlan & Advised): Advised[] {
  const { method, goal, sides } = plan;
  const given = advice(plan);
  const all: Advised[] = given
    ? [given, ...given.alternatives]
    : (beside[method] ?? []).map((other) => ({ method: other, goal, sides: sidesFor(other, sides) }));
  const alike = seeksLikeness(plan);
  return all.filter((other) => other.method !== method && !(alike && !canBeAlike(other.method))).slice(0, 3);
}
