import { describe, expect, test } from "vitest";
import { type Claim, emptyClaim } from "../../src/model/claim.ts";
import { emptyLedger, type LedgerBatch, type Weighing } from "../../src/model/ledger.ts";
import { measuredLosses } from "../../src/organizer/ledger-losses.ts";

const id = "6f1d1a52-3c0e-4e6f-9a41-5f0d5f8f1b01";
const weighing = (grams: string): Weighing => ({
  ...{ grams, tare: "", drip: "", blotted: "not-blotted", gainReason: "" },
  ...{ added: "", minutes: "", celsius: "" },
});
const batch = (product: number, name: string, grams: readonly string[]): LedgerBatch => ({
  ...{ product, name, lot: "", pair: "", weighings: grams.map(weighing) },
});

function claimOf(batches: LedgerBatch[]): Claim {
  const ledger = { ...emptyLedger(["raw", "cooked", "held"]), products: ["", "steamed"], batches };
  const measure = { id, kind: "mass" as const, about: "products" as const, name: "Mass", predictions: {} };
  const measures = [{ ...measure, attached: [], typed: null, weighed: ledger }];
  return { ...emptyClaim(() => id), title: "Steam first", first: "dry oven", measures };
}

describe("losses that a ledger of the kitchen measured", () => {
  test("are of the raw mass at every step, the mean of a process's batches, with where they stand", () => {
    // by hand: 20 % and 25 % to cooked, 28 % and 35 % to held: means 22.5 and 31.5 of the raw mass
    const claim = claimOf([
      batch(0, "D1", ["100.0", "80.0", "72.0"]),
      batch(0, "D2", ["200.0", "150.0", "130.0"]),
      batch(1, "S1", ["100.0", "90.0", "90.0"]),
    ]);
    expect(measuredLosses([claim])).toEqual([
      { percent: 22.5, from: "dry oven, raw to cooked, mean of 2 batches; ledger of “Steam first”, Mass" },
      { percent: 31.5, from: "dry oven, raw to held, mean of 2 batches; ledger of “Steam first”, Mass" },
      { percent: 10, from: "steamed, raw to cooked, 1 batch; ledger of “Steam first”, Mass" },
      { percent: 10, from: "steamed, raw to held, 1 batch; ledger of “Steam first”, Mass" },
    ]);
  });

  test("a ledger that cannot be so, or in which nothing was weighed, offers none", () => {
    expect(measuredLosses([claimOf([])])).toEqual([]);
    expect(measuredLosses([claimOf([batch(0, "D1", ["100.0", "180.0", "72.0"])])])).toEqual([]);
  });
  test("are none of steps to which liquid was added: more is left than the loss leaves", () => {
    const poured = batch(0, "D1", ["100.0", "80.0", "90.0"]);
    const weighings = poured.weighings.map((each, at) => (at === 2 && each ? { ...each, added: "20.0" } : each));
    const found = measuredLosses([claimOf([{ ...poured, weighings }])]);
    expect(found.map(({ percent }) => percent)).toEqual([20]);
  });
});
