import { problem } from "../model/problem.ts";
import type { ChoiceResult, Interval, Result } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import { leastForVerdict } from "./choice.ts";

/** One line of the table; `behind` is what stands beside the number, or empty. */
export type Row = { id: string; label: string; value: string; behind: string };

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
  chance: { caption: string; observed: string; needed: string | null; axis: string };
  rows: Row[];
  caveats: string[];
  /** At least one sentence: "None recorded." when nothing went off the plan. */
  departures: string[];
};

/**
 * Every sentence of the report, made from the numbers of the result and nothing else.
 *
 * Takes    words: sentences of one language (`words/<language>/report.ts`)
 * Returns  plain texts; those of the lead (names, notes, steps) appear as typed, in quotation marks
 */
export function describe(result: Result, words: ReportWords): Description {
  if (result.family !== "choice") throw problem("analysis/method-not-yet", { method: result.method });
  const { study, judgments, pValue, alpha } = result;
  // p in words reads like a finding: with a key in doubt it stands in the table alone
  const silent = judgments === 0 || result.outcome === "withheld";
  return {
    test: `${words.methods[result.method]}, ${words.goals[result.goal]}`,
    verdict: verdictOf(result, words),
    size: sizeOf(result, words),
    agreed: study ? words.agreed[result.outcome](study.ifYes, study.ifNo) : words.agreed.noStudy,
    meaning: silent ? "" : words.pInWords(pValue, alpha, result),
    caution: silent ? "" : words.pIsNot,
    chance: chanceOf(result, words),
    rows: rowsOf(result, words),
    caveats: result.caveats.map((caveat) => sentence(words.caveats, caveat)),
    departures: departuresOf(result, words),
  };
}

function verdictOf(result: ChoiceResult, words: ReportWords): string {
  const [first, second] = result.study?.products ?? [];
  return words.verdict[result.outcome]({
    method: result.method,
    correct: result.correct,
    judgments: result.judgments,
    people: result.people,
    needed: result.criticalNumber,
    alpha: result.alpha,
    products: first && second ? [first.name, second.name] : null,
    planned: result.study !== null,
    limit: result.limit?.discriminatorShare ?? 0,
    beta: result.limit?.beta ?? 0,
    leastForVerdict,
  });
}

function sizeOf(result: ChoiceResult, words: ReportWords): string {
  const { correctShare, discriminatorShare, discriminatorShareRange, dPrime, outcome, guessProbability } = result;
  const right = correctShare.estimate;
  if (outcome === "withheld") return words.size.withheld;
  if (right === null || discriminatorShare.estimate === null) return words.size.none;
  if (correctShare.kind === "none") return words.size.unbounded(right, guessProbability, result.people);
  if (outcome === "reached") return words.size.reached(discriminatorShare, dPrime);
  if (outcome === "far-below-chance") return words.size.rightOnly(right, rangeOf(correctShare), guessProbability);
  // beside a test that was not reached stand both ends of what the answers allow, not only the lower one
  const fits = rangeOf(discriminatorShareRange);
  if (fits.high === 0) return words.size.belowGuessing(right, guessProbability);
  return words.size.open(discriminatorShare.estimate, fits);
}

/** The two ends of a two-sided interval of shares. */
const rangeOf = ({ low, high, confidence }: Interval) => ({ low: low ?? 0, high: high ?? 1, confidence });

function chanceOf(result: ChoiceResult, words: ReportWords): Description["chance"] {
  const { criticalNumber, chanceAtCritical, guessingPanels } = result;
  const dots = guessingPanels.reduce(
    (sum, panels, right) => sum + (right >= (criticalNumber ?? right + 1) ? panels : 0),
    0,
  );
  return {
    caption: words.chance.caption(result, criticalNumber, chanceAtCritical, dots),
    observed: words.chance.observed(result),
    needed: criticalNumber === null ? null : words.chance.needed(criticalNumber),
    axis: words.chance.axis,
  };
}

function rowsOf(result: ChoiceResult, { rows, values }: ReportWords): Row[] {
  const { correct, judgments, people, correctShare, chanceAtCritical, alpha, power, guesses } = result;
  const bounds = correctShare.kind === "none" ? null : rangeOf(correctShare);
  const list: Row[] = [
    { id: "right", label: rows.right, ...values.of(correct, judgments) },
    { id: "rightShare", label: rows.rightShare, ...values.share(correctShare.estimate, bounds) },
    { id: "expected", label: rows.expected, ...values.expected(result.expectedByGuessing) },
    { id: "needed", label: rows.needed, ...values.needed(result.criticalNumber, alpha) },
  ];
  if (chanceAtCritical !== null) {
    list.push({ id: "chanceAtCritical", label: rows.chanceAtCritical, ...values.chance(chanceAtCritical) });
  }
  list.push(
    { id: "pValue", label: rows.pValue, ...values.p(result.pValue, alpha) },
    {
      id: "discriminatorShare",
      label: rows.discriminatorShare(people),
      ...values.tell(result.discriminatorShare),
    },
    { id: "dPrime", label: rows.dPrime, ...values.distance(result.dPrime, judgments > 0) },
  );
  if (power) {
    list.push({
      id: "power",
      label: rows.power(power.discriminatorShare, power.people),
      ...values.power(power.power),
    });
  }
  if (guesses) {
    list.push({
      id: "guesses",
      label: rows.guesses,
      ...values.guesses(guesses.ticked, guesses.right),
    });
  }
  return list;
}

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
