import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { type ScaleInput, scaleStatistics } from "../../src/analysis/scale.ts";
import type { Comparisons } from "../../src/model/plan.ts";
import { servedTerms } from "../../src/model/result-scale.ts";
import { reference, relativeError } from "./reference.ts";

// Computed by R (lme4, lmerTest, emmeans) from open data sets, whose marks go through the result as those of a panel do; script
// and versions beside the values. Tails of ranges and of Dunnett's comparisons are integrated there, since R's own are wrong at few
// degrees of freedom.

const number = z.number();
const spread = z.nullable(number);
const tested = z.tuple([number, number, number, number]);
const { sets } = reference(
  "mixed-lead-by-r",
  z.object({
    sets: z.record(
      z.string(),
      z.object({
        balanced: z.boolean(),
        products: z.array(z.string()).check(z.minLength(3)),
        terms: z.array(z.enum(servedTerms)),
        compare: z.enum(["all-pairs", "reference", "two-factors"]),
        singular: z.boolean(),
        product: tested,
        further: z.record(z.string(), tested),
        variances: z.object({ panelist: number, panelistProduct: spread, batch: spread, residual: number }),
        means: z.array(z.tuple([number, number, number])),
        contrasts: z.array(z.object({ name: z.string(), figures: z.array(number).check(z.length(7)) })),
        rows: z.array(z.array(z.string()).check(z.length(6))).check(z.minLength(20)),
      }),
    ),
  }),
);
type Set = (typeof sets)[string];

const comparisonsOf = ({ compare, products }: Set): Comparisons => {
  if (compare === "all-pairs") return { kind: compare };
  if (compare === "reference") return { kind: compare, product: products[0] ?? "" };
  const cells = products.map((product, at) => ({
    product,
    first: at < 2 ? ("one" as const) : ("two" as const),
    second: at % 2 === 0 ? ("one" as const) : ("two" as const),
  }));
  return {
    kind: compare,
    factors: [
      { name: "process", levels: ["dry oven", "steam first"] },
      { name: "looks", levels: ["seen", "masked"] },
    ],
    cells,
  };
};

const inputOf = (set: Set): ScaleInput => ({
  alpha: 0.05,
  products: set.products.map((name) => ({ id: name, name })),
  attributes: [{ attribute: "", moment: null, momentText: "", lowAnchor: "", highAnchor: "", inFamily: true }],
  values: set.rows.map(([panelist = "", product = "", place = "", session = "", batch = "", value], at) => ({
    attribute: 0,
    ...{ panelist, product, session, batch, chew: String(at) },
    place: place === "" ? null : Number(place),
    value: Number(value),
  })),
  curves: [],
  comparisons: comparisonsOf(set),
  terms: set.terms,
  perTray: null,
  scale: null,
  keyMatches: true,
});

const near = (got: number | null | undefined, truth: number, within: number) =>
  expect(Math.abs((got ?? Number.NaN) - truth)).toBeLessThanOrEqual(within);

describe.each(Object.entries(sets))("%s, by the result, against R", (_, set) => {
  const result = scaleStatistics(inputOf(set));
  const [attribute] = result.attributes;
  const mixed = attribute?.mixed;
  const sameTest = (found: typeof mixed | NonNullable<typeof mixed>["terms"][number], truth: Set["product"]) => {
    const [fValue, numeratorDf, denominatorDf, pValue] = truth;
    // an F near 0 is a difference of means that are nearly the same: an absolute digit is all there is
    near(found?.fValue, fValue, 1e-7 * Math.max(1, fValue));
    expect(found?.numeratorDf).toBe(numeratorDf);
    near(found?.denominatorDf, denominatorDf, 1e-4 * denominatorDf);
    expect(relativeError(found?.pValue ?? Number.NaN, pValue)).toBeLessThan(1e-3);
  };

  test("the mixed model leads unless marks are balanced; its F of products and of further terms", () => {
    expect(attribute?.leads).toBe(set.balanced ? "blocks" : "mixed");
    expect(attribute?.blocks?.balanced).toBe(set.balanced);
    sameTest(mixed, set.product);
    expect(mixed?.terms.map(({ term }) => (term === "position" ? "place" : term))).toEqual(Object.keys(set.further));
    for (const [at, truth] of Object.values(set.further).entries()) sameTest(mixed?.terms[at], truth);
    expect(mixed?.leftOut).toEqual([]);
    const p = set.balanced ? attribute?.blocks?.pValue : set.product[3];
    expect(result.outcome).toBe((p ?? 1) <= 0.05 ? "reached" : "not-reached");
  });
  test("variances to 1e-6 of the residual, and whether one is 0", () => {
    const { panelist, panelistProduct, batch, residual } = set.variances;
    expect(mixed?.vanished).toBe(set.singular);
    near(mixed?.variances.panelist, panelist, 1e-6 * residual);
    near(mixed?.variances.residual, residual, 1e-6 * residual);
    for (const [found, truth] of [
      [mixed?.variances.panelistProduct, panelistProduct],
      [mixed?.variances.batch, batch],
    ]) {
      if (truth == null) expect(found).toBeNull();
      else near(found, truth, 1e-6 * residual);
    }
  });
  test("estimated means", () => {
    for (const [at, [estimate, standardError, df]] of set.means.entries()) {
      const found = mixed?.means[at];
      near(found?.estimate, estimate, 1e-6 * standardError);
      expect(relativeError(found?.standardError ?? 0, standardError)).toBeLessThan(1e-6);
      near(found?.df, df, 1e-4 * df);
      if (!set.balanced) expect(attribute?.means[at]?.adjusted).toBe(found?.estimate);
    }
  });
});

describe.each(Object.entries(sets).filter(([, { balanced }]) => !balanced))(
  "%s, by the result, against R",
  (_, set) => {
    const [attribute] = scaleStatistics(inputOf(set)).attributes;
    test("comparisons, each with its own degrees of freedom, alone and together", () => {
      expect(attribute?.contrasts).toHaveLength(set.contrasts.length);
      for (const [at, { name, figures }] of set.contrasts.entries()) {
        const [difference = 0, standardError = 0, df = 0, pValue = 0, joint = 0, low = 0, high = 0] = figures;
        const found = attribute?.contrasts[at];
        const { compared, first, second } = found ?? {};
        expect(set.compare === "two-factors" ? compared : `${first} - ${second}`).toBe(name);
        near(found?.difference, difference, 1e-6 * standardError);
        near(found?.standardError, standardError, 1e-6 * standardError);
        near(found?.df, df, 1e-4 * df);
        expect(relativeError(found?.pValue ?? 0, pValue)).toBeLessThan(1e-3);
        expect(relativeError(found?.pValueAdjusted ?? 0, joint)).toBeLessThan(1e-3);
        near(found?.lowTogether, low, 1e-4 * standardError);
        near(found?.highTogether, high, 1e-4 * standardError);
      }
    });
  },
);
