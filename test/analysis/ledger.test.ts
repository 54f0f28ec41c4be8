import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { ledgerResult } from "../../src/analysis/ledger.ts";
import type { Ledger } from "../../src/model/ledger.ts";
import type { MassDifference } from "../../src/model/result-ledger.ts";
import { ledgerOf, scenarioRows, weighed } from "./ledger-example.ts";
import { massByR } from "./mass-reference.ts";
import { reference, relativeError } from "./reference.ts";

const resultOf = (ledger: Ledger) => ledgerResult(ledger, 0.95, "test");
const near = (found: readonly (number | null | undefined)[], truth: readonly number[]) => {
  expect(found.length).toBe(truth.length);
  found.forEach((value, at) => {
    expect(relativeError(value ?? Number.NaN, truth[at] ?? 0)).toBeLessThan(1e-9);
  });
};
const numbersOf = ({ percentagePoints: { estimate, low, high }, test }: MassDifference) => [
  ...[estimate, low, high, test?.standardError, test?.df, test?.tValue, test?.pValue],
];

describe("the scenario's ledger, four batches of each process, against R's t.test (mass-by-r)", () => {
  for (const paired of [false, true]) {
    const found = resultOf(ledgerOf(scenarioRows, {}, paired));
    test(`${paired ? "paired" : "Welch"}: losses of the raw mass and their difference in percentage points`, () => {
      for (const step of ["cooked", "rested", "held"] as const) {
        const truth = massByR.ledger[step];
        const raw = found.differences.find((each) => each.step === step && each.base === "raw");
        if (!raw) throw new Error("no difference");
        expect(raw.design).toBe(paired ? "paired" : "independent");
        near(numbersOf(raw), paired ? truth.ofRaw.paired : truth.ofRaw.difference);
      }
      const [ratio] = found.yieldRatios;
      near(
        [ratio?.ratio.estimate, ratio?.ratio.low, ratio?.ratio.high],
        paired ? massByR.ledger.held.ratioPaired : massByR.ledger.held.ratio,
      );
    });
  }
  test("each step on its own base, and both means with their intervals", () => {
    const found = resultOf(ledgerOf(scenarioRows));
    for (const step of ["cooked", "rested", "held"] as const) {
      const { own, ofRaw } = massByR.ledger[step];
      const difference = found.differences.find((each) => each.step === step && each.base === "step");
      if (!difference) throw new Error("no difference");
      near(numbersOf(difference), own.difference);
      for (const product of ["current", "new"] as const) {
        const mean = found.means.find((each) => each.product === product && each.step === step);
        near([mean?.loss.percent.estimate, mean?.loss.percent.low, mean?.loss.percent.high], own[product]);
        near(
          [mean?.totalLoss.percent.estimate, mean?.totalLoss.percent.low, mean?.totalLoss.percent.high],
          ofRaw[product],
        );
      }
    }
  });
});

describe("yield, cook loss, caught juice and the rest, exact rationals (mass-arithmetic)", () => {
  const cases = z.object({
    rows: z.tuple([
      z.array(
        z.looseObject({
          raw: z.string(),
          cooked: z.string(),
          yieldPct: z.number(),
          cookLossPct: z.number(),
          drip: z.optional(z.string()),
          dripLossPct: z.optional(z.number()),
          evaporativeLossPct: z.optional(z.number()),
        }),
      ),
      z.unknown(),
    ]),
  });
  for (const each of reference("mass-arithmetic", cases).rows[0]) {
    test(`${each.raw} g raw, ${each.cooked} g cooked`, () => {
      const ledger = ledgerOf([[[each.raw, each.cooked]]]);
      const [batch] = ledger.batches;
      if (batch) batch.weighings[1] = weighed(each.cooked, { drip: each.drip ?? "" });
      const cooked = resultOf(ledger).batches[0]?.steps[1];
      const caught = each.drip === undefined ? [] : [each.dripLossPct ?? 0, each.evaporativeLossPct ?? 0];
      const got = [cooked?.yieldPercent, cooked?.lossPercent, cooked?.dripLossPercent, cooked?.evaporativeLossPercent];
      const truth = [each.yieldPct, each.cookLossPct, ...caught];
      truth.forEach((value, at) => {
        // the exact decimals are divided once; a last bit is lost in times a hundred
        expect(relativeError(got[at] ?? Number.NaN, value)).toBeLessThan(5e-16);
      });
      if (each.drip === undefined) expect(got.slice(2)).toEqual([null, null]);
    });
  }
});

describe("mass is neither made nor lost on the way", () => {
  const gram = fc.integer({ min: 1, max: 99_999_999 }).map((tenths) => (tenths / 10).toFixed(1));
  const batch = fc.tuple(gram, gram, gram, gram).map((row) => row.toSorted((a, b) => Number(b) - Number(a)));
  const batches = fc.array(batch, { minLength: 2, maxLength: 5 });

  test("steps compound to the whole, and what is lost at the steps and what is left add up to the raw mass", () => {
    fc.assert(
      fc.property(batch, (row) => {
        const steps = resultOf(ledgerOf([[row]])).batches[0]?.steps ?? [];
        const kept = steps.reduce((share, { lossPercent }) => share * (1 - (lossPercent ?? 0) / 100), 1);
        expect(kept * 100).toBeCloseTo(steps[3]?.yieldPercent ?? 0, 9);
        expect((steps[3]?.yieldPercent ?? 0) + (steps[3]?.totalLossPercent ?? 0)).toBeCloseTo(100, 10);
        const lost = steps.reduce((grams, { lossGrams }) => grams + (lossGrams ?? 0), 0);
        expect(lost + (steps[3]?.grams ?? 0)).toBeCloseTo(Number(row[0]), 6);
      }),
    );
  });
  test("processes exchanged turn every difference, and ratios become their inverse", () => {
    fc.assert(
      fc.property(batches, batches, (one, other) => {
        const [there, back] = [resultOf(ledgerOf([one, other])), resultOf(ledgerOf([other, one]))];
        there.differences.forEach(({ percentagePoints: { estimate, low } }, at) => {
          const turned = back.differences[at]?.percentagePoints;
          expect(estimate).toBeCloseTo(-(turned?.estimate ?? 0), 8);
          if (low !== null) expect(low).toBeCloseTo(-(turned?.high ?? 0), 6);
        });
        const [ratio, inverse] = [there.yieldRatios[0]?.ratio, back.yieldRatios[0]?.ratio];
        if (ratio?.low != null && inverse?.high != null) expect(ratio.low * inverse.high).toBeCloseTo(1, 6);
      }),
      { numRuns: 40 },
    );
  });
  test("in other units, a dish on every weighing: the same percentages", () => {
    fc.assert(
      fc.property(batch, gram, (row, tare) => {
        const plain = resultOf(ledgerOf([[row]]));
        const gross = row.map((grams) => weighed(((Number(grams) * 10 + Number(tare) * 10) / 10).toFixed(1), { tare }));
        const ledger = ledgerOf([[row]]);
        const dishes = { ...ledger, batches: ledger.batches.map((each) => ({ ...each, weighings: gross })) };
        expect(resultOf(dishes).batches).toEqual(plain.batches);
      }),
    );
  });
});

describe("what chance cannot be told from", () => {
  const [current = [], steamed = []] = scenarioRows;
  test("one cook of each has a difference and no interval, and says so", () => {
    const found = resultOf(ledgerOf([current.slice(0, 1), steamed.slice(0, 1)]));
    const total = found.differences.at(-1);
    expect(total?.percentagePoints).toMatchObject({ low: null, high: null, kind: "none" });
    expect(total?.test).toBeNull();
    expect(found.warnings.map(({ what }) => what)).toEqual(["one-batch", "one-batch"]);
  });
  test("a batch that was not weighed at a step counts at the others", () => {
    const rows = [[["100.0", "", "80.0", "70.0"], ...current], steamed];
    const found = resultOf(ledgerOf(rows));
    const batches = found.means.map(({ loss, totalLoss }) => [loss.batches, totalLoss.batches]);
    expect(batches.slice(0, 3)).toEqual([
      [4, 4],
      [4, 5],
      [5, 5],
    ]);
    expect(found.warnings).toEqual([{ what: "not-weighed", product: "current", batch: "1", step: "cooked" }]);
  });
  test("pairs of which one lacks its half are taken as independent, with a word about it", () => {
    const ledger = ledgerOf(scenarioRows, {}, true);
    const found = resultOf({ ...ledger, batches: ledger.batches.slice(0, -1) });
    expect(new Set(found.differences.map(({ design }) => design))).toEqual(new Set(["independent"]));
    expect(found.warnings.map(({ what }) => what)).toEqual(["pairs-incomplete"]);
  });
  test("a balance that shows 20 g on 1.5 kg is too coarse for 4 points: twice 20 of 1491.5 is 2.7", () => {
    const found = resultOf(ledgerOf(scenarioRows, { balanceStep: "20", matters: 4 }));
    const [warning] = found.warnings;
    if (warning?.what !== "coarse") throw new Error("no warning");
    expect(warning.points).toBeCloseTo(2.682, 3);
    expect(resultOf(ledgerOf(scenarioRows, { balanceStep: "5", matters: 4 })).warnings).toEqual([]);
  });
  test("three processes: each of two is held against the first at an even share of the risk", () => {
    const found = resultOf(ledgerOf([current, steamed, steamed]));
    const total = found.differences.filter(({ step, base }) => step === "held" && base === "raw");
    expect(total.map(({ second, percentagePoints }) => [second, percentagePoints.confidence])).toEqual([
      ["new", 0.975],
      ["third", 0.975],
    ]);
  });
});
