import { parseArgs } from "node:util";
import { mostAlpha } from "../analysis/check.ts";
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

/** Risk of a false alarm: above 0, at most 0.5; 0.05 when not given. */
export function alphaOf(given: Given): number {
  const expected = terminal.expected.alpha(mostAlpha);
  return number(given, "alpha", 0.05, (value) => value > 0 && value <= mostAlpha, expected);
}

/** A number that fits, or `otherwise` when the option is not there. Throws Problem "cli/bad-option". */
export function number(
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
