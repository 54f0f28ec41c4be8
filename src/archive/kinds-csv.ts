import { type Plannable, shapeOf } from "../model/method.ts";
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
import type { KindsWords } from "./kind-rows.ts";
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
  const { plan } = record;
  const names = new Map(plan.products.map(({ id, name }) => [id, name]));
  const nameOf = (product: string): string => names.get(product) ?? product;
  const words = wordsOf(plan.method);
  const repeats = repeatsOf(marked);
  const occasion = occasionOf(record);
  const samples = samplesOf(record);
  const columns = [
    ...["panelist", "repeat", "served", "answer", "tray", "wave"],
    ...occasionColumns(record),
    "order",
    ...(shapeOf(plan.method).reference !== null ? ["reference_product", "reference_batch"] : []),
    ...places("code", samples),
    ...places("product", samples),
    ...places("batch", samples),
  ];
  const rows = inOrderOfTrays(marked).map((answer) => {
    const cells: Cells = {
      panelist: `seat-${answer.seat}`,
      repeat: repeats.get(answer.tray) ?? 1,
      served: answer.unlike ? words.unlike : words.like,
      answer: answer.told ? words.unlike : words.like,
      tray: answer.tray,
      wave: answer.wave,
      ...occasion(answer),
      order: answer.order,
      reference_product: answer.reference ? nameOf(answer.reference.product) : "",
      reference_batch: answer.reference?.batch ?? "",
      ...inPlaces(
        "code",
        answer.samples.map(({ code }) => code),
      ),
      ...inPlaces(
        "product",
        answer.samples.map(({ product }) => nameOf(product)),
      ),
      ...inPlaces(
        "batch",
        answer.samples.map(({ batch }) => batch),
      ),
    };
    return columns.map((column) => cells[column] ?? "");
  });
  return writeTable(columns, rows);
}

const wordsOf = (method: Plannable): KindsWords => kindsWords[method === "a-not-a" ? "a-not-a" : "same-different"];
