import type { Interval } from "../model/interval.ts";
import type { Caveat, Result } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import { besideParts } from "./describe-beside.ts";
import { describeBlank } from "./describe-blank.ts";
import { choiceWords } from "./describe-choice.ts";
import { kindsWords } from "./describe-kinds.ts";
import { pairWords } from "./describe-pair.ts";
import { limitsOfPortions, portionsWords } from "./describe-portions.ts";
import { rankWords } from "./describe-rank.ts";
import { scaleWords } from "./describe-scale.ts";

/** One line of the table; `behind` is what stands beside the number, or empty. */
export type Row = { id: string; label: string; value: string; behind: string };

/** A table in words. The first cell of each row names it. */
export type WordTable = { caption: string; columns: string[]; rows: string[][]; note: string };

/** What stands in and under the picture of chance. `neededBelow`: the other end of a rule that has two. */
export type ChanceText = {
  caption: string;
  observed: string;
  needed: string | null;
  neededBelow: string | null;
  axis: string;
};

/** One property of a line scale in words. The first of them is what the question is about. */
export type AttributeText = {
  heading: string;
  /** What the ends of the line are; empty for values from elsewhere. */
  ends: string;
  /** What was found, without a verdict; or why there is no test. */
  finding: string;
  /** How often each step was chosen; null for a line. */
  distribution: WordTable | null;
  /** Does a part of the page tell of it? Then it stands there alone. */
  apart: boolean;
  /** Empty for the first property. */
  beside: string;
  /** Which of two analyses leads and why they can differ; empty where marks are balanced. */
  lead: string;
  rows: Row[];
  means: WordTable | null;
  contrasts: WordTable | null;
  /** Decimals of the points, the same everywhere for one property. */
  decimals: number;
  picture: { caption: string };
};

/** Properties over the chew, numbered from 1. */
export type CurvePart = `curve-${number}` | `change-${number}`;

/** A property on a just-right scale, by its place among the attributes, from 1. */
export type RightPart = `right-${number}`;

/** What a ranking has: its sums, its pairs, how often each place. */
export type RankPart = "rank-sums" | "rank-pairs" | "rank-places";

/** What chewed portions have: gains by product, and by person. */
export type PortionsPart = "gains" | "gains-by-person";

/** Differences of all properties on one axis, one for each unit, numbered from 1. */
export type StripPart = `strip-${number}`;

/** A part of the page that only some studies have: sessions, looks, people with several answers … */
export type Part = {
  id:
    | "people"
    | "sessions"
    | "questions"
    | "stopping"
    | "norm"
    | "two-by-two"
    | "panel"
    | "beside"
    | StripPart
    | CurvePart
    | RightPart
    | RankPart
    | PortionsPart;
  heading: string;
  sentences: string[];
  table: WordTable;
};

/** The report in words, top to bottom. */
export type Description = {
  /** "Triangle test, to show a difference": the fine line at the top. */
  test: string;
  verdict: string;
  /** How large, with bounds. */
  size: string;
  /** What was agreed beforehand, and which step the result calls for. */
  agreed: string;
  /** p in words, and what p is not. */
  meaning: string;
  caution: string;
  /** Null for a scale. */
  chance: ChanceText | null;
  rows: Row[];
  /** Properties of a scale; empty for the other families. */
  attributes: AttributeText[];
  parts: Part[];
  caveats: string[];
  /** At least one sentence: "None recorded." when nothing went off the plan. */
  departures: string[];
};

/** What differs from family to family. */
export type FamilyText = Omit<Description, "test" | "caution" | "caveats" | "departures">;

/**
 * Every sentence of the report, made from the numbers of the result and nothing else.
 *
 * Takes    words: sentences of one language (`words/<language>/report.ts`)
 * Returns  plain texts; those of the lead (names, notes, steps) appear as typed, in quotation marks
 */
export function describe(result: Result, words: ReportWords): Description {
  const family = familyText(result, words);
  const ofCaveat = (caveat: Caveat) => sentence(words.caveats, caveat);
  const said: Description = {
    test: `${words.methods[result.method]}, ${goalOf(result, words)}`,
    ...family,
    parts: [...family.parts, ...besideParts(result, family, words)],
    caution: family.meaning === "" ? "" : words.pIsNot,
    caveats: [...(result.family === "portions" ? limitsOfPortions(result) : []), ...result.caveats.map(ofCaveat)],
    departures: departuresOf(result, words),
  };
  return result.study?.blank ? describeBlank(result, said, words, ofCaveat) : said;
}

function goalOf(result: Result, { preference, twoSided, goals }: ReportWords): string {
  if (result.family === "pair") return (result.method === "paired-preference" ? preference : twoSided).goal;
  return goals[result.goal];
}

function familyText(result: Result, words: ReportWords): FamilyText {
  switch (result.family) {
    case "choice":
      return choiceWords(result, words);
    case "pair":
      return pairWords(result, words);
    case "scale":
      return scaleWords(result, words);
    case "kinds":
      return kindsWords(result, words);
    case "rank":
      return rankWords(result, words);
    case "portions":
      return portionsWords(result, words);
  }
}

/** The two ends of a two-sided interval of shares. */
export const rangeOf = ({ low, high, confidence }: Interval) => ({ low: low ?? 0, high: high ?? 1, confidence });

function departuresOf(result: Result, words: ReportWords): string[] {
  if (!result.study) return [words.noRecord];
  const list = result.departures.map((departure) => sentence(words.departures, departure));
  return list.length > 0 ? list : [words.noDepartures];
}

/** The sentence for a fact, from a table that has one for each kind. */
function sentence<F extends { what: string }>(
  table: { [W in F["what"]]: (fact: Extract<F, { what: W }>) => string },
  fact: F,
): string {
  const make = table[fact.what as F["what"]] as (fact: F) => string;
  return make(fact);
}
