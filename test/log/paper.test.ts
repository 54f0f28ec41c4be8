import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { headsOf } from "../../src/log/chain.ts";
import { outlineOf, readOutline } from "../../src/log/facts.ts";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import { answersCounted, recordOf } from "../../src/log/record.ts";
import { sha256 } from "../../src/model/canonical.ts";
import type { Body, Fact } from "../../src/model/event.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";
import { firstBite, LineWriter, later } from "./line-example.ts";

type Typed = Body<"paper-typed">;
const salt = "7b".repeat(32);
const blank = {
  ...{ against: null, agrees: null, clearance: sha256("list"), consent: null, stopped: null, lineMm: null },
  ...{ choices: [], marks: [], salt },
};

/** A typing of a triangle's tray: who typed, and the code that was ticked. */
const typed = (
  log: Writer,
  device: string,
  tray: number,
  typing: 1 | 2,
  choice: string | null,
  change: Partial<Typed> = {},
): Fact =>
  log.write(device, "paper-typed", {
    ...blank,
    ...{ tray, typing, choices: [{ question: 1, choice, guess: false }], ...change },
  });

const outlinesOf = (facts: readonly Fact[]): Fact[] =>
  facts.map((fact) => readOutline(outlineOf(fact), fact.hash)).filter((fact) => fact !== null);
/** Outlines as the server gives them out: with what it says of typings that came before. */
const withCompared = (outlines: readonly Fact[], facts: readonly Fact[]): Fact[] => {
  const full = facts.filter((fact) => fact.kind === "paper-typed" && !fact.outline);
  return outlines.map((outline) => {
    if (outline.kind !== "paper-typed" || !outline.outline) return outline;
    const at = full.findIndex(({ id }) => id === outline.id);
    const mine = full[at]?.body as Typed;
    const compared = full.slice(0, at).flatMap(({ id, body }) => {
      const other = body as Typed;
      const same = other.choices[0]?.choice === mine.choices[0]?.choice;
      return other.tray === mine.tray && other.typing !== mine.typing ? [{ typing: id, agrees: same }] : [];
    });
    return { ...outline, body: { ...outline.body, compared } };
  });
};
const plain = (state: StudyState) =>
  JSON.stringify({
    ...state,
    trays: [...state.trays.values()].map(({ counted, ballots, ...tray }) => ({
      ...tray,
      counted: counted && { ...counted, answers: [...counted.answers], questions: [...counted.questions] },
      ballots: ballots.map(({ answers, questions, ...ballot }) => ({
        ...ballot,
        ...{ answers: [...answers], questions: [...questions] },
      })),
    })),
    facts: [...state.facts.keys()].sort(),
  });
const recordAfter = (log: Writer, facts: Fact[]) =>
  recordOf(foldStudy([...facts, log.reveal(headsOf(facts))]), { keyMatches: true });

describe("one person types, a second one types anew", () => {
  test("once: it stands as not checked, counts for nothing, and the report will say so", () => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "309")];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({
      ...{ status: "unchecked", counted: null },
      ballots: [{ paper: "once", answered: false }],
    });
    const record = recordAfter(log, facts);
    expect(record.judgments).toEqual([]);
    expect(record.departures).toContainEqual({ what: "paper-not-checked", tray: 1, why: "once" });
    expect(record.departures).toContainEqual({ what: "not-answered", why: "not-checked", trays: [1] });
  });

  test.each([
    ["on one tablet", tabletA],
    ["on another tablet, which has not the first typing", tabletB],
  ])("twice the same, the second %s: it counts as an answer from paper", (_where, second) => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "309"), typed(log, second, 1, 2, "309")];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "answered", counted: { paper: "checked" } });
    const record = recordAfter(log, facts);
    expect(record.judgments).toEqual([
      { tray: 1, seat: 1, wave: 1, device: tabletA, question: 1, choice: "309", guess: false, paper: true },
    ]);
    expect(record.departures).toContainEqual({ what: "typed-from-paper", trays: [1] });
    expect(record.departures.map(({ what }) => what)).not.toContain("paper-not-checked");
  });

  test("the same person twice is no check", () => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "309"), typed(log, tabletB, 1, 1, "309")];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "unchecked", ballots: [{ paper: "once" }] });
  });

  test("another code, another tick at the guess, or an empty question: they differ, and nothing counts", () => {
    for (const change of [
      { choices: [{ question: 1, choice: "482", guess: false }] },
      { choices: [{ question: 1, choice: "309", guess: true }] },
      { choices: [] },
      { clearance: null, stopped: "not-cleared" as const, choices: [] },
    ]) {
      const log = new Writer();
      const facts = [log.lock(), typed(log, tabletA, 1, 1, "309"), typed(log, tabletA, 1, 2, "", change)];
      expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "unchecked", ballots: [{ paper: "differs" }] });
      expect(recordAfter(log, facts).departures).toContainEqual({ what: "paper-not-checked", tray: 1, why: "differs" });
    }
  });

  test("after a difference one of the two types again; a pair that agrees counts", () => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "482"), typed(log, tabletA, 1, 2, "309")];
    facts.push(typed(log, tabletA, 1, 1, "309"));
    expect(foldStudy(facts).trays.get(1)?.counted?.answers.get(1)?.choice).toBe("309");
    // both were wrong, and mended it: what they typed before stands no more
    facts.push(typed(log, tabletA, 1, 1, "715"), typed(log, tabletA, 1, 2, "715"));
    expect(foldStudy(facts).trays.get(1)?.counted?.answers.get(1)?.choice).toBe("715");
  });

  test("not ticked that nothing concerns the person: no answer counts, whatever was typed", () => {
    const log = new Writer();
    const facts = [
      log.lock(),
      typed(log, tabletA, 1, 1, "309", { clearance: null }),
      typed(log, tabletA, 1, 2, "309", { clearance: null }),
    ];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "stopped", counted: null });
    const record = recordAfter(log, facts);
    expect(record.judgments).toEqual([]);
    expect(record.departures).toContainEqual({ what: "stopped", tray: 1, reason: "not-cleared" });
  });

  test("\u201cI cannot answer\u201d ends the tray as it does on a tablet", () => {
    const log = new Writer();
    const end = { stopped: "cannot-answer" as const };
    const facts = [log.lock(), typed(log, tabletA, 1, 1, null, end), typed(log, tabletA, 1, 2, null, end)];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "stopped", counted: null });
    expect(recordAfter(log, facts).departures).toContainEqual({ what: "stopped", tray: 1, reason: "cannot-answer" });
  });

  test("a code that the tray does not carry is kept aside and listed", () => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "264")];
    expect(foldStudy(facts)).toMatchObject({ offPlan: [{ kind: "paper-typed" }] });
    expect(recordAfter(log, facts).departures).toContainEqual({ what: "off-plan", tray: 1 });
  });
});

describe("beside tablets and rulings", () => {
  test("answered on a tablet as well: contested, settled blind by naming the paper, and the paper counts", () => {
    const log = new Writer();
    const facts = [log.lock(), ...log.ballot(tabletA, 1, "482")];
    const first = typed(log, tabletA, 1, 1, "309");
    facts.push(first);
    expect(foldStudy(facts).trays.get(1)?.status).toBe("answered");
    // typed in on the very tablet that has the other ballot
    facts.push(typed(log, tabletA, 1, 2, "309", { against: first.id, agrees: true }));
    expect(foldStudy(outlinesOf(facts)).trays.get(1)).toMatchObject({ status: "contested", counted: null });
    const among = [tabletA, first.id];
    facts.push(log.write(lead, "contest-settled", { tray: 1, keep: first.id, among, note: "the tablet fell" }));
    expect(foldStudy(outlinesOf(facts)).trays.get(1)).toMatchObject({
      status: "answered",
      counted: { paper: "checked" },
    });
    expect(recordAfter(log, facts).judgments.map(({ choice, paper }) => [choice, paper])).toEqual([["309", true]]);
  });

  test("a void belongs to the typings it names: one person alone does not undo it, two who type anew make a new entry", () => {
    const log = new Writer();
    const [first, second] = [typed(log, tabletA, 1, 1, "309"), typed(log, tabletA, 1, 2, "309")];
    const voided = { tray: 1, targets: [first.id, second.id], reason: "spoiled" as const, note: "" };
    const facts = [log.lock(), first, second, log.write(lead, "ballot-voided", voided)];
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "voided", counted: null });
    expect(recordAfter(log, facts).departures.map(({ what }) => what)).not.toContain("paper-not-checked");
    // the same as the voided first typing, but no second typing of it stands
    facts.push(typed(log, tabletB, 1, 2, "309"));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "unchecked", counted: null });
    expect(recordAfter(log, facts).departures).toContainEqual({ what: "paper-not-checked", tray: 1, why: "once" });
    facts.push(typed(log, tabletB, 1, 1, "309"));
    for (const known of [facts, outlinesOf(facts)]) {
      const compared = known === facts ? known : withCompared(known, facts);
      expect(foldStudy(compared).trays.get(1)).toMatchObject({
        ...{ status: "answered", counted: { paper: "checked", voided: null } },
        ballots: [{ voided: { reason: "spoiled" } }, { voided: null }],
      });
    }
    const { judgments, departures } = recordAfter(log, facts);
    expect(judgments.map(({ choice, paper }) => [choice, paper])).toEqual([["309", true]]);
    expect(departures).toContainEqual({ what: "paper-typed-anew", tray: 1 });
    expect(departures).toContainEqual({ what: "ballot-voided", tray: 1, reason: "spoiled", note: "" });
    // and the new entry can be voided as well
    const again = facts.slice(-2).map(({ id }) => id);
    facts.push(log.write(lead, "ballot-voided", { tray: 1, targets: again, reason: "other", note: "" }));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "voided", counted: null });
  });

  test("typed anew after the close: late, as every answer then", () => {
    const log = new Writer();
    const first = typed(log, tabletA, 1, 1, "309");
    const facts = [log.lock(), first];
    facts.push(log.write(lead, "ballot-voided", { tray: 1, targets: [first.id], reason: "other", note: "" }));
    facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
    facts.push(typed(log, tabletA, 1, 1, "309"), typed(log, tabletA, 1, 2, "309"));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ counted: null });
    expect(recordAfter(log, facts).departures).toContainEqual({ what: "late-excluded", tray: 1 });
  });

  describe("typed after the reveal, when the key could have been seen", () => {
    const revealed = (log: Writer, facts: Fact[]): Fact[] => [...facts, log.reveal(headsOf(facts))];

    test.each([
      ["by both", [1, 2] as const],
      ["by one", [1] as const],
    ])("%s: it does not count, and is not told as unchecked", (_who, people) => {
      const log = new Writer();
      const facts = revealed(log, [log.lock(), ...log.ballot(tabletA, 2, "518")]);
      for (const person of people) facts.push(typed(log, tabletB, 1, person, "309"));
      const state = foldStudy(facts);
      expect(state.trays.get(1)).toMatchObject({
        counted: null,
        ballots: [{ paper: "after-reveal", answered: false }],
      });
      expect(state.trays.get(1)?.status).not.toBe("unchecked");
      const { judgments, departures } = recordOf(state, { keyMatches: true });
      expect(judgments.map(({ tray }) => tray)).toEqual([2]);
      expect(departures).toContainEqual({ what: "paper-after-reveal", tray: 1 });
      expect(departures).toContainEqual({ what: "not-answered", why: "too-late", trays: [1] });
      expect(departures.map(({ what }) => what)).not.toContain("paper-not-checked");
    });

    test("the check alone: the first typing stays unchecked, and the report says both", () => {
      const log = new Writer();
      const facts = revealed(log, [log.lock(), typed(log, tabletA, 1, 1, "309")]);
      facts.push(typed(log, tabletA, 1, 2, "309"));
      const { judgments, departures } = recordOf(foldStudy(facts), { keyMatches: true });
      expect(judgments).toEqual([]);
      expect(departures).toContainEqual({ what: "paper-after-reveal", tray: 1 });
      expect(departures).toContainEqual({ what: "paper-not-checked", tray: 1, why: "once" });
    });

    test("a typing more of a ballot that counts changes nothing of it", () => {
      const log = new Writer();
      const facts = revealed(log, [log.lock(), typed(log, tabletA, 1, 1, "309"), typed(log, tabletA, 1, 2, "309")]);
      facts.push(typed(log, tabletA, 1, 1, "715"), typed(log, tabletA, 1, 2, "715"));
      const { judgments, departures } = recordOf(foldStudy(facts), { keyMatches: true });
      expect(judgments.map(({ choice }) => choice)).toEqual(["309"]);
      expect(departures).toContainEqual({ what: "paper-after-reveal", tray: 1 });
    });
  });

  test("checked after the close: late, and in once it is admitted", () => {
    const log = new Writer();
    const first = typed(log, tabletA, 1, 1, "309");
    const facts = [log.lock(), first];
    facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
    facts.push(typed(log, tabletA, 1, 2, "309"));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ counted: null, ballots: [{ late: true }] });
    facts.push(log.write(lead, "late-admitted", { tray: 1, device: first.id, note: "typed in the next morning" }));
    expect(foldStudy(facts).trays.get(1)).toMatchObject({ status: "answered", counted: { arrival: "admitted" } });
  });
});

describe("outlines", () => {
  test("tell that it was typed and which questions have an answer, and nothing that was typed", () => {
    const log = new Writer();
    const first = typed(log, tabletA, 1, 1, "309");
    const facts = [log.lock(), first, typed(log, tabletA, 1, 2, "309", { against: first.id, agrees: true })];
    const outlines = outlinesOf(facts);
    expect(JSON.stringify(outlines.filter(({ kind }) => kind === "paper-typed"))).not.toMatch(
      /309|guess|clearance|7b7b/,
    );
    const state = foldStudy(outlines);
    expect(state.trays.get(1)).toMatchObject({ status: "answered", counted: { answers: new Map(), complete: true } });
    expect(answersCounted(state)).toBe(1);
  });

  test.each([
    ["309", "checked"],
    ["715", "differs"],
  ])("of two tablets, with the word of the server: typed %s by the second, %s", (second, paper) => {
    const log = new Writer();
    const facts = [log.lock(), typed(log, tabletA, 1, 1, "309"), typed(log, tabletB, 1, 2, second)];
    const outlines = withCompared(outlinesOf(facts), facts);
    for (const known of [outlines, outlines.toReversed()])
      expect(foldStudy(known).trays.get(1)?.ballots[0]?.paper).toBe(paper);
  });

  test("of two tablets alone do not say whether both are the same; a tablet that has both says when they differ", () => {
    const log = new Writer();
    const first = typed(log, tabletA, 1, 1, "309");
    const apart = [log.lock(), first, typed(log, tabletB, 1, 2, "309")];
    expect(foldStudy(outlinesOf(apart)).trays.get(1)?.ballots[0]?.paper).toBe("unknown");
    const differs = [...apart, typed(log, tabletA, 1, 2, "715", { against: first.id, agrees: false })];
    expect(foldStudy(outlinesOf(differs)).trays.get(1)?.ballots[0]?.paper).toBe("differs");
  });
});

describe("a scale on paper", () => {
  /** All four questions of tray 1: three strokes in millimeters, and one that could not be judged. */
  const scale = (log: LineWriter, device: string, typing: 1 | 2, mm: number[], lineMm = 120): Fact =>
    log.write(device, "paper-typed", {
      ...blank,
      ...{ tray: 1, typing, lineMm },
      marks: ["482", "482", "715", "715"].map((code, at) => ({
        ...{ question: at + 1, code, attribute: at % 2 === 0 ? firstBite : later, step: null },
        ...{ mm: mm[at] ?? null, why: mm[at] === undefined ? ("not-perceived" as const) : null },
      })),
    });

  test("readings a millimeter apart agree, and the first person's count; two millimeters do not", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), scale(log, tabletA, 1, [30, 60, 90]), scale(log, tabletB, 2, [31, 59, 90])];
    const record = recordOf(foldStudy([...facts, log.revealLine(headsOf(facts))]), { keyMatches: true });
    expect(record.marks).toEqual(
      [30 / 120, 60 / 120, 90 / 120, null].map((fraction, at) =>
        expect.objectContaining({
          ...{ tray: 1, fraction, lengthMm: 120, lengthPx: null, pointer: "paper", elapsedMs: null, paper: true },
          why: at === 3 ? "not-perceived" : null,
        }),
      ),
    );
    const off = [facts[0], facts[1], scale(log, tabletB, 2, [32, 60, 90])].filter((fact) => fact !== undefined);
    expect(foldStudy(off).trays.get(1)?.ballots[0]?.paper).toBe("differs");
  });

  test("a stroke beyond the end of the line is no ballot of this tray", () => {
    const log = new LineWriter();
    expect(foldStudy([log.lockLine(), scale(log, tabletA, 1, [121])]).offPlan).toHaveLength(1);
  });

  test("a printer that shrank the lines: marked as another length than the locked one", () => {
    const log = new LineWriter();
    const facts = [log.lockLine(), scale(log, tabletA, 1, [30], 110), scale(log, tabletA, 2, [30], 110)];
    const { marks, departures } = recordOf(foldStudy([...facts, log.revealLine(headsOf(facts))]), { keyMatches: true });
    expect(marks[0]?.fraction).toBe(30 / 110);
    expect(departures).toContainEqual({ what: "other-length", tray: 1, lengthMm: 110 });
  });

  test("a tablet that died half way and paper for the rest: one ballot, and each mark says where it was made", () => {
    const log = new LineWriter();
    const rest = (typing: 1 | 2) =>
      log.write(tabletB, "paper-typed", {
        ...blank,
        ...{ tray: 1, typing, lineMm: 120 },
        marks: [3, 4].map((question) => ({
          ...{ question, code: "715", attribute: question === 3 ? firstBite : later, step: null, why: null, mm: 60 },
        })),
      });
    const facts = [log.lockLine(), log.mark(tabletA, 1, 1, 0.2), log.mark(tabletA, 1, 2, 0.3), rest(1), rest(2)];
    expect(foldStudy(facts).trays.get(1)?.status).toBe("answered");
    const record = recordOf(foldStudy([...facts, log.revealLine(headsOf(facts))]), { keyMatches: true });
    expect(record.marks.map(({ paper, pointer }) => [paper, pointer])).toEqual([
      ...[false, false].map((paper) => [paper, "touch"]),
      ...[true, true].map((paper) => [paper, "paper"]),
    ]);
  });
});

test("K2: typings of three tablets with a contest, a void and a late one fold to the same state in every order", () => {
  const tabletC = "cccccccc-cccc-4ccc-8ccc-cccccccccccc";
  const log = new Writer();
  const facts = [log.lock(), ...log.ballot(tabletB, 2, "518")];
  for (const [device, tray, typing, choice] of [
    [tabletA, 1, 1, "482"],
    [tabletB, 1, 2, "309"],
    [tabletC, 1, 1, "309"],
    [tabletA, 1, 2, "482"],
    [tabletA, 2, 1, "264"],
    [tabletC, 2, 2, "264"],
  ] as const) {
    facts.push(typed(log, device, tray, typing, choice));
  }
  const third = typed(log, tabletA, 3, 1, "146");
  facts.push(third);
  facts.push(log.write(lead, "ballot-voided", { tray: 3, targets: [third.id], reason: "other", note: "" }));
  facts.push(log.write(lead, "study-closed", { heads: headsOf(facts), knownUnsent: 0, note: "" }));
  facts.push(typed(log, tabletB, 1, 2, "715"), typed(log, tabletC, 1, 1, "715"), log.reveal(headsOf(facts)));
  const state = foldStudy(facts);
  expect(state.trays.get(1)).toMatchObject({ status: "answered", counted: { arrival: "on-time" } });
  expect(state.trays.get(2)?.status).toBe("contested");
  const expected = plain(state);
  fc.assert(
    fc.property(fc.shuffledSubarray(facts, { minLength: facts.length }), fc.subarray(facts), (shuffled, repeats) => {
      expect(plain(foldStudy([...shuffled, ...repeats]))).toBe(expected);
    }),
    { numRuns: 100 },
  );
});
