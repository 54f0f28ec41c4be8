import { chosenPercent, percent, shortNumber } from "../number.ts";
import { listed, organizer, plural } from "./organizer.ts";
import type { Names } from "./organizer-claims.ts";

/** What was found, and what it leaves of each explanation. */
const { nb } = organizer;

type Ends = { low: number | null; high: number | null; confidence: number };

const share = (value: number): string => percent(value);
const signed = (value: number): string => shortNumber(value, 1).replace("-", "−");
const between = (low: string, high: string, level: string): string => ` (${low} to ${high}, ${level} interval)`;
const ends = ({ low, high, confidence }: Ends, as: (value: number) => string): string =>
  low === null || high === null ? "" : between(as(low), as(high), chosenPercent(confidence));

const quoted = (names: readonly string[]): string => listed(names.map((name) => `\u201c${name}\u201d`));

export const findingWords = {
  heading: "Prediction beside finding",
  columns: { explanation: "explanation", predicts: "predicts", says: "the data" },
  found: "Found:",
  noResult: {
    nothing: "no result yet: nothing is attached",
    "not-weighed": "no result yet: a loss takes a raw mass and a later one in a batch of each",
    draft: "no result yet: the study is being planned",
    sealed: "no result yet: its key is not opened",
    "not-here": "no result here: this device does not have the whole study",
    failed: "no result here: the study cannot be read",
    reading: "being read…",
  },
  typedMark: "typed, not computed",
  source: (text: string) => `Source: ${text}`,
  verdict: {
    higher: "a difference is shown",
    lower: "a difference is shown",
    differs: "a difference is shown",
    "not-shown": "not shown",
    alike: "alike within the limit",
    "likeness-not-shown": "likeness within the limit is not shown",
    "no-verdict": "no verdict",
  },
  limit: (limit: number) => `fewer than ${percent(limit)} can tell`,
  why: {
    "too-few": "too few people answered",
    withheld: "the opened key does not match its seal",
    "far-below-chance": "far fewer right than guessing gives; check labels and wording first",
    exploratory: "asked beside what was locked as the question; numbers only",
    "not-compared": "the study does not compare these two",
    "no-test": "the study has no test of it",
    "no-interval": "a number without an interval shows nothing either way",
    "other-kind": "the study does not measure such a thing",
  },
  points: (of: string, estimate: number, given: Ends) => `${of} ${signed(estimate)}${nb}points${ends(given, signed)}`,
  ranks: (of: string, estimate: number, given: Ends) => `${of} ${signed(estimate)} in rank sum${ends(given, signed)}`,
  typed: (of: string, estimate: number | null, unit: string, low: number | null, high: number | null) => {
    const number = (value: number): string => signed(value);
    const interval = low === null || high === null ? "" : ` (interval ${number(low)} to ${number(high)})`;
    return `${of} ${estimate === null ? "not typed" : number(estimate)}${unit === "" ? "" : ` ${unit}`}${interval}`;
  },
  weighed: (of: string, estimate: number, given: Ends) =>
    `${of} ${signed(estimate)} percentage points of the raw mass lost${ends(given, signed)}`,
  weighedMark: (from: string, to: string, first: number, second: number, design: "independent" | "paired") =>
    `Weighed here, ${from} to ${to}: ${first} and ${plural(second, "batch", "batches")}, ${design === "paired" ? "in pairs" : "after Welch"}`,
  picked: (product: string, picked: number, of: number, chance: number, given: Ends) =>
    `${picked}${nb}of${nb}${of} for ${product}, ${shortNumber(of * chance)} by guessing alone${
      of === 0 ? "" : `: ${share(picked / of)}${ends(given, share)}`
    }`,
  right: (right: number, of: number, chance: number) =>
    `${right}${nb}of${nb}${of} right, ${shortNumber(of * chance)} by guessing alone`,
  told: (unlike: { told: number; of: number }, like: { told: number; of: number }) =>
    `called different ${unlike.told}${nb}of${nb}${unlike.of} times where it was, ${like.told}${nb}of${nb}${like.of} where it was not`,
  less: ({ first, second }: Names) => `${second} less ${first}:`,
  effectOf: (factor: string) => `effect of ${factor}:`,
  dependsOn: (one: string, other: string) => `${one} by ${other}:`,

  judgment: { contradicted: "contradicted", allowed: "still allowed", "not-tested": "not tested" },
  because: {
    silent: "it says nothing of this",
    "no-result": "no result yet",
    "no-verdict": "there is no verdict",
    "as-predicted": "shown as predicted",
    opposite: "shown the other way",
    "difference-shown": "a difference is shown",
    small: "a difference is shown, too small to matter",
    excluded: "the interval leaves no such difference that matters",
    "not-shown": "not shown, which excludes nothing",
    alike: "alike within the locked limit",
    "likeness-not-shown": "likeness is not shown, which excludes nothing",
    "no-direction": "a difference is shown, which way is not known",
  },
  after: "said after the result was known",
  stood: (predictions: readonly string[]) => `Before, it said: ${listed(predictions)}.`,
  neverSaid: "Nothing was said of it before.",
  stoodJudged: (judgment: string) => `By what stood before: ${judgment}.`,

  summary: {
    heading: "What the data still allow",
    none: "No result is in yet, so every explanation stands as it was written.",
    allowed: (names: readonly string[]) => `The data still allow ${quoted(names)}.`,
    noneAllowed: "No explanation stands against all of the data.",
    contradicted: (names: readonly string[]) => `They contradict ${quoted(names)}.`,
    untested: (names: readonly string[]) => `Not tested yet: ${quoted(names)}.`,
    by: (measures: readonly string[]) => `contradicted by ${listed(measures)}`,
    tested: (count: number) => `no contradiction in ${plural(count, "result", "results")}`,
    care: (count: number) =>
      count < 2
        ? "A single result can be wrong by chance. Allowed does not mean shown."
        : `Each of the ${count}${nb}results can be wrong by chance, with the risk locked for it. Allowed does not mean shown.`,
    takenOff: (list: readonly string[]) =>
      `Taken off this claim after the result was known: ${listed(list)}. The result is no longer part of what stands here.`,
  },
};
