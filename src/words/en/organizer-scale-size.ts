import { shortNumber } from "../number.ts";
import { organizer, plural } from "./organizer.ts";
import { figure, inHundred, oneDecimal } from "./organizer-figures.ts";

/** Words of the plan's people part for a line scale: what so many people find, were the marks to scatter as supposed. */
const { nb } = organizer;

const peopleOf = (count: number): string => plural(count, "person", "people");
const points = (value: number): string => `${figure(value)}${nb}points`;
const rounded = (value: number): string => `${oneDecimal(value)}${nb}points`;
/** What points of 100 are on a scale with so many steps; nothing more on a line. */
const stepsOf = (value: number, steps: number): string => `${shortNumber((value * (steps - 1)) / 100, 2)}${nb}steps`;
const also = (value: number, steps: number | null): string => (steps === null ? "" : ` (${stepsOf(value, steps)})`);

export const scaleSize = {
  difference: "Smallest difference that matters",
  differenceSlider: "Smallest difference that matters, by slider",
  deviation: "Scatter of one person\u2019s marks",
  deviationSlider: "Scatter of one person\u2019s marks, by slider",
  /** `steps`: of the first property's scale; null for the line. */
  hint: (steps: number | null, difference: number, deviation: number) =>
    `Difference: between the means of two products, in points: the scale runs from 0 at one end to 100 at the other. ${steps === null ? "" : `Of your ${steps} steps one is ${shortNumber(100 / (steps - 1), 1)}${nb}points, so that ${points(difference)} are ${stepsOf(difference, steps)} and a scatter of ${points(deviation)} is ${stepsOf(deviation, steps)}. `}Scatter: the standard deviation that is left once person and product are taken out.`,
  points: "points",
  from: "Where the scatter comes from",
  fromHint: "Such as \u201cstudy of 3 May\u201d or \u201ca guess\u201d. It is locked with the plan.",
  guess: "a guess",
  notKept:
    "These two figures are a guess to begin with. They become part of the plan once you change one of them, or with:",
  keep: "Keep them in the plan",
  leaveOut: "Leave them out of the plan",

  finds: (count: number, chance: number, difference: number, steps: number | null) =>
    `With ${peopleOf(count)}, a difference of ${points(difference)}${also(difference, steps)} between two products is found in ${inHundred(chance)} such studies.`,
  needed: (count: number) =>
    `${peopleOf(count)} are the first number that reaches 80${nb}of${nb}100, and every larger one does.`,
  tooMany: "No kitchen seats the people that this would take. Look for a larger difference, or ask fewer products.",
  least: (count: number, difference: number, steps: number | null) =>
    `The smallest that ${plural(count, "person finds", "people find")} in 80 of 100 studies: ${rounded(difference)}${also(difference, steps)}.`,
  nothing: (count: number) =>
    `${plural(count, "person finds", "people find")} no difference that the scale has room for.`,
  width: (points: number, steps: number | null) =>
    `A difference will be known to within ${rounded(points)}${also(points, steps)} either way (95${nb}% interval of one pair).`,
  tooFew: "Two people are the least for a rating scale, more where each has only some of the products.",
  needsProducts: "What so many people find can be said once part 4 has its products.",
  supposed: (from: string) =>
    `All of this supposes a scatter (${from}). If the true one is larger, the study finds less than is said here.`,
  several: (pairs: number, chance: number) =>
    `That is one pair of ${pairs}, held to its share of the risk. The test of all products together says that they differ in ${inHundred(chance)} such studies, if the others lie half way between.`,
  sharing: (properties: number) =>
    `${properties}${nb}properties share the risk, so each is counted with its even share of it.`,
  seen: "Part of it that is people who see the products differently",
  seenHint: "Further trays do not average that part out. Left empty, it is taken to be nothing.",
  repeats: (trays: number, chance: number, seen: number | null) =>
    seen === null
      ? `With ${trays}${nb}trays each this supposes that people see the products alike. Were all of the scatter people who see them differently, the difference would be found in ${inHundred(chance)}, as with one tray each.`
      : `With ${trays}${nb}trays each: of the scatter, ${points(seen)} are people who see the products differently, which further trays do not average out.`,
  notes: [
    "Scatter differs from panel to panel. An earlier study of like products is the best source; a guess is better named than left out.",
    "The interval is that of one pair by itself. Intervals that stand for all pairs together are wider.",
  ],
  source: "Source: noncentral t and F, panelists as blocks.",
  picture: (difference: number) =>
    `Chance of finding a difference of ${points(difference)}, in 100 such studies, by number of people. Your choice is the large dot.`,
  columns: { finds: (difference: number) => `finds ${points(difference)}`, width: "known to within" },
  either: (value: number) => `\u00b1${nb}${rounded(value)}`,

  earlier: {
    show: "Take the scatter from an earlier study",
    looking: "Looking through the opened studies \u2026",
    none: "No opened study of a rating scale with a scatter is on this device. Open one on its page first.",
    list: "Opened studies of rating scales",
    row: (title: string, attribute: string, moment: string | null) =>
      `${title}, ${attribute}${moment === null ? "" : ` ${moment}`}`,
    found: (deviation: number, people: number) => `${rounded(deviation)}, from ${peopleOf(people)}`,
    take: (deviation: number) => `Take ${oneDecimal(deviation)}`,
    takeCautious: (most: number) => `Take ${oneDecimal(most)}, to be cautious`,
    takeLabel: (deviation: number, row: string) => `Take ${rounded(deviation)} of ${row}`,
    note: `A scatter from few people is itself uncertain. Four times in five the true one is no larger than the cautious figure.`,
    from: (row: string) => row,
    fromCautious: (row: string) => `${row}, upper limit`,
  },

  summary: (chance: number, difference: number, deviation: number, from: string, steps: number | null) =>
    `Finds a difference of ${points(difference)}${also(difference, steps)} in ${inHundred(chance)} such studies, if marks scatter by ${points(deviation)}${also(deviation, steps)}${from.trim() === "" ? "" : ` (${from.trim()})`}.`,
};
