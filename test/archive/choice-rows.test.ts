import { describe, expect, test } from "vitest";
import { analysePair, resultOfChoices } from "../../src/analysis/analyse-pair.ts";
import { markedPairs } from "../../src/analysis/marking.ts";
import { readChoices } from "../../src/archive/choice-rows.ts";
import { readTable } from "../../src/archive/csv.ts";
import { distinctNames } from "../../src/archive/distinct-names.ts";
import { preferencesCsv } from "../../src/archive/preferences-csv.ts";
import { preferenceRecord, votes } from "../analysis/study-records.ts";
import { preferencePlan } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";

const read = (text: string) => readChoices(text, "choices.csv");
const problem = (text: string) => problemOf(() => read(text));

describe("answers of a preference", () => {
  test("columns in any order and case; none in any case; products in the order they first appear", () => {
    expect(read("Choice,PANELIST,booth\nnew,Amara Voss,a\nNone,Basil Okonjo,b\ncurrent,Clea Duarte,c\n")).toEqual({
      answers: [
        { panelist: "Amara Voss", repeat: "1", choice: "new" },
        { panelist: "Basil Okonjo", repeat: "1", choice: null },
        { panelist: "Clea Duarte", repeat: "1", choice: "current" },
      ],
      products: ["new", "current"],
      extraColumns: ["booth"],
    });
  });
  test("everybody for one product: one product is named, and nothing is refused", () => {
    expect(read("panelist,choice\n1,new\n2,new\n").products).toEqual(["new"]);
  });
});

describe("answers that are refused, with file, line and column", () => {
  test("a missing column is named with those found", () => {
    expect(problem("panelist,correct\n1,1\n")).toEqual({
      code: "csv/missing-column",
      details: { path: "choices.csv", column: "choice", found: "panelist, correct" },
    });
  });
  test.each([
    ["choice", "panelist,choice\n1,new\n2,\n", ""],
    ["panelist", "panelist,choice\n1,new\n ,new\n", ""],
    ["repeat", "panelist,repeat,choice\n1,1,new\n2,x,new\n", "x"],
  ])("a bad value of %s on line 3", (column, text, value) => {
    expect(problem(text)).toMatchObject({ code: "csv/bad-value", details: { line: 3, column, value } });
  });
  test("a third product, with the two that stand above it", () => {
    expect(problem("panelist,choice\n1,new\n2,current\n3,curent\n")).toEqual({
      code: "csv/third-product",
      details: { path: "choices.csv", line: 4, value: "curent", first: "new", second: "current" },
    });
  });
  test("one repeat of a person twice, with both lines; another repeat is another answer", () => {
    expect(problem("panelist,repeat,choice\nDov,1,new\nElif,1,new\nDov,1,current\n")).toEqual({
      code: "csv/duplicate-row",
      details: { path: "choices.csv", line: 4, first: 2, panelist: "Dov", repeat: "1" },
    });
    expect(read("panelist,repeat,choice\nDov,1,new\nDov,2,current\n").answers).toHaveLength(2);
  });
});

describe("the data of a preference study", () => {
  const record = preferenceRecord(preferencePlan(), votes(7, 13, 4));
  const csv = preferencesCsv(record, markedPairs(record));

  test("reads back to the counts of the result", () => {
    const { answers, products } = read(csv);
    expect(products.toSorted()).toEqual(["current", "new"]);
    const given = { products: ["current", "new"], alpha: 0.05, noPreference: "dropped" } as const;
    const again = resultOfChoices(given, answers, "1");
    const { counts, pValue, firstShare, ofAll } = analysePair(record, "1");
    expect(again).toMatchObject({ counts, pValue, firstShare, ofAll });
  });
  test("products and batches stand in serving order, as the order's letters say; the place is that of the choice", () => {
    const { columns, rows } = readTable(csv, "a.csv");
    expect(rows).toHaveLength(24);
    for (const { cells } of rows) {
      const row = Object.fromEntries(columns.map((column, at) => [column, cells[at]]));
      const products = [row.product_1, row.product_2];
      expect(products.map((name) => (name === "current" ? "A" : "B")).join("")).toBe(row.order);
      if (row.choice === "none") expect([row.position_chosen, row.code_chosen]).toEqual(["", ""]);
      else expect(products[Number(row.position_chosen) - 1]).toBe(row.choice);
    }
  });
  test("a product called “None” is not read as no preference", () => {
    const plan = preferencePlan();
    const products = plan.products.map((product, at) => ({ ...product, name: at === 0 ? "None" : "new" }));
    const odd = preferenceRecord({ ...plan, products }, votes(7, 13, 4));
    const { answers } = read(preferencesCsv(odd, markedPairs(odd)));
    expect(answers.filter(({ choice }) => choice === null)).toHaveLength(4);
    expect(answers.filter(({ choice }) => choice === "None (1)")).toHaveLength(7);
  });
});

test("names that stand twice, mean something else or are empty get their number", () => {
  expect(distinctNames(["current", "NONE", "current", " "], ["none"])).toEqual([
    "current (1)",
    "NONE (2)",
    "current (3)",
    "(4)",
  ]);
});
