import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { analyse, resultOfCounts } from "../../src/analysis/analyse.ts";
import { type Description, describe as describeResult } from "../../src/analysis/describe.ts";
import { type Departure, unansweredReasons } from "../../src/model/record.ts";
import type { Caveat, Result } from "../../src/model/result.ts";
import { report } from "../../src/words/en/report.ts";
import { recordOf } from "./scenario.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000 });

const given = { method: "triangle", goal: "difference", alpha: 0.05 } as const;
const ofCounts = (correct: number, judgments: number, alpha = 0.05) =>
  describeResult(resultOfCounts({ ...given, alpha, correct, judgments }, "1"), report);
const ofStudy = (correct: number, answered = 24) => describeResult(analyse(recordOf(correct, answered), "1"), report);

const texts = (found: Description): string[] => [
  found.test,
  found.verdict,
  found.size,
  found.agreed,
  found.meaning,
  found.caution,
  found.chance?.caption ?? "",
  ...found.rows.flatMap(({ label, value, behind }) => [label, value, behind]),
  ...found.caveats,
  ...found.departures,
];

const value = (found: Description, id: string) => found.rows.find((row) => row.id === id)?.value;

describe("the report in words", () => {
  test("14 of 24 with the locked plan: verdict, size with bound, agreed step, p in words", () => {
    const found = ofStudy(14);
    expect(found.verdict).toBe(
      "This panel could tell “current” and “new” apart: 14 of 24 picked the odd sample, and the rule locked beforehand asks for 13 of 24.",
    );
    // pd 0.375 and its one-sided bound 0.0952, d-prime 1.891 and 0.856: mpmath, see choice.test.ts
    expect(found.size).toBe(
      "About 38\u00a0% of people like these can tell (at least 9\u00a0%, with 95\u00a0% confidence). The distance d′ is about 1.89 (0.85 or more).",
    );
    expect(found.agreed).toBe(
      "Agreed beforehand, if people can tell: “Taste for juiciness next.” That is what this result calls for.",
    );
    expect(found.meaning).toBe(
      "If nobody could tell and everyone guessed, 14 or more of 24 would be right about 1 time in 100 (p\u00a0=\u00a00.0103).",
    );
    expect(found.caution).toContain("not the chance that the finding is wrong");
    expect(found.departures).toEqual(["None recorded."]);
  });

  test("11 of 24: not shown, never shown absent, with both ends of what the answers allow", () => {
    const found = ofStudy(11);
    expect(found.verdict).toContain("did not show that people can tell “current” and “new” apart: 11 of 24");
    expect(found.verdict).toContain("asks for 13");
    expect(found.verdict).toContain("It does not show that they cannot.");
    expect(found.size).toMatch(/19\u00a0%.* anything from 0\u00a0% to \d\d\u00a0%/);
    expect(found.agreed).toContain("“Stay with the dry oven.”");
  });

  test("fewer answers than planned: the rule is that of the answers that came, and is called no plan's number", () => {
    // 20 answers need 11: P(X >= 11) = 0.0376 and P(X >= 10) = 0.0919, sums over 3^20
    expect(ofStudy(12, 20).verdict).toContain(
      "12 of 20 picked the odd sample, and the rule locked beforehand asks for 11 of 20.",
    );
  });

  test("not reached never stands beside an interval that leaves guessing out, whatever the risk and confidence", () => {
    for (const alpha of [0.2, 0.1, 0.05, 0.01, 0.001]) {
      for (const judgments of [6, 7, 12, 20, 24, 36, 60]) {
        for (let correct = 0; correct <= judgments; correct++) {
          const result = resultOfCounts({ ...given, alpha, correct, judgments, confidence: 0.5 }, "1");
          if (result.outcome !== "not-reached") continue;
          const { size } = describeResult(result, report);
          const [, low] = /anything from (.*?)\u00a0% to/.exec(size) ?? [];
          if (low !== undefined) expect(low).toBe("0");
          else expect(size).toMatch(/^The share of right answers is .* is 0\u00a0%\.$/);
        }
      }
    }
  });

  test("11 of 24 at a risk of 5 %: the range has 90 % confidence, to go with the one-sided test", () => {
    // upper limit of 11 of 24 at a tail of 5 %: 0.6424 right (mpmath), so (0.6424 - 1/3) * 1.5 = 46 % who can tell
    expect(ofStudy(11).size).toContain("anything from 0\u00a0% to 46\u00a0% (90\u00a0% interval)");
  });

  test("2 of 24: look for a fault first, and no share of tellers is named", () => {
    const found = ofStudy(2);
    expect(found.verdict).toContain("Only 2 of 24 picked the odd sample");
    expect(found.verdict).toContain("check labels and wording");
    expect(found.size).toContain("guessing gives 33\u00a0%");
    expect(found.size).not.toContain("can tell");
  });

  test("4 of 5: numbers, no verdict, and neither agreed step", () => {
    const found = ofStudy(4, 5);
    expect(found.verdict).toContain("too few answers for a verdict: 4 of 5");
    expect(found.agreed).toContain("neither step");
  });

  test("nobody answered", () => {
    const found = ofStudy(0, 0);
    expect(found.verdict).toBe("No answer was counted, so there is no result.");
    expect([found.meaning, found.caution]).toEqual(["", ""]);
    expect(value(found, "dPrime")).toBe("no answers");
  });

  test("all of 24: no finite d-prime is pretended, p is not 0", () => {
    const found = ofCounts(24, 24);
    expect(found.size).toContain("with every answer right it has no upper estimate");
    expect(value(found, "pValue")).toBe("less than 0.0001");
    expect(found.meaning).toContain("24 of 24 would be right less than 1 time in a million (p is less than 0.0001)");
  });

  test("6 of 6 at a risk of 0.1 %: no count could have reached it, and the sentence says so", () => {
    const found = ofCounts(6, 6, 0.001);
    expect(found.verdict).toContain("with 6 answers no count is rare enough for the agreed risk of 0.1\u00a0%");
    expect(found.chance?.needed).toBe(null);
  });

  test("counts without a plan claim neither a plan nor a clean record", () => {
    const found = ofCounts(14, 24);
    expect(found.verdict).toContain("the two products apart: 14 of 24 picked the odd sample, and the rule asks for 13");
    expect(found.agreed).toContain("without a locked plan");
    expect(found.departures).toEqual([report.noRecord]);
  });

  test("the caption of the chance picture gives dots and the exact share: 3 dots, 2.8 %", () => {
    const { chance } = ofStudy(14);
    expect(chance?.caption).toContain("3 of the dots reach 13 (exactly 2.8\u00a0% of such panels)");
    expect([chance?.observed, chance?.needed]).toEqual(["this panel: 14", "needed: 13"]);
  });

  test("the table has every row of the report, in order, each with a value", () => {
    const { rows } = ofStudy(14);
    expect(rows.map(({ id }) => id)).toEqual([
      "right",
      "rightShare",
      "expected",
      "needed",
      "chanceAtCritical",
      "pValue",
      "discriminatorShare",
      "dPrime",
      "power",
      "guesses",
    ]);
    expect(rows.find(({ id }) => id === "rightShare")).toMatchObject({
      value: "58\u00a0%",
      behind: "37\u00a0% to 78\u00a0%, 95\u00a0% interval",
    });
    expect(rows.find(({ id }) => id === "power")).toEqual({
      id: "power",
      label: "Chance of finding 30\u00a0% who can tell, with 24 people as planned",
      value: "55\u00a0%",
      behind: "",
    });
    for (const row of rows) expect(row.value).not.toBe("");
  });

  test("a step that nobody wrote down is said to be missing", () => {
    const record = recordOf(14, 24, {}, { ifYes: " " });
    expect(describeResult(analyse(record, "1"), report).agreed).toBe(
      "What to do in this case was not recorded beforehand.",
    );
  });
});

describe("people who answered more than once", () => {
  const repeated = (correct: number, judgments: number, people: number) =>
    describeResult(resultOfCounts({ ...given, correct, judgments, people }, "1"), report);

  test("12 people twice: a verdict about the panel, no bound, no share of people like these, and why", () => {
    const found = repeated(14, 24, 12);
    expect(found.verdict).toMatch(/^This panel could tell/);
    expect(found.size).toContain("Some people gave more than one answer");
    expect(found.size).not.toMatch(/people like these|at least|or more/);
    for (const id of ["rightShare", "discriminatorShare", "dPrime"]) {
      expect(found.rows.find((row) => row.id === id)?.behind).toBe("estimate only");
    }
    expect(found.caveats.join(" ")).toContain("24 answers came from 12 people");
  });
  test("a cook who gets 9 of 9: a finding about that person, in every sentence", () => {
    const found = repeated(9, 9, 1);
    // P(X >= 6) of 9 is 835/19683 = 0.0424, P(X >= 5) is 2851/19683 = 0.1448
    expect(found.verdict).toBe(
      "This person could tell the two products apart: 9 of 9 answers picked the odd sample, and the rule asks for 6.",
    );
    expect(found.meaning).toContain("If this person could not tell and only guessed, 9 of 9 would be right");
    expect(found.caveats.join(" ")).toContain("of nobody else");
    expect(found.chance?.observed).toBe("this person: 9");
    for (const text of texts(found)) expect(text).not.toMatch(/panel|people like these/);
  });
  test("3 of 9 by one person: not shown of that person; 1 of 24 is far below", () => {
    expect(repeated(3, 9, 1).verdict).toMatch(/^This person did not show that they can tell/);
    expect(repeated(1, 24, 1).verdict).toContain("Somebody who only guesses does better");
  });
  test("4 people with 24 answers: too few people, said so", () => {
    expect(repeated(14, 24, 4).verdict).toContain("too few people for a verdict: 14 of 24");
  });
});

test("a key that does not match its seal: no verdict, no size, no agreed step, no p in words", () => {
  const record = recordOf(14, 24, { keyMatches: false });
  const found = describeResult(analyse(record, "1"), report);
  expect(found.verdict).toMatch(/^No verdict: the opened key does not match the seal/);
  expect(found.size).toContain("in doubt");
  expect(found.agreed).toMatch(/^Neither step agreed beforehand is called for/);
  expect([found.meaning, found.caution]).toEqual(["", ""]);
  for (const text of texts(found)) {
    expect(text).not.toMatch(/could tell “|what this result calls for|did not show|Taste for juiciness/);
  }
});

const allCaveats: Caveat[] = [
  { what: "nature-unknown" },
  { what: "likeness-not-shown" },
  { what: "this-panel-only", standsFor: "" },
  { what: "this-panel-only", standsFor: "staff of the four canteens." },
  { what: "guessing-model" },
  { what: "repeats-pooled", people: 12, judgments: 24 },
  { what: "one-person", judgments: 9 },
  { what: "few-batches", product: "new", batches: 0 },
  { what: "few-batches", product: "new", batches: 1 },
  { what: "few-batches", product: "new", batches: 2 },
  { what: "looks-differ" },
  { what: "server-knew" },
  { what: "below-plan", planned: 24, answered: 1 },
  { what: "orders-uneven", fewest: 1, most: 5 },
  { what: "key-mismatch" },
  { what: "plan-could-not-find", discriminatorShare: 0.2, power: 0.3 },
];
const voided = ["wrong-tray", "sample-dropped", "talked", "outside-window", "spoiled", "other"] as const;
const allDepartures: Departure[] = [
  ...voided.map((reason) => ({ what: "ballot-voided" as const, tray: 4, reason, note: "seen by Nuru" })),
  { what: "spare-served", tray: 25, instead: 11, reason: "replaces", note: "" },
  { what: "spare-served", tray: 26, instead: null, reason: "extra-person", note: "" },
  { what: "spare-served", tray: 27, instead: null, reason: "other", note: "" },
  { what: "spare-unexplained", tray: 25 },
  { what: "contest-settled", tray: 19, note: "paper trail" },
  { what: "contest-open", tray: 19 },
  { what: "late-excluded", tray: 7 },
  { what: "late-admitted", tray: 7, note: "" },
  { what: "after-reveal", tray: 7 },
  { what: "off-plan", tray: 7 },
  { what: "unfinished", tray: 7 },
  { what: "stopped", tray: 7, reason: "stopped" },
  { what: "stopped", tray: 7, reason: "cannot-answer" },
  { what: "stopped", tray: 7, reason: "not-cleared" },
  { what: "key-reprinted", paper: "kitchen-by-tray" },
  { what: "closed-with-unsent", unsent: 1 },
  { what: "rival-event", kind: "study-locked" },
  { what: "quarantined", events: 2 },
  ...unansweredReasons.map((why, at) => ({ what: "not-answered" as const, why, trays: [4, 7, 9].slice(0, at + 1) })),
  { what: "seat-counted-twice", seat: 3, trays: [3, 26] },
  { what: "close-note", note: "power cut at 12:40" },
  { what: "records-missing", records: 1 },
  { what: "records-not-read", records: 2 },
];
const withEverything = (result: Result): Result => ({ ...result, caveats: allCaveats, departures: allDepartures });

/** Words that claim more than a test can, or dress up a miss. The list stands in the visual-language page. */
const banned =
  /no difference|the same\b|identical|proved|proven|confirmed|\btrend|almost|marginal|borderline|significant|failed to|\bhighly\b|\bsimilar|undefined|NaN|null|Infinity|\[object/i;

describe("what no sentence may say", () => {
  test("every caveat and departure has a sentence, free of banned words", () => {
    const found = describeResult(withEverything(analyse(recordOf(14), "1")), report);
    expect(found.caveats).toHaveLength(allCaveats.length);
    expect(found.departures).toHaveLength(allDepartures.length);
    for (const text of texts(found)) expect(text).not.toMatch(banned);
    expect(new Set([...found.caveats, ...found.departures]).size).toBe(allCaveats.length + allDepartures.length);
  });

  test("the net catches: a banned word in a sentence would be seen", () => {
    for (const text of ["There is no difference.", "almost significant", "tastes the same", "p is NaN"]) {
      expect(text).toMatch(banned);
    }
  });

  test("any counts, risk and plan give sentences without banned words, and end in a stop", () => {
    const counts = fc
      .integer({ min: 0, max: 300 })
      .chain((n) => fc.record({ n: fc.constant(n), correct: fc.integer({ min: 0, max: n }) }));
    fc.assert(
      fc.property(counts, fc.constantFrom(0.2, 0.1, 0.05, 0.01, 0.001), fc.nat(), ({ n, correct }, alpha, draw) => {
        const people = n === 0 ? 0 : 1 + (draw % n);
        const found = describeResult(resultOfCounts({ ...given, alpha, correct, judgments: n, people }, "1"), report);
        for (const text of texts(found)) expect(text).not.toMatch(banned);
        for (const text of [found.verdict, found.size, found.agreed, ...found.caveats]) expect(text).toMatch(/\.$/);
      }),
    );
  });

  test("every outcome of a 24-people study is free of banned words", () => {
    for (let correct = 0; correct <= 24; correct++) {
      for (const text of texts(ofStudy(correct))) expect(text).not.toMatch(banned);
    }
  });

  test("“could tell” stands only where p <= alpha, and never beside a bound at guessing", () => {
    for (const judgments of [6, 7, 12, 24, 36, 60]) {
      for (let correct = 0; correct <= judgments; correct++) {
        const result = resultOfCounts({ ...given, correct, judgments }, "1");
        const found = describeResult(result, report);
        expect(found.verdict.startsWith("This panel could tell")).toBe(result.pValue <= 0.05);
        if (result.pValue <= 0.05) expect(found.size).not.toMatch(/at least 0\u00a0%/);
      }
    }
  });

  test("p and its value never part", () => {
    expect(ofStudy(14).meaning).toContain("(p\u00a0=\u00a00.0103)");
  });

  test("trays without a counted answer are named with the reason", () => {
    const departures: Departure[] = [{ what: "not-answered", why: "never-opened", trays: [7, 8, 12] }];
    expect(describeResult(analyse(recordOf(14, 24, { departures }), "1"), report).departures).toEqual([
      "Trays 7, 8 and 12: no counted answer (never opened).",
    ]);
  });

  test("a number and its percent sign never part", () => {
    const all = [2, 11, 14, 24].flatMap((correct) => texts(ofStudy(correct)));
    for (const text of all) expect(text).not.toMatch(/\d[ ]?%/);
    expect(all.some((text) => text.includes("\u00a0%"))).toBe(true);
  });
});

describe("the tone does not know which product is which", () => {
  test.each([2, 9, 11, 13, 14, 24])("%d of 24: swapping the names swaps the names and nothing else", (correct) => {
    const record = recordOf(correct);
    const [first, second] = record.plan.products;
    if (!first || !second) throw new Error("the scenario has two products");
    const swapped = {
      ...record,
      plan: {
        ...record.plan,
        products: [
          { ...first, name: second.name },
          { ...second, name: first.name },
        ],
      },
    };
    const marked = texts(describeResult(analyse(record, "1"), report)).map((text) =>
      text.replace(/“(current|new)”/g, (_all, name) => `“${name === "current" ? "new" : "current"}”`),
    );
    expect(texts(describeResult(analyse(swapped, "1"), report))).toEqual(marked);
  });
});
