import type { Body } from "../model/event.ts";
import { foodCelsiusPattern } from "../model/kitchen-event.ts";
import type { RowKind } from "../model/kitchen-record.ts";
import { problem } from "../model/problem.ts";
import { columnOf, extraOf, short } from "./cells.ts";
import { readTable, type Table } from "./csv.ts";
import { rowNames } from "./temperatures-csv.ts";

type ReadKind = "core-read" | "heat-left" | "holding-read" | "serving-read";
/** An entry as a file has it. What it follows is for whoever writes it into the log: in a file, each line those above it. */
export type ReadEntry = { [K in ReadKind]: { line: number; kind: K; body: Body<K>; own: Own } }[ReadKind];
/** The cells of a line as they stand: of a reading both go into the note. */
type Own = { time: string; note: string };

export type ReadTemperatures = {
  entries: ReadEntry[];
  /** Lines that say when trays were served: they are noted tray by tray, and not read from a file. */
  servedLines: number[];
  extraColumns: string[];
};

const needed = ["wave", "pot", "what", "celsius", "held_seconds", "rest_minutes", "time", "note"] as const;
const optional = ["tray", "probe"] as const;
type Column = (typeof needed)[number] | (typeof optional)[number];

/** Where the entries belong: labels of the pots of each wave, and the time of the day that a clock on the wall shows. */
export type Surroundings = {
  waves: readonly { wave: number; pots: readonly string[] }[];
  /** "11:32" as an instant of the day of the tasting. */
  instantOf: (clock: string) => string;
};

/**
 * Reads temperatures and times from CSV: columns `wave`, `pot`, `what` (core, left-heat, left-cold, held-hot, held-cold or serving),
 * `celsius`, `held_seconds`, `rest_minutes`, `time` and `note`, in any order; also `tray` and `probe`. A time is one of the
 * clock on the wall, as 11:32, or an instant; only when a pot left the heat or the cold needs one. With a reading of the core or of a
 * serving it is kept in the note.
 *
 * Takes    text; path: names the file in errors
 * Throws   Problem "csv/missing-column", "csv/bad-value" with line and column, and what `readTable` throws
 */
export function readTemperatures(text: string, path: string, around: Surroundings): ReadTemperatures {
  const table = readTable(text, path);
  const places = new Map<Column, number>(needed.map((column) => [column, columnOf(table.columns, column, path)]));
  for (const column of optional) {
    const at = table.columns.indexOf(column);
    if (at >= 0) places.set(column, at);
  }
  const rows = table.rows.map((row) => lineOf(row, places, path));
  return {
    entries: rows.flatMap((row) => entryOf(row, around)),
    servedLines: rows.filter(({ cell }) => kindOf(cell("what")) === "served").map(({ line }) => line),
    extraColumns: extraOf(table, [...places.values()]),
  };
}

type Line = { line: number; cell: (column: Column) => string; bad: (column: Column) => Error };

function lineOf({ line, cells }: Table["rows"][number], places: ReadonlyMap<Column, number>, path: string): Line {
  const cell = (column: Column): string => cells[places.get(column) ?? -1]?.trim() ?? "";
  return { line, cell, bad: (column) => problem("csv/bad-value", { path, line, column, value: short(cell(column)) }) };
}

const kindOf = (name: string): RowKind | null =>
  (Object.keys(rowNames) as RowKind[]).find((kind) => rowNames[kind] === name.toLowerCase()) ?? null;

function entryOf(row: Line, { waves, instantOf }: Surroundings): ReadEntry[] {
  const { cell } = row;
  const common = { line: row.line, own: { time: cell("time"), note: cell("note") } };
  const what = kindOf(cell("what"));
  if (what === null) throw row.bad("what");
  if (what === "served") return [];
  const known = waves.find(({ wave }) => wave === wholeOf(row, "wave"));
  if (!known) throw row.bad("wave");
  const { wave } = known;
  if (what === "serving") {
    const tray = cell("tray") === "" ? null : wholeOf(row, "tray");
    if (tray === 0) throw row.bad("tray");
    return [{ ...common, kind: "serving-read", body: { wave, tray, celsius: celsiusOf(row), note: noteOf(row) } }];
  }
  const pot = cell("pot").toUpperCase();
  if (!known.pots.includes(pot)) throw row.bad("pot");
  if (what === "left" || what === "left-cold") {
    const left = timeOf(row, instantOf);
    const from = what === "left" ? ("hot" as const) : ("cold" as const);
    return [{ ...common, kind: "heat-left", body: { wave, pot, left, from, after: [], note: shortOf(row, "note") } }];
  }
  const reading = { wave, pot, celsius: celsiusOf(row), after: [] };
  if (what !== "core") {
    const held = what === "held-hot" ? ("hot" as const) : ("cold" as const);
    const read = cell("time") === "" ? null : timeOf(row, instantOf);
    return [{ ...common, kind: "holding-read", body: { ...reading, held, read, note: shortOf(row, "note") } }];
  }
  const [heldSeconds, restMinutes] = [orNone(row, "held_seconds"), orNone(row, "rest_minutes")];
  return [
    {
      ...common,
      kind: "core-read",
      body: { ...reading, heldSeconds, restMinutes, probe: shortOf(row, "probe"), note: noteOf(row) },
    },
  ];
}

function celsiusOf(row: Line): string {
  const value = row.cell("celsius").replace("\u2212", "-");
  if (!foodCelsiusPattern.test(value)) throw row.bad("celsius");
  return value;
}

function wholeOf(row: Line, column: Column): number {
  const value = row.cell(column);
  if (!/^\d{1,4}$/.test(value)) throw row.bad(column);
  return Number(value);
}

const orNone = (row: Line, column: Column): number => (row.cell(column) === "" ? 0 : wholeOf(row, column));

const longest = 300;

/** The time of a core or of a serving has no other place: the log knows when it was written down. */
function noteOf(row: Line): string {
  const note = [row.cell("time"), row.cell("note")].filter((part) => part !== "").join(" \u00b7 ");
  if (note.length > longest) throw row.bad("note");
  return note;
}

function shortOf(row: Line, column: "note" | "probe"): string {
  if (row.cell(column).length > longest) throw row.bad(column);
  return row.cell(column);
}

const clockPattern = /^([01]?\d|2[0-3]):[0-5]\d$/;
const instantPattern = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/;

function timeOf(row: Line, instantOf: (clock: string) => string): string {
  const time = row.cell("time");
  if (clockPattern.test(time)) return instantOf(time);
  if (!instantPattern.test(time) || Number.isNaN(Date.parse(time))) throw row.bad("time");
  return new Date(time).toISOString();
}
