import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { friedman, tailOf } from "../../src/analysis/friedman.ts";
import { page } from "../../src/analysis/page.ts";
import { criticalDifference, rangeTest } from "../../src/analysis/rank-range.ts";
import { distinctOrders, midranks, rankSumsExact, type SumsChance, sumsOf } from "../../src/analysis/rank-sums.ts";
import byR from "../reference/friedman-by-r/values.json" with { type: "json" };
import published from "../reference/friedman-critical-published/values.json" with { type: "json" };
import computed from "../reference/friedman-exact-computed/values.json" with { type: "json" };
import pageTable from "../reference/page-critical-computed/values.json" with { type: "json" };
import differences from "../reference/rank-sum-differences-published/values.json" with { type: "json" };
import worked from "../reference/ranking-worked-examples/values.json" with { type: "json" };
import { relativeError } from "./reference.ts";

/** Everybody in one and the same order: without ties only the numbers of people and products matter. */
const untied = (people: number, products: number): number[][] =>
  Array.from({ length: people }, () => Array.from({ length: products }, (_, at) => at + 1));
const known = new Map<string, SumsChance[]>();
function waysOf(people: number, products: number): SumsChance[] {
  const name = `${people} ${products}`;
  const found = known.get(name) ?? rankSumsExact(untied(people, products), 1e8);
  if (!found) throw new Error(`not counted out: ${name}`);
  known.set(name, found);
  return found;
}
/** The statistic without ties, from its textbook form. */
const statisticOf = (sums: readonly number[], n: number): number =>
  (12 / (n * sums.length * (sums.length + 1))) * sums.reduce((sum, one) => sum + one * one, 0) -
  3 * n * (sums.length + 1);
/** The smallest statistic whose chance to be reached is at most alpha. */
function criticalOf(n: number, k: number, alpha: number): { value: number; tail: number } | null {
  const ways = waysOf(n, k);
  const measure = (sums: readonly number[]) => statisticOf(sums, n);
  const values = [...new Set(ways.map(({ sums }) => Number(measure(sums).toFixed(9))))].sort((a, b) => b - a);
  let found: { value: number; tail: number } | null = null;
  for (const value of values) {
    const tail = tailOf(ways, measure, value);
    if (tail > alpha) break;
    found = { value, tail };
  }
  return found;
}
/** As far as counting out stays cheap in a test. */
const affordable: Record<number, number> = { 3: 20, 4: 11, 5: 6, 6: 4 };
const columns = [
  [1, 3, 0.05],
  [2, 3, 0.01],
  [3, 4, 0.05],
  [4, 4, 0.01],
  [5, 5, 0.05],
  [6, 5, 0.01],
  [7, 6, 0.05],
  [8, 6, 0.01],
] as const;

describe("Friedman's critical values, counted out", () => {
  test("one-page published table (seen), its two misprints put right: every cell agrees to the digits printed", () => {
    let cells = 0;
    for (const row of published.rows) {
      const n = row[0] ?? 0;
      for (const [column, k, alpha] of columns) {
        if (n > (affordable[k] ?? 0)) continue;
        const misprint = published.computedCheck.find(
          (one) => one.n === n && one.k === k && Number(one.alpha) === alpha,
        );
        const printed = misprint ? misprint.exact : (row[column] ?? null);
        const found = criticalOf(n, k, alpha)?.value ?? null;
        if (printed === null || found === null) expect([n, k, alpha, found]).toEqual([n, k, alpha, printed]);
        else expect(Math.abs(found - printed)).toBeLessThan(0.0051);
        cells += 1;
      }
    }
    expect(cells).toBeGreaterThan(70);
  });

  test("enumeration in another program (06b family): statistics, ranges of rank sums and their chances", () => {
    for (const [k, n, alpha, statistic, tail, range, rangeTail] of computed.rows as [
      number,
      number,
      string,
      ...(number | null)[],
    ][]) {
      if (n > (affordable[k] ?? 0)) continue;
      const found = criticalOf(n, k, Number(alpha));
      expect([k, n, alpha, found === null]).toEqual([k, n, alpha, statistic === null]);
      if (found && statistic != null && tail != null) {
        expect(found.value).toBeCloseTo(statistic, 6);
        expect(relativeError(found.tail, tail)).toBeLessThan(1e-11);
      }
      const pairs = rangeTest(untied(n, k), waysOf(n, k));
      expect(criticalDifference(pairs, Number(alpha), 1, n * (k - 1))).toBe(range);
      if (range != null && rangeTail != null) expect(relativeError(pairs.pValue(range), rangeTail)).toBeLessThan(1e-11);
    }
  });
});

describe("differences of rank sums, all pairs: Newell and MacFarlane 1987, Table 1 (seen)", () => {
  const flagged = differences.computedCheck;
  test("counted out, the printed value or, where the print is the rounded-up large-sample one, the exact one above it", () => {
    for (const [n = 0, ...cells] of differences.rows) {
      if (n === null) continue;
      for (const [at, printed] of cells.entries()) {
        const k = at + 3;
        if (printed === null || n > (affordable[k] ?? 0)) continue;
        const exact = flagged.find((one) => one.n === n && one.k === k)?.exact ?? printed;
        const found = criticalDifference(rangeTest(untied(n, k), waysOf(n, k)), 0.05, 1, n * (k - 1));
        expect([n, k, found]).toEqual([n, k, exact]);
      }
    }
  });
  test("by the range of normal values, the printed value wherever the print is that one", () => {
    let cells = 0;
    for (const [n = 0, ...printedCells] of differences.rows) {
      if (n === null) continue;
      for (const [at, printed] of printedCells.entries()) {
        const k = at + 3;
        const flag = flagged.find((one) => one.n === n && one.k === k);
        if (printed === null || (flag && flag.ceilAsymptotic !== printed)) continue;
        const found = criticalDifference(rangeTest(untied(n, k), null), 0.05, 1, n * (k - 1));
        // small panels are printed exactly: there the two may differ
        if (flag || n > 14) expect([n, k, found]).toEqual([n, k, printed]);
        cells += 1;
      }
    }
    expect(cells).toBeGreaterThan(100);
  });
});

describe("Friedman with ties", () => {
  test.each(byR.rows)("$name: chi-square and its p, R's friedman.test", ({ ranks, chiSquare, df, pValue }) => {
    const found = friedman(ranks, null);
    expect(found).toMatchObject({ df, exact: false });
    expect(relativeError(found?.chiSquare ?? 0, chiSquare)).toBeLessThan(1e-12);
    expect(relativeError(found?.pValue ?? 0, pValue)).toBeLessThan(1e-11);
  });
  const [yellow, grass, reviewers] = worked.rows;
  test("worked examples: 34.51 on 5 (published), 8.097 with ties (published, from memory), 10.2", () => {
    expect(friedman(yellow?.raw ?? [], null)?.chiSquare.toFixed(2)).toBe("34.51");
    expect(sumsOf(yellow?.raw ?? [])).toEqual(yellow?.computed.rankSums);
    expect(friedman(grass?.raw ?? [], null)?.chiSquare).toBeCloseTo(8.097345132743, 11);
    expect(friedman(reviewers?.raw ?? [], null)?.chiSquare).toBeCloseTo(10.2, 12);
  });
});

describe("Page's L", () => {
  test("counted out in another program: smallest L at 5, 1 and 0.1 % and its chance, 3 to 6 products", () => {
    let cells = 0;
    for (const row of pageTable.rows) {
      const [k, n] = [row[0] ?? 0, row[1] ?? 0];
      if (k > 6 || n > 12) continue;
      for (const at of [2, 4, 6]) {
        const [least, tail] = [row[at], row[at + 1]];
        if (least == null || tail == null) continue;
        expect(relativeError(tailAtLeast(n, k, least), tail)).toBeLessThan(1e-11);
        cells += 1;
      }
    }
    expect(cells).toBeGreaterThan(50);
  });
  const example = (name: RegExp) => worked.rows.find((row) => name.test(row.name))?.raw ?? [];
  test("nine reviewers: L 252, chance 0.000705; cotton: L 158, chance 0.00249; Ames: L 257, p 0.0023 (published), 0.0035 by the curve", () => {
    // columns stand in the order that was predicted
    const reviewers = page(example(/reviewers/));
    expect(reviewers?.value).toBe(252);
    expect(relativeError(reviewers?.pValue ?? 0, 0.0007052986769967403)).toBeLessThan(1e-11);
    const cotton = page(example(/cotton/).map(midranks));
    expect(cotton?.value).toBe(158);
    expect(relativeError(cotton?.pValue ?? 0, 0.002492476851851852)).toBeLessThan(1e-11);
    const ames = example(/Ames/).map(midranks);
    expect(page(ames)).toMatchObject({ value: 257, exact: true });
    expect(page(ames)?.pValue.toFixed(4)).toBe("0.0023");
    expect(page(ames, 0)).toMatchObject({ value: 257, exact: false });
    expect(page(ames, 0)?.pValue.toFixed(4)).toBe("0.0035");
  });
});

/** Chance of an L of at least so much, through a panel that has it: people in order, some of them turned round. */
function tailAtLeast(n: number, k: number, least: number): number {
  const up = Array.from({ length: k }, (_, at) => at + 1);
  const partOf = (order: readonly number[]): number => order.reduce((sum, rank, at) => sum + rank * (at + 1), 0);
  const orders = distinctOrders(up);
  const panel = untied(n, k);
  // step by step down from the highest L: each person takes the order that comes nearest
  let over = n * partOf(up) - least;
  for (let person = 0; person < n && over > 0; person++) {
    const lower = orders.filter((order) => partOf(up) - partOf(order) <= over);
    const taken = lower.toSorted((one, other) => partOf(one) - partOf(other))[0] ?? up;
    panel[person] = taken;
    over -= partOf(up) - partOf(taken);
  }
  const found = page(panel, 1e9);
  expect(found?.value).toBe(least);
  return found?.pValue ?? Number.NaN;
}

describe("all three against every order of everybody, gone through one by one", () => {
  const values = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 3, maxLength: 3 });
  const panels = fc
    .array(values, { minLength: 2, maxLength: 4 })
    .map((rows) => rows.map(midranks))
    .filter((rows) => rows.some((row) => new Set(row).size > 1));

  test("chances are those of the whole list, ties included", () => {
    fc.assert(
      fc.property(panels, (people) => {
        const ways = rankSumsExact(people);
        const all = everyPanel(people);
        const share = (measure: (panel: number[][]) => number) => {
          const observed = measure(people);
          return all.filter((panel) => measure(panel) >= observed - 1e-9).length / all.length;
        };
        const apart = (panel: number[][]) => sumsOf(panel).reduce((sum, one) => sum + one * one, 0);
        const range = (panel: number[][]) => Math.max(...sumsOf(panel)) - Math.min(...sumsOf(panel));
        const trend = (panel: number[][]) => sumsOf(panel).reduce((sum, one, at) => sum + one * (at + 1), 0);
        expect(friedman(people, ways)?.pValue).toBeCloseTo(share(apart), 11);
        expect(rangeTest(people, ways).pValue(range(people))).toBeCloseTo(share(range), 11);
        expect(page(people)?.pValue).toBeCloseTo(share(trend), 11);
      }),
      { numRuns: 30 },
    );
  });
});

/** Every panel in which each person keeps the ranks and changes their order, each as often as the other. */
function everyPanel(people: readonly number[][]): number[][][] {
  const all = [
    [0, 1, 2],
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ];
  return people.reduce<number[][][]>(
    (panels, ranks) => panels.flatMap((panel) => all.map((order) => [...panel, order.map((from) => ranks[from] ?? 0)])),
    [[]],
  );
}
