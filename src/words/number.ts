/**
 * Numbers as a reader sees them. A number and its sign never part at a line's end; nothing below the last shown digit
 * reads as 0, and nothing short of everything reads as 100 %.
 */

/** No-break space between a number and what belongs to it. */
export const nbsp = "\u00a0";

/** "24", "10,000". */
export const wholeNumber = (value: number): string =>
  value < 10_000 ? String(value) : String(value).replace(/\B(?=(\d{3})+$)/g, ",");

/** At most so many decimals, without trailing zeros: "8", "8.3". */
export const shortNumber = (value: number, decimals = 1): string => String(Number(value.toFixed(decimals)));

const percentSign = (text: string): string => `${text}${nbsp}%`;

/** A share, 0 to 1, in whole percent; one decimal within a percent of either end: "38 %", "0.4 %", "less than 0.1 %". */
export function percent(share: number): string {
  const value = share * 100;
  if (value <= 0) return percentSign("0");
  if (value >= 100) return percentSign("100");
  if (value < 0.05) return `less than ${percentSign("0.1")}`;
  if (value >= 99.95) return `more than ${percentSign("99.9")}`;
  return percentSign(value < 0.95 || value >= 99.5 ? value.toFixed(1) : value.toFixed(0));
}

/** A small chance with one decimal: "2.8 %", "less than 0.1 %". */
export function finePercent(share: number): string {
  const value = share * 100;
  if (value <= 0 || value >= 100) return percent(share);
  if (value < 0.05) return `less than ${percentSign("0.1")}`;
  return value >= 99.95 ? `more than ${percentSign("99.9")}` : percentSign(value.toFixed(1));
}

/** A lower bound, rounded down so that it never promises more than it holds: "at least 10 %", "more than 0 %". */
export function atLeastPercent(share: number): string {
  if (share <= 0) return `at least ${percentSign("0")}`;
  if (share < 0.001) return `more than ${percentSign("0")}`;
  return `at least ${percentSign(floorTo(share * 100, share < 0.01 ? 1 : 0))}`;
}

/** An upper bound, rounded up so that it never promises more than it holds: "at most 31 %". */
export function atMostPercent(share: number): string {
  if (share <= 0 || share >= 1) return `at most ${percent(share)}`;
  return `at most ${percentSign(ceilTo(share * 100, share < 0.01 ? 1 : 0))}`;
}

/** A risk or confidence as it was chosen, all its digits: "95 %", "99.9 %". */
export function chosenPercent(share: number): string {
  const percent = Number((share * 100).toPrecision(9));
  const rounded = Number(percent.toFixed(1));
  // a level that a rule worked out has no end of digits; one that was typed has few
  const typed = Math.abs(percent * 1000 - Math.round(percent * 1000)) < 1e-6;
  return percentSign(String(typed || rounded === 0 || rounded === 100 ? percent : rounded));
}

/**
 * A p-value: four decimals, "less than 0.0001" below, never 0. Where rounding would put it on the other side of alpha,
 * as many more decimals as keep it on its own side.
 */
export function pText(p: number, alpha?: number): string {
  if (p >= 1) return "1";
  if (p < 0.0001) return "less than 0.0001";
  if (p > 0.9999) return "more than 0.9999";
  for (let decimals = 4; decimals < 16; decimals++) {
    const text = p.toFixed(decimals);
    if (alpha === undefined || Number(text) <= alpha === p <= alpha) return text;
  }
  return String(p);
}

/** d-prime with two decimals: "1.89"; "0" at guessing. */
export const dPrimeText = (value: number): string => (value === 0 ? "0" : value.toFixed(2));

/** A lower bound of d-prime, rounded down: "0.86". */
export const dPrimeBound = (value: number): string => (value === 0 ? "0" : floorTo(value, 2));

/** An upper bound of d-prime, rounded up: "0.87". */
export const dPrimeAtMost = (value: number): string => (value === 0 ? "0" : ceilTo(value, 2));

/**
 * Points of a scale with so many decimals and a true minus: "11.9", "−5.2". What rounding would make 0 keeps its first
 * digit ("0.03"), so that an end of an interval never moves onto or across 0.
 */
export function points(value: number, decimals = 1): string {
  const vanishes = value !== 0 && Number(value.toFixed(decimals)) === 0;
  const first = vanishes ? Math.min(20, Math.ceil(-Math.log10(Math.abs(value)))) : decimals;
  const text = Math.abs(value).toFixed(first);
  return value < 0 ? `−${text}` : text;
}

/** Decimals that suit values that lie so far apart: 1 on a scale of 100, 2 on one of 9. */
export const decimalsFor = (span: number): number =>
  span > 0 ? Math.min(12, Math.max(1, 2 - Math.floor(Math.log10(span)))) : 1;

/** A test statistic: "10.51"; with fewer decimals where it is large. */
export const statistic = (value: number): string => (value < 1000 ? value.toFixed(2) : wholeNumber(Math.round(value)));

/** Rounds up at a decimal; see `floorTo`. */
function ceilTo(value: number, decimals: number): string {
  const scale = 10 ** decimals;
  return (Math.ceil(value * scale - 1e-9) / scale).toFixed(decimals);
}

/** Rounds down at a decimal; a hair of binary noise below a decimal step counts as the step. */
function floorTo(value: number, decimals: number): string {
  const scale = 10 ** decimals;
  return (Math.floor(value * scale + 1e-9) / scale).toFixed(decimals);
}

/**
 * A probability as so many times in a round number: 0.0103 is 1 in 100, 0.0044 is 4 in 1000.
 * Returns null where even a million is too few, and where it is 1.
 */
export function timesIn(p: number): { times: number; of: number } | null {
  if (p >= 0.995 || p < 0.0000005) return null;
  let of = 100;
  while (p * of < 0.95 && of < 1_000_000) of *= 10;
  return { times: Math.max(1, Math.round(p * of)), of };
}
