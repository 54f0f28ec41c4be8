import type { StudyRecord } from "../model/record.ts";
import type { ServedPortion } from "../model/served-portion.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";

/**
 * The chewed portions of a closed and revealed study as CSV: one line each, the first product of the plan first.
 *
 * Takes    portions: as the analysis has them, so that file and result cannot disagree
 * Returns  a text that `readChews` reads back to the same result. `grams_in` is the portion, `grams_out` the closed cup;
 *          of a portion that does not count `grams_out` is empty, `weighed_after` has it all the same, and `left_out`
 *          says why
 */
export function portionsCsv({ plan }: Pick<StudyRecord, "plan">, portions: readonly ServedPortion[]): string {
  const columns = [
    ...["panelist", "product", "repeat", "grams_in", "grams_out", "cup", "rinse", "seconds"],
    ...["tray", "wave", "order", "position", "code", "batch", "weighed_after", "left_out"],
  ];
  // an empty cell among filled ones is refused by `readChews`; here it was said that there was no water
  const noWater = portions.some(({ readings }) => readings.rinse !== "") ? "0" : "";
  const names = distinctNames(plan.products.map(({ name }) => name));
  const nameOf = new Map(plan.products.map(({ id }, at) => [id, names[at] ?? id]));
  const rows = portions.map(({ readings, leftOut, ...portion }) => [
    ...[`seat-${portion.seat}`, nameOf.get(portion.product) ?? portion.product, portion.repeat],
    ...[
      readings.gramsIn,
      leftOut === null ? readings.gramsOut : "",
      readings.cup,
      readings.rinse || noWater,
      portion.seconds ?? "",
    ],
    ...[portion.tray, portion.wave, portion.order, portion.place, portion.code, portion.batch],
    ...[readings.gramsOut, leftOut ?? ""],
  ]);
  return writeTable(columns, rows);
}
