import type { Caution } from "./attribute.ts";

/** Parts of a plan, in the order in which the lead meets them. */
export const planParts = ["question", "method", "people", "samples", "serving", "safety"] as const;
export type PlanPart = (typeof planParts)[number];

/**
 * Something a plan still lacks before it can be locked: found by `design/readiness`, worded in `words`.
 * Products and waves are named by their place in the plan, from 0, and as the lead wrote them.
 */
export type OpenPart =
  | { part: "question"; what: "title" | "objective" | "if-yes" | "if-no" }
  | { part: "method"; what: "alpha" | "share-sought" }
  /** Likeness within a limit is a goal of choice tests only. */
  | { part: "method"; what: "goal" }
  /** Same-different and A-not-A: the d-prime that the plan should find. */
  | { part: "method"; what: "distance-sought" }
  /** A directional choice: nothing is asked for; a property (by its place, from 0) that lacks something, or comes twice. */
  | { part: "method"; what: "properties" }
  | {
      part: "method";
      what: "property-field";
      property: number;
      name: string;
      field: "name" | "comparative" | "definition";
    }
  | { part: "method"; what: "same-property"; property: number; name: string }
  /** A stopping rule that this plan cannot have; looks that do not rise, or lie outside of what is planned. */
  | { part: "method"; what: "stopping" }
  | { part: "method"; what: "look-numbers"; least: number; people: number }
  /** Paired preference: more had no preference in the earlier study than answered there, or nobody answered. */
  | { part: "method"; what: "blank-norm"; none: number; of: number }
  /** Line scale: nothing to judge; an attribute (by its place, from 0) that lacks something or repeats another. */
  | { part: "method"; what: "attributes" }
  | {
      part: "method";
      what: "attribute-field";
      attribute: number;
      name: string;
      field: "name" | "adjective" | "definition" | "low-anchor" | "high-anchor";
    }
  | { part: "method"; what: "same-attribute" | "same-anchors"; attribute: number; name: string }
  /** Steps: a label that has to say something (by its place, from 0); two labels that say the same. */
  | { part: "method"; what: "step-label"; attribute: number; name: string; step: number }
  | { part: "method"; what: "same-labels"; attribute: number; name: string }
  /** "Just right" as what the verdict is about; "just right" asked at several moments of one chew. */
  | { part: "method"; what: "first-just-right" | "just-right-moments"; attribute: number; name: string }
  /** Seconds and chews in one plan: nobody knows which comes first. It names the first property with chews. */
  | { part: "method"; what: "mixed-clocks"; attribute: number; name: string }
  /** Ranking: what it is of, its two ends, and what they mean; ends that are the same; a prediction that does not name every product once. */
  | { part: "method"; what: "ranking-field"; field: "name" | "least" | "most" | "definition" }
  | { part: "method"; what: "same-ends" }
  | { part: "method"; what: "predicted-order" }
  /** Chewed and weighed portions: the balance; a tolerance as large as the portion itself. */
  | { part: "method"; what: "balance-step" }
  | { part: "method"; what: "tolerance"; portion: number }
  | { part: "people"; what: "people" }
  /** One person alone who chews: fewer trays than give bounds. */
  | { part: "people"; what: "one-chewer"; least: number }
  /** Several trays a person, of a method that has one. */
  | { part: "people"; what: "repeats" }
  /** Several trays a person in incomplete blocks. */
  | { part: "people"; what: "repeats-in-blocks" }
  /** Fewer than give a verdict; or so few at this alpha that not even all right would reach it. */
  | { part: "people"; what: "too-few-people"; people: number; least: number }
  | { part: "people"; what: "no-critical-number"; people: number; risk: number }
  /** The food is as it should be until a time that comes before the one from which it is. */
  | { part: "samples"; what: "window" }
  /** A blank study whose products are not one food. */
  | { part: "samples"; what: "blank-preparations" }
  | { part: "samples"; what: "products"; count: number; least: number; most: number }
  | { part: "samples"; what: "product-name" | "product-preparation"; product: number; name: string }
  | { part: "samples"; what: "same-name"; product: number; name: string }
  /** Which product is the reference; which is expected to have more of a property (by its place, from 0). */
  | { part: "samples"; what: "reference" }
  | { part: "samples"; what: "expected"; property: number; name: string }
  | { part: "samples"; what: "one-expected" }
  /** Chewed portions: the control is no product of the plan any more; fewer than two products beside it. */
  | { part: "samples"; what: "control" | "beside-control" }
  /** Line scale: which differences are judged. The place of a pair, from 0. */
  | { part: "samples"; what: "comparison-reference" | "comparison-pairs" | "factor-words" | "factor-cells" }
  | { part: "samples"; what: "comparison-pair"; pair: number }
  | { part: "samples"; what: "looks" | "masking" }
  | { part: "serving"; what: "waves" }
  | { part: "serving"; what: "wave-start" | "wave-people"; wave: number }
  | { part: "serving"; what: "people-in-waves"; planned: number; inWaves: number }
  | { part: "serving"; what: "sessions"; sessions: number; repeats: number }
  | { part: "serving"; what: "people-in-session"; session: string; planned: number; inWaves: number }
  | { part: "serving"; what: "batch"; wave: number; product: number; name: string }
  | { part: "serving"; what: "warm-up" }
  /** Portions that are weighed need a mass. */
  | { part: "samples"; what: "portion" }
  /** Pieces are to be divided, and products have unequal numbers of batches. */
  | { part: "serving"; what: "raw-uneven" }
  | { part: "serving"; what: "server" }
  /** `of` as in the plan's declarations: a product's id, "warm-up", "cleanser" or "carrier"; `product` is null for all but products. */
  | { part: "safety"; what: "declaration"; of: string; product: number | null; name: string }
  | { part: "safety"; what: "declarations-complete" }
  /** Is there a carrier, and what is it? Which limit of cooking applies? Who answers for undercooked food? */
  | { part: "safety"; what: "carrier" | "carrier-what" | "cooking-limit" | "responsible" }
  /** What people are told that they will taste, and whom they can turn to. */
  | { part: "safety"; what: "served" | "contact" }
  | { part: "safety"; what: "caution"; caution: Caution };
