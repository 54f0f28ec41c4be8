import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { readStudyFile, recordOfFile } from "../../src/archive/study-file.ts";
import type { Result } from "../../src/model/result.ts";
import { studyText } from "../../src/report/study-text.ts";
import { cssText, footRules } from "../../src/report/use-paper.ts";
import { type CheckedPoint, checkResult } from "../../src/report/verify.ts";
import { withoutEvents } from "../archive/scenario.ts";
import { openedExample } from "./opened.ts";

const study = openedExample();
const check = (texts: string[], result = study.result): CheckedPoint[] =>
  checkResult(studyText({ ...study, texts }, "0.1.0", "2026-05-04T08:00:00.000Z"), result, "study file");
const bad = (points: CheckedPoint[]): string[] => points.filter(({ good }) => !good).map(({ what }) => what);

describe("verifying a result against its study file", () => {
  test("an untouched file passes every check", () => {
    expect(bad(check(study.texts))).toEqual([]);
    expect(check(study.texts).map(({ what }) => what)).toEqual(["read", "links", "missing", "commitment", "result"]);
  });

  test("one answer changed to another cup of its tray: the chain breaks and the result differs", () => {
    const answer = study.texts.findIndex((text) => text.includes('"answer-kept"'));
    const body = JSON.parse(study.texts[answer] ?? "").body as { choice: string; tray: number };
    const tray = study.record.packet.trays.find((one) => one.tray === body.tray);
    const other = tray?.codes.find((code) => code !== body.choice) ?? "";
    const changed = study.texts.map((text, at) => (at === answer ? text.replace(body.choice, other) : text));
    expect(bad(check(changed))).toEqual(["links", "result"]);
  });

  test("another salt for the opened key: the commitment fails", () => {
    const changed = study.texts.map((text) =>
      text.includes('"key-revealed"') ? text.replace("ab".repeat(32), "cd".repeat(32)) : text,
    );
    expect(bad(check(changed))).toContain("commitment");
  });

  test("a record left out: its device's chain has a hole, one is missing, and the result differs", () => {
    const answer = study.texts.findIndex((text) => text.includes('"answer-kept"'));
    expect(bad(check(study.texts.filter((_, at) => at !== answer)))).toEqual(["links", "missing", "result"]);
  });

  test("the end of a tablet's chain cut off breaks no link, and is missing", () => {
    const points = check(withoutEvents(study.texts, (device, seq) => device === "tablet" && seq > 69));
    expect(bad(points)).toEqual(["missing", "result"]);
    expect(points.find(({ what }) => what === "missing")?.count).toBe(3);
  });

  test("a result that was computed from a cut log is not verified either, and tells that itself", () => {
    const cut = withoutEvents(study.texts, (device, seq) => device === "tablet" && seq > 69);
    const { result, missing } = openedExample(14, cut);
    expect(missing).toBe(3);
    expect(result.departures).toContainEqual({ what: "records-missing", records: 3 });
    expect(bad(check(cut, result))).toEqual(["missing"]);
  });

  test("a result with one more right answer than the file holds is refused", () => {
    expect(bad(check(study.texts, { ...study.result, correct: 15 } as Result))).toEqual(["result"]);
  });

  test("a record of a newer version is named as left out, and the result tells that it was", () => {
    const note = JSON.stringify({
      ...JSON.parse(study.texts[0] ?? ""),
      id: "01900000-0000-7000-8000-0000000000ff",
      device: "55555555-5555-4555-8555-555555555555",
      v: 2,
    });
    const texts = [...study.texts, note];
    const { result, missing } = openedExample(14, texts);
    expect([missing, result.departures]).toEqual([1, [{ what: "records-not-read", records: 1 }]]);
    expect(bad(check(texts, result))).toEqual(["left-out"]);
  });

  test("how many the server kept aside is in the file: the result computed from it is the one shown", () => {
    const aside = openedExample(14, study.texts, 2);
    expect(aside.result.departures).toEqual([{ what: "quarantined", events: 2 }]);
    const text = studyText(aside, "0.1.0", "2026-05-04T08:00:00.000Z");
    expect(bad(checkResult(text, aside.result, "study file"))).toEqual([]);
    const { record } = recordOfFile(readStudyFile(text, "study file"), "study file");
    expect(analyse(record, "0.1.0")).toEqual(aside.result);
  });
});

describe("the foot of printed pages", () => {
  test("whatever a title holds stays inside the CSS string (CSS Syntax Level 3, escaping)", () => {
    expect(cssText('a "b" \\ c\nd')).toBe('"a \\22 b\\22  \\5c  c\\a d"');
    expect(cssText("</style>")).toBe('"\\3c /style>"');
  });

  test("names study, page of pages, commitment and time", () => {
    const rules = footRules("Steam first?", "eabeb8fd5796".padEnd(64, "0"), "2026-05-04T08:00:00.000Z");
    expect(rules).toContain('"Steam first?"');
    expect(rules).toContain("counter(page)");
    expect(rules).toContain("counter(pages)");
    expect(rules).toContain("eabe\u00a0b8fd\u00a05796");
    expect(rules).toContain("2026");
  });
});
