import type { KitchenRow, RowKind } from "../model/kitchen-record.ts";
import { writeTable } from "./csv.ts";

/** What a row is about, as a file says it. */
export const rowNames: Record<RowKind, string> = {
  core: "core",
  "held-hot": "held-hot",
  "held-cold": "held-cold",
  left: "left-heat",
  "left-cold": "left-cold",
  serving: "serving",
  served: "served",
};

const always = ["wave", "pot", "what", "celsius", "held_seconds", "rest_minutes", "time", "note"] as const;

/**
 * Temperatures and times as CSV, one line an entry, in the order given: a text that `readTemperatures` reads back.
 *
 * Takes    products: id and name of each, once the key is open; null before, when pots have their labels alone. people: with
 *          the times at which single trays were served, which are those of people and for a lead
 */
export function temperaturesCsv(
  rows: readonly KitchenRow[],
  products: readonly { id: string; name: string }[] | null,
  people: boolean,
): string {
  const names = new Map((products ?? []).map(({ id, name }) => [id, name]));
  const columns = [...always, "tray", "verdict", "follows_nothing", "probe", ...(products ? ["product", "batch"] : [])];
  const lines = rows
    .filter(({ what }) => people || what !== "served")
    .map((row) => {
      const core = row.what === "core";
      return [
        ...[row.wave, row.pot, rowNames[row.what], row.celsius],
        ...[core ? row.heldSeconds : "", core ? row.restMinutes : "", row.time, row.note],
        ...[row.tray ?? "", row.verdict ?? "", row.latest ? 1 : 0, row.probe],
        ...(products ? [names.get(row.product ?? "") ?? "", row.batch] : []),
      ];
    });
  return writeTable(columns, lines);
}
