import { problem } from "../model/problem.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Caveat, Result } from "../model/result.ts";
import { caveatOfRepeats, caveatsOfStatistics, caveatsOfStudy, servedBatches } from "./caveats.ts";
import { type ChoiceCounts, choiceStatistics } from "./choice.ts";
import { type Marked, markedTriangles } from "./marking.ts";
import { choiceMethod } from "./method.ts";

/** One answer that came without a study: who, which of that person's answers, and whether it was right. */
export type AnswerRow = { panelist: string; repeat: string; correct: boolean };
type Given = Omit<ChoiceCounts, "correct" | "judgments">;

/**
 * The result of a closed and revealed study: the one function behind report, terminal and archive check.
 *
 * Takes    record: a `StudyRecord` (its answers are marked by the opened key here); app: version that computes
 * Returns  the whole `Result`; departures are the record's own, none is added or dropped
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/no-odd-sample",
 *          "analysis/code-not-on-tray" when the record contradicts itself
 */
export function analyse(record: StudyRecord, app: string): Result {
  const { plan } = record;
  const marked = markedTriangles(record);
  const statistics = choiceStatistics({
    method: plan.method,
    goal: plan.goal,
    alpha: plan.alpha,
    correct: marked.filter(({ correct }) => correct).length,
    judgments: marked.length,
    sought: { discriminatorShare: plan.discriminatorShareSought, people: plan.people },
  });
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
    caveats: [
      ...caveatsOfStudy(record, marked, served),
      ...caveatOfRepeats(marked.map(({ seat }) => seat)),
      ...caveatsOfStatistics(statistics, plan.standsFor),
    ],
    departures: record.departures,
  };
}

/**
 * The result of two counts that came without a study.
 * Example  resultOfCounts({ method: "triangle", goal: "difference", alpha: 0.05, correct: 25, judgments: 50 }, "1").criticalNumber // 23
 */
export function resultOfCounts(counts: ChoiceCounts, app: string, caveats: readonly Caveat[] = []): Result {
  const statistics = choiceStatistics(counts);
  return {
    v: 1,
    app,
    study: null,
    ...statistics,
    orders: [],
    oddPositions: [],
    caveats: [...caveats, ...caveatsOfStatistics(statistics, "")],
    departures: [],
  };
}

/**
 * The result of single answers that came without a study. Repeats of one person are pooled, which keeps the difference
 * test exact (nobody is right but by chance if nothing differs); a caveat says that the bounds take no account of it.
 *
 * Throws   Problem "analysis/row-twice" when the same panelist and repeat come twice, and what `resultOfCounts` throws
 */
export function resultOfRows(given: Given, rows: readonly AnswerRow[], app: string): Result {
  const seen = new Set<string>();
  for (const { panelist, repeat } of rows) {
    const name = JSON.stringify([panelist, repeat]);
    if (seen.has(name)) throw problem("analysis/row-twice", { panelist, repeat });
    seen.add(name);
  }
  const correct = rows.filter((row) => row.correct).length;
  const repeats = caveatOfRepeats(rows.map(({ panelist }) => panelist));
  return resultOfCounts({ ...given, correct, judgments: rows.length }, app, repeats);
}

const countsOf = (answers: readonly Marked[]) => ({
  judgments: answers.length,
  correct: answers.filter(({ correct }) => correct).length,
});

function studyPart(record: StudyRecord, marked: readonly Marked[]): Result["study"] {
  const { plan, opened } = record;
  const ticked = marked.filter(({ guess }) => guess);
  return {
    id: record.study,
    title: plan.title,
    objective: plan.objective,
    ifYes: plan.ifYes,
    ifNo: plan.ifNo,
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
    guessesTicked: ticked.length,
    guessesTickedRight: ticked.filter(({ correct }) => correct).length,
  };
}
