import type { Interval } from "../../model/interval.ts";
import type { SpreadFit } from "../../model/outcome.ts";
import type { StoppingPath } from "../../model/result-choice.ts";
import {
  chosenPercent,
  dPrimeAtMost,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  pText,
  shortNumber,
  wholeNumber,
} from "../number.ts";
import { dPrimeSizes, dPrimeWord, howOften, named, pIs } from "./phrases.ts";

const shareRange = ({ low, high, confidence }: Interval): string =>
  low === null || high === null
    ? "no bounds"
    : `${percent(low)} to ${percent(high)}, ${chosenPercent(confidence)} interval`;
const indexRange = ({ low, high, confidence }: Interval): string =>
  low === null || high === null
    ? "no bounds"
    : `${shortNumber(low, 2)} to ${shortNumber(high, 2)}, ${chosenPercent(confidence)} interval`;
const equals = (p: number): string =>
  p < 0.0001 || (p > 0.9999 && p < 1) ? `p is ${pText(p)}` : `p\u00a0=\u00a0${pText(p)}`;

/** How many answers the people gave: "3 each", "2 to 3 each". */
const each = (least: number, most: number): string =>
  least === most ? `${wholeNumber(most)} each` : `${wholeNumber(least)} to ${wholeNumber(most)} each`;

/** Parts of a result that only some studies have: several answers a person, sessions, questions, looks, a blank study. */
export const parts = {
  people: {
    heading: "Person by person",
    gave: (people: number, answers: number, least: number, most: number) =>
      `${wholeNumber(answers)} answers of ${wholeNumber(people)} people, ${each(least, most)}.`,
    one: (answers: number) =>
      `All ${wholeNumber(answers)} answers are one person’s: there is nobody to compare them with, and no spread to speak of.`,
    spread: (chiSquare: number, df: number, p: number) =>
      `If one share held for everybody, people’s counts would differ this much or more ${howOften(p)} (chi-square ${shortNumber(chiSquare, 1)} on ${wholeNumber(df)} ${df === 1 ? "degree" : "degrees"} of freedom; ${equals(p)}, an approximation).`,
    beta: ({ mean, overdispersion, pValue }: SpreadFit, what: string) =>
      `Letting people differ (beta-binomial), ${what} on average ${percent(mean.estimate ?? 0)} of the time (${shareRange(mean)}); the spread between them is ${shortNumber(overdispersion.estimate ?? 0, 2)} (${indexRange(overdispersion)}), where 0 is everybody alike and 1 all or nothing. Test of no spread: ${equals(pValue)}.`,
    right: "people are right",
    first: (product: string) => `people choose ${named(product)}`,
    corrected: ({ mean, overdispersion, pValue }: SpreadFit) =>
      `With guessing built into that model, ${percent(mean.estimate ?? 0)} of tastings are told and not guessed (${shareRange(mean)}), with a spread between people of ${shortNumber(overdispersion.estimate ?? 0, 2)} (${indexRange(overdispersion)}); test of no spread: ${equals(pValue)}.`,
    noFit: "The spread between people could not be estimated from these counts.",
    leads: (first: string, second: string, more: { first: number; second: number; tied: number }) =>
      `${wholeNumber(more.first)} of them chose ${named(first)} more often, ${wholeNumber(more.second)} ${named(second)}, and ${wholeNumber(more.tied)} each as often. The test asks how often people’s leads would add up so far if the direction of each were a coin toss.`,
    caption: "Everybody’s own counts",
    columns: {
      right: ["Person", "Right", "Answers"],
      first: (product: string) => ["Person", `For ${named(product)}`, "Answers"],
    },
    kindsColumns: (unlike: string, like: string) => ["Person", unlike, like],
    kinds: "Each person leans in a way of their own; the test holds everybody’s two counts against each other.",
    of: (part: number, whole: number) => `${wholeNumber(part)} of ${wholeNumber(whole)}`,
  },
  sessions: {
    heading: "Session by session",
    planned:
      "The sessions were planned together, and one share under guessing holds in all of them, so their answers are tested together.",
    differ: (p: number, exact: boolean) =>
      `If one share held in all sessions, their counts would differ this much or more ${howOften(p)} (${equals(p)}, ${exact ? "counted out" : "chi-square, an approximation"}). That is a check, not a second chance at a verdict.`,
    caption: "Answers by session",
    columns: {
      right: ["Session", "Right", "Answers", "Share right"],
      first: (product: string) => ["Session", `For ${named(product)}`, "Answers", "Share"],
    },
    unnamed: "unnamed",
  },
  questions: {
    heading: "Question by question",
    holm: (count: number) =>
      `${wholeNumber(count)} questions share the agreed risk. Their p are adjusted for that (Holm), and a verdict stands on the adjusted one.`,
    exploratory:
      "A question outside of that family is exploratory: it has no verdict, and a small p among several is easily chance.",
    caption: "What was asked of each tray",
    columns: ["Question", "Chosen as asked", "Needed, Holm", "p", "p, Holm", "Found"],
    columnsTwo: (product: string) => ["Question", `For ${named(product)}`, "Needed, Holm", "p", "p, Holm", "Found"],
    outcomes: {
      reached: "shown",
      "not-reached": "not shown",
      "far-below-chance": "far fewer than by chance",
      "within-limit": "within the limit",
      "not-within-limit": "not shown",
      "too-few": "too few answers",
      withheld: "withheld",
    },
    exploratoryWord: "exploratory",
    notAdjusted: "–",
    none: "no count",
  },
  stopping: {
    heading: "The rule for stopping",
    looks: (count: number, total: number) =>
      `The plan locked ${wholeNumber(count)} ${count === 1 ? "look" : "looks"}. Together they say yes to a panel that only guesses ${finePercent(total)} of the time, counted out.`,
    sequential: (total: number, beta: number | null, sought: number | null) =>
      `The plan locked boundaries between guessing${sought === null ? "" : ` and ${percent(sought)} right`} (Wald, as in ISO 16820, from memory)${beta === null ? "" : `, with a risk of missing that of ${chosenPercent(beta)}`}. With these looks a panel that only guesses gets a yes ${finePercent(total)} of the time, counted out.`,
    early: (judgments: number, planned: number) =>
      `The study ended at ${wholeNumber(judgments)} of ${wholeNumber(planned)} answers. Estimates lean high where a study ends early with a yes.`,
    whole: "No look before the last one decided.",
    open: "No look has decided; the boundaries have not been crossed.",
    after: (answers: number) =>
      `${answers === 1 ? "1 answer" : `${wholeNumber(answers)} answers`} came after the look that decided; not counted.`,
    order: "For p, outcomes are ordered by when they stop, an earlier yes first, and then by the count.",
    lead: "At a look the lead saw only “go on” or “stop”; the tablets were told nothing.",
    caption: "What each look had, and what would have decided",
    columns: ["Answers", "Right", "Yes from", "No up to", "Said"],
    said: { yes: "stop: yes", no: "stop: no", "go-on": "go on" } satisfies Record<
      NonNullable<StoppingPath>["looks"][number]["said"],
      string
    >,
    never: "–",
  },
  norm: {
    heading: "“No preference”, against a study of one product twice",
    text: (title: string, here: Interval, then: Interval, p: number, alpha: number) =>
      `Here ${percent(here.estimate ?? 0)} had no preference (${shareRange(here)}); in ${named(title)}, where both samples were one product, it was ${percent(then.estimate ?? 0)} (${shareRange(then)}). If the share were one in both, so few here or fewer would come up ${howOften(p)} (${pIs(p, alpha)}, Fisher, one-sided).`,
    note: "People state preferences between two samples of one product too; that study says how often.",
    caption: "“No preference” here and there",
    columns: ["Study", "No preference", "Of"],
    here: "This study",
  },
  distance: {
    heading: "The distance d′",
    words: dPrimeSizes,
    value: ({ estimate, low, high, confidence, kind }: Interval): string => {
      const bounds =
        kind === "two-sided" && low !== null && high !== null
          ? ` (${minus(dPrimeBound(low))} to ${minus(dPrimeAtMost(high))}, ${chosenPercent(confidence)} interval)`
          : kind === "upper" && high !== null
            ? ` (${dPrimeAtMost(high)} or less, ${chosenPercent(confidence)} confidence)`
            : low !== null
              ? ` (${minus(dPrimeBound(low))} or more, ${chosenPercent(confidence)} confidence)`
              : ", estimate only";
      return estimate === null ? `no upper estimate${bounds}` : `${signed(estimate)}${bounds}`;
    },
    caption: (estimate: number | null, limit: number | null): string =>
      `${
        estimate === null
          ? "Every answer was right, so the distance has no upper estimate."
          : `A d′ of ${signed(estimate)} is ${dPrimeWord(estimate)}, by a rule of thumb (common practice, no source).`
      }${limit === null ? "" : ` Dotted: the limit, ${signed(limit)}.`} In figures: somebody asked which of two samples has more is right half of the time at 0, 76 % of the time at 1, 92 % at 2 and 98 % at 3.`.replace(
        /(\d) %/g,
        "$1\u00a0%",
      ),
    heads: { word: "Size, in a word", from: "d′ from", seen: "Seen" },
    limit: "limit",
  },
};

const minus = (text: string): string => text.replace("-", "\u2212");
const signed = (value: number): string => minus(dPrimeText(value));
