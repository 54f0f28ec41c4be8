import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyse } from "../../src/analysis/analyse.ts";
import { analysePair, resultOfChoices } from "../../src/analysis/analyse-pair.ts";
import { result as schema } from "../../src/model/result.ts";
import { preferencePlan } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";
import { preferenceRecord, votes } from "./study-records.ts";

const whats = (caveats: readonly { what: string }[]) => caveats.map(({ what }) => what);
const plan = preferencePlan();
const study = (first: number, second: number, none: number, change: Parameters<typeof preferencePlan>[0] = {}) =>
  preferenceRecord(preferencePlan(change), votes(first, second, none));

describe("the result of a preference study", () => {
  const found = analysePair(study(6, 15, 3), "1.0.0");

  test("votes are counted by the opened key, all three; the document fits its schema", () => {
    expect(z.safeParse(schema, found).success).toBe(true);
    expect(found).toMatchObject({ counts: { first: 6, second: 15, none: 3 }, people: 24, judgments: 21 });
    // 2 P(X >= 15) of 21 at 1/2 = 2 * 82160 / 2^21, sum of binomial coefficients
    expect(found.pValue).toBe((2 * 82_160) / 2 ** 21);
    expect(found).toMatchObject({ products: ["current", "new"], outcome: "not-reached", study: { planned: 24 } });
  });
  test("the plan's power: 0.3 more on the one side is 65 to 35", () => {
    expect(found.power).toMatchObject({ share: 0.65, people: 24 });
  });
  test("what the plan still has of another method or rule is no part of the study", () => {
    // a distance is none of a preference; without the answer "none" no count of it can be held against a norm
    const blankNorm = { title: "blank", none: 5, of: 20 };
    const left = study(6, 15, 0, { dPrimeSought: 2, noPreference: "not-offered", blankNorm });
    expect(analysePair(left, "1")).toMatchObject({ power: { share: 0.65 }, blankNorm: null });
  });
  test("by order served: how many chose the sample served first", () => {
    const record = study(6, 15, 3);
    const expected = ["AB", "BA"].map((order) => {
      const trays = record.opened.key.trays.filter((tray) => tray.order === order && tray.tray <= 24);
      const firsts = trays.filter(({ tray, samples }) => {
        const chosen = record.judgments.find((judgment) => judgment.tray === tray)?.choice;
        return chosen === samples[0]?.code;
      });
      return { order, judgments: trays.length, correct: firsts.length };
    });
    expect(found.orders).toEqual(expected);
  });
  test("naming the products the other way round turns the counts and nothing else", () => {
    const record = study(6, 15, 3);
    const swapped = { ...record, plan: { ...record.plan, products: [...record.plan.products].reverse() } };
    const other = analysePair(swapped, "1");
    expect(other.counts).toEqual({ first: 15, second: 6, none: 3 });
    expect([other.pValue, other.firstShare]).toEqual([found.pValue, found.secondShare]);
  });
  test("analyse is the same function for every method", () => {
    expect(analyse(study(6, 15, 3), "1.0.0")).toEqual(found);
  });
});

describe("caveats follow from facts", () => {
  test("recruited consumers: what a preference does not say, and whom the panel stands for", () => {
    expect(whats(analysePair(study(12, 12, 0), "1").caveats)).toEqual(
      expect.arrayContaining(["preference-not-size", "this-panel-only"]),
    );
    expect(whats(analysePair(study(12, 12, 0), "1").caveats)).not.toContain("panel-not-customers");
  });
  test.each(["colleagues", "trained"] as const)("a panel of %s does not speak for customers", (panelType) => {
    expect(analysePair(study(12, 12, 0, { panelType }), "1").caveats).toContainEqual({
      what: "panel-not-customers",
      panelType,
      standsFor: plan.standsFor,
    });
  });
  test("5 of 24 without a preference are frequent, 4 are not (a fifth; common practice, no source)", () => {
    expect(analysePair(study(10, 9, 5), "1").caveats).toContainEqual({ what: "none-frequent", none: 5, of: 24 });
    expect(whats(analysePair(study(10, 10, 4), "1").caveats)).not.toContain("none-frequent");
  });
  test("split: that it was done, and how many were left over", () => {
    const caveats = analysePair(study(10, 9, 5, { noPreference: "split" }), "1").caveats;
    expect(caveats).toContainEqual({ what: "none-split", none: 5, leftOut: 1 });
    expect(whats(caveats)).not.toContain("none-frequent");
  });
  test("fewer answers than planned; a plan that would more likely miss", () => {
    const caveats = analysePair(study(8, 9, 0), "1").caveats;
    expect(caveats).toContainEqual({ what: "below-plan", planned: 24, answered: 17 });
    expect(whats(caveats)).toContain("preference-plan-could-not-find");
  });
});

test("a seat with two answers counts once, with the lower tray, and that is told", () => {
  const record = study(6, 18, 0);
  const judgments = record.judgments.map((one) => (one.tray === 24 ? { ...one, seat: 3 } : one));
  const found = analysePair({ ...record, judgments }, "1");
  expect(found).toMatchObject({ people: 23, counts: { first: 6, second: 17, none: 0 } });
  expect(found.caveats).toContainEqual({ what: "person-once", trays: [24] });
});

test("a key that does not match its seal: numbers, verdict withheld", () => {
  const found = analysePair({ ...study(2, 22, 0), keyMatches: false }, "1");
  expect(found).toMatchObject({ outcome: "withheld", counts: { second: 22 } });
  expect(whats(found.caveats)[0]).toBe("key-mismatch");
});

test("nobody answered: a result without a verdict", () => {
  expect(analysePair(study(0, 0, 0), "1")).toMatchObject({ people: 0, outcome: "too-few", pValue: 1 });
});

describe("a record that contradicts itself gives no result", () => {
  const record = study(6, 15, 3);
  const [judgment] = record.judgments;
  if (!judgment) throw new Error("the record has answers");
  const withTray = (products: readonly string[]) => ({
    ...record,
    opened: {
      ...record.opened,
      key: {
        ...record.opened.key,
        trays: record.opened.key.trays.map((tray) => ({
          ...tray,
          samples: products.map((product, place) => ({ code: String(500 + place), product, batch: "1" })),
        })),
      },
    },
  });
  const [current = "", steamed = ""] = plan.products.map(({ id }) => id);

  test("one tray counted twice; a tray outside the key; a code that is not on the tray", () => {
    const code = (judgments: typeof record.judgments) =>
      problemOf(() => analysePair({ ...record, judgments }, "1")).code;
    expect(code([judgment, judgment])).toBe("analysis/tray-counted-twice");
    expect(code([{ ...judgment, tray: 99 }])).toBe("analysis/tray-not-in-key");
    expect(code([{ ...judgment, choice: "999" }])).toBe("analysis/code-not-on-tray");
  });
  test.each([
    ["two alike", [current, current]],
    ["three samples", [current, steamed, steamed]],
    ["a product outside the plan", [current, "99999999-9999-4999-8999-999999999999"]],
  ])("a tray with %s", (_what, products) => {
    expect(problemOf(() => analysePair(withTray(products), "1")).code).toBe("analysis/not-its-order");
  });
  test("“no preference” where it was no answer", () => {
    const plan = { ...record.plan, noPreference: "not-offered" as const };
    expect(problemOf(() => analysePair({ ...record, plan }, "1")).code).toBe("analysis/none-not-offered");
  });
});

describe("answers that came without a study", () => {
  const given = { products: ["current", "new"], alpha: 0.05, noPreference: "dropped" } as const;
  const rows = (choices: (string | null)[]) =>
    choices.map((choice, at) => ({ panelist: `P${at + 1}`, repeat: "1", choice }));

  test("are counted by product", () => {
    const found = resultOfChoices(given, rows(["new", "new", null, "current", "new", "new", "new"]), "1");
    expect(found).toMatchObject({ counts: { first: 1, second: 5, none: 1 }, study: null });
    expect(z.safeParse(schema, found).success).toBe(true);
  });
  test("several answers of one person are tested by people's own leads, and told", () => {
    const leads = [3, 3, 1, 1, -1, 3, 1];
    const twice = leads.flatMap((lead, person) =>
      Array.from({ length: 3 }, (_, at) => ({
        panelist: `P${person + 1}`,
        repeat: String(at + 1),
        choice: at < (3 + lead) / 2 ? "new" : "current",
      })),
    );
    const found = resultOfChoices(given, twice, "1");
    // of the 128 ways to set the signs of 3, 3, 3, 1, 1, 1, 1: total 13 once, 11 four times, to either side
    expect(found.pValue).toBe(10 / 128);
    expect(found).toMatchObject({ people: 7, judgments: 21, byPerson: { first: 1, second: 6, tied: 0 } });
    expect(found).toMatchObject({ criticalNumber: null, firstShare: { low: null, kind: "none" } });
    expect(found.caveats).toContainEqual({ what: "people-compared", people: 7, judgments: 21 });
    expect(z.safeParse(schema, found).success).toBe(true);
  });
  test("a product that was not named is refused", () => {
    expect(problemOf(() => resultOfChoices(given, rows(["held"]), "1")).code).toBe("analysis/unknown-product");
  });
});
