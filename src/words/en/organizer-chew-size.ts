import { organizer, plural } from "./organizer.ts";
import { figure, inHundred, oneDecimal } from "./organizer-figures.ts";

/** Words of the plan's people part for chewed portions: what so many people find, were they to differ as supposed. */
const { nb } = organizer;
type Scatter = { deviation: number; from: string };

const peopleOf = (count: number): string => plural(count, "person", "people");
const points = (value: number): string => `${figure(value)}${nb}percentage points`;
const rounded = (value: number): string => `${oneDecimal(value)}${nb}percentage points`;
const origin = (from: string): string => (from.trim() === "" ? "" : ` (${from.trim()})`);

export const chewSize = {
  difference: "Difference that matters",
  deviation: "Scatter of it from person to person",
  points: "points",
  hint: `Difference: between the mean gains of two products, in percentage points. Scatter: the standard deviation, over people, of one person\u2019s difference, each side being the mean of that person\u2019s portions. An earlier study of like food is the best source; more portions a person make it smaller, but not to nothing.`,
  from: "Where the scatter comes from",
  fromHint: "Such as \u201cstudy of 3 May\u201d or \u201ca guess\u201d. It is locked with the plan.",
  open: "How many people it takes can be said once both figures are there. Nobody can know the scatter beforehand: without an earlier study, name a guess as one.",
  needsProducts: "What so many people find can be said once part 4 has two products besides the control.",
  finds: (count: number, chance: number, difference: number) =>
    `With ${peopleOf(count)}, a difference of ${points(difference)} is found in ${inHundred(chance)} such studies.`,
  needed: (count: number) =>
    `${peopleOf(count)} are the first number that reaches 80${nb}of${nb}100, and every larger one does.`,
  tooMany: "No kitchen seats the people that this would take. Look for a larger difference.",
  least: (count: number, difference: number) =>
    `The smallest that ${plural(count, "person finds", "people find")} in 80 of 100 studies: ${rounded(difference)}.`,
  nothing: (count: number) => `${plural(count, "person finds", "people find")} no difference of any use.`,
  width: (value: number) =>
    `A difference will be known to within ${rounded(value)} either way (95${nb}% interval, if the scatter is as supposed).`,
  sharing: (comparisons: number) =>
    `${comparisons}${nb}products are compared with the first, each at its even share of the risk.`,
  supposed: (from: string) =>
    `All of this supposes a scatter${origin(from)}. If the true one is larger, the study finds less than is said here.`,
  picture: (difference: number) =>
    `Chance of finding a difference of ${points(difference)}, in 100 such studies, by number of people. Your choice is the large dot.`,
  columns: { finds: (difference: number) => `finds ${points(difference)}`, width: "known to within" },
  either: (value: number) => `\u00b1${nb}${oneDecimal(value)}${nb}points`,
  source:
    "Source: noncentral t, differences within people. Portions of one person are averaged and are no further people.",
  summary: (chance: number, difference: number, scatter: Scatter | null) =>
    `Finds a difference of ${points(difference)} in ${inHundred(chance)} such studies${scatter === null ? "" : `, if people scatter by ${points(scatter.deviation)}${origin(scatter.from)}`}.`,
};
