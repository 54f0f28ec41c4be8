import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  atLeastPercent,
  atMostPercent,
  chosenPercent,
  decimalsFor,
  dPrimeAtMost,
  dPrimeBound,
  dPrimeText,
  finePercent,
  percent,
  points,
  pText,
  shortNumber,
  statistic,
  timesIn,
  wholeNumber,
} from "../../src/words/number.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("p-values as text", () => {
  test.each([
    [0.010340673816870677, "0.0103"],
    [0.05, "0.0500"],
    [1, "1"],
    [0.99995, "more than 0.9999"],
    [0.000099, "less than 0.0001"],
    [Number.MIN_VALUE, "less than 0.0001"],
  ])("%d is written %s", (p, text) => expect(pText(p)).toBe(text));

  test("0.05004 beside alpha 0.05 keeps the digits that put it above", () => {
    expect(pText(0.05004, 0.05)).toBe("0.05004");
    expect(pText(0.04996, 0.05)).toBe("0.0500");
  });

  test("any p reads on its own side of alpha, and never as 0", () => {
    const probability = fc.double({ min: Number.MIN_VALUE, max: 1, noNaN: true });
    fc.assert(
      fc.property(probability, fc.constantFrom(0.1, 0.05, 0.01, 0.001), (p, alpha) => {
        const text = pText(p, alpha);
        expect(text).not.toMatch(/^0\.?0*$/);
        const shown = Number(text.replace(/[^\d.e-]/g, ""));
        if (!text.includes("than")) expect(shown <= alpha).toBe(p <= alpha);
      }),
    );
  });
});

describe("shares as percent", () => {
  test.each([
    [0, "0 %"],
    [0.0004, "less than 0.1 %"],
    [0.004, "0.4 %"],
    [0.0096, "1 %"],
    [0.375, "38 %"],
    [0.994, "99 %"],
    [0.996, "99.6 %"],
    [0.9999, "more than 99.9 %"],
    [1, "100 %"],
  ])("%d is %s", (share, text) => expect(plain(percent(share))).toBe(text));

  test("only nothing reads as 0 % and only everything as 100 %", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        if (share > 0) expect(plain(percent(share))).not.toBe("0 %");
        if (share < 1) expect(plain(percent(share))).not.toBe("100 %");
      }),
    );
  });

  test.each([
    [0, "at least 0 %"],
    [0.0004, "more than 0 %"],
    [0.0049, "at least 0.4 %"],
    [0.0952, "at least 9 %"],
    [0.29, "at least 29 %"],
    [0.999, "at least 99 %"],
  ])("the lower bound %d is told as %s", (share, text) => expect(plain(atLeastPercent(share))).toBe(text));

  test("a lower bound never promises more than it holds", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        const shown = Number(/[\d.]+/.exec(atLeastPercent(share))?.[0]);
        expect(shown).toBeLessThanOrEqual(share * 100 + 1e-7);
      }),
    );
  });

  test("small chances keep one decimal, and chosen risks all their digits", () => {
    expect([0.0284, 0.5, 0.0001, 0.99999].map(finePercent).map(plain)).toEqual([
      "2.8 %",
      "50.0 %",
      "less than 0.1 %",
      "more than 99.9 %",
    ]);
    expect([0.95, 1 - 0.05, 1 - 0.001, 0.05].map(chosenPercent).map(plain)).toEqual(["95 %", "95 %", "99.9 %", "5 %"]);
  });
});

describe("other numbers", () => {
  test("d-prime has two decimals, its bound is rounded down, and guessing is 0", () => {
    expect([dPrimeText(1.8912), dPrimeText(0), dPrimeBound(0.8563), dPrimeBound(0)]).toEqual([
      "1.89",
      "0",
      "0.85",
      "0",
    ]);
  });
  test.each([
    [0.0103, { times: 1, of: 100 }],
    [0.0284, { times: 3, of: 100 }],
    [0.0044, { times: 4, of: 1000 }],
    [0.00096, { times: 1, of: 1000 }],
    [0.5, { times: 50, of: 100 }],
    [0.000001, { times: 1, of: 1_000_000 }],
    [1e-9, null],
    [1, null],
  ])("%d as so many times", (p, times) => expect(timesIn(p)).toEqual(times));
  test("counts from ten thousand get a comma; short numbers lose empty decimals", () => {
    expect([wholeNumber(24), wholeNumber(9999), wholeNumber(10_000), wholeNumber(1_000_000)]).toEqual([
      "24",
      "9999",
      "10,000",
      "1,000,000",
    ]);
    expect([shortNumber(8), shortNumber(8.333)]).toEqual(["8", "8.3"]);
  });
});

describe("bounds from above are rounded up", () => {
  test.each([
    [0.3004, "at most 31 %"],
    [0.3, "at most 30 %"],
    [0.2996, "at most 30 %"],
    [0.0041, "at most 0.5 %"],
    [1, "at most 100 %"],
    [0, "at most 0 %"],
  ])("%d is %s", (share, text) => expect(plain(atMostPercent(share))).toBe(text));
  test("never less than the share itself", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1, noNaN: true }), (share) => {
        const [, shown = "0"] = /at most ([\d.]+)/.exec(plain(atMostPercent(share))) ?? [];
        expect(Number(shown) / 100).toBeGreaterThanOrEqual(share - 1e-9);
      }),
    );
  });
  test.each([
    [1.1801, "1.19"],
    [1.18, "1.18"],
    [0, "0"],
  ])("d-prime %d is %s", (value, text) => expect(dPrimeAtMost(value)).toBe(text));
});

describe("points of a scale", () => {
  test.each([
    [11.883, 1, "11.9"],
    [-5.24, 1, "−5.2"],
    [0, 1, "0.0"],
    [0.031, 1, "0.03"],
    [-0.031, 1, "−0.03"],
    [0.004, 2, "0.004"],
    [1234.56, 1, "1234.6"],
  ])("%d with %d decimals is %s", (value, decimals, text) => expect(points(value, decimals)).toBe(text));
  test("never 0 for what is not 0, and never on the other side of it", () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 100, noNaN: true }), (value) => {
        fc.pre(Math.abs(value) > 1e-15);
        const shown = Number(points(value).replace("−", "-"));
        expect(Math.sign(shown)).toBe(Math.sign(value));
      }),
    );
  });
  test.each([
    [100, 1],
    [50, 1],
    [9, 2],
    [1, 2],
    [0.5, 3],
    [0, 1],
  ])("values %d apart get %d decimals", (span, decimals) => expect(decimalsFor(span)).toBe(decimals));
  test.each([
    [10.4716, "10.47"],
    [999.994, "999.99"],
    [12345.6, "12,346"],
  ])("a test statistic of %d is %s", (value, text) => expect(statistic(value)).toBe(text));
});
