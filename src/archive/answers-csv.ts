import type { Key } from "../model/key.ts";
import type { StudyRecord } from "../model/record.ts";
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

/**
 * The counted answers of a closed and revealed triangle study as CSV, one line a tray, in tray order.
 *
 * A panelist is a seat ("seat-7"): the log holds no names. `repeat` counts the trays of one seat; products and batches
 * stand in serving order. `readAnswers` reads it back. An answer whose tray the key does not hold is left out, as it
 * is in the analysis.
 */
export function answersCsv(record: StudyRecord): string {
  const trays = new Map(record.opened.key.trays.map((tray) => [tray.tray, tray]));
  const names = new Map(record.plan.products.map(({ id, name }) => [id, name]));
  const answersOf = new Map<number, number>();
  const rows: (string | number)[][] = [];
  for (const judgment of record.judgments.toSorted((one, other) => one.tray - other.tray)) {
    const tray = trays.get(judgment.tray);
    if (!tray) continue;
    const repeat = (answersOf.get(judgment.seat) ?? 0) + 1;
    answersOf.set(judgment.seat, repeat);
    const odd = oddPlace(tray);
    rows.push([
      `seat-${judgment.seat}`,
      repeat,
      tray.samples[odd]?.code === judgment.choice ? 1 : 0,
      judgment.tray,
      judgment.wave,
      tray.order,
      odd + 1,
      judgment.choice,
      judgment.guess ? 1 : 0,
      ...tray.samples.map(({ product }) => names.get(product) ?? product),
      ...tray.samples.map(({ batch }) => batch),
    ]);
  }
  return writeTable(columns, rows);
}

/** Place, from 0, of the sample whose product stands on the tray once. */
const oddPlace = ({ samples }: Key["trays"][number]): number =>
  samples.findIndex(({ product }) => samples.filter((other) => other.product === product).length === 1);
