import { shapeOf } from "../model/method.ts";
import type { QuestionResult } from "../model/outcome.ts";
import type { StudyRecord } from "../model/record.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import { upperTail } from "./binomial.ts";
import { holm } from "./holm.ts";
import { familyOf } from "./method.ts";
import { twoSidedP } from "./two-sided.ts";

type Statistics = ChoiceStatistics | PairStatistics;

/** A property asked of each tray, as a result names it. */
export type AskedProperty = { asked: NonNullable<Statistics["property"]>; inFamily: boolean };

/** The properties that are asked of each tray, in the order of the plan. */
function askedProperties({ plan }: StudyRecord): AskedProperty[] {
  const nameOf = (product: string | null) => plan.products.find(({ id }) => id === product)?.name ?? null;
  return plan.properties.map(({ name, comparative, expected, inFamily }, at) => ({
    asked: {
      name,
      comparative,
      expected: familyOf(plan.method, plan.sides) === "pair" ? null : nameOf(expected),
    },
    inFamily: at === 0 || inFamily,
  }));
}

/** One question with its statistics, tested by itself, and the same at another risk than the plan's. */
export type AskedQuestion<S extends Statistics> = { inFamily: boolean; statistics: S; atRisk: (risk: number) => S };

/**
 * Several questions of the same trays: those of the family named at lock share its risk by Holm's steps, the others are
 * looked at without a verdict.
 *
 * Takes    asked: each with its statistics, tested by itself; the first is the question of the study
 * Returns  first: its statistics with the adjusted p, the verdict by it, and the number that would have reached it beside
 *          the p-values of the others; questions: the same of all, empty where one thing was asked
 */
export function withFamily<S extends Statistics>(
  asked: readonly AskedQuestion<S>[],
): { first: S; questions: QuestionResult[] } {
  const [question] = asked;
  if (!question) throw new Error("no question was asked");
  if (asked.length === 1) return { first: question.statistics, questions: [] };
  const family = asked.filter(({ inFamily }) => inFamily).map(({ statistics }) => statistics);
  const adjusted = holm(family.map(({ pValue }) => pValue));
  const within = ({ statistics, atRisk }: AskedQuestion<S>): S => {
    const at = family.indexOf(statistics);
    if (at < 0 || family.length === 1) return statistics;
    const others = family.filter((_, other) => other !== at).map(({ pValue }) => pValue);
    return stepped(statistics, adjusted[at] ?? 1, others, atRisk);
  };
  const all = asked.map((one) => ({ inFamily: one.inFamily, statistics: within(one) }));
  return {
    first: all[0]?.statistics ?? question.statistics,
    questions: all.map(({ inFamily, statistics }) => rowOf(statistics, inFamily)),
  };
}

/**
 * Every question of a study, answered: the first one, which is the study's, and all of them as a family.
 *
 * Takes    one: the question at a place (from 0), with the property that it asks for, if the method names one
 * Returns  question: the first as `one` gave it; statistics: its own within the family; questions: as `withFamily`.
 *          Where the opened key does not match its seal nobody can say what was right: no verdict stands
 */
export function answered<S extends Statistics, Q extends AskedQuestion<S>>(
  record: StudyRecord,
  one: (at: number, property: AskedProperty | undefined) => Q,
): { question: Q; statistics: S; questions: QuestionResult[] } {
  const properties = shapeOf(record.plan.method).property ? askedProperties(record) : [];
  const question = one(0, properties[0]);
  const further = properties.slice(1).map((property, at) => one(at + 1, property));
  const { first, questions } = withFamily<S>([question, ...further]);
  if (record.keyMatches) return { question, statistics: first, questions };
  return { question, statistics: { ...first, outcome: "withheld" }, questions: withheld(questions) };
}

/** The verdicts of a family taken back. */
const withheld = (questions: readonly QuestionResult[]): QuestionResult[] =>
  questions.map((row) => ({ ...row, outcome: row.outcome && "withheld" }));

const riskOf = (statistics: Statistics): number =>
  statistics.family === "choice" && statistics.limit ? statistics.limit.beta : statistics.alpha;

function stepped<S extends Statistics>(
  statistics: S,
  pValueAdjusted: number,
  others: readonly number[],
  atRisk: (risk: number) => S,
): S {
  const { outcome, criticalNumber, pValue } = statistics;
  const reached = pValueAdjusted <= riskOf(statistics);
  // Holm left this question that part of the risk: at it the plain p decides as the adjusted one does at the whole, and
  // so bounds at it stand on the side where the verdict stands
  const left = pValueAdjusted > 0 ? (riskOf(statistics) * pValue) / pValueAdjusted : riskOf(statistics);
  const lost = { reached: "not-reached", "within-limit": "not-within-limit" } as const;
  const kept = reached || (outcome !== "reached" && outcome !== "within-limit") ? outcome : lost[outcome];
  const needed = criticalNumber === null ? null : numberWithin(statistics, others);
  return {
    ...statistics,
    ...boundsOf(left > 0 && left < riskOf(statistics) ? atRisk(left) : statistics),
    pValueAdjusted,
    outcome: kept,
    criticalNumber: needed,
    chanceAtCritical: needed === null ? null : chanceOf(statistics, needed),
  };
}

/** What goes with the test. */
function boundsOf(statistics: Statistics): Partial<Statistics> {
  if (statistics.family === "pair") {
    const { firstShare, secondShare, dPrime } = statistics;
    return { firstShare, secondShare, dPrime };
  }
  const { discriminatorShare, discriminatorShareRange, dPrime } = statistics;
  return { discriminatorShare, discriminatorShareRange, dPrime };
}

/** P of another count than the one at hand; of a pair: for the larger side. Only for a test by counts of a difference. */
function chanceOf(statistics: Statistics, count: number): number {
  const { judgments } = statistics;
  if (statistics.family === "pair") return twoSidedP(count, judgments - count);
  return upperTail(count, judgments, statistics.guessProbability);
}

/** The least count that Holm's steps let through beside the p-values of the others; null where none would. */
function numberWithin(statistics: Statistics, others: readonly number[]): number | null {
  // a critical number of likeness is a most, and its p is under the limit: it is not shown beside a family
  if (statistics.goal === "similarity") return null;
  const passes = (count: number) =>
    (holm([Math.min(1, chanceOf(statistics, count)), ...others])[0] ?? 1) <= statistics.alpha;
  for (let count = statistics.criticalNumber ?? 0; count <= statistics.judgments; count++) {
    if (passes(count)) return count;
  }
  return null;
}

function rowOf(statistics: Statistics, inFamily: boolean): QuestionResult {
  const { property, judgments, criticalNumber, pValue, pValueAdjusted, outcome } = statistics;
  const pair = statistics.family === "pair";
  return {
    property: property ?? { name: "", comparative: "", expected: null },
    inFamily,
    judgments,
    correct: pair ? statistics.tested.first : statistics.correct,
    criticalNumber: inFamily ? criticalNumber : null,
    pValue,
    // a family of one has nothing to share: its p is the adjusted one
    pValueAdjusted: inFamily ? (pValueAdjusted ?? pValue) : null,
    share: pair ? statistics.firstShare : statistics.correctShare,
    outcome: inFamily ? outcome : null,
  };
}
