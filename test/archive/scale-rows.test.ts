import { describe, expect, test } from "vitest";
import { analyseScale, resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { markedLines } from "../../src/analysis/marking.ts";
import { markValue } from "../../src/analysis/steps.ts";
import { readTable } from "../../src/archive/csv.ts";
import { marksCsv } from "../../src/archive/marks-csv.ts";
import { readScale } from "../../src/archive/scale-rows.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import { juicinessMarks, lineRecord, type Marks } from "../analysis/study-records.ts";
import { linePlan } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";

const read = (text: string) => readScale(text, "scale.csv");
const problem = (text: string) => problemOf(() => read(text));
const csvOf = (record: StudyRecord) => marksCsv(record, markedLines(record), markValue);

describe("values of a scale", () => {
  test("all columns, in any order; an empty value is no answer; session, batch and position are known", () => {
    const text =
      "value,moment,attribute,repeat,product,panelist,session,batch,position,booth\n58.4,10 s,juicy,1,new,Dov,1,b2,3,x\n,10 s,juicy,2,new,Dov,1,b2,3,x\n";
    const dov = { panelist: "Dov", product: "new", attribute: "juicy", moment: "10 s" };
    const served = { place: 3, session: "1", batch: "b2" };
    expect(read(text)).toEqual({
      answers: [
        { ...dov, ...served, repeat: "1", value: 58.4 },
        { ...dov, ...served, repeat: "2", value: null },
      ],
      extraColumns: ["booth"],
    });
  });
  test("three columns are enough", () => {
    expect(read("panelist,product,value\n1,new,7\n").answers).toEqual([
      { panelist: "1", product: "new", repeat: "1", attribute: "", moment: "", value: 7 },
    ]);
  });
  test.each([
    ["0", 0],
    ["-3.25", -3.25],
    [".5", 0.5],
    ["1e2", 100],
    ["+7.", 7],
  ])("%s is %d", (text, value) => {
    expect(read(`panelist,product,value\n1,new,${text}\n`).answers[0]?.value).toBe(value);
  });
});

describe("values that are refused, with file, line and column", () => {
  test.each(["panelist", "product", "value"])("a missing column %s", (column) => {
    const columns = ["panelist", "product", "value"].filter((one) => one !== column);
    expect(problem(`${columns.join(",")}\n1,1\n`)).toMatchObject({
      code: "csv/missing-column",
      details: { column, found: columns.join(", ") },
    });
  });
  test.each([
    ["value", '1,new,"58,4"', "58,4"],
    ["value", "1,new,juicy", "juicy"],
    ["value", "1,new,0x10", "0x10"],
    ["value", "1,new,NaN", "NaN"],
    ["value", "1,new,Infinity", "Infinity"],
    ["value", "1,new,1e13", "1e13"],
    ["product", "1,,5", ""],
    ["panelist", ",new,5", ""],
  ])("a bad %s on line 3: %s", (column, line, value) => {
    expect(problem(`panelist,product,value\n9,new,1\n${line}\n`)).toMatchObject({
      code: "csv/bad-value",
      details: { path: "scale.csv", line: 3, column, value },
    });
  });
  test("a place that is no number; one that nobody knows is none", () => {
    expect(problem("panelist,product,value,position\n9,new,5,\n1,new,5,last\n")).toEqual({
      code: "csv/bad-value",
      details: { path: "scale.csv", line: 3, column: "position", value: "last" },
    });
    expect(read("panelist,product,value,position\n9,new,5,\n").answers[0]?.place).toBeNull();
  });
  test("a value twice, with both lines; another session is another value", () => {
    expect(problem("panelist,product,value\n1,new,5\n2,new,5\n1,new,6\n")).toEqual({
      code: "csv/duplicate-value",
      details: { path: "scale.csv", line: 4, first: 2 },
    });
    expect(read("panelist,product,session,value\n1,new,1,5\n1,new,2,6\n").answers).toHaveLength(2);
  });
});

describe("scales with steps", () => {
  const head = "panelist,product,attribute,scale,value,label";
  test("the column scale says the steps, label their words; a row without it is a line", () => {
    const { answers } = read(
      `${head}\n1,new,liking,liking 3,3,very much\n2,new,liking,liking 3,,\n1,new,salt,Just-right 3,1,\n1,new,juice,,40,`,
    );
    expect(answers.map(({ form }) => form)).toEqual([
      { kind: "steps", labels: ["", "", "very much"], liking: true },
      { kind: "steps", labels: ["", "", "very much"], liking: true },
      { kind: "just-right", labels: ["", "", ""] },
      undefined,
    ]);
  });
  test.each(["steps", "steps 1", "steps 12", "liking", "just-right 4", "faces 5"])("%s is no scale", (scale) => {
    expect(problem(`${head}\n1,new,a,${scale},1,\n`)).toMatchObject({
      code: "csv/bad-value",
      details: { line: 2, column: "scale", value: scale },
    });
  });
  test.each(["0", "4", "1.5"])("%s is no step of three", (value) => {
    expect(problem(`${head}\n1,new,a,steps 3,${value},\n`)).toMatchObject({
      code: "csv/bad-step",
      details: { path: "scale.csv", line: 2, value, steps: 3 },
    });
  });
  test("one attribute with two scales is refused, with both lines", () => {
    expect(problem(`${head}\n1,new,a,steps 3,1,\n2,new,a,steps 5,1,\n`)).toEqual({
      code: "csv/scales-differ",
      details: { path: "scale.csv", line: 3, first: 2 },
    });
  });
  test("steps of a study are written as their numbers and words, and read back to the numbers of the result", () => {
    const plan = linePlan();
    const [first] = plan.scale.attributes;
    if (!first) throw new Error("the scenario has an attribute");
    const form = { kind: "steps" as const, labels: ["not at all", "", "very much"], liking: true };
    const places = Array.from(
      { length: 12 },
      (_, at): Marks => [[0, at % 2 === 0 ? 50 : 100, at % 3 === 0 ? 50 : 100]],
    );
    const record = lineRecord({ ...plan, scale: { ...plan.scale, attributes: [{ ...first, form }] } }, places);
    const { columns, rows } = readTable(csvOf(record), "a.csv");
    const cells = new Set(
      rows.map((row) => ["scale", "value", "label"].map((name) => row.cells[columns.indexOf(name)]).join("|")),
    );
    expect([...cells].sort()).toEqual(["liking 3|1|not at all", "liking 3|2|", "liking 3|3|very much"]);
    const [found, again] = [analyseScale(record, "1"), resultOfScaleRows(0.05, read(csvOf(record)).answers, "1")];
    const { distribution, blocks, ranks, form: read3 } = found.attributes[0] ?? {};
    expect(again.attributes[0]).toMatchObject({ distribution, blocks, ranks, form: read3 });
  });
});

describe("the data of a line-scale study", () => {
  const plan = linePlan();
  const [juicy] = plan.scale.attributes;
  if (!juicy) throw new Error("the scenario has an attribute");
  const attributes = [
    juicy,
    { ...juicy, id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b05", moment: { at: "first-bite" as const } },
  ];
  const people = juicinessMarks.map((row, at): Marks => {
    if (at === 2) return [[...row], [row[0], null, row[2]]];
    // never reached the second question of one sample
    return at === 5 ? [[...row], [row[0], undefined, row[2]]] : [[...row], [...row].reverse()];
  });
  const record = lineRecord({ ...plan, scale: { ...plan.scale, attributes } }, people);

  test("reads back to the numbers of the result, to the last digit", () => {
    const found = analyseScale(record, "1");
    const again = resultOfScaleRows(0.05, read(csvOf(record)).answers, "1");
    expect(again).toMatchObject({ products: found.products, people: found.people, judgments: found.judgments });
    found.attributes.forEach(({ attribute, outcome, blocks, means, contrasts, people, incomplete }, at) => {
      expect(again.attributes[at]).toMatchObject({ attribute, outcome, blocks, means, contrasts, people });
      expect(again.attributes[at]?.incomplete.map(({ missing }) => missing)).toEqual(
        incomplete.map(({ missing }) => missing),
      );
    });
    expect(again.attributes.map(({ momentText }) => momentText)).toEqual(["after 10 s", "first bite"]);
  });
  test("sessions stand in a column of their own where there are several", () => {
    const [wave] = plan.waves;
    if (!wave) throw new Error("the scenario has a wave");
    const waves = ["Monday", ""].map((session, at) => ({ ...wave, id: wave.id.replace(/.$/, String(at)), session }));
    const marks = record.marks.map((mark) => ({ ...mark, wave: mark.seat > 6 ? 2 : 1 }));
    const { answers } = read(csvOf({ ...record, plan: { ...record.plan, waves }, marks }));
    expect(new Set(answers.map(({ session }) => session))).toEqual(new Set(["Monday", "2"]));
    expect(readTable(csvOf(record), "a.csv").columns).not.toContain("session");
  });
  test("one line for every question of a counted tray; no answer is empty, and says why", () => {
    const { columns, rows } = readTable(csvOf(record), "a.csv");
    const lines = rows.map(({ cells }) => Object.fromEntries(columns.map((column, at) => [column, cells[at] ?? ""])));
    expect(lines).toHaveLength(12 * 3 * 2);
    const empty = lines.filter(({ value }) => value === "");
    expect(empty.map(({ panelist, product, why }) => [panelist, product, why])).toEqual([
      ["seat-3", "new", "not-perceived"],
      ["seat-6", "new", "no-answer-in-time"],
    ]);
    for (const line of lines) {
      expect(
        "ABC"["current,new,new, rested".indexOf(line.product ?? "") === 0 ? 0 : line.product === "new" ? 1 : 2],
      ).toBe(line.order?.[Number(line.position) - 1]);
      expect(line.line_mm).toBe(line.why === "no-answer-in-time" ? "" : "120");
    }
  });
  test("a property over the chew has a line for each of its moments, which the file names", () => {
    const further = [
      { id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b06", moment: { at: "chews" as const, chews: 15 } },
      { id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b07", moment: { at: "first-bite" as const } },
    ];
    const chewed = { ...juicy, moment: { at: "before-swallowing" as const }, further };
    const marks = juicinessMarks.map((row): Marks => [[...row], [...row].reverse(), [...row]]);
    const whole = lineRecord({ ...plan, scale: { ...plan.scale, attributes: [chewed] } }, marks);
    const { answers } = read(csvOf(whole));
    expect([...new Set(answers.map(({ attribute, moment }) => `${attribute}, ${moment}`))]).toEqual([
      "Juiciness, before swallowing",
      "Juiciness, first bite",
      "Juiciness, after 15 chews",
    ]);
    expect(answers).toHaveLength(12 * 3 * 3);
  });
  test("two products of one name and two properties of one name and moment are told apart", () => {
    const products = plan.products.map((product) => ({ ...product, name: "meatball" }));
    const twice = [juicy, { ...juicy, id: "8e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b05" }];
    const odd = lineRecord({ ...plan, products, scale: { ...plan.scale, attributes: twice } }, people);
    const { answers } = read(csvOf(odd));
    expect([...new Set(answers.map(({ product }) => product))]).toEqual([
      "meatball (1)",
      "meatball (2)",
      "meatball (3)",
    ]);
    expect([...new Set(answers.map(({ attribute }) => attribute))]).toEqual(["Juiciness (1)", "Juiciness (2)"]);
  });
});
