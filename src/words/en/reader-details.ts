import { chosenPercent } from "../number.ts";
import { minus } from "./reader-parts.ts";

type ChoiceFormula = {
  judgments: number;
  correct: number;
  choices: number;
  alpha: number;
  needed: number | null;
  bounds: boolean;
};

const distance = (bounds: boolean): string =>
  `d\u2032 is the distance at which the method\u2019s psychometric function gives the share right${bounds ? "; its bound is the same bound, carried over" : ""}.`;
const shareWhoTell = (choices: number): string =>
  `Share who can tell = (share right ${minus} 1/${choices}) / (1 ${minus} 1/${choices}), and 0 where that would be below 0.`;
const dots = (of: string): string =>
  `The dots of the picture stand at the middles of 100 equal parts of the exact distribution of ${of}.`;

/** How every number was computed, and what it takes to check it. */
export const details = {
  heading: "Details",
  formula: "The exact formula",
  formulaText: {
    difference: (f: ChoiceFormula) => [
      `p is the chance that ${f.judgments} answers hold ${f.correct} or more right ones when each is right with chance 1/${f.choices}: the upper tail of the binomial distribution, exact, with no approximation by a bell curve.`,
      f.needed === null
        ? `Needed would be a count whose upper tail is ${f.alpha} or less; with so few answers there is none.`
        : `Needed is the smallest count whose upper tail is ${f.alpha} or less: ${f.needed}.`,
      shareWhoTell(f.choices),
      f.bounds
        ? `Its bound is exact (Clopper and Pearson) and one-sided at confidence 1 ${minus} alpha, so that it lies above 0 just when p is alpha or less; a range with two ends is at 1 ${minus} 2 alpha for the same reason.`
        : "It has no bounds here: some people answered more than once, and answers of one person hang together.",
      distance(f.bounds),
      dots("guessing"),
    ],
    similarity: (f: ChoiceFormula & { limit: number; right: number; beta: number }) => [
      `p is the chance that ${f.judgments} answers hold ${f.correct} or fewer right ones when ${chosenPercent(f.limit)} of the people can tell and the rest guess, that is when each answer is right with chance ${Number(f.right.toPrecision(6))}: the lower tail of the binomial distribution, exact.`,
      f.needed === null
        ? `The most allowed would be a count whose lower tail is ${f.beta} or less; with so few answers there is none.`
        : `The most allowed is the largest count whose lower tail is ${f.beta} or less: ${f.needed}.`,
      shareWhoTell(f.choices),
      `Its upper bound is exact (Clopper and Pearson) and one-sided at confidence 1 ${minus} beta, so that it lies under the limit just when p is beta or less.`,
      distance(true),
      dots("a panel at the limit"),
    ],
    preference: (f: { judgments: number; more: number; alpha: number; needed: number | null }) => [
      `p is twice the chance that ${f.judgments} answers hold ${f.more} or more for one product when each is decided by a fair coin, at most 1: both tails of the binomial distribution, exact.`,
      f.needed === null
        ? `Needed would be a count whose doubled tail is ${f.alpha} or less; with so few answers there is none.`
        : `Needed is the smallest count for either product whose doubled tail is ${f.alpha} or less: ${f.needed}.`,
      `Intervals of shares are exact (Clopper and Pearson), two-sided at confidence 1 ${minus} alpha, so that those of the answers counted leave out one half just when p is alpha or less.`,
      dots("picking at random"),
    ],
    scale: (f: { repeats: boolean; complete: boolean; confidence: number }) => [
      `Model: value = panelist + product + error, by least squares${f.repeats ? "; repeats of one panelist and product are averaged first" : ""}. F compares the mean square of products with that of the error, which is panelists by products.`,
      f.complete
        ? "Every panelist marked every product, so the order in which sources are taken out does not matter."
        : "Marks are missing: products are tested after panelists are taken out, and panelists after products. Nothing is filled in.",
      `A pair\u2019s interval is its difference plus and minus the ${chosenPercent(f.confidence)} point of Student\u2019s t times its standard error, with the degrees of freedom of the error; it is not adjusted for other pairs.`,
      "Adjusted p: the pairs of one property are ordered by p, the smallest is multiplied by their number, the next by one less, and so on; none may fall below the one before it, and none exceeds 1 (Holm).",
      "The place on the tray is balanced by the orders served and is no term of the model. No mark was transformed, standardized or left out.",
    ],
  },
  software: "Software and seed",
  computed: "Computed by",
  locked: "Locked by",
  version: (app: string) => `Cloche ${app}`,
  seed: "Seed of the serving orders",
  study: "Study",
  key: "The key, and how to check it by hand",
  commitment: "Commitment",
  salt: "Salt",
  checkByHand:
    "The commitment is the SHA-256 of one text: a fixed line, the salt, and the key as canonical JSON. Save that text, take its SHA-256 with any program, and compare it with the commitment above and with the one on the sealed page.",
  saveKeyText: "Save the text that was hashed",
  tray: "Tray",
  order: "Order",
  samples: "Code, product and batch, in serving order",
  sample: (product: string, batch: string) => (batch === "" ? product : `${product}, ${batch}`),
};
