import type { StudyRecord } from "../model/record.ts";
import { type Cells, inOrderOfTrays, type OnTray, occasionColumns, occasionOf } from "./answer-columns.ts";
import { writeTable } from "./csv.ts";
import { distinctNames } from "./distinct-names.ts";

/** A counted order as the analysis marks it (`markedOrders`). `ranked`: ids of the products, least first. */
type Marked = OnTray & { ranked: readonly string[] };

/**
 * The counted orders of a closed and revealed ranking as CSV: one line for each product of each tray, in the order of
 * the trays and of the plan.
 *
 * Takes    marked: the record's answers as the analysis marks them, so that file and result cannot disagree
 * Returns  a text that `readRanks` reads back. `rank` is 1 for the least; a panelist is a seat ("seat-7"); `position` is
 *          the place in serving order
 */
export function ranksCsv(record: Pick<StudyRecord, "plan">, marked: readonly Marked[]): string {
  const columns = [
    ...["panelist", "product", "rank", "tray", "wave"],
    ...occasionColumns(record, marked),
    ...["order", "position", "code", "batch"],
  ];
  const { products } = record.plan;
  const names = distinctNames(products.map(({ name }) => name));
  const occasion = occasionOf(record, marked);
  const rows = inOrderOfTrays(marked).flatMap((answer) =>
    products.map(({ id }, at) => {
      const place = answer.samples.findIndex(({ product }) => product === id);
      const cells: Cells = {
        ...{ panelist: `seat-${answer.seat}`, product: names[at] ?? id, rank: answer.ranked.indexOf(id) + 1 },
        ...{ tray: answer.tray, wave: answer.wave, order: answer.order, position: place + 1 },
        ...occasion(answer),
        ...{ code: answer.samples[place]?.code ?? "", batch: answer.samples[place]?.batch ?? "" },
      };
      return columns.map((column) => cells[column] ?? "");
    }),
  );
  return writeTable(columns, rows);
}
