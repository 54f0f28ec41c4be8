import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { describeLedger } from "../../src/analysis/describe-ledger.ts";
import { ledgerResult } from "../../src/analysis/ledger.ts";
import { refusalsOf } from "../../src/analysis/ledger-check.ts";
import { type Ledger, ledger as ledgerSchema, type Weighing } from "../../src/model/ledger.ts";
import { refusedText } from "../../src/words/en/weighing-refused.ts";
import { ledgerOf, scenarioRows, weighed } from "./ledger-example.ts";

const ledgerWith = (...weighings: Weighing[]): Ledger => {
  const ledger = ledgerOf([[weighings.map(({ grams }) => grams)]]);
  return { ...ledger, batches: ledger.batches.map((batch) => ({ ...batch, weighings })) };
};
const resultOf = (ledger: Ledger) => ledgerResult(ledger, 0.95, "test");
const stepsOf = (...weighings: Weighing[]) => resultOf(ledgerWith(...weighings)).batches[0]?.steps ?? [];
const refused = (...weighings: Weighing[]) => refusalsOf(ledgerWith(...weighings));

describe("liquid that was added", () => {
  test("by hand: 100 g raw, 20 g added, 105 g cooked, 90 g rested", () => {
    const [, cooked, rested] = stepsOf(weighed("100.0"), weighed("105.0", { added: "20.0" }), weighed("90.0"));
    // 100 + 20 - 105 = 15 g of 100 g; 105 - 90 = 15 g of 105 g; 100 + 20 - 90 = 30 g of 100 g raw; 90 of 100 are left
    expect(cooked).toMatchObject({ lossGrams: 15, lossPercent: 15, totalLossPercent: 15, yieldPercent: 105 });
    expect(rested).toMatchObject({ lossGrams: 15, totalLossPercent: 30, yieldPercent: 90 });
    expect(rested?.lossPercent).toBeCloseTo(100 / 7, 12);
  });
  test("juice that was caught comes off what was lost of both: 15 g less 4 g", () => {
    const cooked = stepsOf(weighed("100.0"), weighed("105.0", { added: "20.0", drip: "4.0" }))[1];
    expect(cooked).toMatchObject({ dripLossPercent: 4, evaporativeLossPercent: 11 });
  });
  test("losses of all steps in grams are raw and all liquid less the last mass; the whole loss is that on raw", () => {
    const tenths = (least: number, most: number) => fc.integer({ min: least, max: most });
    const row = fc.tuple(
      tenths(1, 9_999_999),
      fc.array(fc.tuple(tenths(1, 9_999_999), tenths(0, 9_999_999)), { minLength: 3, maxLength: 3 }),
    );
    const text = (value: number) => (value / 10).toFixed(1);
    fc.assert(
      fc.property(row, ([raw, later]) => {
        const steps = stepsOf(
          weighed(text(raw)),
          ...later.map(([grams, added]) => weighed(text(grams), { added: added === 0 ? "" : text(added) })),
        );
        const lost = steps.reduce((total, { lossGrams }) => total + Math.round((lossGrams ?? 0) * 10), 0);
        const added = later.reduce((total, [, liquid]) => total + liquid, 0);
        const gone = raw + added - (later.at(-1)?.[0] ?? 0);
        expect(lost).toBe(gone);
        const whole = (100 * gone) / raw;
        expect(Math.abs((steps.at(-1)?.totalLossPercent ?? Number.NaN) - whole)).toBeLessThanOrEqual(
          Math.abs(whole) * 1e-12,
        );
      }),
    );
  });
  test("the mass may grow by it and by what the balance may err, and by no more unless there is a reason", () => {
    expect(refused(weighed("100.0"), weighed("120.0", { added: "20.0" }))).toEqual([]);
    // three readings, half a tenth each
    expect(refused(weighed("100.0"), weighed("120.1", { added: "20.0" }))).toEqual([]);
    const [gain] = refused(weighed("100.0"), weighed("120.2", { added: "20.0" }));
    expect(gain).toMatchObject({ what: "gain", step: 1, added: 20, after: 120.2 });
    if (gain) expect(refusedText(gain)).toContain("20 g of liquid");
    expect(refused(weighed("100.0"), weighed("130.0", { added: "20.0", gainReason: "floured" }))).toEqual([]);
  });
  test("more than ten times the mass may be there where that much was poured on; kilograms typed for grams may not", () => {
    expect(refused(weighed("100.0"), weighed("1000.0", { added: "900.0" }))).toEqual([]);
    expect(refused(weighed("100.0"), weighed("110.0", { added: "20000" }))).toMatchObject([{ what: "thousandfold" }]);
  });
  test("juice is held against mass and liquid", () => {
    expect(refused(weighed("100.0"), weighed("105.0", { added: "20.0", drip: "15.0" }))).toEqual([]);
    expect(refused(weighed("100.0"), weighed("105.0", { added: "20.0", drip: "15.4" }))).toMatchObject([
      { what: "drip-above-loss", lost: 15 },
    ]);
  });
  test("none before the first weighing, and none without a mass", () => {
    expect(refused(weighed("100.0", { added: "5.0" }), weighed("90.0"))).toMatchObject([
      { step: 0, what: "added-first" },
    ]);
    expect(refused(weighed("100.0"), weighed("", { added: "5.0" }))).toMatchObject([{ step: 1, what: "no-grams" }]);
  });
  test("the result says how it is counted, and does not say that such losses compound", () => {
    const text = describeLedger(
      resultOf(ledgerWith(weighed("100.0"), weighed("105.0", { added: "20.0" }), weighed("90.0"))),
    );
    expect(text.found.at(-1)).toMatch(/^Liquid was added/);
    expect(text.tables.at(-1)?.note).toBe("");
    const plain = describeLedger(resultOf(ledgerOf(scenarioRows)));
    expect(plain.found.join(" ")).not.toMatch(/Liquid/);
    expect(plain.tables.at(-1)?.note).toMatch(/compound/);
  });
  test("a ledger stored before there were such fields is one without them", () => {
    const ledger = ledgerOf(scenarioRows);
    const older = JSON.parse(
      JSON.stringify(ledger, (key, value) => (["added", "minutes", "celsius"].includes(key) ? undefined : value)),
    );
    expect(JSON.stringify(older)).not.toContain("celsius");
    expect(ledgerSchema.parse(older)).toEqual(ledger);
  });
});

describe("when after the heat and how hot it was weighed", () => {
  const said = (...more: Partial<Weighing>[]): Ledger => {
    const ledger = ledgerOf([
      [
        ["100.0", "80.0"],
        ["100.0", "81.0"],
      ],
      [
        ["100.0", "82.0"],
        ["100.0", "83.0"],
      ],
    ]);
    return {
      ...ledger,
      batches: ledger.batches.map((batch, at) => ({
        ...batch,
        weighings: batch.weighings.map((each, step) => (step === 1 && each ? { ...each, ...more[at] } : each)),
      })),
    };
  };
  const warned = (...more: Partial<Weighing>[]) =>
    resultOf(said(...more)).warnings.filter(({ what }) => what === "protocol-differs");
  const all = (of: "minutes" | "celsius", ...values: string[]) => values.map((value) => ({ [of]: value }));

  test("nothing is warned of where nobody or everybody says it alike", () => {
    expect(warned()).toEqual([]);
    expect(warned(...all("minutes", "5", "5", "7", "7"))).toEqual([]);
    expect(warned(...all("celsius", "60.0", "62.0", "66.0", "66.0"))).toEqual([]);
  });
  test("some say it and others do not: one warning of the step", () => {
    expect(warned({ minutes: "5", celsius: "60" }, { minutes: "5" }, { minutes: "5" }, { minutes: "5" })).toEqual([
      { what: "protocol-differs", step: "cooked", partly: ["celsius"], minutes: null, celsius: null },
    ]);
  });
  test("means of the processes more than 2 minutes or 5 degrees apart (our choice, no source)", () => {
    const both = [
      { minutes: "5", celsius: "-1.0" },
      { minutes: "6", celsius: "1" },
    ];
    const later = [
      { minutes: "7.5", celsius: "5.1" },
      { minutes: "7.6", celsius: "5.1" },
    ];
    const [warning] = warned(...both, ...later);
    if (warning?.what !== "protocol-differs") throw new Error("no warning");
    expect(warning.minutes?.least).toBe(5.5);
    expect(warning.minutes?.most).toBeCloseTo(7.55, 12);
    expect(warning.celsius).toEqual({ least: 0, most: 5.1 });
    const { notShown } = describeLedger(resultOf(said(...both, ...later)));
    expect(notShown.join(" ")).toMatch(/on average .* our own choice/);
  });
  test("that it is not recorded is said only where nothing of it is", () => {
    const sentence = /is not recorded: a loss depends on both/;
    expect(describeLedger(resultOf(said())).notShown.join(" ")).toMatch(sentence);
    expect(describeLedger(resultOf(said(...all("minutes", "5", "5", "5", "5")))).notShown.join(" ")).not.toMatch(
      sentence,
    );
  });
});
