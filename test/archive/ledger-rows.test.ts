import { describe, expect, test } from "vitest";
import { ledgerCsv } from "../../src/archive/ledger-csv.ts";
import { looksLikeLedger, readLedger } from "../../src/archive/ledger-rows.ts";
import { problemOf } from "../problem-of.ts";

const unsaid = { added: "", minutes: "", celsius: "" };
const read = (text: string) => readLedger(text, "ledger.csv");
const lines = (...rows: string[]) => ["batch,product,step,grams", ...rows].join("\n");

test("readings keep their decimals; products and steps stand in the order of the file, columns in any", () => {
  const { ledger, extraColumns } = read(
    "Grams;step;product;batch;tare;blotted;reason;lot;cook\n12.0;raw;new;1;;no;;A 4;Teo\n1500;raw;current;1;22.4;;;;Teo\n13.5;soaked;new;1;;yes;soaked;;Teo\n",
  );
  expect(ledger.products).toEqual(["new", "current"]);
  expect(ledger.steps).toEqual(["raw", "soaked"]);
  expect(extraColumns).toEqual(["cook"]);
  expect(ledger.batches).toEqual([
    {
      ...{ product: 0, name: "1", lot: "A 4", pair: "" },
      weighings: [
        { grams: "12.0", tare: "", drip: "", blotted: "not-blotted", gainReason: "", ...unsaid },
        { grams: "13.5", tare: "", drip: "", blotted: "blotted", gainReason: "soaked", ...unsaid },
      ],
    },
    {
      ...{ product: 1, name: "1", lot: "", pair: "" },
      weighings: [{ grams: "1500", tare: "22.4", drip: "", blotted: "unknown", gainReason: "", ...unsaid }, null],
    },
  ]);
});

test("a file sorted by step is the same ledger as one sorted by batch", () => {
  const byBatch = read(lines("1,a,raw,10", "1,a,held,8", "2,a,raw,11", "2,a,held,9"));
  const byStep = read(lines("1,a,raw,10", "2,a,raw,11", "1,a,held,8", "2,a,held,9"));
  expect(byStep.ledger).toEqual(byBatch.ledger);
  expect([byBatch.lineOf(1, 1), byStep.lineOf(1, 1)]).toEqual([5, 5]);
  expect([byBatch.lineOf(0, 1), byStep.lineOf(0, 1)]).toEqual([3, 4]);
});

describe("what cannot be read is refused with its line", () => {
  test.each([
    ["a mass below 0", ["1,a,raw,10", "1,a,held,-8"], 3, "grams"],
    ["a unit beside the number", ["1,a,raw,1.5 kg"], 2, "grams"],
    ["a decimal comma", ['1,a,raw,"10,5"'], 2, "grams"],
    ["no batch", [",a,raw,10"], 2, "batch"],
    ["no step", ["1,a,,10"], 2, "step"],
    ["a dish without a mass", ["1,a,raw,,22.4,"], 2, "grams"],
    ["caught juice without a mass", ["1,a,raw,10", "1,a,held,,,0.5"], 3, "grams"],
  ])("%s", (_, rows, line, column) => {
    const cells = rows.map((row) => (row.endsWith('"') || row.split(",").length === 4 ? `${row},,` : row));
    const text = ["batch,product,step,grams,tare,drip", ...cells].join("\n");
    expect(problemOf(() => read(text))).toMatchObject({ code: "csv/bad-value", details: { line, column } });
  });
  test.each([
    ["product", ["1,new,raw,10", "2,New,raw,10"], "New", "new"],
    ["step", ["1,a,raw,10", "1,a,at rest,9", "2,a,raw,10", "2,a,At  rest,9"], "At  rest", "at rest"],
  ])("one %s in two spellings, with both lines", (column, rows, value, other) => {
    expect(problemOf(() => read(lines(...rows)))).toEqual({
      code: "csv/two-spellings",
      details: { path: "ledger.csv", line: rows.length + 1, first: column === "step" ? 3 : 2, column, value, other },
    });
  });
  test("a missing column, by its name", () => {
    expect(problemOf(() => read("batch,product,grams\n1,a,10"))).toMatchObject({
      ...{ code: "csv/missing-column", details: { column: "step" } },
    });
  });
  test("one batch twice at one step, with both lines", () => {
    expect(problemOf(() => read(lines("1,a,raw,10", "1,b,raw,10", "1,a,raw,9")))).toEqual({
      ...{ code: "csv/duplicate-weighing", details: { path: "ledger.csv", line: 4, first: 2 } },
    });
  });
  test("steps of a batch out of order", () => {
    const rows = lines("1,a,raw,10", "1,a,held,8", "2,a,held,9", "2,a,raw,11");
    expect(problemOf(() => read(rows))).toMatchObject({
      code: "csv/step-order",
      details: { line: 5, batch: "2", step: "raw", earlier: "held", order: "raw, held" },
    });
  });
  test("two lots of one batch", () => {
    const text = "batch,product,step,grams,lot\n1,a,raw,10,A\n1,a,held,9,B";
    expect(problemOf(() => read(text))).toMatchObject({
      code: "csv/batch-differs",
      details: { line: 3, column: "lot" },
    });
  });
  test("more steps than a ledger has", () => {
    const rows = Array.from({ length: 13 }, (_, at) => `1,a,step ${at},${100 - at}`);
    expect(problemOf(() => read(lines(...rows)))).toMatchObject({
      ...{ code: "csv/ledger-too-large", details: { line: 14, column: "step", most: 12 } },
    });
  });
});

test("a ledger written as CSV is read back as it was, every decimal and every empty step", () => {
  const text =
    "batch,product,step,grams,tare,drip,blotted,reason,lot,pair,added,minutes,celsius\n1,a,raw,10.0,1.50,,no,,L 7,x,,,-2.0\n1,a,held,,,,,,,,,,\n=2,b,raw,12,,,,,,x,,,\n=2,b,held,12.5,,0.1,yes,soaked,,,0.50,5,62.0";
  const { ledger } = read(text);
  const written = ledgerCsv({ ...ledger, balanceStep: "", drawn: "unknown", matters: null });
  expect(read(written).ledger).toEqual(ledger);
  // what a spreadsheet would run is marked, and comes back unmarked
  expect(written).toMatch(/'=2/);
  expect(ledger.batches.map(({ pair }) => pair)).toEqual(["x", "x"]);
});

test("the header tells a ledger from answers", () => {
  expect(looksLikeLedger('\uFEFF"Batch";"Product";"Step";"Grams"\r\n1;a;raw;10')).toBe(true);
  expect(looksLikeLedger("batch,product,grams\n1,a,10")).toBe(true);
  expect(looksLikeLedger("panelist,product,value,batch\n1,a,10,2")).toBe(false);
  expect(looksLikeLedger("panelist,product,grams_in,grams_out\n1,a,5,6")).toBe(false);
});

describe("liquid, minutes and degrees", () => {
  const columns = "batch,product,step,grams,added,minutes,celsius";
  test("are read as they were typed", () => {
    const { ledger, extraColumns } = read(`${columns}\n1,a,raw,10,,,-2.0\n1,a,held,11.5,2.50,5,62`);
    expect(ledger.batches[0]?.weighings).toMatchObject([
      { celsius: "-2.0" },
      { added: "2.50", minutes: "5", celsius: "62" },
    ]);
    expect(extraColumns).toEqual([]);
  });
  test.each([
    ["liquid below 0", "9,-2,,", "added"],
    ["a time of the day", "9,,11:32,", "minutes"],
    ["a unit beside the number", "9,,,62 C", "celsius"],
    ["liquid without a mass", ",2,,", "grams"],
    ["a temperature without a mass", ",,,62", "grams"],
  ])("%s is refused with its line", (_, cells, column) => {
    const text = `${columns}\n1,a,raw,10,,,\n1,a,held,${cells}`;
    expect(problemOf(() => read(text))).toMatchObject({ code: "csv/bad-value", details: { line: 3, column } });
  });
});
