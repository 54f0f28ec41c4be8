import { describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import { type Fact, spareReasons } from "../../src/model/event.ts";
import type { Departure } from "../../src/model/record.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

const [replaces] = spareReasons;
const served = (log: Writer, tray: number, instead: number | null): Fact =>
  log.write(lead, "spare-served", { tray, instead, reason: replaces, note: "" });
const voided = (log: Writer, tray: number, ballot: readonly Fact[]): Fact =>
  log.write(lead, "ballot-voided", { tray, targets: ballot.map(({ id }) => id), reason: "sample-dropped", note: "" });

/** The example closed and opened, with a note at the close. */
function recorded(log: Writer, facts: Fact[], note = "") {
  const all = [...facts, log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note })];
  all.push(log.reveal(headsOf(all)));
  return recordOf(foldStudy(all), { keyMatches: true });
}
const of = <W extends Departure["what"]>(departures: readonly Departure[], what: W) =>
  departures.filter((one): one is Extract<Departure, { what: W }> => one.what === what);

/** Trays 1 to 3 are planned; 4 and 5 are spares. */
const codesOfFifth = ["631", "752", "418"];

describe("the seat of a spare", () => {
  test("a spare that replaces a spare has the seat of the tray both stand in for", () => {
    const log = new Writer();
    const facts = [log.lock(codesOfFifth)];
    const [dropped, again] = [log.ballot(tabletA, 3, "385"), log.ballot(tabletA, 4, "813")];
    facts.push(...dropped, voided(log, 3, dropped), served(log, 4, 3));
    facts.push(...again, voided(log, 4, again), served(log, 5, 4), ...log.ballot(tabletB, 5, "752"));
    const { judgments, departures } = recorded(log, facts);
    expect(judgments.map(({ tray, seat }) => [tray, seat])).toEqual([[5, 3]]);
    expect(of(departures, "seat-counted-twice")).toEqual([]);
  });

  test("spares that name each other have no seat of the plan, and are no endless circle", () => {
    const log = new Writer();
    const facts = [log.lock(codesOfFifth), served(log, 4, 5), served(log, 5, 4), ...log.ballot(tabletA, 5, "752")];
    expect(recorded(log, facts).judgments.map(({ tray, seat }) => [tray, seat])).toEqual([[5, 8]]);
  });

  test("a seat whose first answer stands beside a spare's spare is told with both trays, and neither is left out", () => {
    const log = new Writer();
    const facts = [log.lock(codesOfFifth), ...log.ballot(tabletA, 3, "385")];
    // the first spare was never answered; the second one was, and stands for it
    facts.push(served(log, 4, 3), served(log, 5, 4), ...log.ballot(tabletB, 5, "752"));
    const { judgments, departures } = recorded(log, facts);
    expect(judgments.map(({ tray, seat }) => [tray, seat])).toEqual([
      [3, 3],
      [5, 3],
    ]);
    expect(of(departures, "seat-counted-twice")).toEqual([{ what: "seat-counted-twice", seat: 3, trays: [3, 5] }]);
  });
});

describe("planned trays with no counted answer", () => {
  test("are listed by what the log tells of each", () => {
    const log = new Writer();
    const [ballot, left] = [log.ballot(tabletA, 1, "309"), log.ballot(tabletA, 2, "264").slice(0, 1)];
    const facts = [log.lock(), ...ballot, voided(log, 1, ballot), ...left];
    const { notAnswered, departures } = recorded(log, facts);
    expect(notAnswered).toEqual([1, 2, 3]);
    expect(of(departures, "not-answered").map(({ why, trays }) => [why, trays])).toEqual([
      ["voided", [1]],
      ["not-answered", [2]],
      ["never-opened", [3]],
    ]);
  });

  test("one that was stopped, one answered on two tablets, and one answered after the close", () => {
    const log = new Writer();
    const facts = [log.lock(), log.write(tabletA, "tray-stopped", { tray: 1, reason: "not-cleared" })];
    facts.push(...log.ballot(tabletA, 2, "518"), ...log.ballot(tabletB, 2, "264"));
    facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
    facts.push(...log.ballot(tabletA, 3, "385"));
    facts.push(log.reveal(headsOf(facts)));
    const { departures } = recordOf(foldStudy(facts), { keyMatches: true });
    expect(of(departures, "not-answered").map(({ why, trays }) => [why, trays])).toEqual([
      ["stopped", [1]],
      ["contested", [2]],
      ["too-late", [3]],
    ]);
  });

  test("those of one reason stand together, and a tray that a spare replaced says so", () => {
    const log = new Writer();
    const facts = [log.lock(), ...log.ballot(tabletA, 3, "385"), served(log, 4, 3), ...log.ballot(tabletA, 4, "813")];
    expect(of(recorded(log, facts).departures, "not-answered").map(({ why, trays }) => [why, trays])).toEqual([
      ["never-opened", [1, 2]],
      ["replaced", [3]],
    ]);
  });
});

test("a note at the close is a departure, word for word; an empty one is none", () => {
  const noted = (note: string) => {
    const log = new Writer();
    return of(recorded(log, [log.lock(), ...log.ballot(tabletA, 1, "309")], note).departures, "close-note");
  };
  expect(noted("power cut at 12:40")).toEqual([{ what: "close-note", note: "power cut at 12:40" }]);
  expect(noted("  ")).toEqual([]);
});

test("what is missing and what cannot be read are told, and nothing when there is neither", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309")];
  facts.push(log.reveal(headsOf(facts)));
  const whats = (around: { missing?: number; notRead?: number }) =>
    recordOf(foldStudy(facts), { keyMatches: true, ...around }).departures.filter(({ what }) =>
      what.startsWith("records-"),
    );
  expect(whats({ missing: 3, notRead: 1 })).toEqual([
    { what: "records-missing", records: 3 },
    { what: "records-not-read", records: 1 },
  ]);
  expect(whats({})).toEqual([]);
});
