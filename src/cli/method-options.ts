import type { ChoiceGoal } from "../analysis/choice.ts";
import { choiceMethod, familyOf } from "../analysis/method.ts";
import type { Limit } from "../analysis/similarity.ts";
import { type Method, methods } from "../model/method.ts";
import type { NoPreference, Sides } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { type Given, number, required } from "./options.ts";

const { expected } = terminal;

/** A method that is computed, on one side or on two, and the family of its results. */
export type Computed = { method: Method; sides: Sides; family: Result["family"] };

/** Throws Problem "analysis/unknown-method" for a name nobody knows, "analysis/method-not-yet" for one not computed. */
export function computedMethod(given: Given): Computed {
  const name = required(given, "method");
  const method = methods.find((known) => known === name);
  if (!method) throw problem("analysis/unknown-method", { method: name, known: methods.join(", ") });
  // refuses what is not computed before anything is asked of its sides
  const family = familyOf(method);
  if (family === "portions") throw problem("analysis/method-not-yet", { method });
  if (method !== "paired-difference") {
    const sides = oneSided(family) ? "one" : "two";
    requireSame(given, "sides", sides, expected.sides(method, sides));
    return { method, sides, family };
  }
  const sides = given.text("sides") ?? "one";
  if (sides !== "one" && sides !== "two") {
    throw problem("cli/bad-option", { option: "--sides", value: sides, expected: expected.eitherSides });
  }
  return { method, sides, family: sides === "two" ? "pair" : "choice" };
}

/** Of a method whose plan does not choose. */
export const oneSided = (family: Result["family"]): boolean => family === "choice" || family === "kinds";

/** Throws Problem "cli/bad-option" for an option that says nothing here, with what to do instead. */
export function refuseGiven(given: Given, options: readonly string[], instead: string): void {
  for (const option of options) {
    const value = given.text(option);
    if (value !== null) throw problem("cli/bad-option", { option: `--${option}`, value, expected: instead });
  }
}

/** Throws Problem "cli/bad-option" for a value other than the one that is computed; naming that one is fine. */
export function requireSame(given: Given, option: string, computed: string, instead: string): void {
  const value = given.text(option);
  if (value !== null && value !== computed) {
    throw problem("cli/bad-option", { option: `--${option}`, value, expected: instead });
  }
}

/** Options that belong to a likeness goal alone. */
const ofLikeness = ["limit", "dprime-limit"] as const;

/** Which goal a choice test has; every other family has but one. Throws Problem "cli/bad-option". */
export function goalName(given: Given, { method, family }: Computed): ChoiceGoal["goal"] {
  const goal = given.text("goal") ?? "difference";
  const known = goal === "difference" || goal === "similarity";
  if (!known || (goal === "similarity" && family !== "choice")) {
    const instead = family === "choice" ? expected.goal : expected.onlyDifference(method);
    throw problem("cli/bad-option", { option: "--goal", value: goal, expected: instead });
  }
  if (goal === "difference") refuseGiven(given, ofLikeness, expected.similarityOnly);
  return goal;
}

/** What a choice test is to show, with the limit of a similarity goal: its limit has to be named. */
export function goalOf(given: Given, computed: Computed): ChoiceGoal {
  if (goalName(given, computed) === "similarity") return { goal: "similarity", limit: limitOf(given, computed) };
  refuseGiven(given, ["beta"], expected.similarityOnly);
  return { goal: "difference" };
}

/** The limit, as a share who can tell or as a distance, and the risk that goes with it. */
export function limitOf(given: Given, { method }: Computed): Limit {
  const beta = number(given, "beta", 0.05, (value) => value > 0 && value <= 0.5, expected.beta);
  if (given.text("dprime-limit") === null) {
    required(given, "limit");
    const share = number(given, "limit", 0.3, (value) => value > 0 && value < 1, expected.limit);
    return { discriminatorShare: share, dPrime: null, beta };
  }
  refuseGiven(given, ["limit"], expected.oneLimit);
  const dPrime = number(given, "dprime-limit", 1, isDistance, expected.distance);
  // beyond what a double tells from "everybody is right" there is no limit left to hold
  const { rightShare, guessProbability } = choiceMethod(method);
  const right = rightShare(dPrime);
  if (!(right > guessProbability && right < 1)) {
    throw problem("cli/bad-option", { option: "--dprime-limit", value: String(dPrime), expected: expected.distance });
  }
  return { discriminatorShare: 0, dPrime, beta };
}

/** A distance that a plan may name. */
export const isDistance = (value: number): boolean => value > 0 && value <= 10;

/** What a family without a limit of likeness, and without a risk of its own beside alpha, cannot be asked. */
export function requireDifference(given: Given, computed: Computed): void {
  goalName(given, computed);
  refuseGiven(given, ["beta"], expected.similarityOnly);
}

/**
 * The same for the preference and for the scale, whose intervals go with alpha. A paired difference also has intervals
 * of its own confidence.
 */
export function requireTwoSided(given: Given, computed: Computed): void {
  requireDifference(given, computed);
  if (computed.method !== "paired-difference") refuseGiven(given, ["confidence"], expected.confidenceOfAlpha);
}

/** Confidence of the interval for the share of right answers: between 0 and 1, neither of them; 0.95 when not given. */
export function confidenceOf(given: Given): number {
  return number(given, "confidence", 0.95, (value) => value > 0 && value < 1, expected.openShare);
}

/** What a terminal calls the rules for "no preference". */
const rules: Readonly<Record<string, NoPreference>> = { drop: "dropped", split: "split", report: "three-way" };
export const ruleName = (rule: NoPreference): string | null =>
  Object.keys(rules).find((name) => rules[name] === rule) ?? null;

/**
 * What becomes of the answers "no preference".
 *
 * Takes    option: that names the rule; none: how many such answers there are
 * Returns  dropped, when there are some and no rule is named; not-offered, when there are none
 * Throws   Problem "cli/bad-option" for another word
 */
export function noPreferenceOf(given: Given, option: string, none: number): NoPreference {
  const value = given.text(option);
  if (value === null) return none > 0 ? "dropped" : "not-offered";
  const rule = Object.hasOwn(rules, value) ? rules[value] : undefined;
  if (!rule) throw problem("cli/bad-option", { option: `--${option}`, value, expected: expected.noneRule });
  return rule;
}
