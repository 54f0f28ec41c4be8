import type { Unit } from "../../model/result-steps.ts";
import { chosenPercent, points, pText } from "../number.ts";
import { firstListed } from "./phrases.ts";

const who = (panelists: readonly string[]): string => firstListed(panelists);
const all = (count: number): string => `all ${count}`;

/** How the panelists used the scale, for the lead alone: plain questions, and no verdict on anybody. */
export const panel = {
  heading: "How the panel used the scale",
  lead: (subject: string) =>
    `For the lead, of ${subject}. It describes this panel and trains the next one. It is no reason to leave anybody’s marks out of this study.`,
  separated: {
    unknown:
      "Who told the products apart? Nobody tasted a product twice, so nobody’s own differences can be held against their own spread.",
    some: (panelists: readonly string[], among: number, alpha: number) =>
      panelists.length === 0
        ? `Who told the products apart? By their own repeats (p of ${chosenPercent(alpha)} or less), nobody of ${among}; with few repeats that is usual.`
        : `Who told the products apart? By their own repeats (p of ${chosenPercent(alpha)} or less): ${panelists.length === among ? all(among) : who(panelists)}.`,
  },
  agreed: {
    unknown: "Who agreed with the others? With fewer than three products in common that cannot be said.",
    some: (against: readonly string[], among: number) =>
      against.length === 0
        ? `Who agreed with the others? Nobody of ${among} put the products in an order that runs against the others’.`
        : `Who agreed with the others? The marks of ${who(against)} run against the others’ (a correlation below 0); ask whether the words of the scale were read the other way round.`,
  },
  repeated: {
    unknown: "Who repeated themselves? Nobody tasted a product twice.",
    some: (middle: number, far: readonly string[], decimals: number, unit: Unit) =>
      `Who repeated themselves? Half of the panel came within ${points(middle, decimals)} ${unit} of their own mark (standard deviation)${far.length === 0 ? "; nobody lies beyond twice that" : `; more than twice that: ${who(far)}`}.`,
  },
  used: {
    unknown: "Who used little of the scale? Nobody marked two products.",
    some: (little: readonly string[], middle: number, decimals: number, unit: Unit) =>
      `Who used little of the scale? The means that one panelist gave lie ${points(middle, decimals)} ${unit} apart in the middle of the panel${little.length === 0 ? "; nobody’s less than a quarter of that" : `; less than a quarter of that: ${who(little)}`}. What is usual here is a rule of thumb, no more.`,
  },
  caption: (subject: string) => `Panelist by panelist, ${subject}`,
  columns: ["Panelist", "Range of means", "Agreement", "Spread of repeats", "Told apart, p"],
  note: "Range: the highest less the lowest mean given to a product. Agreement: the correlation of the panelist’s means with those of all others. Spread: the standard deviation of repeats. p: products against that spread, from this panelist’s marks alone, not adjusted.",
  none: "–",
  correlation: (value: number) => value.toFixed(2).replace("-", "\u2212"),
  p: (value: number) => pText(value, 1),
};
