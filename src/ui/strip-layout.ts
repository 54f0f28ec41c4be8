import { type NumberAxis, numberAxis, roundRange } from "./number-axis.ts";
import { textWidth, wrapped } from "./picture-style.ts";

/** Differences of several properties on one axis. `text` says the same in figures; null where there is nothing to draw. */
export type StripRow = {
  id: string;
  label: string;
  text: string;
  estimate: number | null;
  low: number | null;
  high: number | null;
};
export type StripGroup = {
  /** The property; null where each row is one, and its label the property. */
  heading: string | null;
  /** Drawn with empty marks; the words stand in heading or label. */
  exploratory: boolean;
  rows: readonly StripRow[];
};

type Line = { text: string; y: number };
export type StripLayout = {
  width: number;
  height: number;
  headings: Line[];
  rows: {
    row: StripRow;
    exploratory: boolean;
    labels: Line[];
    text: Line & { end: boolean };
    /** Of the mark. */
    y: number;
  }[];
  axis: NumberAxis & { from: number; to: number; y: number };
};

export const stripType = 14;
const letter = stripType * 0.56;
const side = 10;
const space = 14;
/** Pixels of the axis below which labels and figures go above the marks. */
const leastLane = 220;
const linePitch = 18;
const mostLines = 3;

const rowsOf = (groups: readonly StripGroup[]): StripRow[] => groups.flatMap(({ rows }) => rows);

/**
 * Where everything stands, in CSS pixels, for the width at hand. Label, mark and figures of a row share a line where
 * the axis keeps its room; else label and figures stand above it. All rows alike, so that marks can be compared.
 */
export function stripLayout(groups: readonly StripGroup[], width: number): StripLayout {
  const inner = Math.max(240, width);
  const all = rowsOf(groups);
  const labelWidth = Math.min(inner * 0.36, Math.max(0, ...all.map(({ label }) => textWidth(label, stripType))));
  const figureWidth = Math.max(0, ...all.map(({ text }) => textWidth(text, stripType)));
  const lane = { from: labelWidth + space + side, to: inner - figureWidth - space - side };
  const inLine = lane.to - lane.from >= leastLane;
  const ends = inLine ? lane : { from: side, to: inner - side };
  const letters = Math.floor((inLine ? labelWidth : inner) / letter) + (inLine ? 1 : 0);
  const axis = numberAxis(roundRange([0, ...all.flatMap(valuesOf)]), ends);
  let y = 0;
  const headings: Line[] = [];
  const rows: StripLayout["rows"] = [];
  for (const { heading, exploratory, rows: own } of groups) {
    if (heading !== null) {
      y += headings.length > 0 ? 12 : 0;
      // what is exploratory says so at the end of its name: nothing of that may be cut off
      const lines = wrapped(heading, Math.floor(inner / letter), mostLines);
      headings.push(...lines.map((text, line) => ({ text, y: y + linePitch * (line + 1) })));
      y += linePitch * lines.length + 6;
    }
    for (const row of own) {
      const placed = inLine ? rowInLine(row, y, letters) : rowAbove(row, y, inner, letters);
      rows.push({ row, exploratory, ...placed });
      y = placed.bottom;
    }
  }
  const axisY = y + 8;
  return { width: inner, height: axisY + 26, headings, rows, axis: { ...axis, ...ends, y: axisY } };
}

const valuesOf = ({ estimate, low, high }: StripRow): number[] =>
  [estimate, low, high].filter((value) => value !== null);

function rowInLine(row: StripRow, top: number, letters: number) {
  const lines = wrapped(row.label, letters, mostLines);
  const bottom = top + linePitch * lines.length + 8;
  const y = (top + bottom) / 2;
  const first = y + 5 - (linePitch / 2) * (lines.length - 1);
  return {
    labels: lines.map((text, at) => ({ text, y: first + linePitch * at })),
    text: { text: row.text, y: y + 5, end: true },
    ...{ y, bottom },
  };
}

function rowAbove(row: StripRow, top: number, width: number, letters: number) {
  const beside = textWidth(row.label, stripType) + textWidth(row.text, stripType) + space <= width;
  const lines = beside ? [row.label] : wrapped(row.label, letters, mostLines);
  const labels = lines.map((text, at) => ({ text, y: top + 16 + linePitch * at }));
  const textY = top + 16 + linePitch * (beside ? 0 : lines.length);
  const y = textY + 14;
  return { labels, text: { text: row.text, y: textY, end: beside }, y, bottom: y + 12 };
}
