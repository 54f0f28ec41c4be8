import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { chewRefusalOf, gainOf } from "../../src/analysis/chew-portion.ts";
import { type ChewPlan, chewResult } from "../../src/analysis/chew-weigh.ts";
import { describeChew } from "../../src/analysis/describe-chew.ts";
import { chewPlan, chewRows, portion } from "./chew-example.ts";
import { massByR } from "./mass-reference.ts";
import { reference, relativeError } from "./reference.ts";

const resultOf = (rows = chewRows, plan: Partial<ChewPlan> = {}) => chewResult(rows, { ...chewPlan, ...plan }, "test");
const near = (found: readonly (number | null | undefined)[], truth: readonly number[]) => {
  expect(found.length).toBe(truth.length);
  found.forEach((value, at) => {
    expect(relativeError(value ?? Number.NaN, truth[at] ?? 0)).toBeLessThan(1e-9);
  });
};
const kinds = (rows = chewRows, plan: Partial<ChewPlan> = {}) => resultOf(rows, plan).warnings.map(({ what }) => what);

describe("gain of a portion, exact rationals (mass-arithmetic)", () => {
  const chew = z.object({
    sampleMass: z.string(),
    expectorateMass: z.string(),
    gained: z.number(),
    gainPct: z.number(),
  });
  const { rows } = reference("mass-arithmetic", z.object({ rows: z.tuple([z.unknown(), z.array(chew)]) }));
  test.each(rows[1])("$sampleMass g in, $expectorateMass g out: $gained g", (each) => {
    const gain = gainOf({ gramsIn: each.sampleMass, gramsOut: each.expectorateMass, cup: "", rinse: "" });
    expect(gain.grams).toBe(each.gained);
    expect(relativeError(gain.percent, each.gainPct)).toBeLessThan(5e-16);
  });
  const units = fc.integer({ min: 0, max: 99_999 });
  test("cup and rinse water come off, in decimals", () => {
    fc.assert(
      fc.property(units, units, units, (out, cup, rinse) => {
        const text = (units: number) => (units / 100).toFixed(2);
        const all = { gramsIn: "5.00", gramsOut: text(out + cup + rinse), cup: text(cup), rinse: text(rinse) };
        expect(gainOf(all)).toEqual(gainOf({ gramsIn: "5.00", gramsOut: text(out), cup: "", rinse: "" }));
      }),
    );
  });
  test("nothing is lost on the way: cup, portion, gain and rinse water make up the closed cup, to the last digit", () => {
    fc.assert(
      fc.property(units, fc.integer({ min: 1, max: 99_999 }), units, units, (after, portion, cup, rinse) => {
        const text = (value: number) => (value / 100).toFixed(2);
        const gain = gainOf({ gramsIn: text(portion), gramsOut: text(after), cup: text(cup), rinse: text(rinse) });
        expect(Math.round(gain.grams * 100) + portion + cup + rinse).toBe(after);
        expect(Math.abs((gain.percent * portion) / 100 - gain.grams * 100)).toBeLessThan(1e-6);
      }),
    );
  });
});

describe("the scenario's eight people, three repeats, against R's t.test (mass-by-r)", () => {
  const { chew } = massByR;
  test("people are the unit: paired difference of their means in percentage points, and the ratio after Fieller", () => {
    const [found] = resultOf().differences;
    const { estimate, low, high } = found?.percentagePoints ?? {};
    const { standardError, df, tValue, pValue } = found?.test ?? {};
    near([estimate, low, high, standardError, df, tValue, pValue], chew.difference);
    near([found?.ratio.estimate, found?.ratio.low, found?.ratio.high], chew.ratio);
    expect([found?.units, found?.design]).toEqual([[8, 8], "paired"]);
  });
  test("means with their intervals over people, not over bites", () => {
    for (const [at, product] of (["current", "new"] as const).entries()) {
      const mean = resultOf().means[at];
      near([mean?.gainPercent.estimate, mean?.gainPercent.low, mean?.gainPercent.high], chew[product]);
    }
  });
  test("one person alone: portions are the unit, and the words are about that person", () => {
    const found = resultOf(chewRows.filter(({ panelist }) => panelist === "p1"));
    const [difference] = found.differences;
    const { estimate, low, high } = difference?.percentagePoints ?? {};
    const { standardError, df, tValue, pValue } = difference?.test ?? {};
    near([estimate, low, high, standardError, df, tValue, pValue], chew.firstPersonAlone);
    near([difference?.ratio.estimate, difference?.ratio.low, difference?.ratio.high], chew.firstPersonRatio);
    expect(found.unit).toBe("portion");
    expect(describeChew(found).found[0]).toMatch(/^With this person /);
  });
});

describe("what is left out and what is warned of", () => {
  test("whoever had one of the two is named and not compared", () => {
    const found = resultOf(chewRows.filter(({ panelist, product }) => panelist !== "p8" || product === "new"));
    expect(found.differences[0]?.units).toEqual([7, 7]);
    expect(found.warnings).toEqual([{ what: "left-out", second: "new", panelists: ["p8"] }]);
  });
  test("repeats that differ between people count one mean each", () => {
    const found = resultOf(chewRows.filter(({ panelist, repeat }) => panelist !== "p1" || repeat === "1"));
    expect(found.panelists[0]?.gainPercent).toBe(26.9);
    expect(found.warnings).toEqual([{ what: "repeats-differ", fewest: 1, most: 3 }]);
  });
  test("five people: numbers and no verdict", () => {
    const found = resultOf(chewRows.filter(({ panelist }) => !["p1", "p2", "p3"].includes(panelist)));
    expect(found.warnings).toEqual([{ what: "few-people", people: 5, least: 6 }]);
    expect(describeChew(found).found[0]).toMatch(/^In numbers only: /);
  });
  test("a control is shown, and not compared", () => {
    const wax = chewRows.map((row) => ({ ...row, product: "wax", gainPercent: 6.2 }));
    const found = resultOf([...wax.slice(0, 3), ...chewRows], { control: "wax" });
    expect(found.products).toEqual(["current", "new"]);
    expect(found.differences.length).toBe(1);
    expect(describeChew(found).found.at(-1)).toMatch(/control “wax” gained 6\.2/);
  });
  test("a second more on 15 at 25.4 % is 1.7 points, if mass rises evenly: more than a quarter of 2.9", () => {
    const longer = chewRows.map((row) => (row.product === "new" ? { ...row, seconds: 16 } : row));
    const [warning, ...others] = resultOf(longer).warnings;
    if (warning?.what !== "seconds-differ") throw new Error("no warning");
    expect(warning.points).toBeCloseTo(25.4208333 / 15, 6);
    expect(others).toEqual([]);
    expect(kinds(chewRows.map((row, at) => (at === 0 ? { ...row, seconds: 16.2 } : row)))).toEqual(["seconds-off"]);
    expect(kinds(chewRows.map((row, at) => (at === 0 ? { ...row, seconds: null } : row)))).toEqual(["seconds-unknown"]);
  });
  test("0.1 g on 5 g is 4 points, too coarse for 3; 0.01 g is not", () => {
    const rows = ["a", "b"].flatMap((product) =>
      ["1", "2", "3"].map((repeat, at) => portion("p", product, repeat, ["5.00", `${6 + at}.00`])),
    );
    const [, warning] = resultOf(rows, { balanceStep: "0.1", matters: 3 }).warnings;
    if (warning?.what !== "coarse") throw new Error("no warning");
    expect(warning.points).toBeCloseTo(4, 12);
    expect(kinds(rows, { balanceStep: "0.01", matters: 3 })).toEqual(["one-person"]);
  });
  test("a gain that may be none bounds no ratio", () => {
    const around = chewRows.map((row) => ({ ...row, gainPercent: (row.gainPercent ?? 0) - 25 }));
    const found = resultOf(around);
    expect([found.differences[0]?.ratio.low, found.differences[0]?.ratio.high]).toEqual([null, null]);
    expect(describeChew(found).found.join(" ")).toMatch(/cannot be said: that gain cannot be told from none/);
  });
});

test("a product that loses in the mouth loses in words too, is no number of times another, and two people are no verdict", () => {
  const rows = ["p1", "p2"].flatMap((panelist, at) => [
    portion(panelist, "a", "1", ["5.00", ["6.85", "6.95"][at] ?? ""]),
    portion(panelist, "b", "1", ["4.02", ["3.61", "3.71"][at] ?? ""]),
  ]);
  const said = describeChew(resultOf(rows, { matters: 2 })).found.join(" ");
  // 37 and 39 % gained; 10.199 and 7.711 % lost (mass-arithmetic has the first of each)
  expect(said.replace(/\u00a0/g, " ")).toMatch(/portions of “a” gained 38\.0 %, those of “b” lost 9\.0 %/);
  expect(said).toMatch(/^In numbers only: /);
  expect(said).not.toMatch(/times|was to matter/);
  const alone = describeChew(resultOf(rows.slice(0, 2)));
  expect(alone.found[0]).toMatch(/^In numbers only: .*There is no interval/);
  expect(alone.tables.map(({ note }) => note)).toEqual(["", ""]);
});

test("portions that cannot be", () => {
  const refusal = (...readings: [string, string, string?, string?]) =>
    chewRefusalOf(portion("p", "a", "1", readings), "");
  expect(refusal("5.00", "6.31")).toBeNull();
  expect(refusal("4.02", "3.61")).toBeNull();
  expect(refusal("5.00", "12.40", "12.40")).toBeNull();
  expect(refusal("0.00", "3.61")).toEqual({ what: "no-portion" });
  expect(refusal("5.00", "12.00", "12.40")).toMatchObject({ what: "cup-above-out", gramsOut: 12, less: 12.4 });
  expect(refusal("5.00", "36.31")).toMatchObject({ what: "too-much", gramsBack: 36.31 });
  const elsewhere = (gainPercent: number) =>
    chewRefusalOf({ ...portion("p", "a", "1", ["1", "1"]), readings: null, gainPercent }, "");
  expect(elsewhere(-99)).toBeNull();
  expect(elsewhere(-101)).toEqual({ what: "below-nothing", percent: -101 });
  expect(elsewhere(2490)).toMatchObject({ what: "too-much" });
});
