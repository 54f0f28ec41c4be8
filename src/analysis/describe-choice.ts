import { asksProperty } from "../model/method.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { ChoiceResult } from "../model/result.ts";
import type { ReportWords } from "../words/en/report.ts";
import { type ChanceText, type FamilyText, type Row, rangeOf } from "./describe.ts";
import { choiceParts } from "./describe-parts.ts";

/** What is said of a choice test. */
export function choiceWords(result: ChoiceResult, words: ReportWords): FamilyText {
  const { judgments, outcome } = result;
  // p in words reads like a finding: with a key in doubt it stands in the table alone
  const silent = judgments === 0 || outcome === "withheld";
  return {
    verdict: verdictOf(result, words),
    size: sizeOf(result, words),
    agreed: agreedOf(result, words),
    meaning: silent ? "" : meaningOf(result, words),
    chance: chanceOf(result, words),
    rows: rowsOf(result, words),
    attributes: [],
    parts: choiceParts(result, words),
  };
}

/** A directional choice has found more of something in one product, not only told two apart. */
const directional = ({ method }: ChoiceResult): boolean => asksProperty(method);

function agreedOf(result: ChoiceResult, { agreed, agreedIfShown }: ReportWords): string {
  const { study, outcome } = result;
  if (!study) return agreed.noStudy;
  if (outcome === "reached" && directional(result)) return agreedIfShown(study.ifYes);
  return agreed[outcome](study.ifYes, study.ifNo);
}

/** Likeness of people with several answers each is not read off a count, but off a model in which they differ. */
const bySpread = ({ limit, people, judgments }: ChoiceResult): boolean =>
  limit !== null && people > 1 && people < judgments;

function meaningOf(result: ChoiceResult, { pInWords, similarity }: ReportWords): string {
  const { pValue, alpha, limit, correct, judgments, stopping } = result;
  if (limit) {
    return bySpread(result)
      ? similarity.pBySpread(pValue, limit)
      : similarity.pInWords(pValue, limit, correct, judgments);
  }
  return (stopping ? pInWords.stopped : pInWords.plain)(pValue, alpha, result);
}

function verdictOf(result: ChoiceResult, words: ReportWords): string {
  const [first, second] = result.study?.products ?? [];
  const look = result.stopping?.looks.at(-1);
  return words.verdict[result.outcome]({
    method: result.method,
    property: result.property,
    shared: result.pValueAdjusted,
    stop: look ? { said: look.said, lower: look.lower } : null,
    limitDistance: result.limit?.fixedAs === "d-prime" ? result.limit.dPrime : null,
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
  if (result.limit && discriminatorShare.high !== null) return words.similarity.size(discriminatorShare, dPrime);
  if (correctShare.kind === "none") return poolSize(result, words, right);
  if (outcome === "reached") return words.size.reached(discriminatorShare, dPrime);
  if (outcome === "far-below-chance") return words.size.rightOnly(right, rangeOf(correctShare), guessProbability);
  // beside a test that was not reached stand both ends of what the answers allow, not only the lower one
  const fits = rangeOf(discriminatorShareRange);
  if (fits.high === 0) return words.size.belowGuessing(right, guessProbability);
  return words.size.open(discriminatorShare.estimate, fits);
}

/** Pooled answers bound nothing; the model in which people differ does, where it could be fitted. */
function poolSize({ guessProbability, chanceCorrected, people }: ChoiceResult, { size }: ReportWords, right: number) {
  const tell = chanceCorrected?.mean;
  return tell && tell.estimate !== null && tell.low !== null && tell.high !== null
    ? size.spread(right, guessProbability, { ...rangeOf(tell), estimate: tell.estimate })
    : size.unbounded(right, guessProbability, people);
}

function chanceOf(result: ChoiceResult, words: ReportWords): ChanceText {
  const { criticalNumber, guessingPanels, limit } = result;
  const meets = (right: number) =>
    criticalNumber !== null && (limit ? right <= criticalNumber : right >= criticalNumber);
  const dots = guessingPanels.reduce((sum, panels, right) => sum + (meets(right) ? panels : 0), 0);
  const needed = limit ? words.similarity.chance.needed : words.chance.needed;
  return {
    caption: captionOf(result, words, dots),
    observed: words.chance.observed(result),
    needed: criticalNumber === null ? null : needed(criticalNumber),
    neededBelow: null,
    axis: words.chance.axis,
  };
}

function captionOf(result: ChoiceResult, { chance, similarity }: ReportWords, dots: number): string {
  const { criticalNumber, chanceAtCritical, limit, judgments, stopping } = result;
  if (stopping) return chance.stopped(result, stopping.totalAlpha);
  if (limit && bySpread(result)) return similarity.chance.pooled(judgments, limit);
  return limit
    ? similarity.chance.caption(judgments, limit, criticalNumber, chanceAtCritical, dots)
    : chance.caption(result, criticalNumber, chanceAtCritical, dots);
}

function rowsOf(result: ChoiceResult, words: ReportWords): Row[] {
  const { rows, values, similarity } = words;
  const { correct, judgments, correctShare, alpha, power, guesses, limit } = result;
  const bounds = correctShare.kind === "none" ? null : rangeOf(correctShare);
  const list: Row[] = [
    { id: "right", label: rows.right, ...values.of(correct, judgments) },
    { id: "rightShare", label: rows.rightShare, ...values.share(correctShare.estimate, bounds) },
    { id: "expected", label: rows.expected, ...values.expected(result.expectedByGuessing) },
  ];
  if (limit) list.push({ id: "limit", label: similarity.rows.limit, ...similarity.values.limit(limit) });
  list.push(...ruleRows(result, words));
  list.push({
    id: "pValue",
    label: bySpread(result) ? similarity.rows.pBySpread : rows.pValue,
    ...values.p(result.pValue, limit?.beta ?? alpha),
  });
  if (result.pValueAdjusted !== null) {
    list.push({ id: "shared", label: rows.shared, ...values.p(result.pValueAdjusted, alpha) });
  }
  list.push(...sizeRows(result, words));
  if (power) {
    const label = limit
      ? similarity.rows.power(power.people)
      : rows.power(power.discriminatorShare, power.people, power.dPrime);
    list.push({ id: "power", label, ...values.power(power.power) });
  }
  if (guesses) list.push({ id: "guesses", label: rows.guesses, ...values.guesses(guesses.ticked, guesses.right) });
  return list;
}

/** What the rule asks for; with people who differ no count decides. */
function ruleRows(result: ChoiceResult, { rows, values, similarity }: ReportWords): Row[] {
  const { limit, alpha, criticalNumber, chanceAtCritical, stopping } = result;
  if (bySpread(result)) return [];
  const needed = limit ? similarity.rows.needed : stopping ? rows.neededAtLook : rows.needed;
  const chance = limit ? similarity.rows.chanceAtCritical : stopping ? rows.totalAlpha : rows.chanceAtCritical;
  const list: Row[] = [{ id: "needed", label: needed, ...values.needed(criticalNumber, limit?.beta ?? alpha) }];
  const exact = stopping?.totalAlpha ?? chanceAtCritical;
  if (exact !== null) list.push({ id: "chanceAtCritical", label: chance, ...values.chance(exact) });
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
