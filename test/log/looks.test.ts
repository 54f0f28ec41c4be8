import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { outlineOf, readOutline } from "../../src/log/facts.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { type Look, leastForLook, nextLook } from "../../src/log/looks.ts";
import { answersCounted, judgmentsWithin, recordOf } from "../../src/log/record.ts";
import type { Fact } from "../../src/model/event.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

const otherLead = "99999999-9999-4999-8999-999999999999";
const begin = (log: Writer, facts: readonly Fact[], look: number, answered: number, device = lead): Fact =>
  log.write(device, "look-begun", { look, heads: headsOf(facts), answered });
const end = (log: Writer, look: Fact | undefined, said: "go-on" | "stop"): Fact =>
  log.write(lead, "look-done", { look: look?.id ?? "", said });

/** Two looks: after tray 1, and after a void and tray 2; then tray 3, the close and the reveal. */
function looked(): { log: Writer; facts: Fact[] } {
  const log = new Writer();
  const first = log.ballot(tabletA, 1, "309");
  const facts = [log.lock(), ...first];
  facts.push(begin(log, facts, 1, 1));
  facts.push(end(log, facts.at(-1), "go-on"));
  facts.push(...log.ballot(tabletA, 2, "518"));
  facts.push(begin(log, facts, 2, 2));
  facts.push(end(log, facts.at(-1), "go-on"));
  facts.push(...log.ballot(tabletB, 3, "385"));
  return { log, facts };
}
const closed = (log: Writer, facts: Fact[]): Fact[] => [
  ...facts,
  log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }),
];
const recorded = (log: Writer, facts: Fact[]) =>
  recordOf(foldStudy([...facts, log.reveal(headsOf(facts))]), { keyMatches: true });

describe("looks in the record", () => {
  test("each has the trays that were there, and what the rule said", () => {
    const { log, facts } = looked();
    const { looks, judgments } = recorded(log, closed(log, facts));
    expect(looks.map(({ trays, said }) => ({ trays, said }))).toEqual([
      { trays: [1], said: "go-on" },
      { trays: [1, 2], said: "go-on" },
    ]);
    expect(judgments).toHaveLength(3);
  });

  test("a tray that was voided after a look, or contested at it, is none of the trays it counts", () => {
    const { log, facts } = looked();
    const rival = log.ballot(tabletB, 2, "264");
    const voided = facts.filter((fact) => fact.device === tabletA && "tray" in fact.body && fact.body.tray === 1);
    facts.push(
      ...rival,
      log.write(lead, "contest-settled", { tray: 2, keep: tabletA, among: [tabletA, tabletB], note: "" }),
      log.write(lead, "ballot-voided", { tray: 1, targets: voided.map(({ id }) => id), reason: "talked", note: "" }),
    );
    const { looks } = recorded(log, closed(log, facts));
    // tray 2 was no contest when the second look saw it
    expect(looks.map(({ trays }) => trays)).toEqual([[], [2]]);
  });

  test("in every order of the events, and with repeats, the looks are the same", () => {
    const { log, facts } = looked();
    const all = [...closed(log, facts)];
    const expected = JSON.stringify(foldStudy(all).looks);
    expect(JSON.parse(expected)).toHaveLength(2);
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length }), fc.subarray(all), (shuffled, repeats) => {
        expect(JSON.stringify(foldStudy([...shuffled, ...repeats]).looks)).toBe(expected);
      }),
    );
  });

  test("what comes after the close changes nothing: neither a look nor the end of one", () => {
    const { log, facts } = looked();
    facts.push(begin(log, facts, 3, 3));
    const open = facts.at(-1);
    const over = closed(log, facts);
    over.push(end(log, open, "stop"), begin(log, over, 4, 3));
    const state = foldStudy(over);
    expect(state.looks.map(({ begun, done }) => [begun.body.look, done?.body.said ?? null])).toEqual([
      [1, "go-on"],
      [2, "go-on"],
      [3, null],
    ]);
    expect(state.rivals.map(({ kind }) => kind)).toEqual(["look-begun"]);
  });

  test("of two leads that take the same look the one with the lower id counts; the other is named", () => {
    const { log, facts } = looked();
    facts.push(begin(log, facts, 3, 3), begin(log, facts, 3, 3, otherLead));
    const state = foldStudy(facts);
    expect(state.looks.at(-1)?.begun.device).toBe(lead);
    expect(state.rivals.map(({ device }) => device)).toEqual([otherLead]);
  });

  test("a look reads the answers within its heads alone, as the ballots say; outlines say none", () => {
    const { facts } = looked();
    const heads = facts.flatMap((fact) => (fact.kind === "look-begun" ? [fact.body.heads] : []));
    expect(heads.map((each) => judgmentsWithin(foldStudy(facts), each).map(({ choice }) => choice))).toEqual([
      ["309"],
      ["309", "518"],
    ]);
    const outlines = facts.flatMap((fact) => readOutline(outlineOf(fact), fact.hash) ?? []);
    const before = foldStudy(outlines);
    expect(answersCounted(before)).toBe(3);
    expect(heads.flatMap((each) => judgmentsWithin(before, each))).toEqual([]);
  });
});

describe("which look comes next", () => {
  const plan = { people: 30, stopping: { rule: "looks" as const, at: [20, 10] } };
  const wald = { people: 30, stopping: { rule: "sequential" as const, beta: 0.1 } };
  const fixed = { people: 30, stopping: { rule: "fixed" as const } };
  const looksAt = (...answered: number[]): Look[] => {
    const log = new Writer();
    const facts: Fact[] = [];
    for (const [at, count] of answered.entries()) {
      facts.push(begin(log, [], at + 1, count));
      facts.push(end(log, facts.at(-1), "go-on"));
    }
    return foldStudy(facts).looks;
  };

  test("the planned ones in their order, not before there are as many answers", () => {
    expect(leastForLook(plan, 1)).toBe(10);
    expect(leastForLook(plan, 3)).toBeNull();
    expect(nextLook(plan, [], 9)).toEqual({ what: "later", look: 1, from: 10 });
    expect(nextLook(plan, [], 10)).toEqual({ what: "due", look: 1 });
    expect(nextLook(plan, looksAt(10), 10)).toEqual({ what: "later", look: 2, from: 20 });
    expect(nextLook(plan, looksAt(21), 21)).toEqual({ what: "later", look: 2, from: 22 });
    expect(nextLook(plan, looksAt(10, 20), 25)).toEqual({ what: "none" });
  });
  test("by Wald's lines after every answer from the sixth on, since fewer give no verdict, until everybody has", () => {
    expect(nextLook(wald, [], 5)).toEqual({ what: "later", look: 1, from: 6 });
    expect(nextLook(wald, [], 6)).toEqual({ what: "due", look: 1 });
    expect(nextLook(wald, looksAt(7), 8)).toEqual({ what: "due", look: 2 });
    expect(nextLook(wald, looksAt(7), 30)).toEqual({ what: "none" });
  });
  test("none without a rule", () => {
    expect(nextLook(fixed, [], 30)).toEqual({ what: "none" });
    expect(leastForLook(fixed, 1)).toBeNull();
  });
  test("a look that was begun is brought to its end first; after a stop there is none", () => {
    const log = new Writer();
    const facts = [begin(log, [], 1, 10)];
    expect(nextLook(plan, foldStudy(facts).looks, 15)).toMatchObject({ what: "unfinished" });
    facts.push(end(log, facts[0], "stop"));
    expect(nextLook(plan, foldStudy(facts).looks, 15)).toEqual({ what: "stopped" });
  });
});
