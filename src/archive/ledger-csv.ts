import type { Blotting, Ledger } from "../model/ledger.ts";
import { writeTable } from "./csv.ts";

const columns = [
  ...["batch", "product", "step", "grams", "tare", "drip", "added", "minutes", "celsius", "blotted", "reason", "lot"],
  "pair",
] as const;
const blottedCell: Record<Blotting, string> = { unknown: "", blotted: "yes", "not-blotted": "no" };

/**
 * The weighings of a ledger as CSV, one line a weighing, batch by batch in the order of its steps.
 *
 * Returns  a text that `readLedger` reads back: readings keep their decimals, a step that was not weighed has no grams
 */
export function ledgerCsv({ products, steps, batches }: Ledger): string {
  const rows = batches.flatMap(({ product, name, lot, pair, weighings }) =>
    steps.map((step, at) => {
      const weighing = weighings[at] ?? null;
      const { grams = "", tare = "", drip = "", gainReason = "" } = weighing ?? {};
      const { added = "", minutes = "", celsius = "" } = weighing ?? {};
      const blotted = blottedCell[weighing?.blotted ?? "unknown"];
      return [
        ...[name, products[product] ?? "", step, grams, tare, drip, added, minutes, celsius],
        ...[blotted, gainReason, lot, pair],
      ];
    }),
  );
  return writeTable(columns, rows);
}
