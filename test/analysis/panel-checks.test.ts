import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { correlation } from "../../src/analysis/moments.ts";
import { panelChecks } from "../../src/analysis/panel-checks.ts";
import { blockSet } from "./block-data.ts";
import { reference, relativeError } from "./reference.ts";

// Computed by R (cor, lm and anova; script beside the values) from open data sets and the demo's marks.

const optional = z.nullable(z.number());
const rows = z.array(z.tuple([z.string(), z.number(), optional, optional, optional, optional])).check(z.minLength(4));
const byR = reference("panel-checks-by-r", z.object({ "fish-corrected": rows, wine: rows, juiciness: rows }));

describe.each(["fish-corrected", "wine", "juiciness"] as const)("%s, panelist by panelist as R has it", (name) => {
  const set = blockSet(name);
  const found = new Map(panelChecks(set.rows, set.products).map((check) => [check.panelist, check]));

  test.each(byR[name])("%s", (panelist, range, agreement, deviation, fValue, pValue) => {
    const own = found.get(panelist);
    const near = (got: number | null | undefined, truth: number | null) => {
      if (truth === null) return expect(got).toBeNull();
      expect(relativeError(got ?? Number.NaN, truth)).toBeLessThan(1e-11);
    };
    near(own?.range, range);
    near(own?.agreement, agreement);
    near(own?.repeatDeviation, deviation);
    near(own?.separates?.fValue ?? null, fValue);
    near(own?.separates?.pValue ?? null, pValue);
  });
});

const mark = (panelist: string, product: string, value: number) => ({ panelist, product, value });

test("what cannot be said is null, never NaN: one product, two products, nobody else, no spread", () => {
  const products = ["a", "b", "c"];
  expect(panelChecks([mark("one", "a", 50)], products)).toEqual([
    { panelist: "one", range: null, agreement: null, repeatDeviation: null, separates: null },
  ]);
  const alone = products.map((product, at) => mark("one", product, 10 * at));
  expect(panelChecks(alone, products)[0]).toMatchObject({ range: 20, agreement: null });
  const flat = products.map((product) => mark("two", product, 40));
  expect(panelChecks([...alone, ...flat], products)[1]).toMatchObject({ range: 0, agreement: null });
  // repeats without any difference: nothing to hold the products against
  const twice = [...alone, ...alone];
  expect(panelChecks(twice, products)[0]).toMatchObject({ repeatDeviation: 0, separates: null });
});

test("scores reversed on the line reverse the agreement, and nothing else", () => {
  const { rows, products } = blockSet("wine");
  const who = rows[0]?.panelist ?? "";
  const turned = rows.map((row) => (row.panelist === who ? { ...row, value: 100 - row.value } : row));
  const [before] = panelChecks(rows, products);
  const [after] = panelChecks(turned, products);
  expect(after?.agreement).toBeCloseTo(-(before?.agreement ?? 0), 12);
  expect(after?.range).toBeCloseTo(before?.range ?? 0, 10);
  expect(after?.separates?.fValue).toBeCloseTo(before?.separates?.fValue ?? 0, 9);
});

test("a correlation never leaves -1 to 1", () => {
  expect(correlation([0.1, 0.2, 0.3], [0.1, 0.2, 0.3])).toBe(1);
  expect(correlation([1, 1], [1, 2])).toBeNull();
});
