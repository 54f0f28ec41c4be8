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
import { plain, type Range, range } from "./phrases.ts";
import { beside } from "./report-beside.ts";
import { blank } from "./report-blank.ts";
import {
  agreedIfShown,
  agreedSteps,
  choiceChance,
  choiceMeaning,
  choiceSize,
  choiceVerdict,
  score,
} from "./report-choice.ts";
import { curve } from "./report-curve.ts";
import { family } from "./report-family.ts";
import { kindsWords } from "./report-kinds.ts";
import { caveats, departures } from "./report-notes.ts";
import { panel } from "./report-panel.ts";
import { parts } from "./report-parts.ts";
import { portions } from "./report-portions.ts";
import { preference, twoSided } from "./report-preference.ts";
import { rank } from "./report-rank.ts";
import { scale } from "./report-scale.ts";
import { similarity } from "./report-similarity.ts";
import { steps } from "./report-steps.ts";

type Bound = { estimate: number | null; low: number | null; confidence: number };
const noAnswers = plain("no answers");
const estimateOnly = "estimate only";

/** Which sample of a tray the place is of. */
const placeHeads: Partial<Record<Method, string>> = {
  triangle: "Place of the odd sample",
  tetrad: "Place of the first sample\u2019s partner",
};

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
    "line-scale": "Rating scale",
    ranking: "Ranking",
    "chew-and-weigh": "Chew and weigh",
  } satisfies Record<Method, string>,
  goals: { difference: "to show a difference", similarity: "to show that few can tell" } satisfies Record<
    ChoiceStatistics["goal"],
    string
  >,

  blank,
  verdict: choiceVerdict,
  size: choiceSize,
  agreed: agreedSteps,
  agreedIfShown,
  score,
  pInWords: choiceMeaning,
  pIsNot: "This p is not the chance that the finding is wrong, and it is no measure of size.",
  chance: choiceChance,

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
    power: (sought: number, people: number, dPrime: number | null) =>
      `Chance of finding ${dPrime === null ? `${percent(sought)} who can tell` : `d′ ${shortNumber(dPrime, 2)} (${percent(sought)} who can tell)`}, with ${wholeNumber(people)} people as planned`,
    shared: "p, shared among the questions (Holm)",
    neededAtLook: "Needed at the look that decided",
    totalAlpha: "Chance that guessing gets a yes at any look",
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
    position: (method: Method): string => placeHeads[method] ?? "Place of the sample right to pick",
    answered: "Answered",
    right: "Right",
    told: { "same-different": "Called different", "a-not-a": "Called not A" },
  },
  similarity,
  preference,
  twoSided,
  /** Where answers came without the word that the question used. */
  twoSidedMore: "more so",
  kinds: kindsWords,
  scale,
  steps,
  rank,
  portions,
  curve,
  beside,
  family,
  parts,
  panel,
  caveats,
  departures,
  noDepartures: "None recorded.",
  noRecord: "These answers came without a study, so departures are not on record.",
};
export type ReportWords = typeof report;
