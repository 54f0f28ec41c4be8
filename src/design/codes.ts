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

/** Of every number below 1,000, worked out once: a large study asks millions of times. */
const all = Array.from({ length: 1000 }, (_, number) => String(number).padStart(3, "0"));
const hundreds = Uint8Array.from(all, (digits) => Number(digits[0]));
const tail = Uint8Array.from(all, (digits) => Number(digits.slice(1)));
/** The three digits whatever their order: how often each of the ten is there, three bits for each. */
const digits = Uint32Array.from(all, (code) => [...code].reduce((sum, digit) => sum + (1 << (3 * Number(digit))), 0));

const pairFits = (one: number, other: number): boolean =>
  hundreds[one] !== hundreds[other] && tail[one] !== tail[other] && digits[one] !== digits[other];

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
  const usable = usableCodes(avoid).map(Number);
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
function drawDistinct(trays: number, perTray: number, usable: number[], random: Uniform): string[][] | null {
  if (trays === 0) return [];
  if (trays * perTray > usable.length) return null;
  const lot: Lot = { codes: Array<number>(perTray).fill(0), from: Array<number>(perTray).fill(0) };
  for (let draw = 0; draw < drawsPerStudy; draw++) {
    const left = [...usable];
    const drawn: string[][] = [];
    for (let tray = drawTray(lot, left, random); tray; tray = drawTray(lot, left, random)) {
      drawn.push(tray);
      if (drawn.length >= trays) return drawn;
    }
  }
  return null;
}

/** Codes that are being drawn, and their places in the list they come from; one for all attempts. */
type Lot = { codes: number[]; from: number[] };

/**
 * Takes the codes of one tray out of `left`; null, with `left` whole, when no lot that fits was drawn. A lot is given up
 * whole at the first code that does not fit, so that every fitting lot in every order stays equally likely.
 */
function drawTray({ codes, from }: Lot, left: number[], random: Uniform): string[] | null {
  const perTray = codes.length;
  for (let attempt = 0; attempt < triesPerTray && left.length >= perTray; attempt++) {
    let drawn = 0;
    while (drawn < perTray) {
      const place = random.below(left.length);
      const code = left[place] ?? 0;
      let before = 0;
      while (before < drawn && pairFits(codes[before] ?? 0, code)) before += 1;
      if (before < drawn) break;
      codes[drawn] = code;
      from[drawn] = place;
      drawn += 1;
    }
    if (drawn < perTray) continue;
    takeOut(left, from);
    return codes.map((code) => all[code] ?? "");
  }
  return null;
}

/** Takes the items at some places out of a list whose order says nothing: the last ones move into the gaps. */
function takeOut(list: number[], places: number[]): void {
  places.sort((one, other) => one - other);
  // from the back, so that no place is moved before its turn
  for (let at = places.length - 1; at >= 0; at--) {
    const place = places[at] ?? 0;
    const last = list.pop();
    if (last !== undefined && place < list.length) list[place] = last;
  }
}
