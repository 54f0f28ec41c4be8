import type { Method } from "../../model/plan.ts";
import type { ChoiceStatistics } from "../../model/result.ts";
import {
  atLeastPercent,
  chosenPercent,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  pText,
  shortNumber,
  timesIn,
  wholeNumber,
} from "../number.ts";
import { caveats, departures } from "./report-notes.ts";

/** What the verdict sentences are made from. `products` and the plan are missing when answers came without a study. */
export type VerdictFacts = {
  method: Method;
  correct: number;
  judgments: number;
  needed: number | null;
  alpha: number;
  products: readonly [string, string] | null;
  planned: boolean;
  leastForVerdict: number;
};
type Bound = { estimate: number | null; low: number; confidence: number };
type Range = { low: number; high: number; confidence: number };

const quoted = (text: string): string => `“${text.trim().replace(/\.$/, "")}.”`;
const pair = (products: VerdictFacts["products"]): string =>
  products ? `“${products[0]}” and “${products[1]}”` : "the two products";
const picked = (method: Method): string => (method === "triangle" ? "picked the odd sample" : "were right");
const score = (facts: VerdictFacts): string =>
  `${wholeNumber(facts.correct)} of ${wholeNumber(facts.judgments)} ${picked(facts.method)}`;
const rule = (facts: VerdictFacts): string => {
  if (facts.needed === null) {
    return `with ${wholeNumber(facts.judgments)} answers no count is rare enough for the agreed risk of ${chosenPercent(facts.alpha)}`;
  }
  return `the ${facts.planned ? "locked plan asks" : "rule asks"} for ${wholeNumber(facts.needed)}`;
};
const orMore = (correct: number, judgments: number): string =>
  `${wholeNumber(correct)}${correct < judgments ? " or more" : ""} of ${wholeNumber(judgments)}`;
const range = ({ low, high, confidence }: Range): string =>
  `${percent(low)} to ${percent(high)}, ${chosenPercent(confidence)} interval`;

function howOften(p: number): string {
  const often = timesIn(p);
  if (often) return `about ${often.times === 1 ? "1 time" : `${often.times} times`} in ${wholeNumber(often.of)}`;
  if (p >= 1) return "every time";
  return p > 0.5 ? "more than 99 times in 100" : "less than 1 time in a million";
}

/** Every sentence and label of the report page. Numbers come in, words come out; nothing is decided here. */
export const report = {
  methods: {
    triangle: "Triangle test",
    "duo-trio": "Duo-trio test",
    "paired-difference": "Paired difference test",
    "three-alternative": "Three-alternative choice",
    tetrad: "Tetrad test",
    "same-different": "Same-different test",
    "a-not-a": "A-not-A test",
    "paired-preference": "Paired preference",
    "line-scale": "Line scale",
    ranking: "Ranking",
    "chew-and-weigh": "Chew and weigh",
  } satisfies Record<Method, string>,
  goals: { difference: "to show a difference" } satisfies Record<ChoiceStatistics["goal"], string>,

  /** The first sentence: what the rule that was locked beforehand says. */
  verdict: {
    reached: (facts: VerdictFacts) =>
      `This panel could tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}.`,
    "not-reached": (facts: VerdictFacts) =>
      `This panel did not show that people can tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}. It does not show that they cannot.`,
    "far-below-chance": (facts: VerdictFacts) =>
      `Only ${score(facts)}. A panel that only guesses does better at least 39 times in 40: check labels and wording before reading anything into it.`,
    "too-few": (facts: VerdictFacts) =>
      facts.judgments === 0
        ? "No answer was counted, so there is no result."
        : `There are too few answers for a verdict: ${score(facts)}, and it takes at least ${facts.leastForVerdict} answers. The numbers stand without one.`,
  } satisfies Record<ChoiceStatistics["outcome"], (facts: VerdictFacts) => string>,

  /** The second sentence: how much, with its bounds. */
  size: {
    reached: (share: Bound, dPrime: Bound) =>
      `About ${percent(share.estimate ?? 0)} of people like these can tell (${atLeastPercent(share.low)}, with ${chosenPercent(share.confidence)} confidence). ${
        dPrime.estimate === null
          ? `The distance d′ is ${dPrimeBound(dPrime.low)} or more; with every answer right it has no upper estimate.`
          : `The distance d′ is about ${dPrimeText(dPrime.estimate)} (${dPrimeBound(dPrime.low)} or more).`
      }`,
    open: (estimate: number, fits: Range) =>
      `The best estimate of the share of people like these who can tell is ${percent(estimate)}; the answers fit anything from ${percent(fits.low)} to ${percent(fits.high)} (${chosenPercent(fits.confidence)} interval).`,
    rightOnly: (estimate: number, right: Range, guessing: number) =>
      `The share of right answers is ${percent(estimate)} (${range(right)}); guessing gives ${percent(guessing)}.`,
    none: "Nothing can be said about size.",
  },

  /** The third sentence: which of the two agreed steps the result calls for. */
  agreed: {
    reached: (ifYes: string, _ifNo: string) =>
      ifYes.trim() === ""
        ? "What to do in this case was not recorded beforehand."
        : `Agreed beforehand, if people can tell: ${quoted(ifYes)} That is what this result calls for.`,
    "not-reached": (_ifYes: string, ifNo: string) =>
      ifNo.trim() === ""
        ? "What to do in this case was not recorded beforehand."
        : `Agreed beforehand, if that is not shown: ${quoted(ifNo)} That is what this result calls for.`,
    "far-below-chance": (_ifYes: string, ifNo: string) =>
      `${ifNo.trim() === "" ? "" : `Agreed beforehand, if that is not shown: ${quoted(ifNo)} `}Clear up labels and wording first.`,
    "too-few": (_ifYes: string, _ifNo: string) => "With so few answers, neither step agreed beforehand is called for.",
    noStudy: "These answers came without a locked plan, so no next step is on record.",
  } satisfies Record<ChoiceStatistics["outcome"], (ifYes: string, ifNo: string) => string> & { noStudy: string },

  /** What p says, once, and what it does not. */
  pInWords: (p: number, alpha: number, correct: number, judgments: number) =>
    `If nobody could tell and everyone guessed, ${orMore(correct, judgments)} would be right ${howOften(p)} (p${p < 0.0001 || (p > 0.9999 && p < 1) ? " is " : " = "}${pText(p, alpha)}).`,
  pIsNot: "This p is not the chance that the finding is wrong, and it is no measure of size.",

  chance: {
    caption: (judgments: number, needed: number | null, exact: number | null, dots: number) =>
      needed === null || exact === null
        ? `100 panels of ${wholeNumber(judgments)} that only guess: this is where they fall. No count is rare enough for the agreed risk.`
        : `100 panels of ${wholeNumber(judgments)} that only guess: this is where they fall. ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "reaches" : "reach"} ${wholeNumber(needed)} (exactly ${finePercent(exact)} of such panels).`,
    observed: (correct: number) => `this panel: ${wholeNumber(correct)}`,
    needed: (needed: number) => `needed: ${wholeNumber(needed)}`,
    axis: "number right",
  },

  rows: {
    right: "Right of answered",
    rightShare: "Share right",
    expected: "Expected by guessing",
    needed: "Needed",
    chanceAtCritical: "Chance that guessing reaches it",
    pValue: "p, exact",
    discriminatorShare: "Share who can tell",
    dPrime: "Distance d′",
    power: (sought: number, people: number) =>
      `Chance of finding ${percent(sought)} who can tell, with ${wholeNumber(people)} people as planned`,
    guesses: "Ticked “this was a guess”",
  },
  values: {
    of: (part: number, whole: number) => `${wholeNumber(part)} of ${wholeNumber(whole)}`,
    expected: (value: number) => shortNumber(value),
    needed: (needed: number | null, alpha: number) =>
      needed === null
        ? `no count reaches ${chosenPercent(alpha)}`
        : `${wholeNumber(needed)} (risk ${chosenPercent(alpha)})`,
    chance: finePercent,
    p: pText,
    share: (estimate: number | null, right: Range) =>
      estimate === null ? "no answers" : `${percent(estimate)} (${range(right)})`,
    tell: ({ estimate, low, confidence }: Bound) =>
      estimate === null
        ? "no answers"
        : `${percent(estimate)} (${atLeastPercent(low)}, ${chosenPercent(confidence)} confidence)`,
    distance: ({ estimate, low, confidence }: Bound, answered: boolean) => {
      if (!answered) return "no answers";
      const bound = `${dPrimeBound(low)} or more, ${chosenPercent(confidence)} confidence`;
      return estimate === null ? `no upper estimate (${bound})` : `${dPrimeText(estimate)} (${bound})`;
    },
    power: percent,
    guesses: (ticked: number, right: number) =>
      ticked === 0 ? "nobody" : `${wholeNumber(ticked)}, of which ${wholeNumber(right)} right`,
  },

  checks: {
    note: "By order and place: a check of the serving, not a second chance at a verdict.",
    order: "Order served",
    position: "Place of the odd sample",
    answered: "Answered",
    right: "Right",
  },
  caveats,
  departures,
  noDepartures: "None recorded.",
  noRecord: "These answers came without a study, so departures are not on record.",
};
export type ReportWords = typeof report;
