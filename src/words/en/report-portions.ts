import { chosenPercent, nbsp, points, pText, shortNumber, wholeNumber } from "../number.ts";
import { agreedStep, howOften, named, pIs, plain } from "./phrases.ts";
import { type Bounds, boundsText, percentOf, within } from "./weighing.ts";

/** What is said of a study of chewed portions beside what the masses say themselves (`chewWords`). */
export const portions = {
  verdict: {
    withheld:
      "No verdict: the opened key does not match the seal made at lock, so nobody can say which product a portion was of.",
    nothing: "There is no verdict: no two products have portions that were chewed and weighed in full.",
    tooFewPeople: (people: number, least: number) =>
      people === 1
        ? `There are too few portions for a verdict: of one person at least ${least} are needed. The numbers stand without one.`
        : `There are too few people for a verdict: ${people} had both products, and a panel is at least ${least}. The numbers stand without one.`,
  },
  size: {
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string) => agreedStep("if a difference is shown", ifYes),
    "not-reached": (ifNo: string) => agreedStep("if that is not shown", ifNo),
  },
  meaning: (first: string, second: string, pValue: number, alpha: number) =>
    `If portions of ${named(first)} and ${named(second)} gained the same, means so far apart or farther would come up ${howOften(pValue)} (${pIs(pValue, alpha)}).`,
  rows: {
    people: "People with portions that count",
    portions: "Portions that count",
    gain: (product: string) => `Gain of ${named(product)}`,
    difference: (first: string, second: string) => `${named(second)} less ${named(first)}`,
    grams: (first: string, second: string) => `${named(second)} less ${named(first)}, in grams`,
    pValue: "p, two-sided t test",
    seconds: "Chewed, mean",
    control: (product: string) => `Gain of the control ${named(product)}`,
  },
  values: {
    count: (value: number) => plain(wholeNumber(value)),
    gain: (value: number | null, bounds: Bounds | null) =>
      value === null
        ? plain("none")
        : { value: percentOf(value), behind: bounds ? boundsText(bounds, within(bounds, value)) : "" },
    points: (value: number, bounds: Bounds | null) => ({
      value: `${points(value, within(bounds, value))} points`,
      behind: bounds ? boundsText(bounds, within(bounds, value)) : "",
    }),
    grams: (value: number, bounds: Bounds | null) => ({
      value: `${points(value, 3)}${nbsp}g`,
      behind: bounds ? boundsText(bounds, 3) : "",
    }),
    p: (p: number, alpha: number) => plain(pText(p, alpha)),
    seconds: (value: number, planned: number | null) => ({
      value: `${shortNumber(value, 1)}${nbsp}s`,
      behind: planned === null ? "" : `planned: ${shortNumber(planned, 1)}${nbsp}s`,
    }),
  },
  means: { heading: "Gains", lead: "A gain is mass out less mass in, in percent of the portion; it can be below 0." },
  persons: {
    heading: "Person by person",
    lead: "Each person’s portions of a product are averaged first. People are seats here, never names.",
    leadOfFile: "Each person’s portions of a product are averaged first. People are called as in the file.",
    alone: "One person chewed: portions are the unit.",
    caption: "Each person’s mean gains, in percent of the portion",
    columns: (products: readonly string[]) => ["Person", ...products, "Seconds"],
    none: "none",
    /** `portions` null: everybody has as many. */
    gain: (percent: number, portions: number | null) =>
      `${percentOf(percent)}${portions === null ? "" : ` (${portions})`}`,
    seconds: (values: readonly number[]) => {
      const [low, high] = [Math.min(...values), Math.max(...values)].map((value) => shortNumber(value, 1));
      return low === high ? `${low}` : `${low} to ${high}`;
    },
    uneven: "In parentheses: of how many portions.",
  },
  picture: {
    name: "Gains",
    mean: (value: number | null) => (value === null ? "no gain" : `mean ${percentOf(value)}`),
    difference: (value: number, bounds: Bounds) =>
      `${points(value, within(bounds, value))} points (${boundsText(bounds, within(bounds, value))})`,
    ends: { low: "lost", high: "gained" },
    caption: (people: number, two: boolean) =>
      `Each line joins the mean gains of one of ${wholeNumber(people)} people, in percent of the portion; the upright strokes are the means over people.${two ? " Below, on the same scale: the difference of the means with its interval, its zero under the mean it is counted from." : " A line ends where a product was not weighed."}`,
    captionMeans: (confidence: number) =>
      `Mean gain of each product with its ${chosenPercent(confidence)} interval, from how far this person’s portions differ; dotted: no gain.`,
    differences: "Differences of the gains",
    captionDifferences: (confidence: number) =>
      `Each product’s gain less that of the first, in percentage points, with its ${chosenPercent(confidence)} interval. An interval that leaves out 0 stands out.`,
    row: (value: number | null, bounds: Bounds | null, unit: "points" | "percent") => {
      if (value === null) return "none";
      const shown = unit === "percent" ? percentOf(value) : `${points(value, within(bounds, value))} points`;
      return bounds
        ? `${shown} (${points(bounds.low, within(bounds, value))} to ${points(bounds.high, within(bounds, value))})`
        : shown;
    },
  },
  formula: (paired: boolean, several: boolean, confidence: number) => [
    "Mass out is what the closed cup weighs, less the empty cup and the rinse water. Gain in percent is 100 times mass out less mass in, by mass in.",
    paired
      ? `A person’s gains of a product are averaged. The difference is the mean of the people’s own differences, its interval and p those of the paired t test (${chosenPercent(confidence)}).`
      : `Of one person each portion counts. The difference is that of the means, its interval and p those of Welch’s t test (${chosenPercent(confidence)}).`,
    ...(several ? ["Several products are held against the first, each at an even share of the risk."] : []),
    "How many times one gain is another is said only where Fieller’s set is an interval.",
  ],
};
