import type { Judgment, StudyRecord } from "../model/record.ts";
import { noneWord } from "./choice-rows.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";

const columns = [
  "panelist",
  "repeat",
  "choice",
  "tray",
  "wave",
  "order",
  "position_chosen",
  "code_chosen",
  "product_1",
  "product_2",
  "batch_1",
  "batch_2",
];

/** A counted answer as the analysis marks it (`markedPreferences`). */
type Marked = Judgment & {
  order: string;
  picked: "first" | "second" | "none";
  place: number | null;
  samples: readonly { product: string; batch: string }[];
};

/**
 * The counted answers of a closed and revealed preference study as CSV, one line a tray, in tray order.
 *
 * Takes    marked: the record's answers as the analysis marks them, so that file and result cannot disagree
 * Returns  a text that `readChoices` reads back. A panelist is a seat ("seat-7"); `choice` is a product's name or "none";
 *          products and batches stand in serving order. `repeat` counts the trays of one seat
 */
export function preferencesCsv({ plan }: Pick<StudyRecord, "plan">, marked: readonly Marked[]): string {
  const labels = distinctNames(
    plan.products.map(({ name }) => name),
    [noneWord],
  );
  const nameOf = new Map(plan.products.map(({ id }, at) => [id, labels[at] ?? id]));
  const answersOf = new Map<number, number>();
  const rows = marked
    .toSorted((one, other) => one.tray - other.tray)
    .map(({ seat, tray, wave, order, picked, place, choice, samples }): (string | number)[] => {
      const repeat = (answersOf.get(seat) ?? 0) + 1;
      answersOf.set(seat, repeat);
      return [
        `seat-${seat}`,
        repeat,
        picked === "none" ? noneWord : (labels[picked === "first" ? 0 : 1] ?? ""),
        tray,
        wave,
        order,
        place ?? "",
        place === null ? "" : choice,
        ...samples.map(({ product }) => nameOf.get(product) ?? product),
        ...samples.map(({ batch }) => batch),
      ];
    });
  return writeTable(columns, rows);
}
