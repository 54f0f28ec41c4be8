import type { BlindTray } from "../model/packet.ts";
import type { PaperSize } from "./use-print.ts";

export type Label = { tray: number; place: number; code: string };

/** Labels of a sheet: rows by columns. A4: 63.5 by 38.1 mm; Letter: 2 5/8 by 1 inch (both common, from memory). */
export const labelGrid: Record<PaperSize, { columns: number; rows: number }> = {
  a4: { columns: 3, rows: 7 },
  letter: { columns: 3, rows: 10 },
};

/**
 * The labels of all trays on sheets, tray by tray in serving order (which tells no product).
 *
 * Takes    first: place of the first label on the first sheet, from 1
 * Returns  sheets of exactly rows by columns cells; null where a cell stays empty
 */
export function labelSheets(trays: readonly BlindTray[], size: PaperSize, first: number): (Label | null)[][] {
  const { columns, rows } = labelGrid[size];
  const perSheet = columns * rows;
  const labels = trays.flatMap(({ tray, codes }) => codes.map((code, at) => ({ tray, place: at + 1, code })));
  const cells: (Label | null)[] = [...Array<null>(Math.min(Math.max(first, 1), perSheet) - 1).fill(null), ...labels];
  const sheets: (Label | null)[][] = [];
  for (let at = 0; at < cells.length; at += perSheet) {
    const sheet = cells.slice(at, at + perSheet);
    sheets.push([...sheet, ...Array<null>(perSheet - sheet.length).fill(null)]);
  }
  return sheets;
}
