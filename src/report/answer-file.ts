import { markedChoices, markedKinds, markedLines, markedOrders, markedPairs } from "../analysis/marking.ts";
import { familyOf } from "../analysis/method.ts";
import { servedPortions } from "../analysis/portion-rows.ts";
import { markValue } from "../analysis/steps.ts";
import { answersCsv } from "../archive/answers-csv.ts";
import { readTable, writeTable } from "../archive/csv.ts";
import { dataPackage } from "../archive/data-package.ts";
import { kindsCsv } from "../archive/kinds-csv.ts";
import { marksCsv } from "../archive/marks-csv.ts";
import { portionsCsv } from "../archive/portions-csv.ts";
import { preferencesCsv } from "../archive/preferences-csv.ts";
import { ranksCsv } from "../archive/ranks-csv.ts";
import { type AnswerShape, shapeOf } from "../model/method.ts";
import type { StudyRecord } from "../model/record.ts";
import { reader } from "../words/en/reader.ts";
import { columnText } from "../words/en/reader-files.ts";
import type { Opened } from "./opened-study.ts";

/** How long a person took is for the lead alone. */
const timesOfPersons = ["answer_seconds"];

/** Columns that name a row, where the file has them. */
const keysOf = ({ plan }: StudyRecord): string[] =>
  (
    ({
      marks: ["tray", "code", "attribute", "moment"],
      order: ["tray", "code"],
      portions: ["tray", "code"],
    }) as Partial<Record<AnswerShape, string[]>>
  )[shapeOf(plan.method).answer] ?? ["tray", "question"];

/** The counted answers of a study as CSV: one line an answer, or a mark. */
export function answersText({ record }: Opened, lead: boolean): string {
  const text = wholeText(record);
  return lead ? text : withoutColumns(text, timesOfPersons);
}

function wholeText(record: StudyRecord): string {
  const { method, sides, properties } = record.plan;
  const questions = Array.from(
    { length: shapeOf(method).property ? Math.max(1, properties.length) : 1 },
    (_, at) => at + 1,
  );
  switch (familyOf(method, sides)) {
    case "choice":
      return answersCsv(
        record,
        questions.flatMap((question) => markedChoices(record, question)),
      );
    case "kinds":
      return kindsCsv(record, markedKinds(record));
    case "pair":
      return preferencesCsv(
        record,
        questions.flatMap((question) => markedPairs(record, question)),
      );
    case "scale":
      return marksCsv(record, markedLines(record), markValue);
    case "rank":
      return ranksCsv(record, markedOrders(record));
    case "portions":
      return portionsCsv(record, servedPortions(record));
  }
}

function withoutColumns(text: string, left: readonly string[]): string {
  const { columns, rows } = tableOf(text);
  if (!columns.some((column) => left.includes(column))) return text;
  const kept = (cells: readonly string[]): string[] => cells.filter((_, at) => !left.includes(columns[at] ?? ""));
  return writeTable(
    kept(columns),
    rows.map(({ cells }) => kept(cells)),
  );
}

/** A file without answers has a header all the same. */
function tableOf(text: string): ReturnType<typeof readTable> {
  const header = text.split("\r\n", 1)[0] ?? "";
  return text.trimEnd() === header ? { columns: header.split(","), rows: [] } : readTable(text, "answers.csv");
}

/**
 * The dictionary of exactly the file that `answersText` gives.
 *
 * Takes    path: the name under which the CSV file is saved
 */
export function dictionaryText(study: Opened, lead: boolean, path: string, created: string): string {
  const { title } = study.record.plan;
  const descriptor = dataPackage({
    title: reader.exports.packageTitle(title),
    description: reader.exports.packageText(title),
    ...{ created, path },
    columns: tableOf(answersText(study, lead)).columns,
    describe: columnText,
    key: keysOf(study.record),
  });
  return `${JSON.stringify(descriptor, null, 2)}\n`;
}
