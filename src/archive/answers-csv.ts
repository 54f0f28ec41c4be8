import type { Judgment, StudyRecord } from "../model/record.ts";
import { writeTable } from "./csv.ts";

const columns = [
  "panelist",
  "repeat",
  "correct",
  "tray",
  "wave",
  "order",
  "position_of_odd",
  "choice",
  "guess",
  "product_1",
  "product_2",
  "product_3",
  "batch_1",
  "batch_2",
  "batch_3",
];

/** A counted answer as the analysis marks it (`markedTriangles`). */
type Marked = Judgment & {
  order: string;
  oddPosition: number;
  correct: boolean;
  samples: readonly { product: string; batch: string }[];
};

/**
 * The counted answers of a closed and revealed triangle study as CSV, one line a tray, in tray order.
 *
 * Takes    marked: the record's answers as the analysis marks them, so that file and result cannot disagree; what it
 *          refuses to mark has no file either
 * Returns  a text that `readAnswers` reads back. A panelist is a seat ("seat-7"): the log holds no names. `repeat` counts
 *          the trays of one seat; products and batches stand in serving order
 */
export function answersCsv({ plan }: Pick<StudyRecord, "plan">, marked: readonly Marked[]): string {
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  const answersOf = new Map<number, number>();
  const rows: (string | number)[][] = [];
  for (const answer of marked.toSorted((one, other) => one.tray - other.tray)) {
    const repeat = (answersOf.get(answer.seat) ?? 0) + 1;
    answersOf.set(answer.seat, repeat);
    rows.push([
      `seat-${answer.seat}`,
      repeat,
      answer.correct ? 1 : 0,
      answer.tray,
      answer.wave,
      answer.order,
      answer.oddPosition,
      answer.choice,
      answer.guess ? 1 : 0,
      ...answer.samples.map(({ product }) => names.get(product) ?? product),
      ...answer.samples.map(({ batch }) => batch),
    ]);
  }
  return writeTable(columns, rows);
}
