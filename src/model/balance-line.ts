import { readingPattern } from "./grams.ts";

/**
 * One line of text from a balance. Nothing is guessed: a line is a reading only if every word of it is known, its number
 * stands alone, and its unit is grams, kilograms or milligrams.
 *
 * The words and forms are those of published manuals: "ST,+001234.5  g" with the heads ST, US and OL (A&D, EK-L series,
 * 9-2, Data format); "US,NT,-  12.34,kg" (Tiger TI-02-P, 7.1); "+  123.5[6] g" with a unit or spaces in its place, H and
 * L (Sartorius, LE series, Data output); "192.21 g ?" (Ohaus, Explorer, Output); "? ^ v" before the number (Radwag, PS
 * series, 15.4.1); "S S 100.00 g", "S +" and "S -" (Mettler-Toledo, AT balances, Data interchange). What goes beyond
 * them, as words written out, is common practice, no source. A comma between digits is a decimal sign, never one of
 * thousands (CGPM 2003, resolution 10; from memory).
 */
export type NoReading =
  /** Its beginning, its end or something within it did not arrive. */
  | "cut"
  | "noise"
  | "too-long"
  | "overload"
  | "underload"
  | "error"
  /** Ounces, pounds, carats, pieces, percent and whatever else is no gram. */
  | "unit"
  | "no-unit"
  | "not-understood"
  /** More digits than a mass in grams has here. */
  | "out-of-range";

export type BalanceLine =
  | {
      kind: "reading";
      /** Grams with the balance's own decimals; "-" before it where the balance shows less than nothing. */
      grams: string;
      /**
       * The step of the balance in grams where the last digit of `grams` is finer than that; null where it is not. "1.5 kg"
       * is 1500 g from a balance in steps of 100 g: written as "1500" it would pass for one that shows single grams, and
       * everything that goes by the last digit (what a gain may be, whether the balance is too coarse) would be wrong.
       */
      coarseStep: number | null;
      /** Null: the balance does not say. */
      stable: boolean | null;
      /** The line as it came. */
      text: string;
    }
  | { kind: "none"; why: NoReading; text: string };

type Mark = "stable" | "unstable" | "plain" | "overload" | "underload" | "error";

const marks = new Map<string, Mark>([
  ...["ST", "S", "STABLE"].map((word) => [word, "stable"] as const),
  ...["US", "U", "UNSTABLE", "D", "?"].map((word) => [word, "unstable"] as const),
  ...["N", "NT", "NET", "G", "GS", "GROSS"].map((word) => [word, "plain"] as const),
  ...["OL", "OVERLOAD", "H", "^"].map((word) => [word, "overload"] as const),
  ...["UL", "UNDERLOAD", "L", "v"].map((word) => [word, "underload"] as const),
  ...["ER", "ERR", "ERROR", "E", "ES", "ET", "EL"].map((word) => [word, "error"] as const),
]);
const hindrances = ["error", "overload", "underload"] as const;

/** By how many places the decimal point moves to make grams. "MG" is not there: it may be a million grams. */
const places = new Map([
  ...["g", "G"].map((unit) => [unit, 0] as const),
  ...["kg", "Kg", "KG"].map((unit) => [unit, 3] as const),
  ["mg", -3],
]);

/** What stands before the number, its sign, the number (its last decimals may be bracketed), what stands after it. */
const form = /^([^0-9]*?)([+-]?)[ \t]*(\d+(?:[.,](?:\d+|\d*\[\d{1,2}\]))?)([^0-9]*)$/;
/** The answer to "send" has its own letter before the one that says how the balance stands. */
const answered = /^S +(?=[SD] )/;

/** What a line says, and whether it named any unit. */
export type ReadLine = { line: BalanceLine; unit: boolean };

/**
 * Reads one line.
 *
 * Takes    printable text without its line end; whether a number without a unit is grams
 */
export function readBalanceLine(text: string, bareGrams: boolean): ReadLine {
  const none = (why: NoReading, unit = false): ReadLine => ({ line: { kind: "none", why, text }, unit });
  if (/^S [+-]$/.test(text)) return none(text.endsWith("+") ? "overload" : "underload");
  const [, before = "", sign = "", digits = "", after = ""] = form.exec(text.replace(answered, "")) ?? [];
  const heads = wordsIn(digits === "" ? text.replace(/\d/g, " ") : before);
  const [first, ...others] = wordsIn(after);
  const bare = first === undefined || isState(first);
  const tails = bare ? wordsIn(after) : others;
  const found = [...heads, ...tails].map(markOf);
  const hindrance = hindrances.find((mark) => found.includes(mark));
  if (hindrance) return none(hindrance, !bare);
  const glued = /[A-Za-z]\d/.test(text);
  if (digits === "" || glued || found.includes(null)) return none("not-understood");
  if (found.includes("stable") && found.includes("unstable")) return none("not-understood", !bare);
  const moved = bare ? 0 : places.get(first);
  if (moved === undefined) return none("unit", true);
  if (bare && !bareGrams) return none("no-unit");
  const grams = withPointMoved(digits, moved);
  if (!readingPattern.test(grams)) return none("out-of-range", !bare);
  const stable = found.includes("stable") ? true : found.includes("unstable") ? false : null;
  const coarseStep = coarseStepOf(digits, moved);
  return {
    line: { kind: "reading", grams: sign === "-" ? `-${grams}` : grams, coarseStep, stable, text },
    unit: !bare,
  };
}

/** Words and single signs; spaces, commas, colons and semicolons part them. */
const wordsIn = (text: string): string[] => text.match(/[A-Za-z]+|[^\sA-Za-z,:;]/g) ?? [];

const markOf = (word: string): Mark | null => marks.get(word.length > 1 ? word.toUpperCase() : word) ?? null;

const isState = (word: string): boolean => ["stable", "unstable"].includes(markOf(word) ?? "");

/** In grams; null where moving the point adds no digit that the balance did not show. */
function coarseStepOf(digits: string, moved: number): number | null {
  const beyond = moved - (digits.replace(/[[\]]/g, "").split(/[.,]/)[1]?.length ?? 0);
  return beyond > 0 ? 10 ** beyond : null;
}

/** "1.4976" and 3 make "1497.6", "1234.50" and -3 make "1.23450": digits stay, zeros before them go. */
function withPointMoved(digits: string, by: number): string {
  const [whole = "", decimals = ""] = digits.replace(/[[\]]/g, "").split(/[.,]/);
  const all = whole.padStart(1 - by, "0") + decimals.padEnd(by, "0");
  const point = Math.max(whole.length, 1 - by) + by;
  const grams = all.slice(0, point).replace(/^0+(?=\d)/, "");
  return point === all.length ? grams : `${grams}.${all.slice(point)}`;
}
