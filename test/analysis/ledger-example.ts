import type { Ledger, LedgerBatch, Weighing } from "../../src/model/ledger.ts";

/** A weighing with nothing but what the balance showed. */
export const weighed = (grams: string, more: Partial<Weighing> = {}): Weighing => ({
  ...{ grams, tare: "", drip: "", blotted: "unknown", gainReason: "" },
  ...{ added: "", minutes: "", celsius: "", ...more },
});

/** A ledger of batches that were weighed at all steps: rows of readings, by product. */
export function ledgerOf(
  products: readonly (readonly (readonly string[])[])[],
  change: Partial<Ledger> = {},
  pairs = false,
): Ledger {
  const names = ["current", "new", "third"];
  const most = Math.max(...products.flat().map((row) => row.length));
  return {
    products: products.map((_, at) => names[at] ?? ""),
    steps: ["raw", "cooked", "rested", "held"].slice(0, most),
    batches: products.flatMap((batches, product) =>
      batches.map(
        (row, at): LedgerBatch => ({
          ...{ product, name: String(at + 1), lot: "", pair: pairs ? String(at + 1) : "" },
          weighings: row.map((grams) => (grams === "" ? null : weighed(grams))),
        }),
      ),
    ),
    balanceStep: "0.1",
    drawn: "unknown",
    matters: null,
    ...change,
  };
}

/** The invented scenario's ledger: raw, cooked, rested 5 min, held 30 min, in grams; four batches of each process. */
export const scenarioRows = [
  [
    ["1497.0", "1180.3", "1162.9", "1129.1"],
    ["1497.6", "1185.6", "1169.1", "1141.6"],
    ["1504.7", "1183.2", "1164.5", "1128.2"],
    ["1503.4", "1174.9", "1157.8", "1118.4"],
  ],
  [
    ["1503.3", "1284.1", "1271.2", "1227.8"],
    ["1501.9", "1298.5", "1279.8", "1237.6"],
    ["1491.5", "1291.1", "1274.5", "1222.5"],
    ["1507.8", "1270.8", "1255.3", "1218.9"],
  ],
];
