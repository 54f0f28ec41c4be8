import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { resultOfRankRows } from "../../src/analysis/analyse-rank.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { type RankInput, rankStatistics } from "../../src/analysis/rank.ts";
import type { RankRow } from "../../src/model/record.ts";
import { result as resultSchema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { report } from "../../src/words/en/report.ts";
import { problemOf } from "../problem-of.ts";
import byR from "../reference/friedman-by-r/values.json" with { type: "json" };
import { relativeError } from "./reference.ts";

/** What a ranking's statistics say, beside the tests themselves: who counts, what decides, what is said of it. */

const products = ["current", "new", "rested", "held"];
const demo = byR.rows[0]?.ranks ?? [];
const input = (ranks: readonly (readonly (number | null)[])[], changes: Partial<RankInput> = {}): RankInput => ({
  ...{ alpha: 0.05, property: "Juiciness", least: "least juicy", most: "most juicy", products },
  ...{ predicted: [], positions: [], keyMatches: true },
  panelists: ranks.map((own, at) => ({ panelist: `seat ${at + 1}`, ranks: own })),
  ...changes,
});
const rowsOf = (ranks: readonly (readonly (number | null)[])[]): RankRow[] =>
  ranks.flatMap((own, at) =>
    own.map((rank, product) => ({ panelist: `p${at + 1}`, product: products[product] ?? "", rank })),
  );
const resultOf = (ranks: readonly (readonly (number | null)[])[], predicted: string[] = []) =>
  resultOfRankRows({ alpha: 0.05, predicted }, rowsOf(ranks), "test");

describe("twelve orders of four products", () => {
  const found = rankStatistics(input(demo));
  test("rank sums 20, 36, 39, 25 and Friedman 12.1 on 3 as the scenario has them; p by chi-square as R", () => {
    expect(found.sums.map(({ sum }) => sum)).toEqual([20, 36, 39, 25]);
    expect(found.friedman).toMatchObject({ chiSquare: 12.1, df: 3, exact: true });
    expect(relativeError(found.friedman?.pValueChiSquare ?? 0, byR.rows[0]?.pValue ?? 1)).toBeLessThan(1e-11);
    expect(found).toMatchObject({ outcome: "reached", people: 12, judgments: 48, page: null, incomplete: [] });
  });
  test("two sums differ from 17 on (Newell and MacFarlane 1987, 12 people, 4 products), and intervals say the same", () => {
    expect(found).toMatchObject({ criticalDifference: 17, pairsExact: true });
    for (const { difference, low, high, pValueAdjusted } of found.pairs) {
      expect([high - difference, difference - low]).toEqual([16, 16]);
      expect(low > 0 || high < 0).toBe(pValueAdjusted <= 0.05);
      expect(Math.abs(difference) >= 17).toBe(pValueAdjusted <= 0.05);
    }
  });
  test("an order that was expected decides: upward it is shown, downward the same ranks show nothing", () => {
    const upward = rankStatistics(input(demo, { predicted: [0, 3, 1, 2] }));
    const downward = rankStatistics(input(demo, { predicted: [2, 1, 3, 0] }));
    // L by hand: 1 x 20 + 2 x 25 + 3 x 36 + 4 x 39, and the other way round
    expect([upward.page?.value, upward.outcome]).toEqual([334, "reached"]);
    expect([downward.page?.value, downward.outcome]).toEqual([266, "not-reached"]);
    expect(downward.friedman).toEqual(upward.friedman);
  });
  test("six people for a verdict; none without the key; none of one order that nobody has", () => {
    expect(rankStatistics(input(demo.slice(0, 5))).outcome).toBe("too-few");
    expect(rankStatistics(input(demo, { keyMatches: false })).outcome).toBe("withheld");
    expect(rankStatistics(input([]))).toMatchObject({ outcome: "too-few", test: "no-ranks", friedman: null });
    const shared = rankStatistics(input(Array(7).fill([1, 1, 1, 1])));
    expect(shared).toMatchObject({ outcome: "too-few", test: "all-shared", sharing: 7, pairs: [] });
  });
  test("who leaves out a product is left out and named; places that are shared become midranks", () => {
    const found = rankStatistics(input([...demo, [1, 2, null, 3], [1, 1, 2, 3]]));
    expect(found.incomplete).toEqual([{ panelist: "seat 13", missing: ["rested"] }]);
    expect(found).toMatchObject({ people: 13, sharing: 1 });
    expect(found.panelists.at(-1)?.ranks).toEqual([1.5, 1.5, 3, 4]);
    expect(found.sums.map(({ sum }) => sum)).toEqual([21.5, 37.5, 42, 29]);
  });
});

describe("what is said", () => {
  const saidOf = (...args: Parameters<typeof resultOf>) => describeResult(resultOf(...args), report);
  test("a difference: the verdict first, with the pair that stands out", () => {
    const said = saidOf(demo);
    expect(said.verdict).toMatch(
      /^Taken together, this panel ranked .* apart.*12\.10 on 3.*stand out: “rested” over “current”\. The others were not shown to differ, which does not make them alike\.$/s,
    );
    expect(said.size).toContain("10 of 12 people put “rested” above “current”");
    expect(said.parts.map(({ id }) => id)).toEqual(["rank-sums", "rank-pairs", "rank-places"]);
  });
  test("no clear difference names the largest that is not ruled out, and never says the same", () => {
    const said = saidOf(demo.map((own, at) => own.map((_, product) => ((product + at) % 4) + 1)));
    expect(said.verdict).toMatch(/no clear difference.*may still lie up to 16 apart, where 36 is the most/s);
    expect([said.verdict, said.size, ...said.caveats].join(" ")).not.toMatch(/\bthe same\b|\balike\b|\bequal\b/);
  });
  test("an order expected, a file with gaps and with shared places, and no one at all", () => {
    const panels = [
      saidOf(demo, ["current", "held", "new", "rested"]),
      saidOf([...demo, [1, null, 2, 3]]),
      saidOf(demo.map(() => [1, 2, 2, 4])),
      saidOf([[null, null, null, null]]),
      saidOf([[1, 2, 3, 4]]),
    ];
    for (const said of panels) {
      const text = JSON.stringify(said);
      expect(text).not.toMatch(/undefined|NaN|Infinity/);
      expect(said.verdict).toMatch(/\.$/);
    }
    expect(panels[0]?.verdict).toContain("rise as expected, “current”, “held”, “new”, “rested”: Page’s L is 334");
    expect(panels[1]?.caveats.join(" ")).toContain("p13 did not rank every product");
    expect(panels[3]?.verdict).toContain("nobody ranked every product");
  });
  test("a result fits its schema; an order that names a product twice is refused", () => {
    const result = resultOf(demo, ["current", "held", "new", "rested"]);
    expect(read(resultSchema, result)).toEqual(result);
    expect(problemOf(() => resultOf(demo, ["current", "new", "new", "held"])).code).toBe("analysis/predicted-order");
    expect(problemOf(() => resultOf(demo, ["current", "new"])).code).toBe("analysis/predicted-order");
  });
});

const orders = fc.shuffledSubarray([1, 2, 3, 4], { minLength: 4, maxLength: 4 });
const panels = fc.array(orders, { minLength: 1, maxLength: 9 });

test("products under other names and in another order, and people in another order, change no test", () => {
  fc.assert(
    fc.property(panels, orders, (ranks, order) => {
      const one = rankStatistics(input(ranks, { predicted: [0, 1, 2, 3] }));
      const moved = ranks.toReversed().map((own) => order.map((from) => own[from - 1] ?? 0));
      const other = rankStatistics(
        input(moved, {
          products: order.map((from) => `product ${from}`),
          predicted: [1, 2, 3, 4].map((name) => order.indexOf(name)),
        }),
      );
      expect(other.friedman?.chiSquare).toBeCloseTo(one.friedman?.chiSquare ?? -1, 10);
      expect(other.friedman?.pValue).toBeCloseTo(one.friedman?.pValue ?? -1, 12);
      expect(other.page?.value).toBe(one.page?.value);
      expect(other.page?.pValue).toBeCloseTo(one.page?.pValue ?? -1, 12);
      expect(other.criticalDifference).toBe(one.criticalDifference);
      const adjusted = ({ pairs }: typeof one) => pairs.map(({ pValueAdjusted }) => pValueAdjusted).sort();
      for (const [at, p] of adjusted(other).entries()) expect(p).toBeCloseTo(adjusted(one)[at] ?? -1, 12);
    }),
    { numRuns: 40 },
  );
});
