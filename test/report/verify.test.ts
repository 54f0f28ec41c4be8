import { describe, expect, test } from "vitest";
import { studyText } from "../../src/report/study-text.ts";
import { cssText, footRules } from "../../src/report/use-paper.ts";
import { type CheckedPoint, checkResult } from "../../src/report/verify.ts";
import { openedExample } from "./opened.ts";

const study = openedExample();
const check = (texts: string[], result = study.result): CheckedPoint[] =>
  checkResult(studyText({ ...study, texts }, "0.1.0", "2026-05-04T08:00:00.000Z"), result, "study file");
const bad = (points: CheckedPoint[]): string[] => points.filter(({ good }) => !good).map(({ what }) => what);

describe("verifying a result against its study file", () => {
  test("an untouched file passes every check", () => {
    expect(bad(check(study.texts))).toEqual([]);
    expect(check(study.texts).map(({ what }) => what)).toEqual(["read", "links", "commitment", "result"]);
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

  test("a record left out: its device's chain has a hole, and the result differs", () => {
    const answer = study.texts.findIndex((text) => text.includes('"answer-kept"'));
    expect(bad(check(study.texts.filter((_, at) => at !== answer)))).toContain("result");
  });

  test("a result with one more right answer than the file holds is refused", () => {
    expect(bad(check(study.texts, { ...study.result, correct: 15 }))).toEqual(["result"]);
  });

  test("a record of a newer version is named as left out", () => {
    const note = JSON.stringify({
      ...JSON.parse(study.texts[0] ?? ""),
      id: "01900000-0000-7000-8000-0000000000ff",
      v: 2,
    });
    expect(bad(check([...study.texts, note]))).toEqual(["left-out"]);
  });

  test("what the server kept aside is no part of a file and does not fail it", () => {
    const departures = [...study.result.departures, { what: "quarantined" as const, events: 2 }];
    expect(bad(check(study.texts, { ...study.result, departures }))).toEqual([]);
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
