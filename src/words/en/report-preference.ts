import type { NoPreference } from "../../model/plan.ts";
import type { PairStatistics } from "../../model/result-pair.ts";
import { chosenPercent, finePercent, percent, pText, shortNumber, wholeNumber } from "../number.ts";
import { agreedStep, type Figure, howOften, named, pIs, plain, type Range, range } from "./phrases.ts";

/** What the verdict sentences are made from. `more` has the most votes; with as many for both it is the first. */
export type PreferenceFacts = {
  more: { product: string; votes: number };
  less: { product: string; votes: number };
  /** In the order of the plan. */
  products: readonly [string, string];
  tested: { first: number; second: number };
  none: number;
  noPreference: NoPreference;
  judgments: number;
  needed: number | null;
  alpha: number;
  planned: boolean;
  leastForVerdict: number;
};

/** Who the votes are counted among, by the rule for "no preference". */
const among: Record<NoPreference, string> = {
  "not-offered": "",
  dropped: " of those with a preference",
  split: ", with “no preference” split evenly",
  "three-way": " of those with a preference",
};
const whole: Record<NoPreference, string> = {
  ...among,
  split: " of the answers, with “no preference” split evenly,",
};
const counted = ({ noPreference, none }: PreferenceFacts): string => (none > 0 ? among[noPreference] : "");
const rule = ({ needed, judgments, alpha, planned }: PreferenceFacts): string =>
  needed === null
    ? `with ${wholeNumber(judgments)} answers no count is rare enough for the agreed risk of ${chosenPercent(alpha)}`
    : `${planned ? "the rule locked beforehand" : "the rule"} asks for ${wholeNumber(needed)} of ${wholeNumber(judgments)}`;
const had = (none: number): string =>
  none === 1 ? " 1 person had no preference." : none > 0 ? ` ${wholeNumber(none)} people had no preference.` : "";
const ifShown = "if a preference is shown";
const ifNot = "if that is not shown";

/** What is said of a paired preference. */
export const preference = {
  goal: "to show a preference",
  verdict: {
    reached: (f: PreferenceFacts) =>
      `This panel preferred ${named(f.more.product)} to ${named(f.less.product)}: ${wholeNumber(f.more.votes)} of ${wholeNumber(f.judgments)}${counted(f)} chose it, and ${rule(f)}.`,
    "not-reached": (f: PreferenceFacts) =>
      `This panel did not show a preference between ${named(f.products[0])} and ${named(f.products[1])}: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}${counted(f)}, and ${rule(f)} for either. It does not show that there is none.`,
    "too-few": (f: PreferenceFacts) =>
      f.judgments === 0 && f.none === 0
        ? "No answer was counted, so there is no result."
        : `There are too few answers for a verdict: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}${counted(f)}, and it takes at least ${f.leastForVerdict} answers. The numbers stand without one.`,
    withheld: (_: PreferenceFacts) =>
      "No verdict: the opened key does not match the seal made at lock, so nobody can say who chose what.",
  },
  size: {
    share: (product: string, estimate: number, bounds: Range, noPreference: NoPreference, none: number) =>
      `${percent(estimate)}${none > 0 ? whole[noPreference] : ""} chose ${named(product)} (${range(bounds)}).${noPreference === "three-way" ? "" : had(none)}`,
    threeWays: (first: string, second: string, shares: readonly [Share, Share, Share]) =>
      `Of everybody asked, ${shareOf(shares[0])} preferred ${named(first)}, ${shareOf(shares[1])} preferred ${named(second)}, and ${shareOf(shares[2])} had no preference.`,
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string, _ifNo: string) => agreedStep(ifShown, ifYes),
    "not-reached": (_ifYes: string, ifNo: string) => agreedStep(ifNot, ifNo),
  },
  pInWords: (p: number, alpha: number, first: number, second: number) =>
    `If nobody preferred either and everyone picked at random, a split of ${wholeNumber(first)} to ${wholeNumber(second)}, or one as uneven or more either way, would come up ${howOften(p)} (${pIs(p, alpha)}).`,
  chance: {
    caption: (judgments: number, needed: number | null, exact: number | null, dots: number) => {
      const fall = `100 panels of ${wholeNumber(judgments)} that pick at random: this is where they fall.`;
      return needed === null || exact === null
        ? `${fall} No count is rare enough for the agreed risk.`
        : `${fall} ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "reaches" : "reach"} ${wholeNumber(needed)} for either product (exactly ${finePercent(exact)} of such panels).`;
    },
    observed: (votes: number) => `this panel: ${wholeNumber(votes)}`,
    needed: (needed: number) => `needed: ${wholeNumber(needed)}`,
    neededBelow: (most: number) => `or at most: ${wholeNumber(most)}`,
    axis: (product: string) => `number who chose ${named(product)}`,
  },
  rows: {
    preferred: (product: string) => `Preferred ${named(product)}`,
    none: "No preference",
    tested: "Counted by the test",
    share: (product: string) => `Share for ${named(product)}, of those counted`,
    expected: "Expected for each if picked at random",
    needed: "Needed for either",
    chanceAtCritical: "Chance that picking at random reaches it",
    pValue: "p, exact, either way",
    power: (share: number, people: number) =>
      `Chance of finding ${percent(share)} to ${percent(1 - share)}, with ${wholeNumber(people)} people as planned, all with a preference`,
  },
  values: {
    votes: (votes: number, people: number, bounds: Range | null): Figure => ({
      value: `${wholeNumber(votes)} of ${wholeNumber(people)}`,
      behind: bounds ? `${percent(votes / people)}; ${range(bounds)}` : "",
    }),
    notOffered: plain("not offered"),
    tested: (judgments: number, noPreference: NoPreference, leftOut: number): Figure => ({
      value: wholeNumber(judgments),
      behind: `${rules[noPreference]}${leftOut > 0 ? `, ${wholeNumber(leftOut)} left out` : ""}`,
    }),
    share: (estimate: number | null, bounds: Range): Figure =>
      estimate === null ? plain("no answers") : { value: percent(estimate), behind: range(bounds) },
    expected: (value: number): Figure => plain(shortNumber(value)),
    needed: (needed: number | null, alpha: number): Figure =>
      needed === null
        ? plain(`no count reaches ${chosenPercent(alpha)}`)
        : { value: wholeNumber(needed), behind: `risk ${chosenPercent(alpha)}` },
    chance: (share: number): Figure => plain(finePercent(share)),
    p: (p: number, alpha: number): Figure => plain(pText(p, alpha)),
    power: (power: number): Figure => plain(percent(power)),
  },
  checks: { order: "Order served", answered: "Answered", servedFirst: "Chose the sample served first" },
} satisfies { verdict: Partial<Record<PairStatistics["outcome"], unknown>>; [part: string]: unknown };

type Share = { estimate: number } & Range;
const shareOf = ({ estimate, ...bounds }: Share): string => `${percent(estimate)} (${range(bounds)})`;

/** What became of "no preference", beside the number that the test counts. */
const rules: Record<NoPreference, string> = {
  "not-offered": "“no preference” was not offered",
  dropped: "“no preference” dropped",
  split: "“no preference” split evenly",
  "three-way": "those who chose; “no preference” stands as a third share",
};
