import { refusalsOf } from "../analysis/ledger-check.ts";
import { readLedger } from "../archive/ledger-rows.ts";
import type { Ledger } from "../model/ledger.ts";
import { problem } from "../model/problem.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { mostOfClaim } from "./ledger-edit.ts";

export { ledgerCsv } from "../archive/ledger-csv.ts";

/**
 * The ledger with the weighings of a file in place of its own. A product of the file goes by its name where it is one
 * of the claim's, else by its place.
 * Throws   Problem of `readLedger`; "csv/impossible-weighing" with the line; "csv/ledger-too-large"
 */
export function ledgerFrom(ledger: Ledger, text: string, path: string): Ledger {
  const { ledger: read, lineOf } = readLedger(text, path);
  const { products, steps, batches } = read;
  const most = ledger.products.length;
  if (products.length > most) throw problem("csv/ledger-too-large", { path, line: 1, column: "product", most });
  if (batches.length > mostOfClaim) {
    throw problem("csv/ledger-too-large", { path, line: 1, column: "batch", most: mostOfClaim });
  }
  const turned =
    products[0] === ledger.products[1] || (products[1] !== undefined && products[1] === ledger.products[0]);
  const next = {
    ...ledger,
    steps,
    batches: batches.map((batch) => ({ ...batch, product: turned ? 1 - batch.product : batch.product })),
  };
  const [refusal] = refusalsOf(next);
  if (!refusal) return next;
  const line = lineOf(refusal.batch, refusal.step);
  throw problem("csv/impossible-weighing", { path, line, because: refusedText(refusal) });
}
