import { pText, shortNumber, statistic, wholeNumber } from "../number.ts";

const equals = (p: number): string => {
  const text = pText(p);
  return /^\d/.test(text) ? `p = ${text}` : `p is ${text}`;
};

/** The check by reshuffling: what it asks, its knobs, what it found. */
export const reshuffle = {
  heading: "Check by reshuffling",
  asks: "If the products were alike, each panelist’s marks could as well have stood beside other products. So every panelist’s marks are dealt to the products at random, again and again, and F is computed each time. How often is it at least as large as with the marks as they were given?",
  differs:
    "The F test with panelists as blocks asks the same and answers with a curve that fits when what is left over scatters alike for everybody and nothing lies far off. Reshuffling does without that curve. With few panelists, marks crowded at the ends of the scale, or a few marks far from all others, the two can differ. The rule of this result stays as it is stated above; this is a check beside it.",
  attribute: "Property",
  seed: "Seed",
  seedHint: "Any text. The same seed gives the same shuffles.",
  start: (times: number) => `Reshuffle ${wholeNumber(times)} times`,
  underWay: (share: number) => `${Math.floor(share * 100)} of 100 parts done`,
  stop: "Stop",
  stopped: "Stopped. Nothing was kept of it.",
  nothing: "There is nothing to reshuffle: every panelist gave all products the same mark.",
  found: (f: {
    subject: string;
    times: number;
    seed: string;
    atLeast: number;
    fValue: number;
    pValue: number;
    error: number;
    byF: number;
  }) =>
    `${f.subject}: ${wholeNumber(f.atLeast)} of ${wholeNumber(f.times)} shuffles with the seed “${f.seed}” made F ${statistic(f.fValue)} or more, as it was observed. By reshuffling ${equals(f.pValue)}, with a standard error of ${shortNumber(f.error, 4)} that more shuffles would make smaller. By the F test with panelists as blocks ${equals(f.byF)}.`,
  least: (times: number) =>
    `With ${wholeNumber(times)} shuffles p cannot come out below 1 in ${wholeNumber(times + 1)}.`,
};
