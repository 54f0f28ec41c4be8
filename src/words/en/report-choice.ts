import { asksProperty, type Method } from "../../model/method.ts";
import type { ChoiceStatistics } from "../../model/result-choice.ts";
import {
  atLeastPercent,
  chosenPercent,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  pText,
  wholeNumber,
} from "../number.ts";
import { agreedStep, howOften, named, orMore, pIs, quoted, type Range, range } from "./phrases.ts";

/** How many answers were right, of how many, given by how many people. */
export type Counts = { correct: number; judgments: number; people: number };
type Asked = { name: string; comparative: string; expected: string | null };
/** What was asked: of a directional choice the property with the product that was to have more of it. */
export type Question = { method: Method; property: Asked | null };
/** What the verdict sentences are made from. `products` and the plan are missing when answers came without a study. */
export type VerdictFacts = Counts &
  Question & {
    needed: number | null;
    alpha: number;
    products: readonly [string, string] | null;
    planned: boolean;
    /** Similarity goal: the share who can tell that still counts as alike, and the risk of being wrong about it. */
    limit: number;
    /** The limit as a distance, where it was fixed so. */
    limitDistance: number | null;
    beta: number;
    /** Holm's p, where several questions share the risk: then it decides. */
    shared: number | null;
    /** How a stopping rule ended the study; null without one. */
    stop: Stop | null;
    leastForVerdict: number;
  };
type Stop = { said: "yes" | "no" | "go-on"; lower: number | null };
type Bound = { estimate: number | null; low: number | null; confidence: number };

const directional = ({ method }: Question): boolean => asksProperty(method);
const expectedOf = ({ property }: Question): string =>
  property?.expected ? named(property.expected) : "the expected product";
const comparativeOf = ({ property }: Question): string =>
  property && property.comparative.trim() !== "" ? property.comparative.trim() : "";
const asMore = (question: Question): string => {
  const comparative = comparativeOf(question);
  return comparative === "" ? "" : ` as ${comparative}`;
};
const pair = (products: VerdictFacts["products"]): string =>
  products ? `${named(products[0])} and ${named(products[1])}` : "the two products";
const otherOf = ({ products, property }: VerdictFacts): string => {
  const other = products?.find((name) => name !== property?.expected);
  return other === undefined ? "the other one" : named(other);
};

/** What those who were right did. */
const picks: Partial<Record<Method, string>> = {
  triangle: "picked the odd sample",
  "duo-trio": "found the one like the reference",
  tetrad: "put the right two together",
};
const picked = (question: Question): string =>
  directional(question) ? `chose ${expectedOf(question)}${asMore(question)}` : (picks[question.method] ?? "were right");

/** Somebody's answers are not people: where there are more of them than people, the sentence says "answers". */
export const score = (facts: Counts & Question): string =>
  `${wholeNumber(facts.correct)} of ${wholeNumber(facts.judgments)} ${facts.people === facts.judgments ? "" : "answers "}${picked(facts)}${
    facts.people > 1 && facts.people < facts.judgments ? ` (${wholeNumber(facts.people)} people)` : ""
  }`;

const rule = (facts: VerdictFacts): string => {
  const whose = facts.planned ? "the rule locked beforehand" : "the rule";
  if (facts.shared !== null) {
    return `${whose} asks for a p of ${facts.alpha} or less after sharing the risk among the questions (Holm); it is ${pText(facts.shared, facts.alpha)}`;
  }
  if (facts.stop) return stopped(facts, facts.stop, whose);
  if (facts.needed === null) {
    return `with ${wholeNumber(facts.judgments)} answers no count is rare enough for the agreed risk of ${chosenPercent(facts.alpha)}`;
  }
  return facts.planned
    ? `${whose} asks for ${wholeNumber(facts.needed)} of ${wholeNumber(facts.judgments)}`
    : `${whose} asks for ${wholeNumber(facts.needed)}`;
};

const stopped = ({ needed, judgments }: VerdictFacts, { said, lower }: Stop, whose: string): string => {
  const after = `after ${wholeNumber(judgments)} answers`;
  if (said === "no" && lower !== null) return `${whose} stops with a no at ${wholeNumber(lower)} or fewer ${after}`;
  if (needed !== null) return `${whose} asks for ${wholeNumber(needed)} ${after}`;
  return `${whose} lets no count decide ${after}`;
};

const who = ({ people }: Counts): string => (people === 1 ? "This person" : "This panel");

function reached(facts: VerdictFacts): string {
  if (!directional(facts)) {
    return `${who(facts)} could tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}.`;
  }
  const comparative = comparativeOf(facts);
  return comparative === ""
    ? `${who(facts)} found more of the property in ${expectedOf(facts)}: ${score(facts)}, and ${rule(facts)}.`
    : `${who(facts)} found ${expectedOf(facts)} ${comparative} than ${otherOf(facts)}: ${chose(facts)}, and ${rule(facts)}.`;
}

/** Where the sentence has named product and property already. */
const chose = ({ correct, judgments, people }: Counts): string =>
  `${wholeNumber(correct)} of ${wholeNumber(judgments)} ${people === judgments ? "" : "answers "}chose it`;

function notReached(facts: VerdictFacts): string {
  if (!directional(facts)) {
    return `${facts.people === 1 ? "This person did not show that they" : "This panel did not show that people"} can tell ${pair(facts.products)} apart: ${score(facts)}, and ${rule(facts)}. It does not show that they cannot.`;
  }
  const comparative = comparativeOf(facts);
  const claim =
    comparative === ""
      ? `${expectedOf(facts)} has more of what was asked for`
      : `${expectedOf(facts)} is ${comparative} than ${otherOf(facts)}`;
  return `${who(facts)} did not show that ${claim}: ${chose(facts)}, and ${rule(facts)}. It does not show that this is not so.`;
}

function farBelow(facts: VerdictFacts): string {
  const faults = directional(facts)
    ? "check labels, wording, and which product was expected to have more"
    : "check labels and wording";
  const opposite = directional(facts) ? " That the other one has more was not what the rule was locked for." : "";
  return `Only ${score(facts)}. ${facts.people === 1 ? "Somebody who" : "A panel that"} only guesses does better at least 39 times in 40: ${faults} before reading anything into it.${opposite}`;
}

/** The limit as a claim: few can tell, or the distance is small. */
const under = (facts: VerdictFacts): string => {
  const apart = `${pair(facts.products)} apart`;
  return facts.limitDistance === null
    ? `fewer than ${chosenPercent(facts.limit)} of people like these can tell ${apart}`
    : `the distance between ${pair(facts.products)} is under d′ ${facts.limitDistance}, which fewer than ${percent(facts.limit)} of people like these can tell`;
};
const over = (facts: VerdictFacts): string => {
  const apart = `${pair(facts.products)} apart`;
  return facts.limitDistance === null
    ? `More than ${chosenPercent(facts.limit)} of people like these may be able to tell ${apart}`
    : `The distance between ${pair(facts.products)} may be more than d′ ${facts.limitDistance}`;
};
const askedFor = (facts: VerdictFacts): string =>
  facts.needed === null ? "" : `, and ${wholeNumber(facts.needed)} or fewer were asked for`;

/** The first sentence of a choice test: what the rule that was locked beforehand says. */
export const choiceVerdict = {
  reached,
  "not-reached": notReached,
  "far-below-chance": farBelow,
  "within-limit": (facts: VerdictFacts) =>
    `With ${chosenPercent(1 - facts.beta)} confidence, ${under(facts)}; that was the limit set: ${score(facts)}${askedFor(facts)}.`,
  "not-within-limit": (facts: VerdictFacts) =>
    `${over(facts)}; likeness within that limit was not shown: ${score(facts)}${askedFor(facts)}.`,
  "too-few": (facts: VerdictFacts) => {
    if (facts.judgments === 0) return "No answer was counted, so there is no result.";
    const least = facts.leastForVerdict;
    return facts.judgments < least
      ? `There are too few answers for a verdict: ${score(facts)}, and it takes at least ${least} answers. The numbers stand without one.`
      : `There are too few people for a verdict: ${score({ ...facts, people: facts.judgments })}, given by ${facts.people} people, and a panel is at least ${least}. The numbers stand without one.`;
  },
  withheld: (_facts: VerdictFacts) =>
    "No verdict: the opened key does not match the seal made at lock, so nobody can say which answers were right.",
} satisfies Record<ChoiceStatistics["outcome"], (facts: VerdictFacts) => string>;

/** The second sentence: how much, with its bounds. */
export const choiceSize = {
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
  /** Several answers a person: the model in which people differ speaks of how many can tell. */
  spread: (estimate: number, guessing: number, tell: Range & { estimate: number }) =>
    `The share of right answers is ${percent(estimate)}; guessing gives ${percent(guessing)}. Where people may differ (beta-binomial), ${percent(tell.estimate)} of tastings are told and not guessed (${range(tell)}).`,
  none: "Nothing can be said about size.",
  withheld: "The numbers below were computed with the opened key and stand in doubt.",
};

/** The third sentence: which of the two agreed steps the result calls for. */
export const agreedSteps = {
  reached: (ifYes: string, _ifNo: string) => agreedStep("if people can tell", ifYes),
  "not-reached": (_ifYes: string, ifNo: string) => agreedStep("if that is not shown", ifNo),
  "far-below-chance": (_ifYes: string, ifNo: string) =>
    `${ifNo.trim() === "" ? "" : `Agreed beforehand, if that is not shown: ${quoted(ifNo)} `}Clear up labels and wording first.`,
  "within-limit": (ifYes: string, _ifNo: string) => agreedStep("if the difference is within the limit", ifYes),
  "not-within-limit": (_ifYes: string, ifNo: string) => agreedStep("if that is not shown", ifNo),
  "too-few": (_ifYes: string, _ifNo: string) =>
    "With so little to go by, neither step agreed beforehand is called for.",
  withheld: (_ifYes: string, _ifNo: string) => "Neither step agreed beforehand is called for until that is explained.",
  noStudy: "These answers came without a locked plan, so no next step is on record.",
} satisfies Record<ChoiceStatistics["outcome"], (ifYes: string, ifNo: string) => string> & { noStudy: string };

/** As "if people can tell", of a directional choice. */
export const agreedIfShown = (ifYes: string): string => agreedStep("if that is shown", ifYes);

type Seen = Counts & Question;
const guessing = (facts: Seen): string => {
  const comparative = directional(facts) ? comparativeOf(facts) : "";
  const tell = comparative === "" ? "tell" : `tell which is ${comparative}`;
  return facts.people === 1
    ? `this person could not ${tell} and only guessed`
    : `nobody could ${tell} and everyone guessed`;
};
const would = (facts: Seen): string => (directional(facts) ? `choose ${expectedOf(facts)}` : "be right");

/** What p says, once. */
export const choiceMeaning = {
  plain: (p: number, alpha: number, facts: Seen) =>
    `If ${guessing(facts)}, ${orMore(facts.correct, facts.judgments)} of ${wholeNumber(facts.judgments)} would ${would(facts)} ${howOften(p)} (${pIs(p, alpha)}).`,
  /** After looks the outcomes have no order of their own; the sentence says which one was fixed. */
  stopped: (p: number, alpha: number, facts: Seen) =>
    `If ${guessing(facts)}, a study with these looks would end like this, or speak more clearly, ${howOften(p)} (${pIs(p, alpha)}). A yes at an earlier look counts as clearer, and at one look more right answers do.`,
};

type Who = Counts;
/** What stands in and under the picture of chance. */
export const choiceChance = {
  caption: ({ judgments, people }: Who, needed: number | null, exact: number | null, dots: number) => {
    const [what, whose] = people === 1 ? ["runs", "answers that are only guesses"] : ["panels", "that only guess"];
    const fall = `100 ${what} of ${wholeNumber(judgments)} ${people > 1 && people < judgments ? "answers " : ""}${whose}: this is where they fall.`;
    return needed === null || exact === null
      ? `${fall} No count is rare enough for the agreed risk.`
      : `${fall} ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "reaches" : "reach"} ${wholeNumber(needed)} (exactly ${finePercent(exact)} of such ${what}).`;
  },
  /** Where other looks decide too: the risk is that of all of them together. */
  stopped: ({ judgments }: Who, total: number) =>
    `100 panels of ${wholeNumber(judgments)} that only guess: this is where they fall, had there been no earlier look. All looks together say yes to a guessing panel ${finePercent(total)} of the time.`,
  observed: ({ correct, people }: Who) => `this ${people === 1 ? "person" : "panel"}: ${wholeNumber(correct)}`,
  needed: (needed: number) => `needed: ${wholeNumber(needed)}`,
  axis: "number right",
};
