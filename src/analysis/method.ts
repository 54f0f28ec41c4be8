import { type Method, methods, plannable, shapeOf, sidesFor } from "../model/method.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { requireShare } from "./check.ts";
import {
  dPrimeFrom,
  duoTrio,
  type Psychometric,
  tetrad,
  threeAlternative,
  triangle,
  twoAlternative,
} from "./thurstone.ts";

/**
 * What sets one choice method apart from another in the analysis. A further method is one more entry in `choiceMethods` (and in
 * the model's `methodShapes` once it can be planned); everything else follows from these fields.
 */
export type ChoiceMethod = {
  /** How many answers a panelist picks from, and how likely a guess is right. */
  choices: number;
  guessProbability: number;
  sides: "one";
  /** Psychometric function: share of right answers at a distance d-prime; its slope; and back (null: no finite distance). */
  rightShare: (dPrime: number) => number;
  slope: (dPrime: number) => number;
  dPrime: (rightShare: number) => number | null;
};

/** An entry from its psychometric function. Of a tetrad there are three ways to form two pairs. */
export const choiceEntry = (choices: number, psychometric: Psychometric): ChoiceMethod => ({
  choices,
  guessProbability: psychometric.guess,
  sides: "one",
  rightShare: psychometric.right,
  slope: psychometric.slope,
  dPrime: (rightShare) => dPrimeFrom(psychometric, rightShare),
});

export const choiceMethods: Partial<Record<Method, ChoiceMethod>> = {
  triangle: choiceEntry(3, triangle),
  "duo-trio": choiceEntry(2, duoTrio),
  "paired-difference": choiceEntry(2, twoAlternative),
  "three-alternative": choiceEntry(3, threeAlternative),
  tetrad: choiceEntry(3, tetrad),
};

/**
 * The family of results that a method's answers give; a paired difference that was planned two-sided gives a pair.
 * Throws   Problem "analysis/method-not-yet" for a method without a computation
 */
export function familyOf(method: Method, sides: "one" | "two" = "one"): Result["family"] {
  const planned = plannable.find((known) => known === method);
  if (!planned) throw problem("analysis/method-not-yet", { method });
  const { answer } = shapeOf(planned);
  if (answer === "marks") return "scale";
  if (answer === "order") return "rank";
  if (answer === "portions") return "portions";
  if (answer === "same-different" || answer === "a-not-a") return "kinds";
  return sidesFor(planned, sides) === "two" ? "pair" : "choice";
}

/**
 * The entry for a method's name.
 * Throws   Problem "analysis/unknown-method" for a name nobody knows, "analysis/method-not-yet" for one without an entry
 */
export function choiceMethod(name: string): ChoiceMethod {
  const known = methods.find((method) => method === name);
  if (!known) throw problem("analysis/unknown-method", { method: name, known: methods.join(", ") });
  const found = choiceMethods[known];
  if (!found) throw problem("analysis/method-not-yet", { method: name });
  return found;
}

/**
 * Share of right answers when `discriminatorShare` of the people tell and the rest guess: p0 + (1 - p0) pd.
 * Example  rightShareOf("triangle", 0.25) // 0.5
 */
export function rightShareOf(method: string, discriminatorShare: number): number {
  requireShare("discriminatorShare", discriminatorShare);
  const { guessProbability } = choiceMethod(method);
  return guessProbability + (1 - guessProbability) * discriminatorShare;
}

/**
 * Share of people who tell, from the share of right answers; 0 at or below guessing.
 * Example  discriminatorShareOf("triangle", 0.5) // 0.25
 */
export function discriminatorShareOf(method: string, rightShare: number): number {
  requireShare("rightShare", rightShare);
  const { guessProbability } = choiceMethod(method);
  return Math.max(0, (rightShare - guessProbability) / (1 - guessProbability));
}

/** d-prime that gives a share of people who tell; null at 1. Example: dPrimeOf("triangle", 0.375) // 1.89123505672750 */
export function dPrimeOf(method: string, discriminatorShare: number): number | null {
  return choiceMethod(method).dPrime(rightShareOf(method, discriminatorShare));
}

/**
 * Share of people who tell that goes with a d-prime, 0 or more.
 * Throws   Problem "analysis/not-a-distance"
 * Example  discriminatorShareAt("triangle", 1) // 0.127070012071959
 */
export function discriminatorShareAt(method: string, dPrime: number): number {
  if (!(dPrime >= 0)) throw problem("analysis/not-a-distance", { name: "dPrime", value: String(dPrime) });
  return discriminatorShareOf(method, choiceMethod(method).rightShare(dPrime));
}
