import * as z from "zod/mini";
import { plannable, shapeOf, sidesFor } from "./method.ts";

/** The planner's plain questions: what the lead answered, and which advice followed from it. */

/** What the study is to find out. chewed-mass: what the mouth adds to a portion or takes from it, weighed and not judged. */
export const wants = ["any-difference", "more-of", "liking", "how-much", "order", "chewed-mass"] as const;

/** Products that are compared: two, three to six, or more than one sitting bears. */
export const productCounts = ["two", "few", "many"] as const;
/** To show that there is a difference, or that it is too small to matter. */
export const aims = ["difference", "too-small"] as const;
/** How the food sits: soon gone; as most food; hot, fat or with a long aftertaste. */
export const foods = ["mild", "ordinary", "tiring"] as const;
/** Does the panel know one of the products well, or would three samples at once confuse it? */
export const knows = ["neither", "one", "confused"] as const;
const yesNo = z.nullable(z.enum(["yes", "no"]));

export const asked = z.strictObject({
  want: z.nullable(z.enum(wants)),
  products: z.nullable(z.enum(productCounts)),
  aim: z.nullable(z.enum(aims)),
  /** Can the property in which they differ be named? */
  property: yesNo,
  /** Can it be said beforehand which product has more of it? */
  expected: yesNo,
  food: z.nullable(z.enum(foods)),
  knows: z.nullable(z.enum(knows)),
});
export type Asked = z.infer<typeof asked>;
export const nothingAsked = (): Asked => ({
  ...{ want: null, products: null, aim: null, property: null },
  ...{ expected: null, food: null, knows: null },
});

/** The method that the planner advised from the answers, with what it is to show and which way the test looks. */
export const advised = z.strictObject({
  method: z.enum(plannable),
  goal: z.enum(["difference", "similarity"]),
  sides: z.enum(["one", "two"]),
});
export type Advised = z.infer<typeof advised>;

const showsLikeness = ({ method, goal, sides }: Advised): boolean =>
  goal === "similarity" && shapeOf(method).similarity && sidesFor(method, sides) === "one";

/** Does what a plan says to do go by an advice? Which way the test looks counts only where the method leaves it open. */
export const goesBy = (plan: Advised, said: Advised): boolean =>
  plan.method === said.method &&
  showsLikeness(plan) === showsLikeness(said) &&
  sidesFor(plan.method, plan.sides) === sidesFor(said.method, said.sides);

/** How long things take at the table, and how long the food stays as it should be. */
export const pace = z.strictObject({
  /** Tasting one sample and answering, without the pause. Common practice, no source. */
  tasteSeconds: z.number().check(z.int(), z.minimum(5), z.maximum(600)),
  /** Bringing one tray, one after the other. Common practice, no source. */
  serveSeconds: z.number().check(z.int(), z.minimum(0), z.maximum(600)),
  /** Minutes after leaving the heat between which the food is as it should be tasted; null: nobody said. */
  windowFrom: z.nullable(z.number().check(z.minimum(0), z.maximum(1440))),
  windowTo: z.nullable(z.number().check(z.minimum(0), z.maximum(1440))),
  /** How many people sit at once, where no wave is planned yet; null: nobody said. */
  seats: z.nullable(z.number().check(z.int(), z.minimum(1), z.maximum(5000))),
  /** More samples than this in a sitting are flagged. */
  mostSamples: z.number().check(z.int(), z.minimum(1), z.maximum(60)),
});
export type Pace = z.infer<typeof pace>;
/** Six samples: judges of cooked pork managed about so many before they told less (abstract seen). */
export const usualPace = (): Pace => ({
  ...{ tasteSeconds: 30, serveSeconds: 20, windowFrom: null, windowTo: null, seats: null, mostSamples: 6 },
});

/** Why a method is advised, one for each rule of `advice`. */
export type AdviceReason =
  | "property-known"
  | "looks-differ"
  | "tiring-food"
  | "three-confuse"
  | "one-known"
  | "mild-food"
  | "ordinary-food"
  | "which-more"
  | "liking"
  | "several-liked"
  | "how-much"
  | "order"
  | "many-products"
  | "pair-is-an-order"
  | "one-sided"
  | "two-sided"
  | "likeness"
  | "chewed-mass";

/** What the answers ask for and no method gives, or what would spoil the result. */
export type AdviceWarning =
  | "not-customers"
  | "mask-first"
  | "no-likeness"
  | "likeness-not-by-pairs"
  | "likeness-needs-a-side"
  | "two-at-a-time"
  | "too-many-for-a-sitting"
  | "gain-alone"
  | "up-to-four";

/** Why another method might serve as well, or better. */
export type AlternativeReason =
  | "fewer-people"
  | "fewer-cups"
  | "easier-task"
  | "if-property"
  | "that-property-alone"
  | "how-much-too"
  | "quicker"
  | "other-properties";
