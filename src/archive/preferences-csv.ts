import type { StudyRecord } from "../model/record.ts";
import { inOrderOfTrays, type OnTray, occasionColumns, occasionOf, repeatsOf } from "./answer-columns.ts";
import { noneWord } from "./choice-rows.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";

const columnsOf = (record: Pick<StudyRecord, "plan">, marked: readonly Marked[]): string[] => [
  ...["panelist", "repeat", "choice", "tray", "wave"],
  ...occasionColumns(record, marked),
  ...["order", "position_chosen", "code_chosen", "product_1", "product_2", "batch_1", "batch_2"],
];

/** A counted answer as the analysis marks it (`markedPairs`). */
type Marked = OnTray & { picked: "first" | "second" | "none"; place: number | null };

/**
 * The counted answers of a closed and revealed study of a pair in which nobody is right, as CSV: one line a tray, or one
 * for each question of it, in tray order.
 *
 * Takes    marked: the record's answers to all questions as the analysis marks them, so that file and result cannot
 *          disagree
 * Returns  a text that `readChoices` reads back. A panelist is a seat ("seat-7"); `choice` is a product's name or "none";
 *          products and batches stand in serving order. `repeat` counts the trays of one seat
 */
export function preferencesCsv(record: Pick<StudyRecord, "plan">, marked: readonly Marked[]): string {
  const { products } = record.plan;
  const labels = distinctNames(
    products.map(({ name }) => name),
    [noneWord],
  );
  const nameOf = new Map(products.map(({ id }, at) => [id, labels[at] ?? id]));
  const repeats = repeatsOf(marked);
  const occasion = occasionOf(record, marked);
  const rows = inOrderOfTrays(marked).map((answer): (string | number)[] => {
    const { seat, tray, wave, order, picked, place, choice, samples } = answer;
    return [
      `seat-${seat}`,
      repeats.get(tray) ?? 1,
      picked === "none" ? noneWord : (labels[picked === "first" ? 0 : 1] ?? ""),
      tray,
      wave,
      ...Object.values(occasion(answer)),
      order,
      place ?? "",
      place === null ? "" : choice,
      ...samples.map(({ product }) => nameOf.get(product) ?? product),
      ...samples.map(({ batch }) => batch),
    ];
  });
  return writeTable(columnsOf(record, marked), rows);
}
