import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rawGrams } from "../../src/design/raw-grams.ts";
import { rawWords } from "../../src/words/en/organizer-shopping.ts";

/** Expected values by hand; the identity is that of masses: what is bought is cooked food, what cooking took, and trimmings. */
describe("grams from the cup back to the shop", () => {
  test("112 portions of 25 g are 2800 g; a loss of 18 % of the raw mass leaves 82 %: 2800 / 0.82 = 3414.6 g raw", () => {
    const found = rawGrams(112, 25, { cookLoss: 18 });
    expect(found.served).toBe(2800);
    expect(found.cooked).toBe(2800);
    expect(found.raw).toBeCloseTo(3414.634, 3);
    expect(found.bought).toBeNull();
  });

  test("each percentage has its own base: 100 x 10 g, 10 % over, 20 % lost, 50 % trimmed: 1000, 1100, 1375, 2750 g", () => {
    expect(rawGrams(100, 10, { cookLoss: 20, trimLoss: 50, cookedOver: 10 })).toEqual({
      ...{ served: 1000, cooked: 1100, raw: 1375, bought: 2750 },
    });
  });

  test("a loss that nobody named is not taken for none; trimming alone brings no raw grams", () => {
    expect(rawGrams(10, 12, {})).toEqual({ served: 120, cooked: 120, raw: null, bought: null });
    expect(rawGrams(10, 12, { cookLoss: null, trimLoss: 5 })).toMatchObject({ raw: null, bought: null });
    expect(rawGrams(10, 12, { cookLoss: 0, trimLoss: 0 })).toMatchObject({ raw: 120, bought: 120 });
  });

  test("mass is neither made nor lost, whatever the percentages", () => {
    const percent = fc.double({ min: 0, max: 95, noNaN: true });
    const portions = fc.integer({ min: 1, max: 5000 });
    const grams = fc.double({ min: 0.1, max: 1000, noNaN: true });
    fc.assert(
      fc.property(portions, grams, percent, percent, percent, (count, each, cookLoss, trimLoss, cookedOver) => {
        const { served, cooked, raw, bought } = rawGrams(count, each, { cookLoss, trimLoss, cookedOver });
        if (raw === null || bought === null) throw new Error("both losses were named");
        const trimmed = (bought * trimLoss) / 100;
        const cookedAway = (raw * cookLoss) / 100;
        const beyond = (served * cookedOver) / 100;
        expect(Math.abs(bought - trimmed - cookedAway - beyond - count * each)).toBeLessThan(bought * 1e-9);
        expect(Math.abs(cooked - beyond - served)).toBeLessThan(cooked * 1e-9);
      }),
    );
  });

  test("the reckoning names every base and source, and what it could not work out", () => {
    const said = (product: Parameters<typeof rawGrams>[2] & { cookLossFrom?: string }) =>
      rawWords
        .reckoned({ ...{ portions: 112, spare: 8, portion: 25 }, back: rawGrams(112, 25, product), product })
        .replaceAll("\u00a0", " ");
    expect(said({ cookLoss: 18, cookLossFrom: "a guess" })).toBe(
      "112 portions (up to 8 of them for spare trays) × 25 g = 2800 g cooked; at a cook loss of 18 % of the raw mass 3415 g raw (a guess); no trimming loss is named, so what to buy is not worked out.",
    );
    expect(said({})).toContain("no loss in cooking is named, so raw grams are not worked out");
    expect(said({ cookLoss: 20, trimLoss: 0 })).toContain("3500 g raw (assumed, no source named)");
  });
});
