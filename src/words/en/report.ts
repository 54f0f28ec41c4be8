import type { Method } from "../../model/method.ts";
import type { ChoiceStatistics } from "../../model/result-choice.ts";
import {
  atLeastPercent,
  chosenPercent,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  pText,
  shortNumber,
  wholeNumber,
} from "../number.ts";
import { agreedStep, howOften, orMore, pIs, plain, quoted, type Range, range } from "./phrases.ts";
import { caveats, departures } from "./report-notes.ts";
import { preference } from "./report-preference.ts";
import { scale } from "./report-scale.ts";
import { similarity } from "./report-similarity.ts";

/** How many answers were right, of how many, given by how many people. */
type Counts = { correct: number; judgments: number; people: number };
/** What the verdict sentences are made from. `products` and the plan are missing when answers came without a study. */
export type VerdictFacts = Counts & {
  method: Method;
  needed: number | null;
  alpha: number;
  products: readonly [string, string] | null;
  planned: boolean;
  /** Similarity goal: the share who can tell that still counts as alike, and the risk of being wrong about it. */
  limit: number;
  beta: number;
  leastForVerdict: number;
};
type Bound = { estimate: number | null; low: number | null; confidence: number };
const pair = (products: VerdictFacts["products"]): string =>
  products ? `“${products[0]}” and “${products[1]}”` : "the two products";
const picked = (method: Method): string => (method === "triangle" ? "picked the odd sample" : "were right");
const score = ({ correct, judgments, method, people }: VerdictFacts): string =>
  `${wholeNumber(correct)} of ${wholeNumber(judgments)} ${people === 1 ? "answers " : ""}${picked(method)}`;
const rule = (facts: VerdictFacts): string => {
  if (facts.needed === null) {
    return `with ${wholeNumber(facts.judgments)} answers no count is rare enough for the agreed risk of ${chosenPercent(facts.alpha)}`;
  }
  return facts.planned
    ? `the rule locked beforehand asks for ${wholeNumber(facts.needed)} of ${wholeNumber(facts.judgments)}`
    : `the rule asks for ${wholeNumber(facts.needed)}`;
};
const noAnswers = plain("no answers");
const estimateOnly = "estimate only";

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
  goals: { difference: "to show a difference", similarity: "to show that few can tell" } satisfies Record<
    ChoiceStatistics["goal"],
    string
  >,

  /** The first sentence: what the rule that was locked beforehand says. */
  verdict: {
    reached: (facts: VerdictFacts) =>
      `${facts.people === 1 ? "This person" : "This panel"} could tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}.`,
    "not-reached": (facts: VerdictFacts) =>
      `${facts.people === 1 ? "This person did not show that they" : "This panel did not show that people"} can tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}. It does not show that they cannot.`,
    "far-below-chance": (facts: VerdictFacts) =>
      `Only ${score(facts)}. ${facts.people === 1 ? "Somebody who" : "A panel that"} only guesses does better at least 39 times in 40: check labels and wording before reading anything into it.`,
    "within-limit": (facts: VerdictFacts) =>
      `With ${chosenPercent(1 - facts.beta)} confidence, fewer than ${chosenPercent(facts.limit)} of people like these can tell ${pair(facts.products)} apart; that was the limit set: ${score(facts)}, and ${facts.needed ?? 0} or fewer were asked for.`,
    "not-within-limit": (facts: VerdictFacts) =>
      `More than ${chosenPercent(facts.limit)} of people like these may be able to tell ${pair(facts.products)} apart; likeness within that limit was not shown: ${score(facts)}${facts.needed === null ? "" : `, and ${wholeNumber(facts.needed)} or fewer were asked for`}.`,
    "too-few": (facts: VerdictFacts) => {
      if (facts.judgments === 0) return "No answer was counted, so there is no result.";
      const least = facts.leastForVerdict;
      return facts.judgments < least
        ? `There are too few answers for a verdict: ${score(facts)}, and it takes at least ${least} answers. The numbers stand without one.`
        : `There are too few people for a verdict: ${score(facts)}, given by ${facts.people} people, and a panel is at least ${least}. The numbers stand without one.`;
    },
    withheld: (_facts: VerdictFacts) =>
      "No verdict: the opened key does not match the seal made at lock, so nobody can say which answers were right.",
  } satisfies Record<ChoiceStatistics["outcome"], (facts: VerdictFacts) => string>,

  /** The second sentence: how much, with its bounds. */
  size: {
    reached: (share: Bound, dPrime: Bound) =>
      `About ${percent(share.estimate ?? 0)} of people like these can tell (${atLeastPercent(share.low ?? 0)}, with ${chosenPercent(share.confidence)} confidence). ${
        dPrime.estimate === null
          ? `The distance d′ is ${dPrimeBound(dPrime.low ?? 0)} or more; with every answer right it has no upper estimate.`
          : `The distance d′ is about ${dPrimeText(dPrime.estimate)} (${dPrimeBound(dPrime.low ?? 0)} or more).`
      }`,
    open: (estimate: number, fits: Range) =>
      `The best estimate of the share of people like these who can tell is ${percent(estimate)}; the answers fit anything from ${percent(fits.low)} to ${percent(fits.high)} (${chosenPercent(fits.confidence)} interval).`,
    rightOnly: (estimate: number, right: Range, guessing: number) =>
      `The share of right answers is ${percent(estimate)} (${range(right)}); guessing gives ${percent(guessing)}.`,
    belowGuessing: (estimate: number, guessing: number) =>
      `The share of right answers is ${percent(estimate)}, and guessing gives ${percent(guessing)}: the best estimate of the share who can tell is ${percent(0)}.`,
    unbounded: (estimate: number, guessing: number, people: number) =>
      `The share of right answers is ${percent(estimate)}; guessing gives ${percent(guessing)}. ${
        people === 1
          ? "All answers are one person’s, so they say nothing about how many other people can tell."
          : "Some people gave more than one answer, and people differ in how well they tell: how many can tell, and the distance between the products, have no bounds here."
      }`,
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },

  /** The third sentence: which of the two agreed steps the result calls for. */
  agreed: {
    reached: (ifYes: string, _ifNo: string) => agreedStep("if people can tell", ifYes),
    "not-reached": (_ifYes: string, ifNo: string) => agreedStep("if that is not shown", ifNo),
    "far-below-chance": (_ifYes: string, ifNo: string) =>
      `${ifNo.trim() === "" ? "" : `Agreed beforehand, if that is not shown: ${quoted(ifNo)} `}Clear up labels and wording first.`,
    "within-limit": (ifYes: string, _ifNo: string) => agreedStep("if the difference is within the limit", ifYes),
    "not-within-limit": (_ifYes: string, ifNo: string) => agreedStep("if that is not shown", ifNo),
    "too-few": (_ifYes: string, _ifNo: string) =>
      "With so little to go by, neither step agreed beforehand is called for.",
    withheld: (_ifYes: string, _ifNo: string) =>
      "Neither step agreed beforehand is called for until that is explained.",
    noStudy: "These answers came without a locked plan, so no next step is on record.",
  } satisfies Record<ChoiceStatistics["outcome"], (ifYes: string, ifNo: string) => string> & { noStudy: string },

  /** What p says, once, and what it does not. */
  pInWords: (p: number, alpha: number, { correct, judgments, people }: Counts) =>
    `If ${people === 1 ? "this person could not tell and only guessed" : "nobody could tell and everyone guessed"}, ${orMore(correct, judgments)} of ${wholeNumber(judgments)} would be right ${howOften(p)} (${pIs(p, alpha)}).`,
  pIsNot: "This p is not the chance that the finding is wrong, and it is no measure of size.",

  chance: {
    caption: ({ judgments, people }: Counts, needed: number | null, exact: number | null, dots: number) => {
      const [what, who] = people === 1 ? ["runs", "answers that are only guesses"] : ["panels", "that only guess"];
      const fall = `100 ${what} of ${wholeNumber(judgments)} ${who}: this is where they fall.`;
      return needed === null || exact === null
        ? `${fall} No count is rare enough for the agreed risk.`
        : `${fall} ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "reaches" : "reach"} ${wholeNumber(needed)} (exactly ${finePercent(exact)} of such ${what}).`;
    },
    observed: ({ correct, people }: Counts) => `this ${people === 1 ? "person" : "panel"}: ${wholeNumber(correct)}`,
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
    discriminatorShare: (people: number) =>
      people === 1 ? "Share of answers told, not guessed" : "Share who can tell",
    dPrime: "Distance d′",
    power: (sought: number, people: number) =>
      `Chance of finding ${percent(sought)} who can tell, with ${wholeNumber(people)} people as planned`,
    guesses: "Ticked “this was a guess”",
  },
  values: {
    of: (part: number, whole: number) => plain(`${wholeNumber(part)} of ${wholeNumber(whole)}`),
    expected: (value: number) => plain(shortNumber(value)),
    needed: (needed: number | null, alpha: number) =>
      needed === null
        ? plain(`no count reaches ${chosenPercent(alpha)}`)
        : { value: wholeNumber(needed), behind: `risk ${chosenPercent(alpha)}` },
    chance: (share: number) => plain(finePercent(share)),
    p: (p: number, alpha: number) => plain(pText(p, alpha)),
    /** `right` is null where there are no bounds. */
    share: (estimate: number | null, right: Range | null) =>
      estimate === null ? noAnswers : { value: percent(estimate), behind: right ? range(right) : estimateOnly },
    tell: ({ estimate, low, confidence }: Bound) =>
      estimate === null
        ? noAnswers
        : {
            value: percent(estimate),
            behind: low === null ? estimateOnly : `${atLeastPercent(low)}, ${chosenPercent(confidence)} confidence`,
          },
    distance: ({ estimate, low, confidence }: Bound, answered: boolean) =>
      answered
        ? {
            value: estimate === null ? "no upper estimate" : dPrimeText(estimate),
            behind:
              low === null ? estimateOnly : `${dPrimeBound(low)} or more, ${chosenPercent(confidence)} confidence`,
          }
        : noAnswers,
    power: (power: number) => plain(percent(power)),
    guesses: (ticked: number, right: number) =>
      plain(ticked === 0 ? "nobody" : `${wholeNumber(ticked)}, of which ${wholeNumber(right)} right`),
  },

  checks: {
    note: "By order and place: a check of the serving, not a second chance at a verdict.",
    order: "Order served",
    position: "Place of the odd sample",
    answered: "Answered",
    right: "Right",
    told: "Called different, or not A",
  },
  similarity,
  preference,
  scale,
  caveats,
  departures,
  noDepartures: "None recorded.",
  noRecord: "These answers came without a study, so departures are not on record.",
};
export type ReportWords = typeof report;
