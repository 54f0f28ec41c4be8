import { describe, expect, test } from "vitest";
import { readKinds } from "../../src/archive/kind-rows.ts";
import { problemOf } from "../problem-of.ts";

const problem = (text: string) => problemOf(() => readKinds(text, "kinds.csv", "same-different"));

describe("answers of two kinds of trays", () => {
  test("same-different: columns and words in any case and order, repeats counted", () => {
    expect(
      readKinds(
        "Answer,SERVED,panelist,repeat,booth\nsame,Different,Dov,1,a\nDIFFERENT,same,Dov,2,b\n",
        "k.csv",
        "same-different",
      ),
    ).toEqual({
      answers: [
        { panelist: "Dov", repeat: "1", unlike: true, told: false },
        { panelist: "Dov", repeat: "2", unlike: false, told: true },
      ],
      extraColumns: ["booth"],
    });
  });
  test("A-not-A: not A with a space or a dash", () => {
    const text = "panelist,served,answer\nDov,A,not A\nElif,not-A,a\n";
    expect(readKinds(text, "k.csv", "a-not-a").answers).toEqual([
      { panelist: "Dov", repeat: "1", unlike: false, told: true },
      { panelist: "Elif", repeat: "1", unlike: true, told: false },
    ]);
  });
});

describe("answers that are refused, with file, line and column", () => {
  test("a missing column is named with those found", () => {
    expect(problem("panelist,served\nDov,same\n")).toEqual({
      code: "csv/missing-column",
      details: { path: "kinds.csv", column: "answer", found: "panelist, served" },
    });
  });
  test.each([
    ["served", "panelist,served,answer\nDov,same,same\nElif,A,same\n", "A"],
    ["answer", "panelist,served,answer\nDov,same,same\nElif,same,\n", ""],
    ["panelist", "panelist,served,answer\nDov,same,same\n ,same,same\n", ""],
    ["repeat", "panelist,served,answer,repeat\nDov,same,same,1\nElif,same,same,x\n", "x"],
  ])("a bad value of %s on line 3", (column, text, value) => {
    expect(problem(text)).toEqual({ code: "csv/bad-value", details: { path: "kinds.csv", line: 3, column, value } });
  });
  test("one repeat of a person twice, with both lines", () => {
    expect(problem("panelist,served,answer\nDov,same,same\nElif,same,same\nDov,different,same\n")).toEqual({
      code: "csv/duplicate-row",
      details: { path: "kinds.csv", line: 4, first: 2, panelist: "Dov", repeat: "1" },
    });
  });
});
