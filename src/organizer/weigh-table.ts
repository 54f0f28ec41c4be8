import { readWeighings, type WeighedCells, weighingsCsv } from "../archive/weighings-csv.ts";
import { countedOf } from "../log/portions.ts";
import type { Body } from "../model/event.ts";
import { problem } from "../model/problem.ts";
import { trayLabel } from "../model/tray.ts";
import { portionRefusedText, weighWords as words } from "../words/en/organizer-weigh.ts";
import { entryOf, type WeighPlan, type WeighRow } from "./weigh.ts";

export type FromFile = { bodies: Body<"portion-weighed">[]; same: number };

/**
 * The entries that a file of masses makes of what stands there: all of it, or nothing.
 *
 * Returns  bodies in the order of the file; `same`: readings that are there already, which make no entry
 * Throws   what `readWeighings` throws; Problem "csv/bad-value" for a tray or code that the study does not have, and
 *          "csv/impossible-weighing" for a reading that cannot be, or stands in the file twice, each with its line
 */
export function entriesFrom(rows: readonly WeighRow[], plan: WeighPlan, text: string, path: string): FromFile {
  const bodies: Body<"portion-weighed">[] = [];
  const at = new Map(rows.map((row) => [`${row.tray} ${row.code}`, row]));
  const trays = new Set(rows.map(({ tray }) => tray));
  const seen = new Map<string, number>();
  let same = 0;
  for (const { line, tray, code, stage, grams, rinse } of readWeighings(text, path)) {
    const row = at.get(`${tray} ${code}`);
    if (!row) {
      throw trays.has(tray)
        ? problem("csv/bad-value", { path, line, column: "code", value: code })
        : problem("csv/bad-value", { path, line, column: "tray", value: trayLabel(tray) });
    }
    const name = `${tray} ${code} ${stage}`;
    const first = seen.get(name);
    if (first !== undefined) throw problem("csv/impossible-weighing", { path, line, because: words.twice(first) });
    seen.set(name, line);
    const before = countedOf(row[stage]);
    // a file that is silent about the rinse water leaves what stands there, or what was planned
    const water = stage === "after" && rinse === "" ? (before?.rinse ?? plan.rinse) : rinse;
    const { body, refusal } = entryOf(row, stage, { grams, rinse: water, waited: null }, plan, path.slice(0, 200));
    if (refusal) throw problem("csv/impossible-weighing", { path, line, because: portionRefusedText(refusal) });
    if (before?.grams === grams && (stage !== "after" || before.rinse === water)) same += 1;
    else bodies.push(body);
    // later readings of the same portion are held against this one
    at.set(`${tray} ${code}`, withReading(row, body));
  }
  return { bodies, same };
}

const withReading = (
  row: WeighRow,
  { stage, grams, rinse, balanceStep, waitedSeconds, note }: Body<"portion-weighed">,
): WeighRow => ({
  ...row,
  [stage]: [{ entry: "", device: "", seq: 0, at: "", grams, rinse, balanceStep, waitedSeconds, note }],
});

/** What stands on the page as a file: readings that count, without products. */
export function weighingsFile(rows: readonly WeighRow[]): string {
  const cells = rows.map((row): WeighedCells => {
    const of = (stage: "cup" | "portion" | "after") => countedOf(row[stage]);
    return {
      ...{ tray: row.tray, wave: row.wave, code: row.code },
      ...{ cup: of("cup")?.grams ?? "", portion: of("portion")?.grams ?? "", after: of("after")?.grams ?? "" },
      rinse: of("after")?.rinse ?? "",
    };
  });
  return weighingsCsv(cells);
}
