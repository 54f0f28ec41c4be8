import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { outlineOf, readEvent, readOutline } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import { canonicalText, sha256 } from "../../src/model/canonical.ts";
import type { Fact } from "../../src/model/event.ts";
import { lead, tabletA, tabletB } from "./example.ts";
import { firstBite, LineWriter, later } from "./line-example.ts";

/** Tray 1 with all four questions answered, by tablet A. */
function whole(log: LineWriter): Fact[] {
  const marks = [0.3, 0.4, 0.6, 0.7].map((fraction, at) => log.mark(tabletA, 1, at + 1, fraction));
  return [...marks, log.write(tabletA, "tray-finished", { tray: 1 })];
}

const closed = (log: LineWriter, facts: Fact[]): Fact[] => {
  const close = log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" });
  return [...facts, close];
};
const recorded = (log: LineWriter, facts: Fact[]) =>
  recordOf(foldStudy([...facts, log.revealLine(headsOf(facts))]), { keyMatches: true });

describe("marks of a line scale", () => {
  test("a tray is open until every question of it is answered, then answered", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.3)];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "open", counted: { complete: false } });
    for (const question of [2, 3, 4]) facts.push(log.mark(tabletA, 1, question, 0.5));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "answered", counted: { complete: true } });
  });

  test("a mark moved before the next sample is an event of its own, and the last one counts", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.3), log.mark(tabletA, 1, 1, 0.8)];
    const record = recorded(log, closed(log, facts));
    expect(record.marks).toMatchObject([{ tray: 1, seat: 1, attribute: firstBite, fraction: 0.8, lengthMm: 120 }]);
  });

  test("a question left without a mark is no answer: null with its reason, never 0 or the middle", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.3), log.mark(tabletA, 1, 2, null)];
    const record = recorded(log, closed(log, facts));
    expect(record.marks).toMatchObject([
      { attribute: firstBite, fraction: 0.3, why: null },
      { attribute: later, fraction: null, why: "not-perceived" },
    ]);
    expect(record.departures).toContainEqual({ what: "not-judged", tray: 1, questions: 1 });
    expect(record.departures).toContainEqual({ what: "not-reached", tray: 1, questions: 2 });
    expect(record.notAnswered).toEqual([2]);
  });

  test("a panelist who stopped half way: what was marked counts, the tray is stopped", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.3)];
    facts.push(log.write(tabletA, "tray-stopped", { tray: 1, reason: "stopped" }));
    expect(foldStudy(facts).trays.get(1)?.status).toBe("stopped");
    expect(recorded(log, closed(log, facts)).marks).toHaveLength(1);
  });

  test("marks beyond the heads of the close stay out until the tray is admitted, and undo nothing that was in time", () => {
    const halfLate = (log: LineWriter): Fact[] => [
      ...closed(log, [log.lockLine(), log.mark(tabletA, 1, 1, 0.3)]),
      log.mark(tabletA, 1, 1, 0.9),
      log.mark(tabletA, 1, 2, 0.5),
    ];
    const left = new LineWriter();
    const out = halfLate(left);
    expect(foldStudy(out).trays.get(1)).toMatchObject({ status: "open", counted: { complete: false, late: true } });
    const without = recorded(left, out);
    expect(without.marks).toMatchObject([{ fraction: 0.3 }]);
    expect(without.departures).toContainEqual({ what: "marks-late", tray: 1, questions: 1 });

    const log = new LineWriter();
    const facts = halfLate(log);
    facts.push(log.write(lead, "late-admitted", { tray: 1, device: tabletA, note: "was chewing" }));
    expect(foldStudy(facts).trays.get(1)?.counted).toMatchObject({ late: false, admission: "was chewing" });
    const admitted = recorded(log, facts);
    expect(admitted.marks.map(({ fraction }) => fraction)).toEqual([0.3, 0.5]);
    expect(admitted.departures).toContainEqual({ what: "late-admitted", tray: 1, note: "was chewing" });
  });

  test("a tray whose last questions came after the close is not complete, also when only outlines are known", () => {
    const log = new LineWriter();
    const facts = closed(log, [log.lockLine(), log.mark(tabletA, 1, 1, 0.3), log.mark(tabletA, 1, 2, 0.4)]);
    facts.push(log.mark(tabletA, 1, 3, 0.5), log.mark(tabletA, 1, 4, 0.6));
    const outlines = facts.map((fact) =>
      fact.kind === "mark-kept" ? (readOutline(outlineOf(fact), fact.hash) ?? fact) : fact,
    );
    for (const known of [facts, outlines]) {
      expect(foldStudy(known).trays.get(1)).toMatchObject({ status: "open", counted: { complete: false, late: true } });
    }
  });

  test("a tablet that was enrolled again half way goes on as another device: one ballot, all marks, nothing to settle", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.3), log.mark(tabletA, 1, 2, 0.4)];
    facts.push(log.mark(tabletB, 1, 3, 0.6), log.mark(tabletB, 1, 4, 0.7));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "answered", counted: { complete: true } });
    const { marks } = recorded(log, closed(log, facts));
    expect(marks.map(({ fraction, device }) => [fraction, device])).toEqual([
      [0.3, tabletA],
      [0.4, tabletA],
      [0.6, tabletB],
      [0.7, tabletB],
    ]);
  });

  test("a ballot that came after the close counts whole once it is admitted", () => {
    const log = new LineWriter();
    const facts = closed(log, [log.lockLine()]);
    facts.push(...whole(log));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ counted: null, ballots: [{ arrival: "late" }] });
    facts.push(log.write(lead, "late-admitted", { tray: 1, device: tabletA, note: "" }));
    expect(recorded(log, facts).marks.map(({ fraction }) => fraction)).toEqual([0.3, 0.4, 0.6, 0.7]);
  });

  test("a mark that another tablet made too late does not push out the one in time", () => {
    for (const [early, other] of [
      [tabletA, tabletB],
      [tabletB, tabletA],
    ] as const) {
      const log = new LineWriter();
      const facts = [log.lockLine(), log.mark(early, 1, 1, 0.3), log.mark(other, 1, 2, 0.4)];
      const shut = closed(log, facts);
      shut.push(log.mark(other, 1, 1, 0.9));
      expect(recorded(log, shut).marks.map(({ fraction }) => fraction)).toEqual([0.3, 0.4]);
    }
  });

  test("two tablets that marked one tray contest it, and neither counts", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), ...whole(log), log.mark(tabletB, 1, 1, 0.5)];
    expect(foldStudy(facts).trays.get(1)?.status).toBe("contested");
    expect(recorded(log, closed(log, facts)).marks).toEqual([]);
  });

  test("a mark of a code that stands elsewhere on the tray, of another attribute, or a choice, is off the plan", () => {
    const log = new LineWriter();
    const facts = [
      log.lockLine(),
      log.mark(tabletA, 1, 1, 0.3, { code: "715" }),
      log.mark(tabletA, 1, 2, 0.3, { attribute: firstBite }),
      log.mark(tabletA, 1, 9, 0.3),
      ...log.ballot(tabletB, 2, "264").slice(1, 2),
    ];
    const state = foldStudy(facts);
    expect(state.offPlan).toHaveLength(4);
    expect([...state.trays.values()].flatMap(({ counted }) => counted ?? [])).toEqual([]);
  });

  test("another length of the line, and a chew that ran in the background, are told", () => {
    const log = new LineWriter();
    const facts = [
      log.lockLine(),
      log.mark(tabletA, 1, 1, 0.3, { line: { lengthPx: 500, lengthMm: 96.2 } }),
      log.mark(tabletA, 1, 2, 0.3, { hidden: true }),
    ];
    const { departures } = recorded(log, closed(log, facts));
    expect(departures).toContainEqual({ what: "other-length", tray: 1, lengthMm: 96.2 });
    expect(departures).toContainEqual({ what: "clock-hidden", tray: 1, questions: 1 });
  });

  test("an outline tells that a question was answered, not what, and folds to the same standing", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), ...whole(log)];
    const outlines = facts.map((fact) => {
      if (fact.kind !== "mark-kept") return fact;
      const outline = outlineOf(fact);
      expect(outline.body).toEqual({ tray: 1, question: fact.body.question });
      return readOutline(outline, fact.hash) ?? fact;
    });
    const tray = foldStudy(outlines).trays.get(1);
    expect(tray).toMatchObject({ status: "answered", counted: { complete: true } });
    expect(tray?.counted?.answers.size).toBe(0);
    expect(tray?.counted?.marks.size).toBe(0);
  });

  test("K2: marks fold to the same record in every order", () => {
    const log = new LineWriter();
    const before = [log.lockLine(), ...whole(log), log.mark(tabletA, 2, 1, 0.2), log.mark(tabletA, 2, 1, 0.6)];
    const shut = [...closed(log, before), log.mark(tabletA, 2, 1, 0.9), log.mark(tabletA, 2, 2, 0.9)];
    const facts = [...shut, log.revealLine(headsOf(shut))];
    const expected = JSON.stringify(recordOf(foldStudy(facts), { keyMatches: true }));
    fc.assert(
      fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), (shuffled) => {
        expect(JSON.stringify(recordOf(foldStudy(shuffled), { keyMatches: true }))).toBe(expected);
      }),
      { numRuns: 100 },
    );
  });
});

describe("no preference", () => {
  test("is an answer where the packet offers it, and off the plan where it does not", () => {
    for (const offered of [true, false]) {
      const log = new LineWriter();
      const lock = log.lock();
      if (lock.kind === "study-locked" && !lock.outline) lock.body.packet.noPreference = offered;
      const state = foldStudy([lock, ...log.ballot(tabletA, 1, "none")]);
      expect(state.trays.get(1)?.counted?.answers.get(1)?.choice).toBe(offered ? "none" : undefined);
      expect(state.offPlan).toHaveLength(offered ? 0 : 1);
    }
  });
});

test("a lock written before these methods were there is read, its new fields in their first meaning", () => {
  const log = new LineWriter();
  const written = JSON.parse(log.texts.get(log.lock().id) ?? "");
  for (const field of ["noPreference", "line"]) delete written.body.packet[field];
  for (const field of ["panelType", "noPreference", "scale", "similarity"]) delete written.body.plan[field];
  const text = canonicalText(written);
  const read = readEvent(text);
  expect(read).toMatchObject({
    hash: sha256(text),
    held: false,
    fact: {
      kind: "study-locked",
      body: {
        plan: { noPreference: "not-offered", panelType: "colleagues", scale: { attributes: [] } },
        packet: { noPreference: false, line: null },
      },
    },
  });
});
