import {
  atMostPercent,
  chosenPercent,
  dPrimeAtMost,
  dPrimeText,
  finePercent,
  percent,
  wholeNumber,
} from "../number.ts";
import { howOften, limitText, orLess, pIs } from "./phrases.ts";

/** The share who can tell that was still to count as alike, and the risk of being wrong about it. */
type Limit = { discriminatorShare: number; beta: number };
type FixedLimit = { discriminatorShare: number; dPrime: number | null; fixedAs: "share" | "d-prime" };
type Upper = { estimate: number | null; high: number | null; confidence: number };

/** What is said where a choice test set out to show that fewer than a limit can tell. */
export const similarity = {
  size: (share: Upper, dPrime: Upper) =>
    `The best estimate of the share of people like these who can tell is ${percent(share.estimate ?? 0)}; with ${chosenPercent(share.confidence)} confidence it is ${atMostPercent(share.high ?? 1)}. ${
      dPrime.estimate === null || dPrime.high === null
        ? "The distance d′ has no upper bound."
        : `The distance d′ is about ${dPrimeText(dPrime.estimate)} (${dPrimeAtMost(dPrime.high)} or less).`
    }`,
  pInWords: (p: number, { discriminatorShare, beta }: Limit, correct: number, judgments: number) =>
    `If ${limitText(discriminatorShare)} of people could tell, ${orLess(correct)} of ${wholeNumber(judgments)} would be right ${howOften(p)} (${pIs(p, beta)}).`,
  /** Several answers a person: the model lets people differ, and p is that of its mean. */
  pBySpread: (p: number, { discriminatorShare, beta }: Limit) =>
    `If on average ${limitText(discriminatorShare)} of tastings were told and not guessed, and people differed, answers that speak so clearly for fewer would come up ${howOften(p)} (${pIs(p, beta)}; beta-binomial, an approximation).`,
  chance: {
    pooled: (judgments: number, { discriminatorShare }: Limit) =>
      `100 panels of ${wholeNumber(judgments)} answers of which ${limitText(discriminatorShare)} are told, if people did not differ: this is where they fall. People do differ, so that no count decides here.`,
    caption: (
      judgments: number,
      { discriminatorShare }: Limit,
      most: number | null,
      exact: number | null,
      dots: number,
    ) => {
      const fall = `100 panels of ${wholeNumber(judgments)} of whom ${limitText(discriminatorShare)} can tell: this is where they fall.`;
      return most === null || exact === null
        ? `${fall} No count is rare enough for the agreed risk.`
        : `${fall} ${dots === 0 ? "None" : dots} of the dots ${dots === 1 ? "stays" : "stay"} at or under ${wholeNumber(most)} (exactly ${finePercent(exact)} of such panels).`;
    },
    needed: (most: number) => `at most: ${wholeNumber(most)}`,
  },
  rows: {
    limit: "Limit set for the share who can tell",
    needed: "Most right that show it",
    pBySpread: "p, letting people differ",
    chanceAtCritical: "Chance that a panel at the limit stays at or under it",
    power: (people: number) => `Chance of showing it if nobody can tell, with ${wholeNumber(people)} people as planned`,
  },
  values: {
    limit: ({ discriminatorShare, dPrime, fixedAs }: FixedLimit) =>
      fixedAs === "d-prime" && dPrime !== null
        ? { value: percent(discriminatorShare), behind: `fixed as d′ ${dPrime}` }
        : {
            value: limitText(discriminatorShare),
            behind: dPrime === null ? "" : `that is d′ ${dPrimeText(dPrime)}`,
          },
    tell: ({ estimate, high, confidence }: Upper) =>
      estimate === null
        ? { value: "no answers", behind: "" }
        : { value: percent(estimate), behind: `${atMostPercent(high ?? 1)}, ${chosenPercent(confidence)} confidence` },
    distance: ({ estimate, high, confidence }: Upper, answered: boolean) => {
      if (!answered) return { value: "no answers", behind: "" };
      return {
        value: estimate === null ? "no upper estimate" : dPrimeText(estimate),
        behind:
          high === null ? "no upper bound" : `${dPrimeAtMost(high)} or less, ${chosenPercent(confidence)} confidence`,
      };
    },
  },
};
