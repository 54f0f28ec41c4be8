import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { markedChoices } from "../../src/analysis/marking.ts";
import { readAnswers } from "../../src/archive/answer-rows.ts";
import { answersCsv as csvOf } from "../../src/archive/answers-csv.ts";
import { readTable } from "../../src/archive/csv.ts";
import { readStudyFile, recordOfFile, writeStudyFile } from "../../src/archive/study-file.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import { problemOf } from "../problem-of.ts";
import { study, studyEvents, studyFileOf, withoutEvents } from "./scenario.ts";

const events = studyEvents();
const text = writeStudyFile(studyFileOf(events));
const recordOf = (list: string[]) => recordOfFile(readStudyFile(writeStudyFile(studyFileOf(list)), "s.json"), "s.json");

describe("a study file", () => {
  test("gives back the exact texts of its events", () => {
    expect(readStudyFile(text, "s.json")).toEqual({ format: "cloche-study", v: 1, ...studyFileOf(events) });
  });
  test("gives the record: 24 answers, the key checked, every link in place", () => {
    const { record, held, brokenLinks, missing } = recordOf(events);
    expect([record.judgments.length, record.keyMatches, held, brokenLinks, missing]).toEqual([24, true, 0, 0, 0]);
    expect(record.departures).toEqual([]);
  });
  test("a file from before the count of events kept aside was in it is read as having none", () => {
    const { quarantined: _, ...older } = JSON.parse(text) as Record<string, unknown>;
    expect(readStudyFile(JSON.stringify(older), "s.json").quarantined).toBe(0);
  });
  test("how many events the server kept aside is in the file, and a departure of its record", () => {
    const file = readStudyFile(writeStudyFile({ ...studyFileOf(events), quarantined: 2 }), "s.json");
    expect(recordOfFile(file, "s.json").record.departures).toEqual([{ what: "quarantined", events: 2 }]);
  });
  test("a changed event breaks its device's chain and is counted", () => {
    const changed = events.map((event, at) => (at === 2 ? event.replace('"elapsedMs":41000', '"elapsedMs":1') : event));
    expect(changed).not.toEqual(events);
    expect(recordOf(changed).brokenLinks).toBe(1);
  });
  // the tablet wrote 72 events: opened, kept, finished for each of 24 trays
  test.each<[string, (device: "lead" | "tablet", seq: number) => boolean, number, number]>([
    ["one answer out of the middle", (device, seq) => device === "tablet" && seq === 8, 1, 1],
    ["the last three trays", (device, seq) => device === "tablet" && seq > 63, 9, 0],
    ["everything a tablet wrote", (device) => device === "tablet", 72, 0],
  ])("%s cut: counted as missing, and the record says so", (_, left, missing, broken) => {
    const found = recordOf(withoutEvents(events, left));
    expect([found.missing, found.brokenLinks]).toEqual([missing, broken]);
    expect(found.record.departures).toContainEqual({ what: "records-missing", records: missing });
  });
  test("a changed key is kept, and known not to match its commitment", () => {
    const changed = events.map((event) =>
      event.includes('"kind":"key-revealed"') ? event.replace('"seed":"5eed"', '"seed":"5eee"') : event,
    );
    expect(recordOf(changed).record.keyMatches).toBe(false);
  });
  test("an event of a newer kind is held, not lost and not an error", () => {
    const newer = (events[2] ?? "").replace('"kind":"answer-kept"', '"kind":"answer-sung"');
    const { held, record } = recordOf([...events, newer]);
    expect(held).toBe(1);
    expect(record.departures).toContainEqual({ what: "records-not-read", records: 1 });
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
    ["no JSON", "{", "file/bad-event"],
    ["no event", "{}", "file/bad-event"],
    ["of another study", (events[1] ?? "").replace(study, study.replace("a", "b")), "file/foreign-event"],
  ])("an event that is %s is named by its place", (_, event, code) => {
    expect(wrong(writeStudyFile(studyFileOf([...events, event])))).toMatchObject({
      code,
      details: { path: "s.json", event: events.length + 1 },
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
  const answersCsv = (one: StudyRecord) => csvOf(one, markedChoices(one));
  test("read back as the same 24 answers, 14 of them right, as the analysis counts them", () => {
    const { answers } = readAnswers(answersCsv(record), "a.csv");
    expect(answers.map(({ panelist }) => panelist)).toEqual(Array.from({ length: 24 }, (_, at) => `seat-${at + 1}`));
    expect(answers.filter(({ correct }) => correct)).toHaveLength(14);
    expect(analyse(record, "test")).toMatchObject({ correct: 14 });
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
  test("the order is that of the samples, whatever label the key carries: file and analysis cannot disagree", () => {
    const trays = record.opened.key.trays.map((tray) => ({ ...tray, order: "ABB" }));
    const mislabeled = { ...record, opened: { ...record.opened, key: { ...record.opened.key, trays } } };
    expect(answersCsv(mislabeled)).toBe(answersCsv(record));
  });
  test("an answer to a tray outside the key has no file, as it has no result", () => {
    const judgments = record.judgments.map((judgment) => ({ ...judgment, tray: judgment.tray + 900 }));
    expect(problemOf(() => answersCsv({ ...record, judgments })).code).toBe("analysis/tray-not-in-key");
    expect(problemOf(() => analyse({ ...record, judgments }, "test")).code).toBe("analysis/tray-not-in-key");
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
