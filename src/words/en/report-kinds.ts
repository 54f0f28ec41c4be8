import type { KindsMethod } from "../../model/method.ts";
import {
  chosenPercent,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  pText,
  shortNumber,
  wholeNumber,
} from "../number.ts";
import { agreedStep, type Figure, howOften, named, pIs, plain, type Range, range } from "./phrases.ts";

type Told = { told: number; of: number };
export type KindsFacts = {
  method: KindsMethod;
  unlike: Told;
  like: Told;
  judgments: number;
  people: number;
  needed: number | null;
  alpha: number;
  /** Set where the test held every person's own counts against each other. */
  within: number | null;
  products: readonly [string, string] | null;
  planned: boolean;
  leastForVerdict: number;
};

/** What the two kinds of trays are called, and what it is to be told. */
const kinds: Record<KindsMethod, { unlike: string; like: string; told: string; untold: string }> = {
  "same-different": {
    ...{ unlike: "Two different products", like: "One product twice" },
    ...{ told: "called different", untold: "called alike" },
  },
  "a-not-a": {
    ...{ unlike: "Samples that were not A", like: "Samples of A" },
    ...{ told: "called not A", untold: "called A" },
  },
};
const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
const often = ({ told, of }: Told): string => `${wholeNumber(told)} of ${wholeNumber(of)} times`;
const called = ({ method, unlike, like }: KindsFacts): string =>
  method === "same-different"
    ? `two different products were called different ${often(unlike)}, and one product twice ${often(like)}`
    : `samples that were not A were called not A ${often(unlike)}, and samples of A ${often(like)}`;
const pair = (products: KindsFacts["products"]): string =>
  products ? `${named(products[0])} and ${named(products[1])}` : "the two products";
const rule = ({ needed, unlike, like, alpha, within, planned }: KindsFacts): string => {
  const whose = planned ? "the rule locked beforehand" : "the rule";
  if (within !== null) {
    return `${whose} asks for a p of ${alpha} or less, each person held against themselves; it is ${pText(within, alpha)}`;
  }
  if (needed === null) return `with such counts none is rare enough for the agreed risk of ${chosenPercent(alpha)}`;
  const all = unlike.told + like.told;
  return `of ${wholeNumber(all)} such answers in all, ${whose} asks for ${wholeNumber(needed)} of ${wholeNumber(unlike.of)}`;
};
const who = (people: number): string => (people === 1 ? "This person" : "This panel");

/** What is said of same-different and A-not-A: two kinds of trays, two answers, four counts. */
export const kindsWords = {
  kinds,
  verdict: {
    reached: (f: KindsFacts) => `${who(f.people)} could tell ${pair(f.products)} apart: ${called(f)}; ${rule(f)}.`,
    "not-reached": (f: KindsFacts) =>
      `${f.people === 1 ? "This person did not show that they" : "This panel did not show that people"} can tell ${pair(f.products)} apart: ${called(f)}; ${rule(f)}. It does not show that they cannot.`,
    "far-below-chance": (f: KindsFacts) =>
      `${called(f).charAt(0).toUpperCase()}${called(f).slice(1)}: the wrong way round, further than chance goes 39 times in 40. Check labels, wording, and which answer stood for what before reading anything into it.`,
    "too-few": (f: KindsFacts) => {
      if (f.judgments === 0) return "No answer was counted, so there is no result.";
      return f.judgments < f.leastForVerdict
        ? `There are too few answers for a verdict: ${called(f)}; it takes at least ${f.leastForVerdict} answers. The numbers stand without one.`
        : `There are too few people for a verdict: ${called(f)}, by ${f.people} people, and a panel is at least ${f.leastForVerdict}. The numbers stand without one.`;
    },
    withheld: (_: KindsFacts) =>
      "No verdict: the opened key does not match the seal made at lock, so nobody can say what was served.",
  },
  size: {
    shares: (method: KindsMethod, unlike: number, like: number) =>
      `${percent(unlike)} of ${lower(kinds[method].unlike)} were ${kinds[method].told}, and ${percent(like)} of ${method === "same-different" ? "trays with one product twice" : "samples of A"}.`,
    /** `low`: one-sided bound that goes with the test, null without one. */
    distance: (estimate: number, low: number | null, confidence: number) =>
      `The distance d′ is about ${dPrimeText(estimate)}${low === null ? "" : ` (${dPrimeBound(low)} or more, with ${chosenPercent(confidence)} confidence)`}.`,
    unbounded: (low: number, confidence: number) =>
      `The distance d′ is ${dPrimeBound(low)} or more, with ${chosenPercent(confidence)} confidence; it has no upper estimate.`,
    open: (estimate: number, fits: Range) =>
      `The best estimate of the distance d′ is ${dPrimeText(estimate)}; the answers fit anything from ${dPrimeText(fits.low)} to ${dPrimeText(fits.high)} (${chosenPercent(fits.confidence)} interval).`,
    /** `low` of a profile whose upper end is not finite. */
    openUp: (estimate: number, low: number, confidence: number) =>
      `The best estimate of the distance d′ is ${dPrimeText(estimate)}; the answers fit anything from ${dPrimeText(low)} on (${chosenPercent(confidence)} interval).`,
    people: "Several answers a person give the distance no bounds here.",
    none: "Nothing can be said about size.",
    withheld: "The numbers below were computed with the opened key and stand in doubt.",
  },
  agreed: {
    reached: (ifYes: string) => agreedStep("if people can tell", ifYes),
    "not-reached": (ifNo: string) => agreedStep("if that is not shown", ifNo),
  },
  meaning: (p: number, alpha: number, f: KindsFacts) =>
    `If nobody could tell, and people answered ${f.within === null ? "as" : "each as"} often so as they did, ${wholeNumber(f.unlike.told)}${f.unlike.told < f.unlike.of ? " or more" : ""} of ${wholeNumber(f.unlike.of)} would fall on ${lower(kinds[f.method].unlike)} ${howOften(p)} (${pIs(p, alpha)}).`,
  chance: {
    caption: (f: KindsFacts, exact: number | null, dots: number) => {
      const all = f.unlike.told + f.like.told;
      const fall = `100 panels that cannot tell, with ${wholeNumber(all)} answers “${lower(kinds[f.method].told).replace("called ", "")}” spread blindly over ${wholeNumber(f.judgments)} trays${f.within === null ? "" : ", each person’s over their own"}: this is where they fall.`;
      if (f.within !== null) return fall;
      return f.needed === null || exact === null
        ? `${fall} No count is rare enough for the agreed risk.`
        : `${fall} ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "reaches" : "reach"} ${wholeNumber(f.needed)} (exactly ${finePercent(exact)} of such panels).`;
    },
    observed: (told: number) => `this panel: ${wholeNumber(told)}`,
    needed: (needed: number) => `needed: ${wholeNumber(needed)}`,
    axis: (method: KindsMethod) => `${lower(kinds[method].unlike)}, ${kinds[method].told}`,
  },
  rows: {
    told: (method: KindsMethod, kind: "unlike" | "like") => `${kinds[method][kind]}, ${kinds[method].told}`,
    needed: "Needed, with as many such answers",
    chanceAtCritical: "Chance that panels who cannot tell reach it",
    pValue: "p, exact",
    pWithin: "p, exact, within people",
    oddsRatio: "Odds ratio",
    dPrime: "Distance d′",
    criterion: "Where people draw the line, in units of d′",
    power: (dPrime: number, people: number) =>
      `Chance of finding d′ ${shortNumber(dPrime, 2)}, with ${wholeNumber(people)} people as planned`,
  },
  values: {
    told: ({ told, of }: Told, bounds: Range | null): Figure => ({
      value: `${wholeNumber(told)} of ${wholeNumber(of)}`,
      behind: of === 0 ? "" : `${percent(told / of)}${bounds ? `; ${range(bounds)}` : ", estimate only"}`,
    }),
    needed: (needed: number | null, alpha: number): Figure =>
      needed === null
        ? plain(`no count reaches ${chosenPercent(alpha)}`)
        : { value: wholeNumber(needed), behind: `risk ${chosenPercent(alpha)}` },
    chance: (share: number): Figure => plain(finePercent(share)),
    p: (p: number, alpha: number): Figure => plain(pText(p, alpha)),
    odds: (estimate: number | null, low: number | null, confidence: number): Figure => ({
      value: estimate === null ? "no finite estimate" : shortNumber(estimate, 2),
      behind: low === null ? "" : `${floored(low)} or more, ${chosenPercent(confidence)} confidence`,
    }),
    distance: (estimate: number | null, low: number | null, confidence: number): Figure => ({
      value: estimate === null ? "no upper estimate" : dPrimeText(estimate),
      behind: low === null ? "estimate only" : `${dPrimeBound(low)} or more, ${chosenPercent(confidence)} confidence`,
    }),
    criterion: (value: number): Figure => plain(shortNumber(value, 2).replace("-", "\u2212")),
    power: (power: number): Figure => plain(percent(power)),
  },
  picture: {
    name: "How often each kind was told",
    alone: (estimate: number | null) => (estimate === null ? "no answers" : `${percent(estimate)}, estimate only`),
    caption: (confidence: number, bounded: boolean) =>
      bounded
        ? `Each share with its exact ${chosenPercent(confidence)} interval, in percent. The further apart, the better the two kinds are told.`
        : "Each share in percent. The further apart, the better the two kinds are told.",
  },
  table: {
    heading: "The four counts",
    caption: "Served and answered",
    columns: (method: KindsMethod) => ["Served", capital(kinds[method].told), capital(kinds[method].untold), "In all"],
    note: (method: KindsMethod) =>
      method === "same-different"
        ? "Nobody is right by a known chance here: people lean to one of the two answers. The two rows are held against each other."
        : "Nobody is right by a known chance here: people lean to A or to not A. The two rows are held against each other.",
  },
};

const floored = (value: number): string => (Math.floor(value * 100 + 1e-9) / 100).toFixed(2);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
