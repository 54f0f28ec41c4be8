import { organizer } from "./organizer.ts";

/** Numbers as the lead reads them. `nb` keeps a number and its unit together. */
const { nb } = organizer;

/** A number as people write it, without a trail of zeros. */
export const figure = (value: number): string => String(Math.round(value * 100) / 100);
export const oneDecimal = (value: number): string => String(Math.round(value * 10) / 10);
export const percent = (share: number): string => `${figure(share * 100)}${nb}%`;
export const inHundred = (chance: number): string => {
  const of100 = chance * 100;
  if (of100 > 99.5 && of100 < 100) return "more than 99 of 100";
  if (of100 < 0.5 && of100 > 0) return "less than 1 of 100";
  return `${Math.round(of100)} of 100`;
};

/** Risks that have a phrase; others are said in percent. */
const oneIn: Record<string, string> = {
  "0.1": "one time in ten",
  "0.05": "one time in twenty",
  "0.01": "one time in a hundred",
  "0.001": "one time in a thousand",
};
export const risk = (alpha: number): string => oneIn[String(alpha)] ?? `${figure(alpha * 100)} times in a hundred`;
