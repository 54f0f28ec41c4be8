import { expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { pairPower, productsPower } from "../../src/analysis/scale-power.ts";
import { caveats } from "../../src/words/en/report-notes.ts";
import { linePlan } from "../design/scenario.ts";
import { juicinessMarks, lineRecord } from "./study-records.ts";

const marks = juicinessMarks.map((row) => [[...row]]);
const scaleSought = { difference: 8, deviation: 12, seenDeviation: null, from: "a guess" };
const said = (change: Parameters<typeof linePlan>[0]) =>
  analyse(lineRecord(linePlan(change), marks), "test").caveats.filter(
    (caveat) => caveat.what === "scale-plan-could-not-find",
  );

test("12 people, 3 products, 8 points at a scatter of 12: the F test has 0.2570 (R 4.2.2, scale-size-by-r), and it is said", () => {
  const [caveat, ...more] = said({ scaleSought });
  if (caveat?.what !== "scale-plan-could-not-find") throw new Error("the caveat is missing");
  expect(more).toEqual([]);
  expect(caveat.power).toBeCloseTo(0.25703283229474949, 8);
  expect(caveats["scale-plan-could-not-find"](caveat)).toMatch(/differ by 8 points.*scatter by 12.*26\u00a0%/);
  // of nine steps one is 12.5 points of 100
  expect(caveats["scale-plan-could-not-find"]({ ...caveat, steps: 9 })).toMatch(
    /differ by 0\.64 steps and marks scatter by 0\.96 as/,
  );
});

test("a plan that could find it, or that supposed nothing, has no such caveat", () => {
  // 10 points at 7.836: 0.7454 by R
  expect(said({ scaleSought: { ...scaleSought, difference: 10, deviation: 7.83619547969291 } })).toEqual([]);
  expect(said({})).toEqual([]);
});

test("properties that share the risk: each is sized as if alpha were its even share", () => {
  const test = { products: 3, alpha: 0.06, difference: 8, deviation: 12 };
  for (const people of [12, 40]) {
    expect(pairPower({ ...test, sharing: 3 }, people)).toBe(pairPower({ ...test, alpha: 0.06 / 3 }, people));
    expect(productsPower({ ...test, sharing: 3 }, people)).toBe(productsPower({ ...test, alpha: 0.06 / 3 }, people));
  }
});
