import { expect, test } from "vitest";
import { massOf, refusalsOf } from "../../src/analysis/ledger-check.ts";
import type { Weighing } from "../../src/model/ledger.ts";
import { ledgerOf, scenarioRows, weighed } from "./ledger-example.ts";

/** What is refused of one batch weighed so, with a balance that shows tenths of a gram. */
function refused(...weighings: (Weighing | null)[]) {
  const ledger = ledgerOf([[weighings.map((each) => each?.grams ?? "")]]);
  return refusalsOf({ ...ledger, batches: ledger.batches.map((batch) => ({ ...batch, weighings })) });
}

test("the scenario's ledger can be, paired or not", () => {
  expect(refusalsOf(ledgerOf(scenarioRows))).toEqual([]);
  expect(refusalsOf(ledgerOf(scenarioRows, {}, true))).toEqual([]);
});

test("tare comes off in decimals: 1520.0 less 22.4 is 1497.6", () => {
  expect(massOf(weighed("1520.0", { tare: "22.4" }))).toBe(1497.6);
  expect(massOf(weighed("0.3", { tare: "0.1" }))).toBe(0.2);
});

test("a tare above the gross mass, or equal to it", () => {
  expect(refused(weighed("20.0", { tare: "22.4" }))).toMatchObject([{ batch: 0, step: 0, what: "tare-above-gross" }]);
  expect(refused(weighed("22.4", { tare: "22.4" }))).toMatchObject([{ what: "no-mass" }]);
  expect(refused(weighed("0"))).toMatchObject([{ what: "no-mass" }]);
});

test("more mass than before: within what the balance may err it stands, beyond it a reason is asked", () => {
  expect(refused(weighed("99.97"), weighed("99.97"))).toEqual([]);
  // two readings, half a tenth each
  expect(refused(weighed("100.0"), weighed("100.1"))).toEqual([]);
  expect(refused(weighed("100.0"), weighed("100.2"))).toMatchObject([
    { step: 1, what: "gain", before: 100, after: 100.2 },
  ]);
  // with dishes four readings
  const dish = { tare: "10.0" };
  expect(refused(weighed("110.0", dish), weighed("110.2", dish))).toEqual([]);
  expect(refused(weighed("100"), weighed("101.2", { gainReason: "marinated" }))).toEqual([]);
});

test("a step that was not weighed does not hide a gain since the one before it", () => {
  expect(refused(weighed("100.0"), null, weighed("120.0"))).toMatchObject([{ step: 2, what: "gain", since: "raw" }]);
});

test("kilograms for grams: within a batch, and of one batch among others", () => {
  expect(refused(weighed("1497.0"), weighed("1.180"))).toMatchObject([{ step: 1, what: "thousandfold" }]);
  expect(refused(weighed("1.497"), weighed("1180.3"))).toMatchObject([{ step: 1, what: "thousandfold" }]);
  const rows = [...(scenarioRows[0] ?? []), ["1.497", "1.180"]];
  expect(refusalsOf(ledgerOf([rows]))).toMatchObject([{ batch: 4, step: 0, what: "thousandfold", beside: 1503.4 }]);
});

test("more juice caught than mass lost", () => {
  expect(refused(weighed("150.0"), weighed("112.5", { drip: "37.6" }))).toEqual([]);
  expect(refused(weighed("150.0"), weighed("112.5", { drip: "38.0" }))).toMatchObject([
    { step: 1, what: "drip-above-loss", drip: 38, lost: 37.5 },
  ]);
});

test("a reason lets a gain stand, and nothing else: neither another unit nor more juice than there was", () => {
  const why = { gainReason: "marinated" };
  expect(refused(weighed("100.0"), weighed("350.0", why))).toEqual([]);
  expect(refused(weighed("100.0"), weighed("1000.0", why))).toMatchObject([{ step: 1, what: "tenfold", beside: 100 }]);
  expect(refused(weighed("150.0"), weighed("112.5", { ...why, drip: "38.0" }))).toMatchObject([
    { what: "drip-above-loss", drip: 38, lost: 37.5 },
  ]);
  expect(refused(weighed("150.0"), weighed("160.0", { ...why, drip: "20.0" }))).toEqual([]);
  expect(refused(weighed("150.0"), weighed("160.0", { ...why, drip: "150.2" }))).toMatchObject([
    { what: "drip-above-loss", lost: 150 },
  ]);
});

test("two batches of one process under one name of a pair", () => {
  const ledger = ledgerOf(scenarioRows, {}, true);
  const twice = ledger.batches.map((batch, at) => (at === 1 ? { ...batch, pair: "1" } : batch));
  expect(refusalsOf({ ...ledger, batches: twice })).toEqual([
    { batch: 1, step: 0, what: "pair-twice", pair: "1", other: "1" },
  ]);
});
