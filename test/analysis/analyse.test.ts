import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyseChoice as analyse, resultOfCounts, resultOfRows } from "../../src/analysis/analyse.ts";
import { result as schema } from "../../src/model/result.ts";
import { problemOf } from "../problem-of.ts";
import { codeOf, current, judgmentOf, recordOf, steamed } from "./scenario.ts";

const whats = (caveats: readonly { what: string }[]) => caveats.map(({ what }) => what);
const given = { method: "triangle", goal: "difference", alpha: 0.05 } as const;

describe("the result of a study", () => {
  test("14 of 24: counts, p and verdict come out of the opened key, and the document fits its schema", () => {
    const found = analyse(recordOf(14), "1.0.0");
    expect(z.safeParse(schema, found).success).toBe(true);
    expect(found).toMatchObject({ judgments: 24, correct: 14, criticalNumber: 13, outcome: "reached", app: "1.0.0" });
    expect(found.study).toMatchObject({ planned: 24, seed: "0badc0de", keyMatches: true });
    expect(found.power).toMatchObject({ discriminatorShare: 0.3, people: 24 });
  });

  test("right answers are counted by order served and by place of the odd sample", () => {
    // trays 1 to 14 are right: orders 1 and 2 of the six come up three times among them, the rest twice
    const found = analyse(recordOf(14), "1.0.0");
    expect(found.orders).toEqual([
      { order: "AAB", judgments: 4, correct: 3 },
      { order: "ABA", judgments: 4, correct: 3 },
      { order: "ABB", judgments: 4, correct: 2 },
      { order: "BAA", judgments: 4, correct: 2 },
      { order: "BAB", judgments: 4, correct: 2 },
      { order: "BBA", judgments: 4, correct: 2 },
    ]);
    // odd sample first: BAA, ABB; second: ABA, BAB; third: AAB, BBA
    expect(found.oddPositions).toEqual([
      { position: 1, judgments: 8, correct: 4 },
      { position: 2, judgments: 8, correct: 5 },
      { position: 3, judgments: 8, correct: 5 },
    ]);
  });

  test("naming the products the other way round changes the order letters and nothing else that counts", () => {
    const record = recordOf(14);
    const swapped = { ...record, plan: { ...record.plan, products: [...record.plan.products].reverse() } };
    const [one, two] = [analyse(record, "1"), analyse(swapped, "1")];
    expect([two.correct, two.pValue, two.oddPositions]).toEqual([one.correct, one.pValue, one.oddPositions]);
    expect(two.orders.find(({ order }) => order === "BBA")).toEqual({ order: "BBA", judgments: 4, correct: 3 });
  });

  test("ticked guesses and how many of them were right are told: Hamid guesses and is right, another is not", () => {
    const record = recordOf(14);
    const judgments = record.judgments.map((judgment) => ({ ...judgment, guess: [8, 20].includes(judgment.tray) }));
    expect(analyse({ ...record, judgments }, "1")).toMatchObject({ guesses: { ticked: 2, right: 1 } });
  });

  test("departures of the record come through unchanged, in their order", () => {
    const departures = [
      { what: "contest-settled", tray: 19, note: "paper trail" },
      { what: "spare-served", tray: 25, instead: 11, reason: "replaces", note: "third cup dropped" },
    ] as const;
    expect(analyse(recordOf(14, 24, { departures: [...departures] }), "1").departures).toEqual(departures);
    expect(analyse(recordOf(14), "1").departures).toEqual([]);
  });

  test("batches are those that were on counted trays, in the plan's order", () => {
    const products = (answered: number) =>
      analyse(recordOf(3, answered), "1").study?.products.map(({ batches }) => batches);
    expect(products(24)).toEqual([
      ["current 0", "current 1", "current 2", "current 3"],
      ["new 0", "new 1", "new 2", "new 3"],
    ]);
    expect(products(7)).toEqual([
      ["current 0", "current 1"],
      ["new 0", "new 1"],
    ]);
  });

  test("nobody answered: a result without a verdict", () => {
    const found = analyse(recordOf(0, 0), "1");
    expect(found).toMatchObject({ judgments: 0, outcome: "too-few", pValue: 1 });
    expect(whats(found.caveats)).toEqual(["below-plan", "likeness-not-shown", "this-panel-only"]);
  });
});

describe("caveats follow from facts", () => {
  test("a clean study that reached its rule keeps only what its method cannot show", () => {
    expect(whats(analyse(recordOf(14), "1").caveats)).toEqual(["nature-unknown", "this-panel-only", "guessing-model"]);
  });
  test("a clean study that did not reach it says that likeness was not shown", () => {
    expect(whats(analyse(recordOf(9), "1").caveats)).toEqual([
      "likeness-not-shown",
      "this-panel-only",
      "guessing-model",
    ]);
  });
  test("whom the panel stands for is passed on", () => {
    expect(analyse(recordOf(14), "1").caveats).toContainEqual({
      what: "this-panel-only",
      standsFor: "staff of the four canteens",
    });
  });
  test("one batch of each product in a study of one wave", () => {
    const found = analyse(recordOf(5, 6), "1").caveats;
    expect(found).toContainEqual({ what: "few-batches", product: "current", batches: 1 });
    expect(found).toContainEqual({ what: "few-batches", product: "new", batches: 1 });
  });
  test("three batches are enough, two are not", () => {
    expect(whats(analyse(recordOf(5, 18), "1").caveats)).not.toContain("few-batches");
    expect(analyse(recordOf(5, 12), "1").caveats).toContainEqual({ what: "few-batches", product: "new", batches: 2 });
  });
  test("looks that differ; a server who knew; a key that does not match", () => {
    expect(whats(analyse(recordOf(14, 24, {}, { looks: "differ" }), "1").caveats)).toContain("looks-differ");
    expect(whats(analyse(recordOf(14, 24, {}, { serverKnowsKey: true }), "1").caveats)).toContain("server-knew");
    expect(whats(analyse(recordOf(14, 24, { keyMatches: false }), "1").caveats)[0]).toBe("key-mismatch");
  });
  test("fewer answers than planned", () => {
    expect(analyse(recordOf(14, 23), "1").caveats).toContainEqual({ what: "below-plan", planned: 24, answered: 23 });
  });
  test("orders 4 and 2 times are uneven; 4 and 3 times are what 23 people must leave", () => {
    const record = recordOf(14);
    const without = (trays: number[]) => record.judgments.filter(({ tray }) => !trays.includes(tray));
    expect(whats(analyse({ ...record, judgments: without([24]) }, "1").caveats)).not.toContain("orders-uneven");
    expect(analyse({ ...record, judgments: without([18, 24]) }, "1").caveats).toContainEqual({
      what: "orders-uneven",
      fewest: 2,
      most: 4,
    });
  });
  test("a plan that would more likely miss than find: 12 people for 30 %, power 0.2646 (needs 8 of 12; exact fractions)", () => {
    const found = analyse(recordOf(5, 12, {}, { people: 12 }), "1").caveats.find(
      ({ what }) => what === "plan-could-not-find",
    );
    // P(X >= 8) of 12 at 8/15, summed in fractions outside
    expect(found).toMatchObject({ discriminatorShare: 0.3 });
    expect(found && "power" in found && found.power).toBeCloseTo(0.2645967715483444, 12);
  });
  test("two answers of one seat are told as repeats", () => {
    const record = recordOf(14);
    const judgments = record.judgments.map((judgment) => ({ ...judgment, seat: Math.ceil(judgment.tray / 2) }));
    const found = analyse({ ...record, judgments }, "1");
    expect(found.caveats).toContainEqual({ what: "repeats-pooled", people: 12, judgments: 24 });
    expect(found.dPrime).toMatchObject({ low: null, kind: "none" });
  });
});

test("a key that does not match its seal: numbers, and the verdict is withheld", () => {
  const found = analyse(recordOf(14, 24, { keyMatches: false }), "1");
  expect(found).toMatchObject({ outcome: "withheld", correct: 14, study: { keyMatches: false } });
  expect(z.safeParse(schema, found).success).toBe(true);
  expect(whats(found.caveats)).toEqual(["key-mismatch", "this-panel-only", "guessing-model"]);
});

describe("a record that contradicts itself gives no result", () => {
  const base = recordOf(14);
  const withKey = (change: (tray: (typeof base.opened.key.trays)[number]) => typeof tray) => ({
    ...base,
    opened: { ...base.opened, key: { ...base.opened.key, trays: base.opened.key.trays.map(change) } },
  });

  test("an answer to a tray outside the key", () => {
    const judgments = [{ ...judgmentOf(1, true), tray: 99 }];
    expect(problemOf(() => analyse({ ...base, judgments }, "1"))).toEqual({
      code: "analysis/tray-not-in-key",
      details: { tray: 99 },
    });
  });
  test("a code that is not on the tray", () => {
    const judgments = [{ ...judgmentOf(1, true), choice: codeOf(2, true) }];
    expect(problemOf(() => analyse({ ...base, judgments }, "1"))).toMatchObject({
      code: "analysis/code-not-on-tray",
      details: { tray: 1 },
    });
  });
  test("one tray counted twice", () => {
    const judgments = [judgmentOf(3, true), judgmentOf(3, false)];
    expect(problemOf(() => analyse({ ...base, judgments }, "1")).code).toBe("analysis/tray-counted-twice");
  });
  test.each([
    ["three alike", [current, current, current]],
    ["two samples", [current, steamed]],
    ["a product outside the plan", [current, current, "99999999-9999-4999-8999-999999999999"]],
  ])("a tray with %s", (_what, products) => {
    const record = withKey((tray) => ({
      ...tray,
      samples: products.map((product, place) => ({ code: String(500 + place), product, batch: "1" })),
    }));
    expect(problemOf(() => analyse(record, "1")).code).toBe("analysis/not-its-order");
  });
});

describe("answers that came without a study", () => {
  test("two counts give the statistics, no study and no departures", () => {
    const found = resultOfCounts({ ...given, correct: 25, judgments: 50 }, "1.0.0");
    expect(z.safeParse(schema, found).success).toBe(true);
    expect(found).toMatchObject({ study: null, orders: [], departures: [], criticalNumber: 23 });
  });

  const rows = (people: number, repeats: number, right: number) =>
    Array.from({ length: people * repeats }, (_, index) => ({
      panelist: `P${Math.floor(index / repeats) + 1}`,
      repeat: String((index % repeats) + 1),
      correct: index < right,
    }));

  test("24 rows of 24 people are the same statistics as their counts, with no word of repeats", () => {
    expect(resultOfRows(given, rows(24, 1, 14), "1")).toEqual(
      resultOfCounts({ ...given, correct: 14, judgments: 24 }, "1"),
    );
  });
  test("12 people twice: pooled for the difference test, without bounds, and told", () => {
    const found = resultOfRows(given, rows(12, 2, 14), "1");
    expect(found.pValue).toBe(resultOfCounts({ ...given, correct: 14, judgments: 24 }, "1").pValue);
    expect(found).toMatchObject({ people: 12, discriminatorShare: { low: null, kind: "none" } });
    expect(found.caveats).toContainEqual({ what: "repeats-pooled", people: 12, judgments: 24 });
  });
  test("9 of 9 by one person: a finding about that person alone", () => {
    const found = resultOfRows(given, rows(1, 9, 9), "1");
    expect(found).toMatchObject({ people: 1, outcome: "reached" });
    expect(whats(found.caveats)).toEqual(["nature-unknown", "one-person", "guessing-model"]);
  });
  test("no rows: no verdict", () => {
    expect(resultOfRows(given, [], "1")).toMatchObject({ judgments: 0, outcome: "too-few" });
  });
});
