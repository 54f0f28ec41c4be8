import { describe, expect, test } from "vitest";
import { readAnswers } from "../../src/archive/answer-rows.ts";
import { problemOf } from "../problem-of.ts";

const read = (text: string) => readAnswers(text, "answers.csv");
const problem = (text: string) => problemOf(() => read(text));

describe("answers of a choice test", () => {
  test("columns in any order and case; extra ones are named, not read", () => {
    expect(read("Correct,booth,PANELIST,repeat\n1,a,Amara Voss,1\n0,b,Amara Voss,2\n")).toEqual({
      answers: [
        { panelist: "Amara Voss", repeat: "1", correct: true },
        { panelist: "Amara Voss", repeat: "2", correct: false },
      ],
      extraColumns: ["booth"],
    });
  });
  test("without a column repeat everybody answered once", () => {
    expect(read("panelist,correct\n1,1\n2,0\n").answers).toEqual([
      { panelist: "1", repeat: "1", correct: true },
      { panelist: "2", repeat: "1", correct: false },
    ]);
  });
  test("names with commas, quotes and formula signs are read as they are", () => {
    expect(read(`panelist,correct\n"Ibarra, ""Fenn""",1\n'=x,0\n`).answers.map(({ panelist }) => panelist)).toEqual([
      'Ibarra, "Fenn"',
      "=x",
    ]);
  });
});

describe("answers that are refused, with file, line and column", () => {
  test("a missing column is named with those found", () => {
    expect(problem("panelist,right\n1,1\n")).toEqual({
      code: "csv/missing-column",
      details: { path: "answers.csv", column: "correct", found: "panelist, right" },
    });
  });
  test.each([
    ["correct", "panelist,correct\n1,1\n2,yes\n", "yes"],
    ["correct", "panelist,correct\n1,1\n2,\n", ""],
    ["correct", "panelist,correct\n1,1\n2,1.0\n", "1.0"],
    ["panelist", "panelist,correct\n1,1\n ,1\n", ""],
    ["repeat", "panelist,repeat,correct\n1,1,1\n2,0,1\n", "0"],
    ["repeat", "panelist,repeat,correct\n1,1,1\n2,1.5,1\n", "1.5"],
    ["repeat", "panelist,repeat,correct\n1,1,1\n2,,1\n", ""],
  ])("a bad value of %s on line 3", (column, text, value) => {
    expect(problem(text)).toMatchObject({
      code: "csv/bad-value",
      details: { path: "answers.csv", line: 3, column, value },
    });
  });
  test("the same panelist and repeat twice, with both lines", () => {
    expect(problem("panelist,repeat,correct\nDov,1,1\nElif,1,0\nDov,01,0\n")).toEqual({
      code: "csv/duplicate-row",
      details: { path: "answers.csv", line: 4, first: 2, panelist: "Dov", repeat: "1" },
    });
  });
  test("the same panelist twice in a file without repeats", () => {
    expect(problem("panelist,correct\nDov,1\nDov,1\n").code).toBe("csv/duplicate-row");
  });
  test("a very long value is cut in the message", () => {
    const { details } = problem(`panelist,correct\n1,${"x".repeat(500)}\n`);
    expect(JSON.stringify(details).length).toBeLessThan(200);
  });
});
