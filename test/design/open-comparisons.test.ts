import { describe, expect, test } from "vitest";
import { copyOfPlan } from "../../src/design/begin.ts";
import { openComparisons } from "../../src/design/open-comparisons.ts";
import type { Comparisons } from "../../src/model/plan.ts";
import { fieldOf } from "../../src/organizer/plan-fields.ts";
import { openPartSentence } from "../../src/words/en/planning.ts";
import { linePlan } from "./scenario.ts";

const { products } = linePlan();
const [a = "", b = "", c = ""] = products.map(({ id }) => id);
const open = (comparisons: Comparisons, count = 3) =>
  openComparisons({ comparisons, products: products.slice(0, count) });
const factor = (name: string, one: string, two: string) => ({ name, levels: [one, two] as [string, string] });

describe("what a choice of comparisons lacks", () => {
  test.each<[string, Comparisons, string[]]>([
    ["every two", { kind: "all-pairs" }, []],
    ["a reference that is there", { kind: "reference", product: b }, []],
    ["no reference yet", { kind: "reference", product: null }, ["comparison-reference"]],
    ["no pair yet", { kind: "planned", pairs: [] }, ["comparison-pairs"]],
    ["a pair with itself", { kind: "planned", pairs: [{ first: a, second: a }] }, ["comparison-pair"]],
    [
      "a pair twice, the other way round",
      {
        kind: "planned",
        pairs: [
          { first: a, second: b },
          { first: b, second: a },
        ],
      },
      ["comparison-pair"],
    ],
    [
      "two pairs",
      {
        kind: "planned",
        pairs: [
          { first: a, second: b },
          { first: a, second: c },
        ],
      },
      [],
    ],
    [
      "two factors without words, for three products",
      { kind: "two-factors", factors: [factor("", "", ""), factor("", "", "")], cells: [] },
      ["factor-words", "factor-cells"],
    ],
  ])("%s", (_what, comparisons, expected) => {
    const found = open(comparisons);
    expect(found.map(({ what }) => what)).toEqual(expected);
    for (const part of found) {
      expect(openPartSentence(part)).toMatch(/^[A-Z].+\.$/);
      expect(fieldOf(part)).toMatch(/^(comparison|factor|cell)-/);
    }
  });

  test("two products leave nothing to choose", () => {
    expect(open({ kind: "reference", product: null }, 2)).toEqual([]);
  });
});

test("a copy of a plan compares its own products", () => {
  const ids = ["1", "2", "3", "4", "5", "6", "7", "8", "9"].map((n) => `${n}0000000-0000-4000-8000-000000000000`);
  let next = 0;
  const plan = { ...linePlan(), comparisons: { kind: "reference" as const, product: a } };
  const copy = copyOfPlan({ study: "s", plan }, [], () => ids[next++ % 9] ?? "");
  expect(copy.comparisons).toEqual({ kind: "reference", product: copy.products[0]?.id });
});
