import * as z from "zod/mini";
import type { BlindPacket, BlindTray } from "../model/packet.ts";
import type { PaperSize } from "./use-print.ts";

/** `place` from 1, with the code; 0: the uncoded cup that is tasted first, with its letter. */
export type Label = { tray: number; place: number; code: string };

const millimeters = (low: number, high: number) => z.number().check(z.minimum(low), z.maximum(high));
const cells = z.number().check(z.int(), z.minimum(1), z.maximum(20));

/** A sheet of labels, in millimeters: how many, how large, how far apart, and where the first one begins. */
export const labelGrid = z.strictObject({
  columns: cells,
  rows: cells,
  widthMm: millimeters(25, 210),
  heightMm: millimeters(15, 290),
  columnGapMm: millimeters(0, 30),
  rowGapMm: millimeters(0, 30),
  leftMm: millimeters(0, 60),
  topMm: millimeters(0, 60),
  /** How far this printer is off: everything moves so far to the right and down. */
  rightwardMm: millimeters(-10, 10),
  downwardMm: millimeters(-10, 10),
});
export type LabelGrid = z.infer<typeof labelGrid>;

/** The usual sheets: A4 with 3 by 7 of 63.5 by 38.1 mm, Letter with 3 by 10 of 66.7 by 25.4 mm (both from memory). */
export const usualGrid: Record<PaperSize, LabelGrid> = {
  a4: {
    ...{ columns: 3, rows: 7, widthMm: 63.5, heightMm: 38.1, columnGapMm: 2.5, rowGapMm: 0 },
    ...{ leftMm: 7.25, topMm: 15.15, rightwardMm: 0, downwardMm: 0 },
  },
  letter: {
    ...{ columns: 3, rows: 10, widthMm: 66.675, heightMm: 25.4, columnGapMm: 3.175, rowGapMm: 0 },
    ...{ leftMm: 4.7625, topMm: 12.7, rightwardMm: 0, downwardMm: 0 },
  },
};

/** Sizes of the sheets, in millimeters. */
export const sheetMm: Record<PaperSize, { width: number; height: number }> = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
};

/** How far the labels reach, and the room there is: null where they fit. Half a millimeter over is the cutter's. */
export function overrun(
  grid: LabelGrid,
  size: PaperSize,
): { way: "right" | "down"; reach: number; room: number } | null {
  const { columns, rows, widthMm, heightMm, columnGapMm, rowGapMm } = grid;
  const right = grid.leftMm + grid.rightwardMm + columns * widthMm + (columns - 1) * columnGapMm;
  const down = grid.topMm + grid.downwardMm + rows * heightMm + (rows - 1) * rowGapMm;
  const { width, height } = sheetMm[size];
  if (right > width + 0.5) return { way: "right", reach: right, room: width };
  return down > height + 0.5 ? { way: "down", reach: down, room: height } : null;
}

/** Where the 100 mm bar has room that no label needs: over the labels, under them, or nowhere. */
export function barPlace(grid: LabelGrid, size: PaperSize): "top" | "bottom" | null {
  const over = grid.topMm + grid.downwardMm;
  const under = sheetMm[size].height - over - grid.rows * grid.heightMm - (grid.rows - 1) * grid.rowGapMm;
  if (over >= leastBarMm) return "top";
  return under >= leastBarMm ? "bottom" : null;
}
const leastBarMm = 11;

/**
 * The labels of all trays on sheets, tray by tray in serving order (which tells no product).
 *
 * Takes    first: place of the first label on the first sheet, from 1; reference: the letter of the uncoded cup, which
 *          comes first of its tray
 * Returns  sheets of exactly rows by columns cells; null where a cell stays empty
 */
export function labelSheets(
  trays: readonly BlindTray[],
  { columns, rows }: Pick<LabelGrid, "columns" | "rows">,
  first: number,
  reference: BlindPacket["reference"] = null,
): (Label | null)[][] {
  const perSheet = columns * rows;
  const labels = trays.flatMap(({ tray, codes }) => [
    ...(reference ? [{ tray, place: 0, code: reference }] : []),
    ...codes.map((code, at) => ({ tray, place: at + 1, code })),
  ]);
  const cells: (Label | null)[] = [...Array<null>(Math.min(Math.max(first, 1), perSheet) - 1).fill(null), ...labels];
  const sheets: (Label | null)[][] = [];
  for (let at = 0; at < cells.length; at += perSheet) {
    const sheet = cells.slice(at, at + perSheet);
    sheets.push([...sheet, ...Array<null>(perSheet - sheet.length).fill(null)]);
  }
  return sheets;
}
