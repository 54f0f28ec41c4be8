import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { readAnswers } from "../../src/archive/answer-rows.ts";
import { answersCsv } from "../../src/archive/answers-csv.ts";
import { readTable } from "../../src/archive/csv.ts";
import { readStudyFile, recordOfFile, writeStudyFile } from "../../src/archive/study-file.ts";
import { problemOf } from "../problem-of.ts";
import { study, studyEvents, studyFileOf } from "./scenario.ts";

const events = studyEvents();
const text = writeStudyFile(studyFileOf(events));
const recordOf = (list: string[]) => recordOfFile(readStudyFile(writeStudyFile(studyFileOf(list)), "s.json"), "s.json");

describe("a study file", () => {
  test("gives back the exact texts of its events", () => {
    expect(readStudyFile(text, "s.json")).toEqual({ format: "cloche-study", v: 1, ...studyFileOf(events) });
  });
  test("gives the record: 24 answers, the key checked, every link in place", () => {
    const { record, held, brokenLinks } = recordOf(events);
    expect([record.judgments.length, record.keyMatches, held, brokenLinks]).toEqual([24, true, 0, 0]);
  });
  test("a changed event breaks its device's chain and is counted", () => {
    const changed = events.map((event, at) => (at === 2 ? event.replace('"elapsedMs":41000', '"elapsedMs":1') : event));
    expect(changed).not.toEqual(events);
    expect(recordOf(changed).brokenLinks).toBe(1);
  });
  test("a changed key is kept, and known not to match its commitment", () => {
    const changed = events.map((event) =>
      event.includes('"kind":"key-revealed"') ? event.replace('"seed":"5eed"', '"seed":"5eee"') : event,
    );
    expect(recordOf(changed).record.keyMatches).toBe(false);
  });
  test("an event of a newer kind is held, not lost and not an error", () => {
    const newer = (events[2] ?? "").replace('"kind":"answer-kept"', '"kind":"answer-sung"');
    expect(recordOf([...events, newer]).held).toBe(1);
  });
});

describe("a study file that cannot be used", () => {
  const wrong = (content: string) => problemOf(() => recordOfFile(readStudyFile(content, "s.json"), "s.json"));
  test("no JSON", () => {
    expect(wrong("{")).toMatchObject({ code: "file/not-json", details: { path: "s.json" } });
  });
  test.each([
    ["another format", { format: "something" }, "format"],
    ["a newer version", { v: 2 }, "v"],
    ["events that are no texts", { events: [1] }, "events.0"],
    ["a field unknown here", { extra: 1 }, "the whole document"],
  ])("%s: the field is named", (_, change, where) => {
    expect(wrong(JSON.stringify({ ...JSON.parse(text), ...change }))).toMatchObject({
      code: "file/wrong-shape",
      details: { path: "s.json", where },
    });
  });
  test.each([
    ["no JSON", "{"],
    ["no event", "{}"],
    ["of another study", (events[1] ?? "").replace(study, study.replace("a", "b"))],
  ])("an event that is %s is named by its place", (_, event) => {
    expect(wrong(writeStudyFile(studyFileOf([...events, event])))).toMatchObject({
      code: "file/wrong-shape",
      details: { where: `event ${events.length + 1}` },
    });
  });
  test("a study whose key is not opened yet has no result", () => {
    expect(wrong(writeStudyFile(studyFileOf(studyEvents({ revealed: false }))))).toEqual({
      code: "file/not-revealed",
      details: { path: "s.json" },
    });
  });
});

describe("answers as CSV", () => {
  const { record } = recordOf(events);
  test("read back as the same 24 answers, 14 of them right, as the analysis counts them", () => {
    const { answers } = readAnswers(answersCsv(record), "a.csv");
    expect(answers.map(({ panelist }) => panelist)).toEqual(Array.from({ length: 24 }, (_, at) => `seat-${at + 1}`));
    expect(answers.filter(({ correct }) => correct)).toHaveLength(14);
    expect(analyse(record, "test").correct).toBe(14);
  });
  test("name the products and batches in serving order, as the order's letters say", () => {
    const { columns, rows } = readTable(answersCsv(record), "a.csv");
    for (const { cells } of rows) {
      const row = Object.fromEntries(columns.map((column, at) => [column, cells[at]]));
      const products = [row.product_1, row.product_2, row.product_3];
      expect(products.map((name) => (name === "current" ? "A" : "B")).join("")).toBe(row.order);
      const odd = products[Number(row.position_of_odd) - 1];
      expect(products.filter((name) => name === odd)).toHaveLength(1);
      [row.batch_1, row.batch_2, row.batch_3].forEach((batch, at) => {
        expect(batch?.[0]).toBe(products[at] === "current" ? "C" : "N");
      });
    }
  });
  test("a seat with two trays has repeats 1 and 2", () => {
    const judgments = record.judgments.map((judgment) => ({ ...judgment, seat: Math.ceil(judgment.tray / 2) }));
    const { answers } = readAnswers(answersCsv({ ...record, judgments }), "a.csv");
    expect(answers.slice(0, 4).map(({ panelist, repeat }) => `${panelist} ${repeat}`)).toEqual([
      "seat-1 1",
      "seat-1 2",
      "seat-2 1",
      "seat-2 2",
    ]);
  });
  test("a product named like a formula is harmless in a spreadsheet and reads back", () => {
    const products = record.plan.products.map((product) => ({ ...product, name: "=1+1" }));
    const csv = answersCsv({ ...record, plan: { ...record.plan, products } });
    expect(csv).not.toMatch(/(^|,)"?=/m);
    expect(readTable(csv, "a.csv").rows[0]?.cells).toContain("=1+1");
  });
});
