import type { NoPreference } from "../../model/plan.ts";
import type { PairStatistics } from "../../model/result-pair.ts";
import { chosenPercent, dPrimeText, finePercent, percent, pText, shortNumber, wholeNumber } from "../number.ts";
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
  /** People by their own leads, where they gave several answers each: then those are what the test counts. */
  byPerson: { first: number; second: number; tied: number } | null;
  people: number;
  pValue: number;
  /** Holm's p, where several questions share the risk. */
  shared: number | null;
  /** "juicier"; empty for a preference. */
  comparative: string;
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
const whose = (planned: boolean): string => (planned ? "the rule locked beforehand" : "the rule");
const rule = ({ needed, judgments, alpha, planned, byPerson, pValue, shared }: PreferenceFacts): string =>
  shared !== null
    ? `${whose(planned)} asks for a p of ${alpha} or less after sharing the risk among the questions (Holm); it is ${pText(shared, alpha)}`
    : byPerson !== null
      ? `${whose(planned)} asks for a p of ${alpha} or less, counted by person; it is ${pText(pValue, alpha)}`
      : needed === null
        ? `with ${wholeNumber(judgments)} answers no count is rare enough for the agreed risk of ${chosenPercent(alpha)}`
        : `${whose(planned)} asks for ${wholeNumber(needed)} of ${wholeNumber(judgments)}`;
const forEither = ({ shared, byPerson, needed }: PreferenceFacts): string =>
  shared === null && byPerson === null && needed !== null ? " for either" : "";
/** Answers are not people where somebody gave several. */
const answersOf = ({ judgments, byPerson, people }: PreferenceFacts): string =>
  byPerson ? `${wholeNumber(judgments)} answers of ${wholeNumber(people)} people` : wholeNumber(judgments);
const who = ({ people, judgments }: PreferenceFacts): string =>
  people === 1 && judgments > 1 ? "This person" : "This panel";
const nothing = (f: PreferenceFacts): string => `${tooFew(f)} The numbers stand without one.`;
const tooFew = (f: PreferenceFacts): string =>
  f.judgments < f.leastForVerdict
    ? `There are too few answers for a verdict: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}${counted(f)}, and it takes at least ${f.leastForVerdict} answers.`
    : `There are too few people for a verdict: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}${counted(f)}, by ${f.people} people, and a panel is at least ${f.leastForVerdict}.`;
const had = (none: number): string =>
  none === 1 ? " 1 person had no preference." : none > 0 ? ` ${wholeNumber(none)} people had no preference.` : "";
const ifShown = "if a preference is shown";
const ifNot = "if that is not shown";

/** What is said of a paired preference. */
type Distance = { estimate: number | null; low: number | null; high: number | null; confidence: number };
const signed = (value: number): string => dPrimeText(value).replace("-", "\u2212");

export const preference = {
  goal: "to show a preference",
  verdict: {
    reached: (f: PreferenceFacts) =>
      `${who(f)} preferred ${named(f.more.product)} to ${named(f.less.product)}: ${wholeNumber(f.more.votes)} of ${answersOf(f)}${counted(f)} chose it, and ${rule(f)}.`,
    "not-reached": (f: PreferenceFacts) =>
      `${who(f)} did not show a preference between ${named(f.products[0])} and ${named(f.products[1])}: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}${counted(f)}, and ${rule(f)}${forEither(f)}. It does not show that there is none.`,
    "too-few": (f: PreferenceFacts) =>
      f.judgments === 0 && f.none === 0 ? "No answer was counted, so there is no result." : nothing(f),
    withheld: (_: PreferenceFacts) =>
      "No verdict: the opened key does not match the seal made at lock, so nobody can say who chose what.",
  },
  size: {
    share: (product: string, estimate: number, bounds: Range | null, noPreference: NoPreference, none: number) =>
      `${percent(estimate)}${none > 0 ? whole[noPreference] : ""} chose ${named(product)} (${bounds ? range(bounds) : "of all answers; an estimate alone, since people gave several"}).${noPreference === "three-way" ? "" : had(none)}`,
    threeWays: (first: string, second: string, shares: readonly [Share, Share, Share]) =>
      `Of everybody asked, ${shareOf(shares[0])} preferred ${named(first)}, ${shareOf(shares[1])} preferred ${named(second)}, and ${shareOf(shares[2])} had no preference.`,
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string, _ifNo: string) => agreedStep(ifShown, ifYes),
    "not-reached": (_ifYes: string, ifNo: string) => agreedStep(ifNot, ifNo),
  },
  /** People differ in what they like even if nothing leads; so their own leads are tossed. */
  byPerson: (p: number, alpha: number) =>
    `If the direction of every person’s lead were a coin toss, leads as uneven in all, or more, would come up ${howOften(p)} (${pIs(p, alpha)}, counted out).`,
  pInWords: (p: number, alpha: number, first: number, second: number) =>
    `If nobody preferred either and everyone picked at random, a split of ${wholeNumber(first)} to ${wholeNumber(second)}, or one as uneven or more either way, would come up ${howOften(p)} (${pIs(p, alpha)}).`,
  chance: {
    byPerson: (judgments: number) =>
      `100 panels in which every person’s lead goes one way or the other by a coin toss: this is where ${wholeNumber(judgments)} answers fall.`,
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
    pByPerson: "p, exact, by person, either way",
    shared: "p, shared among the questions (Holm)",
    dPrime: "",
    power: (share: number, people: number) =>
      `Chance of finding ${percent(share)} to ${percent(1 - share)}, with ${wholeNumber(people)} people as planned, all with a preference`,
  },
  values: {
    distance: ({ estimate, low, high, confidence }: Distance): Figure => ({
      value: estimate === null ? "no finite estimate" : signed(estimate),
      behind:
        low === null && high === null
          ? "estimate only"
          : `${low === null ? "no bound below" : signed(low)} to ${high === null ? "no bound above" : signed(high)}, ${chosenPercent(confidence)} interval`,
    }),
    votes: (votes: number, people: number, bounds: Range | null): Figure => ({
      value: `${wholeNumber(votes)} of ${wholeNumber(people)}`,
      behind: bounds ? `${percent(votes / people)}; ${range(bounds)}` : "",
    }),
    notOffered: plain("not offered"),
    tested: (judgments: number, noPreference: NoPreference, leftOut: number): Figure => ({
      value: wholeNumber(judgments),
      behind: `${rules[noPreference]}${leftOut > 0 ? `, ${wholeNumber(leftOut)} left out` : ""}`,
    }),
    share: (estimate: number | null, bounds: Range | null): Figure =>
      estimate === null
        ? plain("no answers")
        : { value: percent(estimate), behind: bounds ? range(bounds) : "estimate only" },
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

/** What is said of a paired difference in which either product may have more: the parts that differ. */
export const twoSided: typeof preference = {
  ...preference,
  goal: "to show a difference either way",
  verdict: {
    ...preference.verdict,
    reached: (f) =>
      `${who(f)} found ${named(f.more.product)} ${f.comparative} than ${named(f.less.product)}: ${wholeNumber(f.more.votes)} of ${answersOf(f)} chose it, and ${rule(f)}.`,
    "not-reached": (f) =>
      `${who(f)} did not show that either of ${named(f.products[0])} and ${named(f.products[1])} is ${f.comparative}: ${wholeNumber(f.tested.first)} to ${wholeNumber(f.tested.second)}, and ${rule(f)}${forEither(f)}. It does not show that neither is.`,
  },
  agreed: {
    reached: (ifYes) => agreedStep("if one of them is shown to have more", ifYes),
    "not-reached": preference.agreed["not-reached"],
  },
  pInWords: (p, alpha, first, second) =>
    `If nobody could tell and everyone picked at random, a split of ${wholeNumber(first)} to ${wholeNumber(second)}, or one as uneven or more either way, would come up ${howOften(p)} (${pIs(p, alpha)}).`,
  rows: {
    ...preference.rows,
    preferred: (product) => `Chose ${named(product)}`,
    dPrime: "Distance d′, the first above the second",
    power: (share, people) =>
      `Chance of finding ${percent(share)} to ${percent(1 - share)}, with ${wholeNumber(people)} people as planned`,
  },
};

type Share = { estimate: number } & Range;
const shareOf = ({ estimate, ...bounds }: Share): string => `${percent(estimate)} (${range(bounds)})`;

/** What became of "no preference", beside the number that the test counts. */
const rules: Record<NoPreference, string> = {
  "not-offered": "“no preference” was not offered",
  dropped: "“no preference” dropped",
  split: "“no preference” split evenly",
  "three-way": "those who chose; “no preference” stands as a third share",
};
