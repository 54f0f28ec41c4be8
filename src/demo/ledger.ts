import type { Ledger, LedgerBatch, Weighing } from "../model/ledger.ts";
import { current, steamed } from "./kitchen.ts";

/** Grams of the scenario's batches: raw, cooked, rested 5 min, held 30 min; four batches of each process. */
const readings = [
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
] as const;

const weighed = (grams: string): Weighing => ({
  ...{ grams, tare: "", drip: "", blotted: "not-blotted", gainReason: "" },
  ...{ added: "", minutes: "", celsius: "" },
});

/** The weighing ledger of the demo's claim. */
export const demoLedger: Ledger = {
  products: [current.name, steamed.name],
  steps: ["raw", "cooked", "rested 5 min", "held 30 min"],
  batches: readings.flatMap((batches, product) =>
    batches.map(
      (row, at): LedgerBatch => ({
        ...{ product, name: String(at + 1), lot: "", pair: "" },
        weighings: row.map(weighed),
      }),
    ),
  ),
  balanceStep: "0.1",
  drawn: "drawn",
  matters: 4,
};
