import fc from "fast-check";
import { expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { outlineOf, readOutline } from "../../src/log/facts.ts";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import { recordOf } from "../../src/log/record.ts";
import type { Fact } from "../../src/model/event.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

/** A study with everything in it: two tablets, a contested tray, a void, a spare, a late ballot, a reveal. */
function eventful(): Fact[] {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309"), ...log.ballot(tabletA, 2, "518")];
  const second = log.ballot(tabletB, 2, "264");
  const third = log.ballot(tabletB, 3, "385");
  facts.push(...second, ...third);
  facts.push(log.write(lead, "contest-settled", { tray: 2, keep: tabletB, among: [tabletA, tabletB], note: "card" }));
  facts.push(
    log.write(lead, "ballot-voided", { tray: 3, targets: third.map((f) => f.id), reason: "sample-dropped", note: "" }),
  );
  facts.push(log.write(lead, "spare-served", { tray: 4, instead: 3, reason: "replaces", note: "" }));
  const heads = headsOf(facts);
  facts.push(log.write(lead, "study-closed", { heads, knownUnsent: 0, note: "" }));
  const late = log.ballot(tabletA, 4, "529");
  facts.push(...late, log.write(lead, "late-admitted", { tray: 4, device: tabletA, note: "was in the booth" }));
  facts.push(log.reveal(headsOf(facts)));
  return facts;
}

const plain = (state: StudyState) =>
  JSON.stringify({ ...state, trays: [...state.trays], facts: [...state.facts.keys()].sort() });

test("K2: the same events in every order and with repeats fold to the same state", () => {
  const facts = eventful();
  const expected = plain(foldStudy(facts));
  fc.assert(
    fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), fc.subarray(facts), (shuffled, repeats) => {
      expect(plain(foldStudy([...shuffled, ...repeats]))).toBe(expected);
    }),
    { numRuns: 200 },
  );
});

test("a contested tray is out until settled, then the kept ballot counts; the settled one stays visible", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309"), ...log.ballot(tabletB, 1, "482")];
  expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "contested", counted: null });
  facts.push(log.write(lead, "contest-settled", { tray: 1, keep: tabletA, among: [tabletA, tabletB], note: "" }));
  const state = foldStudy(facts).trays.get(1);
  expect(state).toMatchObject({
    status: "answered",
    counted: { device: tabletA, answers: new Map([[1, expect.objectContaining({ choice: "309" })]]) },
  });
  expect(state?.ballots).toHaveLength(2);
});

test("D2: a third tablet's answer after the settlement contests the tray again", () => {
  const log = new Writer();
  const tabletC = "cccccccc-cccc-4ccc-8ccc-cccccccccccc";
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309"), ...log.ballot(tabletB, 1, "482")];
  facts.push(log.write(lead, "contest-settled", { tray: 1, keep: tabletA, among: [tabletA, tabletB], note: "" }));
  facts.push(...log.ballot(tabletC, 1, "715"));
  expect(foldStudy(facts).trays.get(1)?.status).toBe("contested");
});

test("D3: a ballot beyond the heads of the close is late and out, until admitted before the reveal", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309")];
  facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
  facts.push(...log.ballot(tabletA, 2, "518"));
  expect(foldStudy(facts).trays.get(2)).toMatchObject({ counted: null, ballots: [{ arrival: "late" }] });
  const admitted = [...facts, log.write(lead, "late-admitted", { tray: 2, device: tabletA, note: "" })];
  expect(foldStudy(admitted).trays.get(2)).toMatchObject({ status: "answered", counted: { arrival: "admitted" } });
});

test("D4: a ballot that comes after the reveal, and a ruling made after it, change no number of the record", () => {
  const facts = eventful();
  const before = recordOf(foldStudy(facts), { keyMatches: true });
  const log = new Writer();
  const last = (device: string) => Math.max(0, ...facts.filter((f) => f.device === device).map((f) => f.seq));
  const tabletC = "cccccccc-cccc-4ccc-8ccc-cccccccccccc";
  const afterwards = [
    ...log.ballot(tabletC, 1, "482"),
    {
      ...log.write(lead, "ballot-voided", { tray: 1, targets: [facts[1]?.id ?? ""], reason: "other", note: "" }),
      seq: last(lead) + 1,
    },
  ].map((fact, index) => ({ ...fact, id: `01900000-0000-7000-8000-9${String(index).padStart(11, "0")}` }) as Fact);
  const after = recordOf(foldStudy([...facts, ...afterwards]), { keyMatches: true });
  expect(after.judgments).toEqual(before.judgments);
  expect(after.departures).toContainEqual({ what: "after-reveal", tray: 1 });
});

test("the record counts one judgment a tray, gives a spare the seat it stands in for, and lists every departure", () => {
  const record = recordOf(foldStudy(eventful()), { keyMatches: true });
  expect(record.judgments.map(({ tray, seat, choice }) => ({ tray, seat, choice }))).toEqual([
    { tray: 1, seat: 1, choice: "309" },
    { tray: 2, seat: 2, choice: "264" },
    { tray: 4, seat: 3, choice: "529" },
  ]);
  expect(record.notAnswered).toEqual([3]);
  expect(record.departures.map((d) => d.what).sort()).toEqual([
    "ballot-voided",
    "contest-settled",
    "late-admitted",
    "not-answered",
    "spare-served",
  ]);
});

test("a spare answered without a note that it was served is left out and shown", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 4, "813")];
  facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
  facts.push(log.reveal(headsOf(facts)));
  const record = recordOf(foldStudy(facts), { keyMatches: true });
  expect(record.judgments).toEqual([]);
  expect(record.departures).toContainEqual({ what: "spare-unexplained", tray: 4 });
});

test("a tray that a counted spare was served instead of does not count beside it, whichever answer came first", () => {
  const log = new Writer();
  const facts = [log.lock(), log.write(lead, "spare-served", { tray: 4, instead: 3, reason: "replaces", note: "" })];
  facts.push(...log.ballot(tabletB, 3, "385"));
  expect(foldStudy(facts).trays.get(3)?.status).toBe("answered");
  facts.push(...log.ballot(tabletA, 4, "813"));
  const state = foldStudy(facts);
  expect([state.trays.get(3)?.status, state.trays.get(3)?.counted]).toEqual(["replaced", null]);
  expect(state.trays.get(4)?.status).toBe("answered");
});

test("two full texts of one id: the one with the lower hash counts, in both orders", () => {
  const log = new Writer();
  const [opened, answer] = [log.lock(), log.ballot(tabletA, 1, "309")];
  const other = { ...answer[1], hash: "0".repeat(64), body: { ...answer[1]?.body, choice: "482" } } as Fact;
  for (const facts of [
    [opened, ...answer, other],
    [other, opened, ...answer],
  ]) {
    expect(foldStudy(facts).trays.get(1)?.counted?.answers.get(1)?.choice).toBe("482");
  }
});

test("D8: an answer to a tray the plan does not have, or with a code of another tray, is kept aside and shown", () => {
  const log = new Writer();
  const state = foldStudy([log.lock(), ...log.ballot(tabletA, 77, "309"), ...log.ballot(tabletA, 1, "518")]);
  expect(state.offPlan.filter((f) => f.kind === "answer-kept")).toHaveLength(2);
  expect(state.trays.get(1)?.counted).toBeNull();
});

test("D7: of two closes the one with the lower id counts in every order; both are known", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309")];
  const first = log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "first" });
  const other = log.write(tabletB, "study-closed", { heads: {}, knownUnsent: 0, note: "other" });
  for (const order of [
    [first, other],
    [other, first],
  ]) {
    const state = foldStudy([...facts, ...order]);
    expect(state.close?.id).toBe(first.id);
    expect(state.rivals.map((f) => f.id)).toEqual([other.id]);
  }
});

test("an outline tells that a ballot was answered, and nothing else", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309")];
  const outlines = facts.map((fact) => readOutline(outlineOf(fact), fact.hash)).filter((fact) => fact !== null);
  expect(outlines).toHaveLength(facts.length);
  const ballots = outlines.filter((fact) => fact.kind !== "study-locked");
  expect(JSON.stringify(ballots)).not.toMatch(/"309\\?"|guess|elapsedMs|screen|salt|(5a){8}/);
  expect(foldStudy(outlines).trays.get(1)).toMatchObject({ status: "answered", counted: { answers: new Map() } });
});

test("a full text replaces an outline of the same event", () => {
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletA, 1, "309")];
  const outlines = facts.map((fact) => readOutline(outlineOf(fact), fact.hash)).filter((fact) => fact !== null);
  expect(
    foldStudy([...facts, ...outlines])
      .trays.get(1)
      ?.counted?.answers.get(1)?.choice,
  ).toBe("309");
  expect(
    foldStudy([...outlines, ...facts])
      .trays.get(1)
      ?.counted?.answers.get(1)?.choice,
  ).toBe("309");
});
