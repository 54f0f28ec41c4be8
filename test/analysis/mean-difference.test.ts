import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { intervalOf, meanInterval, meanRatio, paired, welch } from "../../src/analysis/mean-difference.ts";
import { massByR } from "./mass-reference.ts";
import { reference, relativeError } from "./reference.ts";

const sleep = reference(
  "sleep-paired-t",
  z.object({
    rows: z.array(z.tuple([z.number(), z.number(), z.number()])),
    publishedFromMemory: z.object({ t: z.number(), df: z.number(), p: z.number() }),
    computed: z.object({ meanDifference: z.number(), t: z.number(), p: z.number(), ci95: z.array(z.number()) }),
  }),
);
const { nearZero } = massByR;
const near = {
  first: [2.1, -1.4, 0.9, 3.0, -0.8, 1.7],
  far: [2.1, 0.4, 0.9, 3.0, 0.2, 1.7],
  second: [4.0, 1.2, 2.2, 5.1, 0.7, 2.9],
};

describe("paired differences", () => {
  test("Student's sleep data of 1908: t -4.0621 on 9, p 0.002833, interval as R's t.test prints it", () => {
    const [one, two] = [sleep.rows.map(([, first]) => first), sleep.rows.map(([, , second]) => second)];
    const found = paired(two, one);
    if (!found) throw new Error("no test");
    expect(found.df).toBe(sleep.publishedFromMemory.df);
    expect(found.tValue).toBeCloseTo(sleep.publishedFromMemory.t, 4);
    expect(found.pValue).toBeCloseTo(sleep.publishedFromMemory.p, 6);
    // the file's last two digits of t are not R's, whose t.test gives -4.06212768338204
    expect(found.tValue).toBeCloseTo(sleep.computed.t, 8);
    expect(found.pValue).toBeCloseTo(sleep.computed.p, 9);
    const { low, high } = intervalOf(found, found.estimate, 0.95);
    [low, high].forEach((end, at) => {
      expect(end).toBeCloseTo(sleep.computed.ci95[at] ?? 0, 10);
    });
  });
  test("one pair, or differences that are all the same, tell no chance", () => {
    expect(paired([1], [2])).toBeNull();
    // 0.1 + 0.2 is not 0.3 in doubles: rounding is no scatter
    expect(paired([0.1, 0.2, 0.7], [0.1 + 0.2, 0.4, 0.9])).toBeNull();
  });
});

describe("Welch", () => {
  test("one value on a side, or no scatter on either, is no test; scatter on one side is", () => {
    expect(welch([1, 2, 3], [4])).toBeNull();
    expect(welch([2, 2], [3, 3])).toBeNull();
    expect(welch([2, 2, 2], [3, 4, 5])?.df).toBe(2);
  });
  test("groups exchanged: the difference turns, the rest stays", () => {
    const [there, back] = [welch([1, 4, 2], [5, 9, 4, 4]), welch([5, 9, 4, 4], [1, 4, 2])];
    expect(there?.estimate).toBe(-(back?.estimate ?? 0));
    expect(there?.pValue).toBe(back?.pValue);
  });
});

describe("ratio of means after Fieller, by R's t.test inverted", () => {
  const same = (found: (number | null)[], truth: readonly number[]) => {
    found.forEach((value, at) => {
      expect(relativeError(value ?? Number.NaN, truth[at] ?? 0)).toBeLessThan(1e-8);
    });
  };
  test("far from 0 it has two ends, apart and paired", () => {
    const apart = meanRatio(near.far, near.second, false, 0.95);
    same([apart.estimate, apart.low, apart.high], nearZero.closed);
    const pairs = meanRatio(near.far, near.second, true, 0.95);
    same([pairs.estimate, pairs.low, pairs.high], nearZero.closedPaired);
  });
  test("a first mean that may be 0 bounds no ratio, and one below 0 has none", () => {
    expect(meanRatio(near.first, near.second, false, 0.95)).toEqual({
      ...{ estimate: expect.closeTo(nearZero.open[0] ?? 0, 12), low: null, high: null, confidence: 0.95, kind: "none" },
    });
    expect(meanRatio([-1, -2, -3], [1, 2, 3], false, 0.95).estimate).toBeNull();
  });
});

test("a mean of one value has no bounds", () => {
  expect(meanInterval([24.6], 0.95)).toEqual({ estimate: 24.6, low: null, high: null, confidence: 0.95, kind: "none" });
});
