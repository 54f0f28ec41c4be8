import type { Method } from "../../model/method.ts";
import type { Adjustment } from "../../model/result-scale.ts";
import { chosenPercent } from "../number.ts";
import { minus } from "./reader-parts.ts";

type ChoiceFormula = {
  judgments: number;
  correct: number;
  choices: number;
  alpha: number;
  needed: number | null;
  bounds: boolean;
  /** The p-value counts paths through looks at the answers, not one tail. */
  looks: boolean;
  /** The question shares its risk with others of the same trays. */
  family: boolean;
};

const distance = (bounds: boolean): string =>
  `d\u2032 is the distance at which the method\u2019s psychometric function gives the share right${bounds ? "; its bound is the same bound, carried over" : ""}.`;
const shareWhoTell = (choices: number): string =>
  `Share who can tell = (share right ${minus} 1/${choices}) / (1 ${minus} 1/${choices}), and 0 where that would be below 0.`;
const dots = (of: string): string =>
  `The dots of the picture stand at the middles of 100 equal parts of the exact distribution of ${of}.`;

const fixedText = (f: ChoiceFormula): string[] => [
  `p is the chance that ${f.judgments} answers hold ${f.correct} or more right ones when each is right with chance 1/${f.choices}: the upper tail of the binomial distribution, exact, with no approximation by a bell curve.`,
  neededText(f),
];
function neededText({ needed, alpha, family }: ChoiceFormula): string {
  const reach = family
    ? `whose p, adjusted beside the others of the family, is ${alpha} or less`
    : `whose upper tail is ${alpha} or less`;
  return needed === null
    ? `Needed would be a count ${reach}; with so few answers there is none.`
    : `Needed is the smallest count ${reach}: ${needed}.`;
}
const stoppedText = [
  "p adds up the chances under guessing of every path that ends with a yes earlier, or at the same look with as many right or more: exact, by going through the looks one after the other.",
  "What was needed at each look stands in the table of looks. The bounds are the shares at which the chance of such a path is the risk.",
];
const boundsText = ({ bounds, family }: ChoiceFormula): string =>
  bounds
    ? `Its bound is exact (Clopper and Pearson) and one-sided at confidence 1 ${minus} alpha, so that it lies above 0 just when p is alpha or less; a range with two ends is at 1 ${minus} 2 alpha for the same reason.${family ? " Alpha here is the risk that the family left for this question (Holm)." : ""}`
    : "The count of answers gives it no bounds: some people answered more than once, and answers of one person hang together.";

/** How several comparisons of one property are judged together. */
const together: Record<Adjustment, string> = {
  none: "",
  tukey:
    "All pairs together: the range of the means over their standard error, against the studentized range with as many groups as products (Tukey; with unequal numbers of marks after Kramer). Interval and adjusted p come from the same distribution.",
  dunnett:
    "Comparisons with the reference together: the farthest of them, against the distribution of the largest of correlated t (Dunnett). With uneven marks the least correlation of any two stands for all, which errs on the safe side.",
  holm: "Comparisons named beforehand: ordered by p, the smallest is multiplied by their number, the next by one less, and so on; none may fall below the one before it, and none exceeds 1 (Holm). Each interval stands at the risk that these steps left it.",
};

/** How every number was computed, and what it takes to check it. */
export const details = {
  heading: "Details",
  formula: "The exact formula",
  formulaText: {
    difference: (f: ChoiceFormula) => [
      ...(f.looks ? stoppedText : fixedText(f)),
      shareWhoTell(f.choices),
      ...(f.looks ? [] : [boundsText(f)]),
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
    /** Likeness where people answered several times: the spread between people carries the test. */
    similarityRepeats: (f: { choices: number; limit: number; beta: number }) => [
      `p is from a beta-binomial with guessing built in: how well a mean share of ${chosenPercent(f.limit)} who can tell fits the people\u2019s own counts, against the best fit; one-sided, by the signed root of the likelihood ratio, an approximation.`,
      `The upper bound is the mean share at which that p is ${f.beta}, so that it lies under the limit just when p is ${f.beta} or less. A plain count of answers has no number that would decide.`,
      shareWhoTell(f.choices),
      dots("a panel at the limit"),
    ],
    byPerson: () => [
      "Several answers a person: every person\u2019s lead is turned over or not by a coin toss, all ways counted; p is the share of ways as uneven or more, exact. The count of answers has no number that would decide.",
      "Shares of the answers are estimates without bounds, since answers of one person hang together.",
      dots("picking at random"),
    ],
    preference: (f: { judgments: number; more: number; alpha: number; needed: number | null }) => [
      `p is twice the chance that ${f.judgments} answers hold ${f.more} or more for one product when each is decided by a fair coin, at most 1: both tails of the binomial distribution, exact.`,
      f.needed === null
        ? `Needed would be a count whose doubled tail is ${f.alpha} or less; with so few answers there is none.`
        : `Needed is the smallest count for either product whose doubled tail is ${f.alpha} or less: ${f.needed}.`,
      `Intervals of shares are exact (Clopper and Pearson), two-sided at confidence 1 ${minus} alpha, so that those of the answers counted leave out one half just when p is alpha or less.`,
      dots("picking at random"),
    ],
    kinds: (f: {
      unlike: number;
      like: number;
      told: number;
      all: number;
      within: boolean;
      method: "same-different" | "a-not-a";
    }) => [
      f.within
        ? `p is the chance that ${f.told} or more of the ${f.all} such answers fall on the first kind of tray, when within each person they fall blindly on that person\u2019s trays: a sum of independent hypergeometric counts, exact.`
        : `p is the chance that ${f.told} or more of the ${f.all} such answers fall on the ${f.unlike} trays of the first kind, and the rest on the ${f.like} of the second, when they fall blindly: the upper tail of the hypergeometric distribution, exact (Fisher, one-sided).`,
      "The odds ratio is the conditional estimate, given how many of each kind were served and so answered; its bound is exact and goes with the test.",
      f.method === "a-not-a"
        ? `Model of d\u2032: samples of A lie about 0, the others about d\u2032, with the normal curve; the answer is \u201cnot A\u201d above a line c. P(not A | A) = \u03a6(${minus}c), P(not A | not A) = \u03a6(d\u2032 ${minus} c).`
        : `Model of d\u2032: the answer is \u201cdifferent\u201d where the two sensations lie further apart than a line t. P(different | one product) = 2\u03a6(${minus}t/\u221a2), P(different | two products) = \u03a6((${minus}t ${minus} d\u2032)/\u221a2) + \u03a6((${minus}t + d\u2032)/\u221a2).`,
      "The bounds of d\u2032 are of the profile likelihood, an approximation.",
      dots("answers spread blindly"),
    ],
    psychometric: {
      triangle: `Triangle: share right = 2 \u222b\u2080^\u221e [\u03a6(${minus}z\u221a3 + d\u2032\u221a(2/3)) + \u03a6(${minus}z\u221a3 ${minus} d\u2032\u221a(2/3))] \u03c6(z) dz (from memory).`,
      "duo-trio": `Duo-trio: share right = 1 ${minus} \u03a6(d\u2032/\u221a2) ${minus} \u03a6(d\u2032/\u221a6) + 2 \u03a6(d\u2032/\u221a2) \u03a6(d\u2032/\u221a6) (from memory).`,
      "paired-difference": "Two-alternative choice: share right = \u03a6(d\u2032/\u221a2) (from memory).",
      "three-alternative": `Three-alternative choice: share right = \u222b \u03a6(z)\u00b2 \u03c6(z ${minus} d\u2032) dz (from memory).`,
      tetrad: `Tetrad: share right = 1 ${minus} 2 \u222b \u03c6(z) [2 \u03a6(z) \u03a6(z ${minus} d\u2032) ${minus} \u03a6(z ${minus} d\u2032)\u00b2] dz (from memory).`,
    } as Partial<Record<Method, string>>,
    more: {
      score: (low: string, high: string, confidence: number) =>
        `By the score, the share right lies from ${low} to ${high} (${chosenPercent(confidence)}).`,
      profile: (low: string, high: string, confidence: number) =>
        `By the profile likelihood, d\u2032 lies from ${low} to ${high} (${chosenPercent(confidence)}, an approximation).`,
      noEnd: "no finite end",
      error: (value: string) => `Standard error of d\u2032, from the slope of the psychometric function: ${value}.`,
      noError:
        "d\u2032 has no standard error here: the psychometric function is flat at and below guessing, and an estimate without a finite value has none.",
      holm: "Adjusted p: the p of the family are ordered, the smallest is multiplied by their number, the next by one less, and so on; none may fall below the one before it, and none exceeds 1 (Holm).",
      spread:
        "Beta-binomial: each person has a share of their own, from a beta distribution; mean and spread by maximum likelihood, intervals by profile likelihood, the test of no spread by the likelihood ratio (one-sided). All are approximations.",
    },
    rank: (f: { exact: boolean; shared: boolean; page: { exact: boolean } | null; products: number }) => [
      `Friedman: the chi-square is ${f.products - 1} times the squared distances of the rank sums from their mean, added up, over the squared distances of all ranks from theirs${f.shared ? "; shared places count as their mean there, which is the correction for ties" : ""}.`,
      f.exact
        ? "p is exact: every person\u2019s ranks in every order are as likely as in any other, all of them are counted out, and p is the share in which the rank sums lie at least so far apart."
        : "p is by the chi-square distribution: counting out all orders of so many people would take too long.",
      ...(f.page
        ? [
            `Page: L is each rank sum times the product\u2019s place in the order expected, added up; p is the chance of so large an L or a larger one, ${f.page.exact ? "counted out in the same way" : "by the normal distribution, without a correction for whole numbers"}. It was locked as the question, so it decides.`,
          ]
        : []),
      `Pairs: the adjusted p of a difference is the chance that some two rank sums lie at least so far apart, ${f.exact ? "counted out in the same way" : "by the range of independent normal values"}. An interval holds the differences that this test would not exclude.`,
      "The place on the tray is balanced by the orders served. An order that lacks a product is left out of every number and named.",
    ],
    scale: (f: {
      repeats: boolean;
      /** Everybody in the test marked every product, if not all as often. */
      complete: boolean;
      unequal: boolean;
      perTray: number | null;
      confidence: number;
      curves: boolean;
      /** The mixed model leads for one property or more; the place served is a term of it. */
      mixed: boolean;
      place: boolean;
      adjustments: readonly Adjustment[];
    }) => [
      `Model: value = panelist + product + error, by least squares${f.repeats ? "; repeats of one panelist and product are averaged first" : ""}${f.unequal ? ", and each such mean counts alike however many they are" : ""}. F compares the mean square of products with that of the error, which is panelists by products.`,
      f.complete
        ? "Every panelist marked every product, so the order in which sources are taken out does not matter."
        : f.perTray === null
          ? "Marks are missing: products are tested after panelists are taken out, and panelists after products. Nothing is filled in."
          : `Each panelist got ${f.perTray} of the products, in balanced incomplete blocks: products are tested after panelists are taken out (the intra-block analysis), so that two products are compared within those who marked both and over the others that link them.`,
      ...(f.mixed
        ? [
            "Where not everybody marked everything as often, the mixed model leads: value = product + panelist + error, and whatever further terms are named below, with panelists drawn from many (and panelists by products where there are repeats), by restricted maximum likelihood. F, means and each comparison have the degrees of freedom of Satterthwaite; those of the comparisons below are each one\u2019s own.",
          ]
        : []),
      `The interval of one comparison alone is its difference plus and minus the ${chosenPercent(f.confidence)} point of Student\u2019s t times its standard error, with the degrees of freedom of ${f.mixed ? "the analysis that leads" : "the error"}.`,
      ...f.adjustments.map((adjustment) => together[adjustment]).filter((line) => line !== ""),
      ...(f.curves
        ? [
            "Over the chew: the last mark of a chew less its first, and the area by trapezoids over the planned seconds, are one value a panelist and product each, and go through the same model. Shape: within panelists with all marks, product by moment is tested against panelist by product by moment.",
          ]
        : []),
      `The place on the tray is ${f.complete && !f.unequal ? "balanced by the orders served and is " : ""}${f.place ? "a term of the mixed model alone" : "no term of the model"}. No mark was transformed, standardized or left out.`,
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
