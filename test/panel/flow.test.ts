import { describe, expect, test } from "vitest";
import type { Fact } from "../../src/model/event.ts";
import * as flow from "../../src/panel/flow.ts";
import { tabletA, Writer } from "../log/example.ts";
import { problemOf } from "../problem-of.ts";
import { packet } from "./tablet.ts";

const tray: flow.Tray = { tray: 17, codes: ["317", "530", "843"] };
const savedAt = "2026-05-03T12:00:00.000Z";
const wordings = ["triangle-1"];
const version = packet.allergens.version;
const asked = { at: "question" as const, question: 1, held: null, elapsedMs: 7, savedAt };
const start: flow.Tasting = { at: "tasting", tray, touched: 0, restUntil: null };

describe("which tray was typed", () => {
  test("a tray of the study by its label, with and without the dash", () => {
    expect(flow.trayNamed("17-4", packet, wordings)).toEqual(tray);
    expect(flow.trayNamed("174", packet, wordings)).toEqual(tray);
  });

  test.each([
    ["17-9", "tray/check-digit", { typed: "17-9" }],
    ["71-4", "tray/check-digit", { typed: "71-4" }],
    ["9", "tray/check-digit", { typed: "9" }],
  ])("%s has a wrong check digit", (typed, code, details) => {
    expect(problemOf(() => flow.trayNamed(typed, packet, wordings))).toEqual({ code, details });
  });

  test("a right label of a tray that is not in the study", () => {
    const few = { ...packet, trays: packet.trays.slice(0, 3) };
    expect(problemOf(() => flow.trayNamed("17-4", few, wordings))).toEqual({
      code: "tray/unknown",
      details: { tray: 17 },
    });
  });

  test("without a study, or with a wording this app has no words for, no tray opens", () => {
    expect(problemOf(() => flow.trayNamed("17-4", null, wordings)).code).toBe("tray/no-study");
    const newer = { ...packet, wording: "triangle-2" };
    expect(problemOf(() => flow.trayNamed("17-4", newer, wordings))).toEqual({
      code: "tray/new-wording",
      details: { wording: "triangle-2" },
    });
  });
});

describe("how far a tray got", () => {
  const answer = {
    tray: 17,
    question: 1,
    choice: "530",
    guess: false,
    elapsedMs: 1,
    screen: { widthPx: 1, heightPx: 1, pixelRatio: 1, pointer: "touch" },
    salt: "5a".repeat(32),
  };
  const write = (...kinds: string[]): Fact[] => {
    const writer = new Writer();
    return kinds.map((kind) => {
      if (kind === "opened") return writer.write(tabletA, "tray-opened", { tray: 17, clearance: version });
      if (kind === "opened before")
        return writer.write(tabletA, "tray-opened", { tray: 17, clearance: "0".repeat(64) });
      if (kind === "answered") return writer.write(tabletA, "answer-kept", answer);
      if (kind === "remarked") return writer.write(tabletA, "remark-kept", { tray: 17, remark: "0".repeat(64) });
      if (kind === "finished") return writer.write(tabletA, "tray-finished", { tray: 17 });
      return writer.write(tabletA, "tray-stopped", { tray: 17, reason: "not-cleared" });
    });
  };
  const all: [string[], flow.Progress][] = [
    [[], "fresh"],
    [["opened"], "cleared"],
    [["opened before"], "fresh"],
    [["opened", "answered"], "answered"],
    [["opened", "answered", "remarked"], "remarked"],
    [["opened", "answered", "finished"], "finished"],
    [["opened", "stopped"], "stopped"],
  ];
  test.each(all)("%j is %s", (kinds, progress) => {
    expect(flow.progressOf(write(...kinds), tray, packet)).toBe(progress);
    expect(flow.progressOf(write(...kinds), { ...tray, tray: 16 }, packet)).toBe("fresh");
  });

  test("used here goes before used elsewhere; a begun ballot of this tablet may be finished", () => {
    expect(flow.refusal(17, "fresh", [])).toBeNull();
    expect(flow.refusal(17, "fresh", [17])?.problem.code).toBe("tray/used-elsewhere");
    expect(flow.refusal(17, "finished", [17])?.problem.code).toBe("tray/used-here");
    expect(flow.refusal(17, "stopped", [])?.problem.code).toBe("tray/stopped-here");
    expect(flow.refusal(17, "answered", [17])).toBeNull();
    expect(flow.refusal(17, "fresh", [], true)?.problem.code).toBe("tray/study-closed");
    expect(flow.refusal(17, "answered", [], true)).toBeNull();
  });
});

describe("the step at which a tray opens", () => {
  const open = (progress: flow.Progress, draft: Parameters<typeof flow.openingStep>[2]) =>
    flow.openingStep(tray, progress, draft, 5000, packet, 1);

  test("no draft gets past the allergens of a tray that was not cleared", () => {
    const draft = { ...asked, picked: "530", guess: true };
    expect(open("fresh", draft)).toEqual({ at: "clearance", tray });
    expect(open("cleared", draft)).toEqual({
      at: "question",
      tray,
      question: 1,
      picked: "530",
      held: null,
      guess: true,
    });
  });

  test("a pause that was cut short begins anew", () => {
    const draft = { at: "tasting" as const, touched: 1, resting: true, savedAt };
    expect(open("cleared", draft)).toEqual({ at: "tasting", tray, touched: 1, restUntil: 50_000 });
  });

  test("a picked code that the tray does not carry is not picked", () => {
    const draft = { ...asked, picked: "999", guess: false };
    expect(open("cleared", draft)).toEqual(flow.freshQuestion(tray, 1));
  });

  test.each([
    ["the first places", "843 317", "843 317"],
    ["one code twice", "843 843", null],
    ["a code of another tray", "843 999", null],
    ["all codes, which is an answer and does not wait", "843 317 530", null],
    ["codes without a space between", "843317", null],
  ])("of an order that was begun only codes of the tray wait, each once: %s", (_, laidDown, held) => {
    const ranking = { ...packet, method: "ranking" as const };
    const draft = { ...asked, picked: null, held: laidDown, guess: false };
    expect(flow.openingStep(tray, "cleared", draft, 5000, ranking, 1)).toEqual({
      ...flow.freshQuestion(tray, 1),
      held,
    });
  });

  test("where one code waits for its partner, two do not", () => {
    const draft = { ...asked, picked: null, held: "843 317", guess: false };
    expect(open("cleared", draft)).toEqual(flow.freshQuestion(tray, 1));
  });

  test("after the answer only the remark is open, whatever an old draft says", () => {
    const draft = { ...asked, picked: "843", guess: false };
    expect(open("answered", draft)).toEqual({ at: "remark", tray, text: "", kept: false });
    expect(open("answered", { at: "remark", text: "dry", savedAt })).toMatchObject({ text: "dry" });
    expect(open("remarked", null)).toMatchObject({ at: "remark", kept: true });
  });
});

describe("codes in tasting order", () => {
  const touch = (step: flow.Tasting, cup: string, now: number, of = packet, open = 1) =>
    flow.touchCup(step, cup, now, of, open);

  test("a code whose turn it is not is a problem that names the next, and changes nothing", () => {
    expect(problemOf(() => touch(start, "843", 0))).toEqual({
      code: "tray/wrong-code",
      details: { tapped: "843", expected: "317" },
    });
  });

  test("each touch but the last starts the pause; while it runs, no touch counts", () => {
    const first = touch(start, "317", 1000);
    expect(first).toEqual({ ...start, touched: 1, restUntil: 46_000 });
    expect(touch(first as flow.Tasting, "530", 45_999)).toBe(first);
    const second = touch(first as flow.Tasting, "530", 46_000);
    expect(second).toMatchObject({ touched: 2, restUntil: 91_000 });
    expect(touch(second as flow.Tasting, "843", 91_000)).toEqual(flow.freshQuestion(tray, 1));
  });

  test("without a pause in the plan the next sample follows at once", () => {
    expect(touch(start, "317", 1000, { ...packet, pauseSeconds: 0 })).toMatchObject({ touched: 1, restUntil: null });
  });

  test("time left is told in steps of five seconds", () => {
    expect([46_000, 45_000, 41_001, 41_000, 1500, 1000].map((until) => flow.secondsLeft(until, 1000))).toEqual([
      45, 45, 45, 40, 5, 0,
    ]);
  });
});

test("the cover comes later than any pause of the plan, and never at rest", () => {
  const rules = { at: "rules" as const, tray };
  expect(flow.coverAfter({ at: "rest" }, 45)).toBeNull();
  expect(flow.coverAfter(rules, 45)).toBe(5 * 60_000);
  expect(flow.coverAfter(rules, 600)).toBe(13 * 60_000);
  expect(flow.coverAfter({ at: "thanks" }, 600)).toBe(2 * 60_000);
});

test("what is typed shows as on the card: the last digit after a dash", () => {
  expect(["", "1", "17", "174", "17-4", "1a7 4", "123456789"].map(flow.asTyped)).toEqual([
    "",
    "1",
    "1-7",
    "17-4",
    "17-4",
    "17-4",
    "1234-5",
  ]);
});
