import { problem } from "../model/problem.ts";
import type { AnswerRow, StudyRecord } from "../model/record.ts";
import type { ChoiceResult, Result } from "../model/result.ts";
import { caveatsOfStatistics, caveatsOfStudy, servedBatches } from "./caveats.ts";
import { type ChoiceCounts, choiceStatistics } from "./choice.ts";
import { type Marked, markedTriangles } from "./marking.ts";
import { choiceMethod } from "./method.ts";

type Given = Omit<ChoiceCounts, "correct" | "judgments" | "people">;

/**
 * The result of a closed and revealed study: the one function behind report, terminal and archive check.
 *
 * Takes    record: a `StudyRecord` (its answers are marked by the opened key here); app: version that computes
 * Returns  the whole `Result`; departures are the record's own, none is added or dropped. A key that does not match its
 *          seal gives numbers and no verdict: nobody can say which answers were right
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/no-odd-sample",
 *          "analysis/code-not-on-tray" when the record contradicts itself
 */
export function analyse(record: StudyRecord, app: string): Result {
  if (record.plan.method !== "triangle") throw problem("analysis/method-not-yet", { method: record.plan.method });
  return analyseChoice(record, app);
}

/** The similarity goal of a choice test is computed with the exact tests of that goal, which are not there yet. */
function requireDifference(goal: StudyRecord["plan"]["goal"]): "difference" {
  if (goal !== "difference") throw problem("analysis/method-not-yet", { method: goal });
  return goal;
}

/** As `analyse`, for a choice test. */
export function analyseChoice(record: StudyRecord, app: string): ChoiceResult {
  const { plan } = record;
  const marked = markedTriangles(record);
  const ticked = marked.filter(({ guess }) => guess);
  const counted = choiceStatistics({
    method: plan.method,
    goal: requireDifference(plan.goal),
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
    orders,
    oddPositions: [1, 2, 3].map((position) => ({
      position,
      ...countsOf(marked.filter((answer) => answer.oddPosition === position)),
    })),
    caveats: [...caveatsOfStudy(record, marked, served), ...caveatsOfStatistics(statistics, plan.standsFor)],
    departures: record.departures,
    guesses: { ticked: ticked.length, right: ticked.filter(({ correct }) => correct).length },
  };
}

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
    orders: [],
    oddPositions: [],
    caveats: caveatsOfStatistics(statistics, ""),
    departures: [],
    guesses: null,
  };
}

/**
 * The result of single answers that came without a study. Repeats of one person are pooled for the difference test and
 * give no bounds.
 *
 * Takes    rows: no person and repeat twice; `readAnswers` sees to that, with the lines at fault
 * Throws   what `choiceStatistics` throws
 */
export function resultOfRows(given: Given, rows: readonly AnswerRow[], app: string): ChoiceResult {
  const correct = rows.filter((row) => row.correct).length;
  const people = new Set(rows.map(({ panelist }) => panelist)).size;
  return resultOfCounts({ ...given, correct, judgments: rows.length, people }, app);
}

const countsOf = (answers: readonly Marked[]) => ({
  judgments: answers.length,
  correct: answers.filter(({ correct }) => correct).length,
});

function studyPart(record: StudyRecord, marked: readonly Marked[]): Result["study"] {
  const { plan, opened } = record;
  return {
    id: record.study,
    title: plan.title,
    invented: plan.invented,
    objective: plan.objective,
    ifYes: plan.ifYes,
    ifNo: plan.ifNo,
    standsFor: plan.standsFor,
    panelType: plan.panelType,
    products: plan.products.map(({ id, name, preparation }) => ({
      name,
      preparation,
      batches: servedBatches(record, marked, id),
    })),
    lockedAt: record.lockedAt,
    closedAt: record.closedAt,
    revealedAt: record.revealedAt,
    commitment: record.commitment,
    keyMatches: record.keyMatches,
    seed: opened.key.seed,
    planned: plan.people,
  };
}
