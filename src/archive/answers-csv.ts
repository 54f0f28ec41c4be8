import { type Method, shapeOf } from "../model/method.ts";
import type { StudyRecord } from "../model/record.ts";
import {
  type Cells,
  inOrderOfTrays,
  inPlaces,
  type OnTray,
  occasionColumns,
  occasionOf,
  places,
  repeatsOf,
  samplesOf,
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
  const { plan } = record;
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  const nameOf = (product: string): string => names.get(product) ?? product;
  const repeats = repeatsOf(marked);
  const occasion = occasionOf(record);
  const columns = columnsOf(record);
  const rows = inOrderOfTrays(marked).map((answer) => {
    const { samples, reference } = answer;
    const cells: Cells = {
      panelist: `seat-${answer.seat}`,
      repeat: repeats.get(answer.tray) ?? 1,
      correct: answer.correct ? 1 : 0,
      tray: answer.tray,
      wave: answer.wave,
      ...occasion(answer),
      order: answer.order,
      [placeColumn(plan.method)]: answer.oddPosition,
      choice: answer.choice,
      pairs: pairsOf(answer),
      guess: answer.guess ? 1 : 0,
      reference_product: reference ? nameOf(reference.product) : "",
      reference_batch: reference?.batch ?? "",
      ...inPlaces(
        "code",
        samples.map(({ code }) => code),
      ),
      ...inPlaces(
        "product",
        samples.map(({ product }) => nameOf(product)),
      ),
      ...inPlaces(
        "batch",
        samples.map(({ batch }) => batch),
      ),
    };
    return columns.map((column) => cells[column] ?? "");
  });
  return writeTable(columns, rows);
}

/** The triangle's columns are those of its first files; other methods have the codes of the tray as well. */
function columnsOf(record: Pick<StudyRecord, "plan" | "packet">): string[] {
  const { method } = record.plan;
  const { answer, reference, guess } = shapeOf(method);
  const samples = samplesOf(record);
  return [
    ...["panelist", "repeat", "correct", "tray", "wave"],
    ...occasionColumns(record),
    ...["order", placeColumn(method), "choice"],
    ...(answer === "partner" ? ["pairs"] : []),
    ...(guess ? ["guess"] : []),
    ...(reference === null ? [] : ["reference_product", "reference_batch"]),
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
