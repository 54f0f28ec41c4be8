import { problem } from "../model/problem.ts";
import type { Uniform } from "./random.ts";

/**
 * Codes that mean something to many people though their digits differ: emergency and police numbers of several
 * countries, slang. Common practice, no source; a kitchen adds its own in the plan.
 */
export const reservedCodes: readonly string[] = ["108", "120", "187", "190", "192", "193", "420", "690"];

/**
 * All codes that may stand on a cup: 100 to 999, three different digits, no run up or down (123, 654), none that is
 * reserved or that the kitchen avoids.
 * Source   random three-digit codes are the standards' custom; the rest is common practice, no source
 */
export function usableCodes(avoid: readonly string[]): string[] {
  const unwanted = new Set([...reservedCodes, ...avoid]);
  return wellFormed.filter((code) => !unwanted.has(code));
}

/** Three different digits, no run up or down. */
const wellFormed = Array.from({ length: 900 }, (_, at) => String(at + 100)).filter(
  (code) => new Set(code).size === 3 && !isRun(code),
);

function isRun(code: string): boolean {
  const [a = 0, b = 0, c = 0] = [...code].map(Number);
  return (b === a + 1 && c === b + 1) || (b === a - 1 && c === b - 1);
}

/** May these codes stand on one tray? No shared first digit, no two that are reorderings or one digit apart. */
export function fitTogether(codes: readonly string[]): boolean {
  return codes.every((code, at) => codes.slice(at + 1).every((other) => pairFits(Number(code), Number(other))));
}

const hundreds = (code: number): number => Math.floor(code / 100);
const tens = (code: number): number => Math.floor(code / 10) % 10;
const ones = (code: number): number => code % 10;

function pairFits(one: number, other: number): boolean {
  if (hundreds(one) === hundreds(other)) return false;
  const [alikeTens, alikeOnes] = [tens(one) === tens(other), ones(one) === ones(other)];
  return !(alikeTens && alikeOnes) && digitsOf(one) !== digitsOf(other);
}

/** The three digits whatever their order: two reorderings give the same number. */
function digitsOf(code: number): number {
  const bit = (digit: number): number => 1 << (3 * digit);
  // how often each digit is there, three bits for each of ten
  return bit(hundreds(code)) + bit(tens(code)) + bit(ones(code));
}

const span = 1000;
let table: Uint8Array | null = null;

/** Which pairs of codes fit, worked out once: a large study asks a million times. */
function fits(): Uint8Array {
  if (table !== null) return table;
  table = new Uint8Array(span * span);
  const numbers = wellFormed.map(Number);
  for (const one of numbers) for (const other of numbers) table[one * span + other] = pairFits(one, other) ? 1 : 0;
  return table;
}

/** Tries before a draw is begun anew, and draws before it is given up: chance may use up what fits together. */
const triesPerTray = 2_000;
const drawsPerStudy = 12;

/**
 * Codes for every tray, in serving order, drawn uniformly by rejection.
 *
 * Takes    waves: how many trays each wave has (spares included), in wave order; perTray: samples on a tray;
 *          avoid: codes the kitchen never wants; random: a cryptographic source. Nothing else goes in, so that a code
 *          cannot depend on a product, an order, a batch or a seed
 * Returns  for each wave, for each tray, its codes. No code twice in the study while numbers suffice, else none twice
 *          among people who sit together
 * Throws   Problem "plan/too-many-trays" when a wave needs more codes than there are
 */
export function drawCodes(
  waves: readonly number[],
  perTray: number,
  avoid: readonly string[],
  random: Uniform,
): string[][][] {
  const usable = usableCodes(avoid);
  const whole = drawDistinct(
    waves.reduce((sum, trays) => sum + trays, 0),
    perTray,
    usable,
    random,
  );
  if (whole) return waves.map((trays) => whole.splice(0, trays));
  return waves.map((trays) => {
    const drawn = drawDistinct(trays, perTray, usable, random);
    if (!drawn) throw problem("plan/too-many-trays", { trays, codes: usable.length });
    return drawn;
  });
}

/** Codes for `trays` trays with no code twice, or null when there are too few, or the last ones do not fit together. */
function drawDistinct(trays: number, perTray: number, usable: string[], random: Uniform): string[][] | null {
  if (trays === 0) return [];
  if (trays * perTray > usable.length) return null;
  for (let draw = 0; draw < drawsPerStudy; draw++) {
    const left = usable.map(Number);
    const drawn: string[][] = [];
    for (let tray = drawTray(perTray, left, random); tray; tray = drawTray(perTray, left, random)) {
      drawn.push(tray);
      if (drawn.length >= trays) return drawn;
    }
  }
  return null;
}

/**
 * Takes the codes of one tray out of `left`; null, with `left` whole, when no lot that fits was drawn. A lot is given up
 * whole at the first code that does not fit, so that every fitting lot in every order stays equally likely.
 */
function drawTray(perTray: number, left: number[], random: Uniform): string[] | null {
  const pairs = fits();
  const lot = new Array<number>(perTray);
  const from = new Array<number>(perTray);
  for (let attempt = 0; attempt < triesPerTray && left.length >= perTray; attempt++) {
    let drawn = 0;
    while (drawn < perTray) {
      const place = random.below(left.length);
      const code = left[place] ?? 0;
      let before = 0;
      while (before < drawn && pairs[(lot[before] ?? 0) * span + code] === 1) before += 1;
      if (before < drawn) break;
      lot[drawn] = code;
      from[drawn] = place;
      drawn += 1;
    }
    if (drawn < perTray) continue;
    takeOut(left, from);
    return lot.map(String);
  }
  return null;
}

/** Takes the items at some places out of a list whose order says nothing: the last ones move into the gaps. */
function takeOut(list: number[], places: number[]): void {
  // from the back, so that no place is moved before its turn
  for (const place of places.sort((one, other) => other - one)) {
    const last = list.pop();
    if (last !== undefined && place < list.length) list[place] = last;
  }
}
