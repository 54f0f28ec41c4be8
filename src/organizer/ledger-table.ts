import { refusalsOf } from "../analysis/ledger-check.ts";
import { folded, readLedger } from "../archive/ledger-rows.ts";
import type { Ledger } from "../model/ledger.ts";
import { problem } from "../model/problem.ts";
import { listed, named } from "../words/en/phrases.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { mostOfClaim } from "./ledger-edit.ts";

export { ledgerCsv } from "../archive/ledger-csv.ts";

/**
 * The ledger with the weighings of a file in place of its own. A product of the file goes by its name, whatever
 * its case; by its place only where the claim has not named that process yet.
 * Throws   Problem of `readLedger`; "csv/unknown-process" with the line; "csv/impossible-weighing" with the line; "csv/ledger-too-large"
 */
export function ledgerFrom(ledger: Ledger, text: string, path: string): Ledger {
  const { ledger: read, lineOf } = readLedger(text, path);
  const { products, steps, batches } = read;
  const most = ledger.products.length;
  if (products.length > most) throw problem("csv/ledger-too-large", { path, line: 1, column: "product", most });
  if (batches.length > mostOfClaim) {
    throw problem("csv/ledger-too-large", { path, line: 1, column: "batch", most: mostOfClaim });
  }
  const lineOfProduct = (product: number): number =>
    lineOf(
      batches.findIndex((each) => each.product === product),
      0,
    );
  const places = placesOf(products, ledger.products, path, lineOfProduct);
  const next = {
    ...ledger,
    steps,
    batches: batches.map((batch) => ({ ...batch, product: places[batch.product] ?? batch.product })),
  };
  const [refusal] = refusalsOf(next);
  if (!refusal) return next;
  const line = lineOf(refusal.batch, refusal.step);
  throw problem("csv/impossible-weighing", { path, line, because: refusedText(refusal) });
}

/** Which process of the claim each product of the file is. */
function placesOf(
  products: readonly string[],
  own: readonly string[],
  path: string,
  lineOf: (product: number) => number,
): number[] {
  const byName = products.map((name) => own.findIndex((each) => each.trim() !== "" && folded(each) === folded(name)));
  const free = own.flatMap((name, place) => (name.trim() === "" && !byName.includes(place) ? [place] : []));
  return byName.map((place, product) => {
    const found = place >= 0 ? place : free.shift();
    if (found !== undefined) return found;
    const known = listed(own.filter((name) => name.trim() !== "").map(named));
    throw problem("csv/unknown-process", { path, line: lineOf(product), value: products[product] ?? "", known });
  });
}
