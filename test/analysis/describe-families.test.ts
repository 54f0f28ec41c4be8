import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { analyse, resultOfCounts } from "../../src/analysis/analyse.ts";
import { resultOfPair } from "../../src/analysis/analyse-pair.ts";
import { type Description, describe as describeResult } from "../../src/analysis/describe.ts";
import { noPreferenceRules, type Plan } from "../../src/model/plan.ts";
import type { StudyRecord } from "../../src/model/record.ts";
import type { Caveat, Result } from "../../src/model/result.ts";
import { report } from "../../src/words/en/report.ts";
import { linePlan, preferencePlan } from "../design/scenario.ts";
import { juicinessMarks, lineRecord, type Marks, preferenceRecord, votes } from "./study-records.ts";
import { banned, clean, texts } from "./texts.ts";

vi.setConfig({ testTimeout: 60_000 });

const words = (result: Result) => describeResult(result, report);
const preference = (first: number, second: number, none: number, change: Partial<Plan> = {}) =>
  preferenceRecord(preferencePlan(change), votes(first, second, none));
const marks = (rows: readonly (readonly (number | null)[])[]): Marks[] => rows.map((row) => [[...row]]);
const line = (rows: readonly (readonly (number | null)[])[], products = 3) => {
  const plan = linePlan();
  const fewer = { ...plan, products: plan.products.slice(0, products) };
  return lineRecord(fewer, marks(rows.map((row) => row.slice(0, products))));
};

const value = (found: Description, id: string) => found.rows.find((row) => row.id === id);

describe("a preference in words", () => {
  test("19 for current, 31 for new, 10 for neither: not shown, with all three counts, share and interval", () => {
    const found = words(
      resultOfPair(
        { products: ["current", "new"], alpha: 0.05, noPreference: "dropped", first: 19, second: 31, none: 10 },
        "1",
      ),
    );
    expect(found.verdict).toBe(
      "This panel did not show a preference between “current” and “new”: 19 to 31 of those with a preference, and the rule asks for 33 of 50 for either. It does not show that there is none.",
    );
    // 62 % (47 to 75), p = 0.119: the kitchen's invented study, computed outside
    expect(found.size).toBe(
      "62\u00a0% of those with a preference chose “new” (47\u00a0% to 75\u00a0%, 95\u00a0% interval). 10 people had no preference.",
    );
    expect(found.meaning).toContain("about 12 times in 100 (p\u00a0=\u00a00.1189)");
    expect(["first", "second", "none"].map((id) => value(found, id)?.value)).toEqual([
      "19 of 60",
      "31 of 60",
      "10 of 60",
    ]);
    expect(found.chance).toMatchObject({
      needed: "needed: 33",
      neededBelow: "or at most: 17",
      observed: "this panel: 19",
    });
  });
  test("100 panels of 50 that pick at random: 4 dots reach 33 for either product, 3.3 % exactly", () => {
    const given = { products: ["current", "new"], alpha: 0.05, noPreference: "dropped" } as const;
    const found = words(resultOfPair({ ...given, first: 25, second: 25, none: 0 }, "1"));
    // P(X <= 17) of 50 at 1/2 is 0.0164 (exact fraction): the dots at 0.005 and 0.015 lie there, and as many above
    expect(found.chance?.caption).toContain(
      "4 of the dots reach 33 for either product (exactly 3.3\u00a0% of such panels)",
    );
  });
  test("reached: who was preferred, the locked rule and the agreed step", () => {
    const found = words(analyse(preference(4, 20, 0), "1"));
    // 18 of 24 two-sided at 5 %: Triola Table A-7 (the smaller count may be 6)
    expect(found.verdict).toBe(
      "This panel preferred “new” to “current”: 20 of 24 chose it, and the rule locked beforehand asks for 18 of 24.",
    );
    expect(found.agreed).toBe(
      "Agreed beforehand, if a preference is shown: “Taste for juiciness next.” That is what this result calls for.",
    );
  });
  test("split: said in the verdict, the size and the table", () => {
    const found = words(analyse(preference(7, 12, 5, { noPreference: "split" }), "1"));
    expect(found.verdict).toContain("9 to 14, with “no preference” split evenly");
    expect(found.size).toContain("of the answers, with “no preference” split evenly, chose “new”");
    expect(value(found, "tested")?.behind).toBe("“no preference” split evenly, 1 left out");
  });
  test("three ways: shares of everybody asked come first", () => {
    const found = words(analyse(preference(6, 12, 6, { noPreference: "three-way" }), "1"));
    expect(found.size).toMatch(
      /^Of everybody asked, 25\u00a0% .* preferred “current”, 50\u00a0% .* 25\u00a0% .* had no preference\. 67\u00a0%/,
    );
  });
  test("not offered: the third count says so", () => {
    const found = words(analyse(preference(10, 14, 0, { noPreference: "not-offered" }), "1"));
    expect(value(found, "none")?.value).toBe("not offered");
  });
  test.each(["colleagues", "trained"] as const)("a panel of %s: never what customers prefer", (panelType) => {
    const found = words(analyse(preference(4, 20, 0, { panelType }), "1"));
    expect(found.caveats.join(" ")).toContain("has to be asked of people recruited as such");
    const { caveats: _, ...rest } = found;
    expect(JSON.stringify(rest)).not.toMatch(/customer|consumer/i);
  });
  test("too few, nobody, and a key in doubt", () => {
    expect(words(analyse(preference(4, 1, 0), "1")).verdict).toContain("too few answers for a verdict: 4 to 1");
    expect(words(analyse(preference(0, 0, 0), "1")).verdict).toBe("No answer was counted, so there is no result.");
    const found = words(analyse({ ...preference(4, 20, 0), keyMatches: false }, "1"));
    expect(found.verdict).toMatch(/^No verdict: the opened key does not match the seal/);
    expect([found.meaning, found.caution]).toEqual(["", ""]);
    for (const text of texts(found)) expect(text).not.toMatch(/panel preferred|calls for\.$|did not show a/);
  });
  test("any counts, rule and risk: no banned word, and a preference stands only where p <= alpha", () => {
    const count = fc.integer({ min: 0, max: 80 });
    const alphas = fc.constantFrom(0.2, 0.1, 0.05, 0.01, 0.001);
    fc.assert(
      fc.property(
        count,
        count,
        count,
        alphas,
        fc.constantFrom(...noPreferenceRules),
        (first, second, some, alpha, rule) => {
          const none = rule === "not-offered" ? 0 : some;
          const result = resultOfPair(
            { products: ["current", "new"], alpha, noPreference: rule, first, second, none },
            "1",
          );
          const found = words(result);
          clean(found);
          expect(found.verdict.startsWith("This panel preferred")).toBe(result.outcome === "reached");
        },
      ),
    );
  });
});

const newCaveats: Caveat[] = [
  { what: "people-below-plan", planned: 12, answered: 9 },
  { what: "person-once", trays: [24] },
  { what: "person-once", trays: [24, 25] },
  { what: "limit-not-nothing", discriminatorShare: 0.3 },
  { what: "plan-could-not-show", discriminatorShare: 0.3, power: 0.41 },
  { what: "preference-plan-could-not-find", share: 0.65, power: 0.3 },
  { what: "preference-not-size" },
  { what: "panel-not-customers", panelType: "colleagues", standsFor: "" },
  { what: "panel-not-customers", panelType: "trained", standsFor: "" },
  { what: "none-frequent", none: 20, of: 60 },
  { what: "none-split", none: 5, leftOut: 1 },
  { what: "none-split", none: 4, leftOut: 0 },
  { what: "position-left-out", balanced: true },
  { what: "position-left-out", balanced: false },
  { what: "further-attributes", attributes: 1, counting: 1 },
  { what: "further-attributes", attributes: 4, counting: 1 },
  { what: "further-attributes", attributes: 1, counting: 2 },
  { what: "further-attributes", attributes: 2, counting: 3 },
  { what: "repeats-averaged", people: 12, judgments: 72, tested: true },
  { what: "repeats-averaged", people: 12, judgments: 72, tested: false },
  { what: "trays-below-plan", planned: 24, marked: 23 },
  { what: "incomplete-panelists", attribute: "Juiciness", panelists: ["seat 4"] },
  { what: "widest-difference", attribute: "Juiciness", points: 8.13, unit: "points" },
  { what: "steps-equal", attributes: ["Overall liking"] },
  { what: "device-kinds-mixed", pointers: ["mouse", "touch"] },
  { what: "lengths-mixed", lengthsMm: [100, 120] },
];
test("every new caveat has a sentence of its own, free of banned words", () => {
  const result = resultOfCounts(
    { method: "triangle", goal: "difference", alpha: 0.05, correct: 14, judgments: 24 },
    "1",
  );
  const { caveats } = words({ ...result, caveats: newCaveats });
  expect(new Set(caveats).size).toBe(newCaveats.length);
  for (const text of caveats) expect(text).not.toMatch(banned);
});

describe("the tone does not know which product is which", () => {
  const swapped = (record: StudyRecord): StudyRecord => {
    const [first, second, ...rest] = record.plan.products;
    if (!first || !second) throw new Error("the scenario has two products");
    const products = [{ ...first, name: second.name }, { ...second, name: first.name }, ...rest];
    return { ...record, plan: { ...record.plan, products } };
  };
  const turned = (text: string) =>
    text.replace(/“(current|new)”|^(current|new)$/g, (all) =>
      all.includes("current") ? all.replace("current", "new") : all.replace("new", "current"),
    );
  test.each([
    ["a preference for new", preference(4, 20, 0)],
    ["a preference for current", preference(20, 4, 0)],
    ["none shown", preference(11, 12, 1)],
    ["as many for both", preference(12, 12, 0)],
    ["three ways", preference(9, 10, 5, { noPreference: "three-way" })],
    ["split", preference(9, 10, 5, { noPreference: "split" })],
    ["too few", preference(2, 1, 0)],
    ["new marked higher", line(juicinessMarks, 2)],
    [
      "current marked higher",
      line(
        juicinessMarks.map((row) => [...row].reverse()),
        2,
      ),
    ],
    ["three products", line(juicinessMarks)],
    ["all equal", line(juicinessMarks.map(() => [50, 50, 50]))],
    ["a product missing", line(juicinessMarks.map(([, b = 0, c = 0]) => [null, b, c]))],
  ])("%s: swapping the names swaps the names and nothing else", (_what, record) => {
    expect(texts(words(analyse(swapped(record), "1")))).toEqual(texts(words(analyse(record, "1"))).map(turned));
  });
});
