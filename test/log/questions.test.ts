import { describe, expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import type { Fact } from "../../src/model/event.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

/** The small study as a choice of three with two questions a tray. */
function lockTwo(log: Writer): Fact {
  const fact = log.lock();
  if (fact.kind !== "study-locked" || fact.outline) throw new Error("a lock was written");
  const properties = [tabletA, tabletB].map((id) => ({ id, comparative: "juicier", definition: "" }));
  const packet = { ...fact.body.packet, method: "three-alternative" as const, properties };
  return { ...fact, body: { ...fact.body, packet } };
}

const answer = (log: Writer, device: string, question: number, choice: string): Fact =>
  log.write(device, "answer-kept", {
    tray: 1,
    question,
    choice,
    guess: false,
    elapsedMs: 1000,
    screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
    salt: "5a".repeat(32),
  });

describe("several questions of one tray, on two tablets", () => {
  test.each([
    { begun: tabletA, other: tabletB },
    { begun: tabletB, other: tabletA },
  ])("an answer that came too late does not stand in place of the other tablet's in time ($begun)", (tablets) => {
    const { begun, other } = tablets;
    const log = new Writer();
    const facts = [lockTwo(log), answer(log, begun, 1, "482"), answer(log, other, 2, "715")];
    const heads = { [lead]: log.head(lead), [begun]: log.head(begun), [other]: log.head(other) };
    facts.push(answer(log, begun, 2, "309"));
    facts.push(log.write(lead, "study-closed", { heads, knownUnsent: 0, note: "" }));
    facts.push(log.reveal({ ...heads, [lead]: log.head(lead), [begun]: log.head(begun) }));
    const { judgments } = recordOf(foldStudy(facts), { keyMatches: true });
    expect(judgments.map(({ question, choice }) => [question, choice])).toEqual([
      [1, "482"],
      [2, "715"],
    ]);
  });
});

describe("a tray with one of its two questions answered", () => {
  const recordOfOne = (late: boolean) => {
    const log = new Writer();
    const facts = [lockTwo(log), answer(log, tabletA, 1, "482")];
    const heads = { [lead]: log.head(lead), [tabletA]: log.head(tabletA) };
    if (late) facts.push(answer(log, tabletA, 2, "309"));
    facts.push(log.write(lead, "study-closed", { heads, knownUnsent: 0, note: "" }));
    facts.push(log.reveal({ [lead]: log.head(lead), [tabletA]: log.head(tabletA) }));
    return recordOf(foldStudy(facts), { keyMatches: true });
  };
  test.each([
    { late: false, what: "not-reached" as const },
    { late: true, what: "marks-late" as const },
  ])("counts for that one, and the record says what became of the other: $what", ({ late, what }) => {
    const { judgments, departures } = recordOfOne(late);
    expect(judgments.map(({ question }) => question)).toEqual([1]);
    expect(departures.filter(({ what }) => what !== "not-answered")).toEqual([{ what, tray: 1, questions: 1 }]);
  });
});
