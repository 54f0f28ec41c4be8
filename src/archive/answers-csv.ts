import { type Method, shapeOf } from "../model/method.ts";
import type { StudyRecord } from "../model/record.ts";
import {
  type Cells,
  inOrderOfTrays,
  type OnTray,
  occasionColumns,
  places,
  referenceColumns,
  samplesOf,
  trayCells,
} from "./answer-columns.ts";
import { writeTable } from "./csv.ts";

/** A counted answer as the analysis marks it (`markedChoices`). `oddPosition`: place of the right sample, from 1. */
type Marked = OnTray & { oddPosition: number; correct: boolean };

/** What a file of an overall triangle calls the place of the right sample, and what the others do. */
const placeColumn = (method: Method): string => (method === "triangle" ? "position_of_odd" : "position_of_right");

/**
 * The counted answers of a closed and revealed choice study in which somebody is right, as CSV: one line a tray, or one
 * for each question of it, in tray order.
 *
 * Takes    marked: the record's answers to all questions as the analysis marks them, so that file and result cannot
 *          disagree; what it refuses to mark has no file either
 * Returns  a text that `readAnswers` reads back. A panelist is a seat ("seat-7"): the log holds no names. `repeat` counts
 *          the trays of one seat; codes, products and batches stand in serving order, the reference cup before them
 */
export function answersCsv(record: Pick<StudyRecord, "plan" | "packet">, marked: readonly Marked[]): string {
  const columns = columnsOf(record, marked);
  const cellsOf = trayCells(record, marked);
  const rows = inOrderOfTrays(marked).map((answer) => {
    const cells: Cells = {
      ...cellsOf(answer),
      correct: answer.correct ? 1 : 0,
      [placeColumn(record.plan.method)]: answer.oddPosition,
      choice: answer.choice,
      pairs: pairsOf(answer),
      guess: answer.guess ? 1 : 0,
    };
    return columns.map((column) => cells[column] ?? "");
  });
  return writeTable(columns, rows);
}

/** The triangle's columns are those of its first files; other methods have the codes of the tray as well. */
function columnsOf(record: Pick<StudyRecord, "plan" | "packet">, marked: readonly Marked[]): string[] {
  const { method } = record.plan;
  const { answer, guess } = shapeOf(method);
  const samples = samplesOf(record);
  return [
    ...["panelist", "repeat", "correct", "tray", "wave"],
    ...occasionColumns(record, marked),
    ...["order", placeColumn(method), "choice"],
    ...(answer === "partner" ? ["pairs"] : []),
    ...(guess ? ["guess"] : []),
    ...referenceColumns(record),
    ...(method === "triangle" ? [] : places("code", samples)),
    ...places("product", samples),
    ...places("batch", samples),
  ];
}

/** How the panelist put four samples together: "217+604 358+941". */
function pairsOf({ choice, samples }: Marked): string {
  const [first = "", ...others] = samples.map(({ code }) => code);
  return `${first}+${choice} ${others.filter((code) => code !== choice).join("+")}`;
}
