import { asKinds } from "../model/method.ts";
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
import { kindsWords } from "./kind-rows.ts";

/** A counted answer as the analysis marks it (`markedKinds`). */
type Marked = OnTray & { unlike: boolean; told: boolean };

/**
 * The counted answers of a closed and revealed same-different or A-not-A study as CSV, one line a tray, in tray order.
 *
 * Takes    marked: the record's answers as the analysis marks them, so that file and result cannot disagree
 * Returns  a text that `readKinds` reads back: `served` is what was on the tray, `answer` what was said of it. A panelist
 *          is a seat ("seat-7"); `repeat` counts the trays of one seat; codes, products and batches stand in serving
 *          order, the reference cup before them
 */
export function kindsCsv(record: Pick<StudyRecord, "plan" | "packet">, marked: readonly Marked[]): string {
  const words = kindsWords[asKinds(record.plan.method)];
  const samples = samplesOf(record);
  const columns = [
    ...["panelist", "repeat", "served", "answer", "tray", "wave"],
    ...occasionColumns(record, marked),
    "order",
    ...referenceColumns(record),
    ...places("code", samples),
    ...places("product", samples),
    ...places("batch", samples),
  ];
  const cellsOf = trayCells(record, marked);
  const rows = inOrderOfTrays(marked).map((answer) => {
    const cells: Cells = {
      ...cellsOf(answer),
      served: answer.unlike ? words.unlike : words.like,
      answer: answer.told ? words.unlike : words.like,
    };
    return columns.map((column) => cells[column] ?? "");
  });
  return writeTable(columns, rows);
}
