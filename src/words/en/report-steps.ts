import type { ScaleForm } from "../../model/attribute.ts";
import { chosenPercent, nbsp, percent, points, statistic, wholeNumber } from "../number.ts";
import { listed, named, pIs } from "./phrases.ts";

/** One side of a just-right scale, as its sentences take it. `label`: what the panelist chose, "too dry". */
export type SideFacts = {
  label: string;
  answers: number;
  tooFew: boolean;
  /** Mean liking of just right less that of the side; null where nothing can be said. */
  drop: number | null;
  bounds: { low: number; high: number } | null;
};
/** What the sentences on one product of a just-right scale are made from. */
export type JustRightFacts = {
  product: string;
  answers: number;
  right: number;
  /** Too little and too much. */
  sides: readonly SideFacts[];
  /** Steps or points of the liking; null where none was asked. */
  unit: string | null;
  confidence: number;
};
export type RanksFacts = { people: number; chiSquare: number; df: number; pValue: number; exact: boolean };

const range = (low: number, high: number): string => `${points(low, 1)} to ${points(high, 1)}`;
const of = (part: number, all: number): string => `${wholeNumber(part)} of ${wholeNumber(all)}`;
/** Means of different people are held against each other, so means are what the sentence speaks of. */
const liked = (drop: number, unit: string): string =>
  Number(drop.toFixed(1)) === 0
    ? `their mean liking lies within 0.05 ${unit} of that`
    : `their mean liking is ${points(Math.abs(drop), 1)} ${unit} ${drop > 0 ? "below" : "above"} that`;
/** An interval counted the way the sentence counts: below or above. */
const within = ({ drop, bounds }: SideFacts, confidence: number): string => {
  if (drop === null) return "";
  if (!bounds) return " (there is no interval)";
  const [low, high] = drop >= 0 ? [bounds.low, bounds.high] : [0 - bounds.high, 0 - bounds.low];
  const of = Number(drop.toFixed(1)) === 0 ? ", just right less these" : "";
  return ` (${range(low, high)}${of}, ${chosenPercent(confidence)} interval${low <= 0 && high >= 0 ? "; it may be none" : ""})`;
};
const sideText = (side: SideFacts, { answers, unit, confidence }: JustRightFacts): string => {
  if (side.answers === 0) return `Nobody said ${side.label}.`;
  const said = `${of(side.answers, answers)} said ${side.label}`;
  if (unit === null || side.drop === null) return `${said}.`;
  if (side.tooFew) return `${said}, too few to tell what that does to liking.`;
  return `${said}; ${liked(side.drop, unit)} of those to whom it was just right${within(side, confidence)}.`;
};

const promise =
  "A drop says where the product was liked less, and no more: it is an association, and no promise that a change would be liked.";

/** What is said of scales with steps: how often each was chosen, and the middle that is a goal. */
export const steps = {
  ends: (last: number, low: string, high: string) =>
    low === "" && high === "" ? `${last} steps.` : `1 is ${named(low)}, ${last} is ${named(high)}.`,

  distribution: {
    caption: (subject: string) => `How often each step was chosen, ${subject}`,
    step: "Step",
    name: (step: number, label: string) => (label === "" ? String(step) : `${step} ${named(label)}`),
    total: "Answers",
    count: wholeNumber,
  },

  /** In the details, after the model. */
  formula: (forms: readonly ScaleForm["kind"][]) => [
    ...(forms.includes("steps")
      ? [
          "Steps go into the model by their numbers from 1, as if they were equally far apart. Nothing is scaled to 100.",
        ]
      : []),
    ...(forms.includes("just-right")
      ? [
          "Just right: exact intervals of the shares (Clopper and Pearson). The drop of liking is the mean liking of those to whom a product was just right less that of those who chose a side, with the interval of Welch’s t; both are different people of one product. Where somebody answered more than once for a product there are no intervals.",
        ]
      : []),
  ],

  /** In the details, beside the test of means. */
  ranks: (f: RanksFacts, alpha: number) =>
    `The same answers as ranks within each panelist, which asks for no equal steps (Friedman’s test, ${f.people} panelists with an answer for every product): chi-square ${statistic(f.chiSquare)} on ${f.df} ${f.df === 1 ? "degree" : "degrees"} of freedom, ${f.exact ? "counted out" : "by the chi-square approximation"}, ${pIs(f.pValue, alpha)}.`,

  justRight: {
    heading: (subject: string) => `Just right: ${subject}`,
    sides: { little: "too little", right: "just right", much: "too much" },
    /** The words of the step next to the middle; of five, one lies beyond it. */
    label: (words: string, beyond: boolean) => `${named(words)}${beyond ? " or more so" : ""}`,
    told: (f: JustRightFacts) =>
      f.answers === 0
        ? `Nobody answered for ${named(f.product)}.`
        : [
            `${named(f.product)} was just right to ${of(f.right, f.answers)}.`,
            ...f.sides.map((side) => sideText(side, f)),
          ].join(" "),
    noLiking: "What it does to liking cannot be told: liking was not asked of the same samples.",
    repeated:
      "Somebody answered more than once for a product. Pooled answers of one person bound nothing, so there are no intervals.",
    verdict: (products: readonly { product: string; right: number; answers: number }[]) =>
      `There is no verdict on a just-right scale, whose middle is the goal. Just right it was to ${listed(products.map(({ product, right, answers }) => `${wholeNumber(right)} of ${wholeNumber(answers)} for ${named(product)}`))}.`,
    size: (liking: boolean) =>
      `How many found too little or too much${liking ? ", and what that did to liking," : ""} stands below.`,
    agreed: "Neither step agreed beforehand is called for: they wait for a verdict, and such a scale has none.",
    table: {
      caption: (subject: string) => `Too little, just right, too much: ${subject}`,
      name: (product: string, side: string) => `${product}, ${side.replace(" ", nbsp)}`,
      /** `confidence`: null where there are no intervals. */
      columns: (confidence: number | null, liking: boolean) => {
        const beside = confidence === null ? "" : `, ${chosenPercent(confidence)} interval`;
        return ["Answer", "Answers", `Share${beside}`, ...(liking ? ["Mean liking", `Liked less by${beside}`] : [])];
      },
      none: "–",
      count: wholeNumber,
      share: (estimate: number, ends: { low: number; high: number } | null) =>
        ends ? `${percent(estimate)} (${percent(ends.low)} to ${percent(ends.high)})` : percent(estimate),
      mean: (value: number) => points(value, 2),
      drop: (value: number, ends: { low: number; high: number } | null) =>
        ends ? `${points(value, 2)} (${points(ends.low, 2)} to ${points(ends.high, 2)})` : points(value, 2),
      tooFew: (text: string) => `${text} *`,
    },
    notes: {
      means:
        "The middle of this scale is the goal. In a mean, too little and too much would cancel out, so none is shown.",
      shares: "Intervals of shares are exact.",
      drops: (intervals: number) =>
        `The drop compares different people: those who chose a side with those to whom it was just right (Welch’s t). ${intervals > 1 ? `Each of the ${wholeNumber(intervals)} intervals speaks of its own drop alone: the more of them, the likelier one leaves out 0 by chance. ` : ""}${promise}`,
      /** Where somebody answered more than once for a product. */
      dropsRepeated: `The drop is the mean liking of answers that chose a side, held against those of just right. ${promise}`,
      tooFew: (share: number) =>
        `*\u00a0Fewer than ${percent(share)} chose this side: too few to say (a rule of thumb).`,
    },
    picture: {
      name: (subject: string) => `Too little, just right, too much: ${subject}`,
      caption: "Of each product’s answers, how many lie on either side and in the middle, in percent.",
      answers: (count: number) => `${wholeNumber(count)} ${count === 1 ? "answer" : "answers"}`,
    },
  },

  picture: {
    name: (heading: string) => `How often each step was chosen: ${heading}`,
    caption: (people: number) =>
      `How often each step was chosen, product by product (${wholeNumber(people)} ${people === 1 ? "panelist" : "panelists"}); a bar is as high as its share of the product’s answers. Triangles are means.`,
  },
};
