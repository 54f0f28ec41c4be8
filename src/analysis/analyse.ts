import { problem } from "../model/problem.ts";
import type { AnswerRow, StudyRecord } from "../model/record.ts";
import type { Caveat, ChoiceResult, Result } from "../model/result.ts";
import { analysePair } from "./analyse-pair.ts";
import { analyseScale } from "./analyse-scale.ts";
import { belowPlan, caveatsOfChoice, caveatsOfStudy } from "./caveats.ts";
import { type ChoiceCounts, type ChoiceGoal, choiceStatistics } from "./choice.ts";
import { type Marked, markedChoices, onePerSeat } from "./marking.ts";
import { choiceMethod } from "./method.ts";
import { studyPart } from "./study-part.ts";

type Given = ChoiceGoal & Pick<ChoiceCounts, "method" | "alpha" | "confidence">;

/**
 * The result of a closed and revealed study: the one function behind report, terminal and archive check.
 *
 * Takes    record: a `StudyRecord` (its answers are marked by the opened key here); app: version that computes
 * Returns  the whole `Result`; departures are the record's own, none is added or dropped. A key that does not match its
 *          seal gives numbers and no verdict: nobody can say which answers were right
 * Throws   Problems of the area "analysis" when the record contradicts itself: see `markedChoices`, `markedPairs`,
 *          `markedKinds`, `markedLines`
 */
export function analyse(record: StudyRecord, app: string): Result {
  switch (record.plan.method) {
    case "paired-preference":
      return analysePair(record, app);
    case "line-scale":
      return analyseScale(record, app);
    default:
      return analyseChoice(record, app);
  }
}

const goalOf = ({ goal, similarity }: StudyRecord["plan"]): ChoiceGoal =>
  goal === "difference" ? { goal } : { goal, limit: { discriminatorShare: similarity.limit, beta: similarity.beta } };

/** As `analyse`, for a choice test. For likeness each person counts once: repeats say nothing of how many can tell. */
export function analyseChoice(record: StudyRecord, app: string): ChoiceResult {
  const { plan } = record;
  const all = markedChoices(record);
  const { kept: marked, leftOut } = plan.goal === "similarity" ? onePerSeat(all) : { kept: all, leftOut: [] };
  const ticked = marked.filter(({ guess }) => guess);
  const counted = choiceStatistics({
    ...goalOf(plan),
    method: plan.method,
    alpha: plan.alpha,
    correct: marked.filter(({ correct }) => correct).length,
    judgments: marked.length,
    people: new Set(marked.map(({ seat }) => seat)).size,
    sought: { discriminatorShare: plan.discriminatorShareSought, people: plan.people },
  });
  const statistics = record.keyMatches ? counted : { ...counted, outcome: "withheld" as const };
  const orders = choiceMethod(plan.method).orders.map((order) => ({
    order,
    ...countsOf(marked.filter((answer) => answer.order === order)),
  }));
  const served = orders.map(({ judgments }) => judgments);
  return {
    v: 1,
    app,
    study: studyPart(record, marked),
    ...statistics,
    questions: [],
    sessions: null,
    orders,
    oddPositions: [1, 2, 3].map((position) => ({
      position,
      ...countsOf(marked.filter((answer) => answer.oddPosition === position)),
    })),
    caveats: [
      ...caveatsOfStudy(record, marked, belowPlan(record, marked.length), served),
      ...personOnce(leftOut),
      ...caveatsOfChoice(statistics, plan.standsFor),
    ],
    departures: record.departures,
    guesses: { ticked: ticked.length, right: ticked.filter(({ correct }) => correct).length },
  };
}

const personOnce = (trays: number[]): Caveat[] => (trays.length > 0 ? [{ what: "person-once", trays }] : []);

/**
 * The result of two counts that came without a study.
 * Example  resultOfCounts({ method: "triangle", goal: "difference", alpha: 0.05, correct: 25, judgments: 50 }, "1").criticalNumber // 23
 */
export function resultOfCounts(counts: ChoiceCounts, app: string): ChoiceResult {
  const statistics = choiceStatistics(counts);
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    questions: [],
    sessions: null,
    orders: [],
    oddPositions: [],
    caveats: caveatsOfChoice(statistics, ""),
    departures: [],
    guesses: null,
  };
}

/**
 * The result of single answers that came without a study. Repeats of one person are pooled for the difference test and
 * give no bounds; for likeness they are refused.
 *
 * Takes    rows: no person and repeat twice; `readAnswers` sees to that, with the lines at fault
 * Throws   what `choiceStatistics` throws, and Problem "analysis/person-twice"
 */
export function resultOfRows(given: Given, rows: readonly AnswerRow[], app: string): ChoiceResult {
  const correct = rows.filter((row) => row.correct).length;
  const people = new Set<string>();
  for (const { panelist } of rows) {
    if (given.goal === "similarity" && people.has(panelist)) throw problem("analysis/person-twice", { panelist });
    people.add(panelist);
  }
  return resultOfCounts({ ...given, correct, judgments: rows.length, people: people.size }, app);
}

const countsOf = (answers: readonly Marked[]) => ({
  judgments: answers.length,
  correct: answers.filter(({ correct }) => correct).length,
});
