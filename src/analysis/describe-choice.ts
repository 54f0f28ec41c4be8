import type { ChoiceResult } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import { leastForVerdict } from "./choice.ts";
import { type ChanceText, type FamilyText, type Row, rangeOf } from "./describe.ts";

/** What is said of a choice test. */
export function choiceWords(result: ChoiceResult, words: ReportWords): FamilyText {
  const { study, judgments, pValue, alpha, limit, correct, outcome } = result;
  // p in words reads like a finding: with a key in doubt it stands in the table alone
  const silent = judgments === 0 || outcome === "withheld";
  const meaning = limit
    ? words.similarity.pInWords(pValue, limit, correct, judgments)
    : words.pInWords(pValue, alpha, result);
  return {
    verdict: verdictOf(result, words),
    size: sizeOf(result, words),
    agreed: study ? words.agreed[outcome](study.ifYes, study.ifNo) : words.agreed.noStudy,
    meaning: silent ? "" : meaning,
    chance: chanceOf(result, words),
    rows: rowsOf(result, words),
    attributes: [],
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
  if (result.limit) return words.similarity.size(discriminatorShare, dPrime);
  // beside a test that was not reached stand both ends of what the answers allow, not only the lower one
  const fits = rangeOf(discriminatorShareRange);
  if (fits.high === 0) return words.size.belowGuessing(right, guessProbability);
  return words.size.open(discriminatorShare.estimate, fits);
}

function chanceOf(result: ChoiceResult, words: ReportWords): ChanceText {
  const { criticalNumber, chanceAtCritical, guessingPanels, limit, judgments } = result;
  const meets = (right: number) =>
    criticalNumber !== null && (limit ? right <= criticalNumber : right >= criticalNumber);
  const dots = guessingPanels.reduce((sum, panels, right) => sum + (meets(right) ? panels : 0), 0);
  const needed = limit ? words.similarity.chance.needed : words.chance.needed;
  return {
    caption: limit
      ? words.similarity.chance.caption(judgments, limit, criticalNumber, chanceAtCritical, dots)
      : words.chance.caption(result, criticalNumber, chanceAtCritical, dots),
    observed: words.chance.observed(result),
    needed: criticalNumber === null ? null : needed(criticalNumber),
    neededBelow: null,
    axis: words.chance.axis,
  };
}

function rowsOf(result: ChoiceResult, words: ReportWords): Row[] {
  const { rows, values, similarity } = words;
  const { correct, judgments, correctShare, chanceAtCritical, alpha, power, guesses, limit } = result;
  const bounds = correctShare.kind === "none" ? null : rangeOf(correctShare);
  const likeness = limit ? similarity : null;
  const list: Row[] = [
    { id: "right", label: rows.right, ...values.of(correct, judgments) },
    { id: "rightShare", label: rows.rightShare, ...values.share(correctShare.estimate, bounds) },
    { id: "expected", label: rows.expected, ...values.expected(result.expectedByGuessing) },
  ];
  if (limit)
    list.push({ id: "limit", label: similarity.rows.limit, ...similarity.values.limit(limit.discriminatorShare) });
  list.push({
    id: "needed",
    label: likeness?.rows.needed ?? rows.needed,
    ...values.needed(result.criticalNumber, limit?.beta ?? alpha),
  });
  if (chanceAtCritical !== null) {
    const label = likeness?.rows.chanceAtCritical ?? rows.chanceAtCritical;
    list.push({ id: "chanceAtCritical", label, ...values.chance(chanceAtCritical) });
  }
  list.push(
    { id: "pValue", label: rows.pValue, ...values.p(result.pValue, limit?.beta ?? alpha) },
    ...sizeRows(result, words),
  );
  if (power) {
    const label = likeness?.rows.power(power.people) ?? rows.power(power.discriminatorShare, power.people);
    list.push({ id: "power", label, ...values.power(power.power) });
  }
  if (guesses) list.push({ id: "guesses", label: rows.guesses, ...values.guesses(guesses.ticked, guesses.right) });
  return list;
}

function sizeRows({ discriminatorShare, dPrime, limit, judgments, people }: ChoiceResult, words: ReportWords): Row[] {
  const { rows, values, similarity } = words;
  return [
    {
      id: "discriminatorShare",
      label: rows.discriminatorShare(people),
      ...(limit ? similarity.values.tell(discriminatorShare) : values.tell(discriminatorShare)),
    },
    {
      id: "dPrime",
      label: rows.dPrime,
      ...(limit ? similarity.values.distance(dPrime, judgments > 0) : values.distance(dPrime, judgments > 0)),
    },
  ];
}
