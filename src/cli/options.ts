import { parseArgs } from "node:util";
import { mostAlpha } from "../analysis/check.ts";
import { choiceMethod } from "../analysis/method.ts";
import { type Method, methods } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import { terminal } from "../words/en/terminal.ts";

/** Options of a command: "text" takes a value, "switch" takes none. */
export type OptionKinds = Readonly<Record<string, "text" | "switch">>;
export type Given = {
  command: string;
  argument: string | null;
  text(option: string): string | null;
  has(option: string): boolean;
};

/**
 * Reads a command's words.
 *
 * Takes    argv: what follows the command; kinds: its options; argument: what its one argument is called, null for none
 * Throws   Problem "cli/unknown-option", "cli/bad-option", "cli/unexpected-argument", "cli/missing-argument"
 */
export function readGiven(
  command: string,
  argv: readonly string[],
  kinds: OptionKinds,
  argument: string | null,
): Given {
  const options = Object.fromEntries(
    Object.entries(kinds).map(([name, kind]) => [
      name,
      { type: kind === "text" ? ("string" as const) : ("boolean" as const) },
    ]),
  );
  const { tokens } = parseArgs({ args: [...argv], options, strict: false, allowPositionals: true, tokens: true });
  const values = new Map<string, string>();
  const words: string[] = [];
  for (const token of tokens) {
    if (token.kind === "positional") words.push(token.value);
    if (token.kind === "option") values.set(token.name, optionValue(command, kinds, token));
  }
  const [word, unexpected] = argument === null ? [undefined, words[0]] : words;
  if (unexpected !== undefined) throw problem("cli/unexpected-argument", { argument: unexpected, command });
  if (argument !== null && word === undefined) throw problem("cli/missing-argument", { argument, command });
  return {
    command,
    argument: word ?? null,
    text: (option) => values.get(option) ?? null,
    has: (option) => values.has(option),
  };
}

function optionValue(
  command: string,
  kinds: OptionKinds,
  { name, rawName, value }: { name: string; rawName: string; value?: string | undefined },
): string {
  const kind = Object.hasOwn(kinds, name) ? kinds[name] : undefined;
  if (!kind || rawName !== `--${name}`) throw problem("cli/unknown-option", { option: rawName, command });
  if (kind === "switch" && value !== undefined) {
    throw problem("cli/bad-option", { option: rawName, value, expected: terminal.expected.noValue });
  }
  if (kind === "text" && (value === undefined || value === "" || value.startsWith("--"))) {
    throw problem("cli/bad-option", { option: rawName, value: "", expected: terminal.expected.value });
  }
  return value ?? "";
}

/** The value of an option that must be there. */
export function required(given: Given, option: string): string {
  const value = given.text(option);
  if (value === null) throw problem("cli/missing-option", { option: `--${option}`, command: given.command });
  return value;
}

/** A whole number from low to high. */
export function whole(given: Given, option: string, low: number, high: number): number {
  const value = required(given, option);
  const number = Number(value);
  if (/^\d{1,9}$/.test(value) && number >= low && number <= high) return number;
  throw problem("cli/bad-option", { option: `--${option}`, value, expected: terminal.expected.whole(low, high) });
}

/** Confidence of the interval for the share of right answers: between 0 and 1, neither of them; 0.95 when not given. */
export function confidenceOf(given: Given): number {
  return number(given, "confidence", 0.95, (value) => value > 0 && value < 1, terminal.expected.openShare);
}

/** Risk of a false alarm: above 0, at most 0.5; 0.05 when not given. */
export function alphaOf(given: Given): number {
  const expected = terminal.expected.alpha(mostAlpha);
  return number(given, "alpha", 0.05, (value) => value > 0 && value <= mostAlpha, expected);
}

function number(
  given: Given,
  option: string,
  otherwise: number,
  fits: (value: number) => boolean,
  expected: string,
): number {
  const value = given.text(option);
  if (value === null) return otherwise;
  if (/^[\d.]+(e-?\d+)?$/i.test(value) && fits(Number(value))) return Number(value);
  throw problem("cli/bad-option", { option: `--${option}`, value, expected });
}

/** Goal and sides may be named; so far there is one of each. Throws Problem "cli/bad-option" for another one. */
export function requireComputed(given: Given, method: Method): void {
  const { sides } = choiceMethod(method);
  for (const [option, computed, expected] of [
    ["goal", "difference", terminal.expected.goal],
    ["sides", sides, terminal.expected.sides(method, sides)],
  ] as const) {
    const value = given.text(option);
    if (value !== null && value !== computed) {
      throw problem("cli/bad-option", { option: `--${option}`, value, expected });
    }
  }
}

/** A method that is computed. Throws Problem "analysis/unknown-method", "analysis/method-not-yet". */
export function computedMethod(name: string): Method {
  choiceMethod(name);
  const method = methods.find((known) => known === name);
  if (!method) throw problem("analysis/unknown-method", { method: name, known: methods.join(", ") });
  return method;
}
