import { describe, expect, test } from "vitest";
import { saw } from "../../src/design/panel-size.ts";
import { differenceTest } from "../../src/design/size-test.ts";
import { readNumber } from "../../src/organizer/number-field.tsx";
import { sizeSentences } from "../../src/organizer/part-people.tsx";
import {
  againAddress,
  claimAddress,
  claimsAddress,
  papersAddress,
  readRoute,
  stepAddress,
  studyAddress,
} from "../../src/organizer/route.ts";
import { sawLayout } from "../../src/organizer/saw-layout.ts";
import { afterRun, neverSent, statusText } from "../../src/organizer/status.ts";
import { readyPlan } from "../design/scenario.ts";

const id = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";

describe("addresses", () => {
  test("each page's address is read back as that page", () => {
    expect(readRoute("")).toEqual({ page: "studies" });
    expect(readRoute("#/")).toEqual({ page: "studies" });
    expect(readRoute("#/devices")).toEqual({ page: "devices" });
    expect(readRoute(claimsAddress)).toEqual({ page: "claims" });
    expect(readRoute(claimAddress(id))).toEqual({ page: "claim", id });
    expect(readRoute(`${claimAddress(id)}/more`)).toEqual({ page: "unknown" });
    expect(readRoute(againAddress)).toEqual({ page: "again" });
    expect(readRoute(studyAddress(id))).toEqual({ page: "study", id });
    expect(readRoute(stepAddress(id, "close"))).toEqual({ page: "step", id, step: "close" });
    expect(readRoute(papersAddress(id))).toEqual({ page: "papers", id, paper: null });
    expect(readRoute(papersAddress(id, "tray-cards"))).toEqual({ page: "papers", id, paper: "tray-cards" });
    expect(readRoute("#setup=YG25-K5X6")).toEqual({ page: "setup", code: "YG25-K5X6" });
  });

  test("anything else is no page", () => {
    for (const hash of ["#/nothing", `#/study/${id}/papers/key`, `#/study/${id}/close/now`, "#/devices/1"]) {
      expect(readRoute(hash)).toEqual({ page: "unknown" });
    }
  });
});

describe("numbers as people type them", () => {
  const rule = { low: 1, high: 100 };
  test("point or comma, spaces around", () => {
    expect(readNumber(" 12,5 ", "Portion", rule)).toEqual({ ok: true, value: 12.5 });
    expect(readNumber("12.5", "Portion", rule)).toEqual({ ok: true, value: 12.5 });
  });
  test("what cannot be read is said, with the field's name", () => {
    for (const typed of ["", "zwölf", "1e3", "1.2.3", "0", "101"]) {
      const read = readNumber(typed, "Portion", rule);
      expect(read.ok ? "read" : read.sentence).toMatch(/^Portion: /);
    }
    expect(readNumber("2.5", "People", { ...rule, whole: true }).ok).toBe(false);
    expect(readNumber("", "Portion", { ...rule, mayBeEmpty: true })).toEqual({ ok: true, value: null });
  });
});

describe("the line about keeping and sending", () => {
  const at = "2026-05-03T14:02:00.000Z";
  const later = "2026-05-03T14:05:00.000Z";
  const counts = { unsent: 0, aside: 0 };
  const none = neverSent;

  test("sent is said only when nothing is unsent", () => {
    const unsent = statusText({
      counts: { unsent: 2, aside: 0 },
      lastKept: at,
      sent: { ...none, at, failed: true },
      keep: null,
    });
    expect(unsent).toContain("not sent yet");
    expect(unsent).toContain("2");
    const sent = statusText({ counts, lastKept: at, sent: { ...none, at: later }, keep: null });
    expect(sent).toMatch(/kept here .* sent /);
  });

  test("kept is not said while something is being written or could not be", () => {
    for (const keep of [{ at: "waiting" }, { at: "keeping" }, { at: "failed", thrown: null }] as const) {
      expect(statusText({ counts, lastKept: at, sent: none, keep })).not.toMatch(/^kept here/);
    }
  });

  test("a failed run keeps the time of the last good one", () => {
    const failed = {
      done: "failed",
      problem: { code: "server/unreachable", details: {} },
      retryAfterSeconds: null,
    } as const;
    expect(afterRun({ ...none, at }, failed, later)).toEqual({ ...none, at, failed: true });
    expect(afterRun({ ...none, at, failed: true }, { done: "all-sent" }, later)).toEqual({ ...none, at: later });
  });

  test("that the server does not know this browser stands until the server says otherwise", () => {
    const failedWith = (code: "access/not-enrolled" | "server/unreachable") =>
      ({ done: "failed", problem: { code, details: {} }, retryAfterSeconds: null }) as const;
    const unknown = afterRun({ ...none, at }, failedWith("access/not-enrolled"), later);
    expect(unknown.unknown).toBe(true);
    expect(statusText({ counts: { unsent: 2, aside: 0 }, lastKept: at, sent: unknown, keep: null })).toMatch(
      /2.*does not know this browser/,
    );
    expect(afterRun(unknown, failedWith("server/unreachable"), later).unknown).toBe(true);
    expect(afterRun(none, failedWith("server/unreachable"), later).unknown).toBe(false);
    expect(afterRun(unknown, { done: "all-sent" }, later)).toEqual({ ...none, at: later });
  });
});

describe("panel size in words and as a picture", () => {
  // exact binomial tails in fractions, Python 3.11: P(X >= 13 | 24, 8/15) = 0.5505, 80 % is reached
  // first by 40 people and by every number from 42 on (to 130); 13 of 24 has a chance of 80 % where 40.7 % can tell. The
  // distance that goes with it by the triangle's published integral, summed in steps of 0.0004: 1.998
  test("24 people, alpha 0.05, 30 % who can tell: 55 of 100; 40 people are the first to reach 80", () => {
    expect(sizeSentences(readyPlan()).map((sentence) => sentence.replaceAll("\u00a0", " "))).toEqual([
      "With 24 people this plan finds it in 55 of 100 such studies.",
      "40 people are the first number that reaches 80 of 100 (the rule of the standards); from 42 on every number does.",
      "The smallest that 24 people find in 80 of 100 studies: 40.7 % who can tell (d′ 2, large).",
    ]);
  });

  test("two people can never reach 5 %: both right by guessing is 1 in 9", () => {
    expect(sizeSentences(readyPlan({ people: 2 }))[0]).toContain("no result can count");
  });

  test("five people give no verdict, though five right of five would be rare", () => {
    expect(sizeSentences(readyPlan({ people: 5 }))).toEqual([
      "5\u00a0people give no verdict, whatever they answer. Plan at least 6.",
    ]);
  });

  // exact binomial tails in fractions, Python 3.11: 8 people need 6 right; P(X >= 6 | 8, 29/30) = 0.9982 when 95 % can
  // tell, but P(X >= 6 | 8, 2/3) = 0.4682 when half can
  test("eight people who are to find 95 % are told that it is a glaring difference; a large panel is not", () => {
    const small = sizeSentences(readyPlan({ people: 8, discriminatorShareSought: 0.95 })).join(" ");
    expect(small).toContain("more than 99 of 100");
    expect(small).toContain("glaring");
    expect(sizeSentences(readyPlan({ people: 60 })).join(" ")).not.toContain("glaring");
  });

  test("at every width dots stay inside and no two numbers of the axis touch", () => {
    const points = saw(differenceTest("triangle", 0.05, 0.3), 6, 66);
    for (const width of [240, 320, 390, 640, 1000]) {
      const layout = sawLayout(points, 24, width);
      for (const { x, y } of layout.dots) {
        expect(x).toBeGreaterThanOrEqual(layout.from);
        expect(x).toBeLessThanOrEqual(layout.to);
        expect(y).toBeLessThan(layout.height - 20);
      }
      const gaps = layout.ticks.slice(1).map((tick, at) => tick.x - (layout.ticks[at]?.x ?? 0));
      for (const gap of gaps) expect(gap).toBeGreaterThan(28);
      expect(layout.ticks.some(({ people, chosen }) => people === 24 && chosen)).toBe(true);
    }
  });
});
