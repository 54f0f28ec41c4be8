import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { readTable, writeTable } from "../../src/archive/csv.ts";
import { problemOf } from "../problem-of.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const cellsOf = (text: string) => readTable(text, "a.csv").rows.map(({ cells }) => cells);

describe("a table read from CSV", () => {
  test("quotes, doubled quotes, commas and line ends inside quotes (RFC 4180, section 2)", () => {
    expect(cellsOf('a,b\r\n"x, ""y""","two\r\nlines"\r\n')).toEqual([['x, "y"', "two\r\nlines"]]);
  });
  test.each([
    ["a byte order mark", "\uFEFFa,b\n1,2\n"],
    ["CR LF", "a,b\r\n1,2\r\n"],
    ["CR alone", "a,b\r1,2\r"],
    ["mixed line ends", "a,b\r\n1,2\n"],
    ["no line end at the end", "a,b\n1,2"],
    ["blank lines", "a,b\n\n1,2\n\n\n"],
    ["semicolons", "a;b\n1;2\n"],
    ["tabs", "a\tb\n1\t2\n"],
    ["spaces around column names", " a , b\n1,2\n"],
  ])("with %s", (_, text) => {
    expect(readTable(text, "a.csv")).toMatchObject({ columns: ["a", "b"], rows: [{ cells: ["1", "2"] }] });
  });
  test("rows keep the line they begin on, past blank lines and line ends inside quotes", () => {
    const { rows } = readTable('a,b\n\n1,"x\ny"\r\n3,4\n', "a.csv");
    expect(rows.map(({ line }) => line)).toEqual([3, 5]);
  });
});

describe("a table that cannot be read names file, line and reason", () => {
  test.each([
    ["a quote left open", 'a,b\n1,2\n3,"4\n5,6\n', "csv/open-quote", { line: 3 }],
    ["a stray quote in a quoted cell", 'a,b\n1,"x"y"\n', "csv/stray-quote", { line: 2 }],
    ["a cell too many", "a,b\n1,2\n1,2,3\n", "csv/cell-count", { line: 3, columns: 2, cells: 3 }],
    ["a cell too few", "a,b\n1\n", "csv/cell-count", { line: 2, columns: 2, cells: 1 }],
    ["two columns of one name", "batch,batch\n1,2\n", "csv/column-twice", { line: 1, column: "batch" }],
    ["values in place of the header", "1,1\n1,2\n", "csv/no-header", { found: "1, 1" }],
  ])("%s", (_, text, code, details) => {
    expect(problemOf(() => readTable(text, "a.csv"))).toEqual({ code, details: { path: "a.csv", ...details } });
  });
  test.each(["", "\n\n", "\uFEFF", "a,b\n", "a,b"])("no rows in %j", (text) => {
    expect(problemOf(() => readTable(text, "a.csv"))).toEqual({ code: "csv/no-rows", details: { path: "a.csv" } });
  });
});

describe("a table written as CSV", () => {
  test.each(["=1+1", "+1", "-1", "@x", "\tx", "\rx", "\0x"])("the text %j gets a leading quote mark", (text) => {
    expect(writeTable(["a", "b"], [[text, "x"]])).toContain(`'${text}`);
    expect(cellsOf(writeTable(["a", "b"], [[text, "x"]]))).toEqual([[text, "x"]]);
  });
  test("a number stays a number, -1.5 too", () => {
    expect(writeTable(["a", "b"], [[-1.5, 3]])).toBe("a,b\r\n-1.5,3\r\n");
  });
  test("reads back cell by cell, whatever the cells hold", () => {
    const risky = fc.constantFrom(
      "=",
      "+",
      "-",
      "@",
      "\t",
      "\r",
      "\n",
      "\0",
      "'",
      '"',
      ",",
      ";",
      " ",
      "\r\n",
      "ä",
      "1",
    );
    const cell = fc.oneof(
      fc.array(risky, { maxLength: 6 }).map((parts) => parts.join("")),
      fc.string({ unit: "grapheme" }),
    );
    const row = fc.tuple(cell, cell, cell).filter((cells) => cells.some((text) => text !== ""));
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 8 }), (rows) => {
        expect(cellsOf(writeTable(["one", "two", "three"], rows))).toEqual(rows);
      }),
      { numRuns: 1_000 },
    );
  });
});
