import { chosenPercent, nbsp, percent, pText, timesIn, wholeNumber } from "../number.ts";

/** Phrases that several sentences of the report share. */

/** A number of the table, and what stands beside it: bounds, or the risk it holds for. */
export type Figure = { value: string; behind: string };
export type Range = { low: number; high: number; confidence: number };

/** How often a chance comes up, in words: "about 1 time in 100". */
export function howOften(p: number): string {
  const often = timesIn(p);
  if (often) return `about ${often.times === 1 ? "1 time" : `${often.times} times`} in ${wholeNumber(often.of)}`;
  if (p >= 1) return "every time";
  return p > 0.5 ? "more than 99 times in 100" : "less than 1 time in a million";
}

/** "p = 0.0103", or "p is less than 0.0001". */
export const pIs = (p: number, alpha: number): string =>
  `p${p < 0.0001 || (p > 0.9999 && p < 1) ? " is " : `${nbsp}=${nbsp}`}${pText(p, alpha)}`;

export const orMore = (count: number, of: number): string => `${wholeNumber(count)}${count < of ? " or more" : ""}`;
export const orLess = (count: number): string => `${wholeNumber(count)}${count > 0 ? " or fewer" : ""}`;

/** A limit as it was chosen; one that follows from a distance has no such digits and is rounded. */
export const limitText = (share: number): string =>
  Math.abs(share * 1000 - Math.round(share * 1000)) < 1e-6 ? chosenPercent(share) : percent(share);

export const range = ({ low, high, confidence }: Range): string =>
  `${percent(low)} to ${percent(high)}, ${chosenPercent(confidence)} interval`;

/** A text of the lead's, as a sentence in quotation marks. */
export const quoted = (text: string): string => `“${text.trim().replace(/\.$/, "")}.”`;
export const named = (text: string): string => `“${text}”`;

/** "a, b and c". */
export const listed = (items: readonly (number | string)[]): string =>
  items.length < 2 ? items.join() : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** The first names of a long list, and how many more there are: thousands of names are no sentence. */
export const firstListed = (items: readonly (number | string)[], most = 20): string =>
  items.length <= most
    ? listed(items)
    : `${items.slice(0, most).join(", ")} and ${wholeNumber(items.length - most)} more`;

export const plain = (value: string): Figure => ({ value, behind: "" });

/** Which of the two agreed steps a result calls for; `shown` is what was to be shown, as "if" goes on. */
export const agreedStep = (shown: string, step: string): string =>
  step.trim() === ""
    ? "What to do in this case was not recorded beforehand."
    : `Agreed beforehand, ${shown}: ${quoted(step)} That is what this result calls for.`;

/** Words for sizes of d-prime, and where they begin: a rule of thumb (common practice, no source). */
export const dPrimeSizes = [
  { from: 0, word: "faint" },
  { from: 0.5, word: "small" },
  { from: 1, word: "moderate" },
  { from: 2, word: "large" },
  { from: 3, word: "very large" },
] as const;

/** The word for a distance in either direction. */
export const dPrimeWord = (value: number): string =>
  dPrimeSizes.findLast(({ from }) => Math.abs(value) >= from)?.word ?? dPrimeSizes[0].word;

/** Of comparisons beside those that stand out. */
export const othersNotShown = "The others were not shown to differ, which does not make them alike.";
