import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { comparisonSet } from "../../src/analysis/comparisons.ts";
import { analyzed } from "../../src/analysis/mixed-lead.ts";
import { fitTerms, type ServedRow } from "../../src/analysis/mixed-terms.ts";
import { leadText } from "../../src/words/en/mixed.ts";
import { relativeError } from "./reference.ts";

const products = ["current", "new", "rested"];
const run = (rows: readonly ServedRow[], order: readonly string[] = products) =>
  analyzed(rows, order, {
    ...{ confidence: 0.95, together: 0.05, asked: ["position"] },
    set: comparisonSet({ kind: "all-pairs" }, order),
    named: (id) => id,
  }).result;

/** Eight panelists with three products each, in turned orders, and a cell cut out; marks on a grid of tenths. */
const table = fc.array(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 3, maxLength: 3 }), {
  minLength: 8,
  maxLength: 8,
});
const marked = (values: readonly (readonly number[])[]): ServedRow[] =>
  values
    .flatMap((own, i) =>
      own.map((value, j) => ({
        ...{ panelist: `p${i}`, product: products[j] ?? "", session: "", batch: "" },
        place: ((i + (i % 2 === 0 ? j : 2 * j)) % 3) + 1,
        value: value / 10 + 3 * i,
      })),
    )
    .slice(1);

describe("unbalanced marks, led by the mixed model, whatever they are", () => {
  const runs = { numRuns: 6, seed: 5 };

  test("a shift and a change of unit move differences along and leave every test as it is", () => {
    fc.assert(
      fc.property(table, (values) => {
        const rows = marked(values);
        const [found, moved] = [run(rows), run(rows.map((row) => ({ ...row, value: 7 * row.value - 250 })))];
        fc.pre(found.leads === "mixed");
        expect(moved.leads).toBe("mixed");
        expect(relativeError(moved.mixed?.denominatorDf ?? 0, found.mixed?.denominatorDf ?? 1)).toBeLessThan(1e-4);
        for (const [at, { difference, standardError, pValueAdjusted }] of found.contrasts.entries()) {
          const own = moved.contrasts[at];
          expect(Math.abs((own?.difference ?? 0) - 7 * difference)).toBeLessThan(1e-6 * standardError);
          expect(relativeError(own?.standardError ?? 0, 7 * standardError)).toBeLessThan(1e-6);
          expect(Math.abs((own?.pValueAdjusted ?? 0) - pValueAdjusted)).toBeLessThan(1e-6);
        }
      }),
      runs,
    );
  });

  test("other names and another order of panelists or products leave F, and each difference with its sign", () => {
    fc.assert(
      fc.property(table, (values) => {
        const rows = marked(values);
        const found = run(rows);
        fc.pre(found.leads === "mixed");
        const backwards = run([...rows].reverse());
        expect([backwards.mixed, backwards.contrasts]).toEqual([found.mixed, found.contrasts]);
        const others = [
          run(rows.map((row) => ({ ...row, panelist: `other ${row.panelist}`.split("").reverse().join("") }))),
          run(rows, [...products].reverse()),
        ];
        for (const other of others) {
          expect(other.leads).toBe(found.leads);
          const { fValue = 0 } = found.mixed ?? {};
          expect(Math.abs((other.mixed?.fValue ?? 0) - fValue)).toBeLessThan(1e-6 * Math.max(1, fValue));
          for (const { first, second, difference, standardError, pValueAdjusted } of found.contrasts) {
            const same = other.contrasts.find((own) =>
              [first, second].every((name) => [own.first, own.second].includes(name)),
            );
            const turned = same?.first === first ? 1 : -1;
            expect(Math.abs(turned * (same?.difference ?? 0) - difference)).toBeLessThan(1e-6 * standardError);
            expect(Math.abs((same?.pValueAdjusted ?? 0) - pValueAdjusted)).toBeLessThan(1e-6);
          }
        }
      }),
      runs,
    );
  });
});

describe("terms that marks cannot bear are left out, and named", () => {
  const values = [
    [58, 64, 67],
    [40, 41, 60],
    [51, 53, 64],
    [45, 57, 62],
    [57, 64, 61],
    [54, 47, 80],
    [48, 70, 55],
    [49, 76, 56],
  ];
  const rows = marked(values);
  const twice = [...rows, ...rows.map((row, at) => ({ ...row, value: row.value + (at % 5) }))];
  const left = (own: readonly ServedRow[], term: "position" | "session" | "batch") => {
    const { fit, terms, leftOut } = fitTerms(own, products, [term]);
    expect(fit.outcome).toMatch(/^(ok|singular)$/);
    return terms.length > 0 ? terms : leftOut;
  };
  const batched = (name: (row: ServedRow, at: number) => string) =>
    twice.map((row, at) => ({ ...row, batch: name(row, at) }));

  test("one session of several; a place that nobody wrote down; places that go with the products", () => {
    expect(left(rows, "session")).toEqual([{ term: "session", why: "unknown" }]);
    expect(
      left(
        rows.map((row) => ({ ...row, session: "day 1" })),
        "session",
      ),
    ).toEqual([{ term: "session", why: "one-level" }]);
    const [first, ...others] = rows;
    expect(left(first ? [{ ...first, place: null }, ...others] : [], "position")).toEqual([
      { term: "position", why: "unknown" },
    ]);
    const fixed = rows.map((row) => ({ ...row, place: products.indexOf(row.product) + 1 }));
    expect(left(fixed, "position")).toEqual([{ term: "position", why: "confounded" }]);
    expect(left(rows, "position")).toEqual(["position"]);
  });
  test("places for which too few marks are left", () => {
    const few = marked(values.slice(0, 3)).filter(({ panelist, product }) => panelist !== "p1" || product !== "rested");
    expect(left(few, "position")).toEqual([{ term: "position", why: "too-few" }]);
  });
  test("batches: fewer than three of a product, one mark each, one a person and product; three are drawn from many", () => {
    expect(
      left(
        batched((_, at) => String(at % 2)),
        "batch",
      ),
    ).toEqual([{ term: "batch", why: "few-batches" }]);
    expect(
      left(
        batched((_, at) => String(at)),
        "batch",
      ),
    ).toEqual([{ term: "batch", why: "one-mark-each" }]);
    expect(
      left(
        batched(({ panelist }) => panelist),
        "batch",
      ),
    ).toEqual([{ term: "batch", why: "confounded" }]);
    expect(
      left(
        batched(({ panelist }) => String(Number(panelist.slice(1)) % 3)),
        "batch",
      ),
    ).toEqual(["batch"]);
  });
  test("of two terms that go hand in hand the first stays", () => {
    const both = twice.map((row) => ({ ...row, session: `day ${row.place}` }));
    const { terms, leftOut } = fitTerms(both, products, ["session", "position"]);
    expect([terms, leftOut]).toEqual([["session"], [{ term: "position", why: "confounded" }]]);
  });
});

describe("marks that no mixed model fits", () => {
  test("every repeat the same mark again: the search would end at its bound, so the block analysis leads", () => {
    const once = marked([
      [58, 64, 67],
      [40, 41, 60],
      [51, 53, 64],
      [45, 57, 62],
      [57, 64, 61],
    ]);
    const found = run([...once, ...once]);
    expect(found).toMatchObject({ leads: "blocks", mixed: null, noMixed: "all-equal" });
    expect(found.blocks?.pValue).toBeCloseTo(run(once).blocks?.pValue ?? 0, 12);
  });
  test("differences so large that nothing else is seen beside them: the block analysis leads and says why", () => {
    const rows = marked(products.map((_, i) => products.map((__, j) => ((i * j) % 3) * 10))).map((row) => ({
      ...row,
      value: row.value + 1e11 * products.indexOf(row.product),
    }));
    const found = run(rows);
    expect(found).toMatchObject({ leads: "blocks", mixed: null, noMixed: "all-equal" });
    expect(found.contrasts).toHaveLength(3);
    expect(leadText({ ...found, uneven: { some: true, repeats: false } })).toMatch(
      /could not be fitted: beside the other spreads nothing is left .* So the classical test leads/,
    );
  });
  test("one panelist, one mark each, constant marks, a product nobody got: no analysis, and nothing is thrown", () => {
    const rows = marked([
      [58, 64, 67],
      [40, 41, 60],
      [51, 53, 64],
    ]);
    const own = (keep: (row: ServedRow, at: number) => boolean) => run(rows.filter(keep));
    for (const found of [
      own(({ panelist }) => panelist === "p1"),
      run(rows.map((row, at) => ({ ...row, panelist: `alone ${at}` }))),
      run(rows.map((row) => ({ ...row, value: 50 }))),
      own(({ product }) => product !== "rested"),
      run([]),
    ]) {
      expect(found).toMatchObject({ leads: "blocks", mixed: null, blocks: null, contrasts: [] });
      expect(leadText({ ...found, uneven: { some: true, repeats: false } })).toBe("");
    }
  });
});
