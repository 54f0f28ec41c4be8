import type { ChoiceGoal } from "../analysis/choice.ts";
import { choiceMethod, familyOf } from "../analysis/method.ts";
import { type Method, methods } from "../model/method.ts";
import type { NoPreference } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { type Given, number, required } from "./options.ts";

const { expected } = terminal;

/** A method that is computed, and the family of its results. */
export type Computed = { method: Method; family: Result["family"] };

/** Throws Problem "analysis/unknown-method" for a name nobody knows, "analysis/method-not-yet" for one not computed. */
export function computedMethod(name: string): Computed {
  const method = methods.find((known) => known === name);
  if (!method) throw problem("analysis/unknown-method", { method: name, known: methods.join(", ") });
  return { method, family: familyOf(method) };
}

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

/** What a choice test is to show, with the limit of a similarity goal: its limit has to be named. */
export function goalOf(given: Given, { method }: Computed): ChoiceGoal {
  const { sides } = choiceMethod(method);
  requireSame(given, "sides", sides, expected.sides(method, sides));
  const goal = given.text("goal") ?? "difference";
  if (goal === "difference") {
    refuseGiven(given, ["limit", "beta"], expected.similarityOnly);
    return { goal };
  }
  if (goal !== "similarity")
    throw problem("cli/bad-option", { option: "--goal", value: goal, expected: expected.goal });
  required(given, "limit");
  return {
    goal,
    limit: {
      discriminatorShare: number(given, "limit", 0.3, (value) => value > 0 && value < 1, expected.limit),
      beta: number(given, "beta", 0.05, (value) => value > 0 && value <= 0.5, expected.beta),
    },
  };
}

/** Preference and scale have one goal and two sides, and intervals that go with alpha. */
export function requireTwoSided(given: Given, { method }: Computed): void {
  requireSame(given, "goal", "difference", expected.onlyDifference(method));
  requireSame(given, "sides", "two", expected.sides(method, "two"));
  refuseGiven(given, ["confidence"], expected.confidenceOfAlpha);
  refuseGiven(given, ["limit", "beta"], expected.similarityOnly);
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
