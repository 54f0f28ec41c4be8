import { readingPattern } from "../model/grams.ts";
import {
  type Blotting,
  celsiusPattern,
  type Ledger,
  type LedgerBatch,
  minutesPattern,
  mostBatches,
  mostProducts,
  mostSteps,
  type Weighing,
} from "../model/ledger.ts";
import { problem } from "../model/problem.ts";
import { columnOf, extraOf, short } from "./cells.ts";
import { readTable, type Table } from "./csv.ts";
import { headerOf } from "./header.ts";

export type ReadLedger = {
  ledger: Pick<Ledger, "products" | "steps" | "batches">;
  /** The line of the file on which a batch was weighed at a step, by their places. */
  lineOf: (batch: number, step: number) => number;
  extraColumns: string[];
};

const needed = ["batch", "product", "step", "grams"] as const;
const optional = ["tare", "drip", "added", "minutes", "celsius", "blotted", "reason", "lot", "pair"] as const;
type Column = (typeof needed)[number] | (typeof optional)[number];

/** Does the header of a CSV look like that of a ledger? One that lacks a column of it is refused by `readLedger`. */
export function looksLikeLedger(text: string): boolean {
  const columns = headerOf(text).map((column) => column.toLowerCase());
  // one of the three may be misspelled
  return ["batch", "step", "grams"].filter((column) => columns.includes(column)).length > 1;
}

/**
 * Reads a weighing ledger from CSV: columns `batch`, `product`, `step` and `grams`, in any order; also `tare`, `drip`
 * (juice caught on the way to the step), `added` (grams of liquid since the step before), `minutes` (after the heat),
 * `celsius` (of the core), `blotted` (yes or no), `reason` (why the mass grew), `lot` and `pair`. One line a
 * weighing, those of a batch in the order they were taken; empty grams: not weighed. Steps and products stand in the
 * order in which they first appear.
 *
 * Takes    text; path: names the file in errors
 * Throws   Problem "csv/missing-column", "csv/bad-value", "csv/two-spellings", "csv/step-order", "csv/duplicate-weighing",
 *          "csv/batch-differs" and "csv/ledger-too-large" with the line, and what `readTable` throws
 */
export function readLedger(text: string, path: string): ReadLedger {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  for (const column of needed) columnOf(columns, column, path);
  const at = (column: Column): number => columns.indexOf(column);
  const rows = table.rows.map(({ line, cells }): Row => {
    const cell = (column: Column): string => (at(column) < 0 ? "" : (cells[at(column)]?.trim() ?? ""));
    return { line, cell, weighing: weighingOf(cell, path, line) };
  });
  refuseSpellings(path, rows, "product");
  refuseSpellings(path, rows, "step");
  const products = inOrder(rows, "product");
  const steps = inOrder(rows, "step");
  refuseMany(path, rows, "product", products, mostProducts);
  refuseMany(path, rows, "step", steps, mostSteps);
  const { batches, lines } = batchesOf(path, rows, products, steps);
  return {
    ledger: { products, steps, batches },
    lineOf: (batch, step) => lines[batch]?.[step] ?? lines[batch]?.find((line) => line !== undefined) ?? 1,
    extraColumns: extraOf(table, [...needed, ...optional].map(at)),
  };
}

type Row = { line: Table["rows"][number]["line"]; cell: (column: Column) => string; weighing: Weighing | null };

/** Columns that hold a number, each as it may be typed. */
const numbers = [
  ...(["grams", "tare", "drip", "added"] as const).map((column) => [column, readingPattern] as const),
  ["minutes", minutesPattern],
  ["celsius", celsiusPattern],
] as const;

function weighingOf(cell: (column: Column) => string, path: string, line: number): Weighing | null {
  for (const column of ["batch", "product", "step"] as const) {
    if (cell(column) === "" || cell(column).length > 300) {
      throw problem("csv/bad-value", { path, line, column, value: short(cell(column)) });
    }
  }
  for (const [column, pattern] of numbers) {
    if (cell(column) !== "" && !pattern.test(cell(column))) {
      throw problem("csv/bad-value", { path, line, column, value: short(cell(column)) });
    }
  }
  const blotted = Object.hasOwn(blottingOf, cell("blotted").toLowerCase())
    ? blottingOf[cell("blotted").toLowerCase()]
    : undefined;
  if (!blotted) throw problem("csv/bad-value", { path, line, column: "blotted", value: short(cell("blotted")) });
  if (cell("grams") === "") {
    const more = numbers.some(([column]) => cell(column) !== "");
    if (more) throw problem("csv/bad-value", { path, line, column: "grams", value: "" });
    return null;
  }
  return {
    ...{ grams: cell("grams"), tare: cell("tare"), drip: cell("drip"), blotted },
    gainReason: cell("reason").slice(0, 300),
    ...{ added: cell("added"), minutes: cell("minutes"), celsius: cell("celsius") },
  };
}

const blottingOf: Readonly<Record<string, Blotting>> = {
  "": "unknown",
  yes: "blotted",
  no: "not-blotted",
};

/** A name without what a hand types now one way and now another: case and spaces. */
export const folded = (name: string): string => name.normalize("NFC").replace(/\s+/g, "").toLowerCase();

/** One name in two spellings would silently be two processes, or two steps. */
function refuseSpellings(path: string, rows: readonly Row[], column: "product" | "step"): void {
  const seen = new Map<string, { line: number; name: string }>();
  for (const { line, cell } of rows) {
    const value = cell(column);
    const first = seen.get(folded(value));
    if (first && first.name !== value) {
      const details = { path, line, first: first.line, column, value: short(value), other: short(first.name) };
      throw problem("csv/two-spellings", details);
    }
    if (!first) seen.set(folded(value), { line, name: value });
  }
}

const inOrder = (rows: readonly Row[], column: Column): string[] => [...new Set(rows.map(({ cell }) => cell(column)))];

function refuseMany(
  path: string,
  rows: readonly Row[],
  column: "product" | "step",
  names: readonly string[],
  most: number,
) {
  const beyond = names[most];
  if (beyond === undefined) return;
  const line = rows.find(({ cell }) => cell(column) === beyond)?.line ?? 1;
  throw problem("csv/ledger-too-large", { path, line, column, most });
}

/** Weighings gathered by batch, each at its step. */
function batchesOf(path: string, rows: readonly Row[], products: readonly string[], steps: readonly string[]) {
  const places = new Map<string, number>();
  const batches: LedgerBatch[] = [];
  const lines: number[][] = [];
  for (const row of rows) {
    const { line, cell } = row;
    const name = JSON.stringify([cell("product"), cell("batch")]);
    const place = places.get(name) ?? batches.length;
    if (place === mostBatches)
      throw problem("csv/ledger-too-large", { path, line, column: "batch", most: mostBatches });
    if (!places.has(name)) {
      places.set(name, place);
      lines.push([]);
      batches.push({
        ...{ product: products.indexOf(cell("product")), name: cell("batch"), lot: cell("lot"), pair: cell("pair") },
        weighings: steps.map(() => null),
      });
    }
    const [batch, own] = [batches[place], lines[place]];
    if (batch && own) note(path, row, steps.indexOf(cell("step")), batch, own, steps);
  }
  return { batches, lines };
}

/** Puts one weighing into its batch. */
function note(
  path: string,
  { line, cell, weighing }: Row,
  step: number,
  batch: LedgerBatch,
  own: number[],
  steps: readonly string[],
) {
  const first = own[step];
  if (first !== undefined) throw problem("csv/duplicate-weighing", { path, line, first });
  if (own.length > step) {
    const earlier = steps[own.length - 1] ?? "";
    throw problem("csv/step-order", {
      path,
      line,
      batch: batch.name,
      step: cell("step"),
      earlier,
      order: steps.join(", "),
    });
  }
  for (const column of ["lot", "pair"] as const) {
    if (cell(column) === "" || batch[column] === cell(column)) continue;
    if (batch[column] !== "") throw problem("csv/batch-differs", { path, line, column, batch: batch.name });
    batch[column] = cell(column);
  }
  own[step] = line;
  batch.weighings[step] = weighing;
}
