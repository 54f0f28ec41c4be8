import { expect, test } from "vitest";
import { resultOfScaleRows } from "../../src/analysis/analyse-scale.ts";
import { blockSet, type SetName } from "./block-data.ts";
import { relativeError } from "./reference.ts";

// The marks that blocks-by-r holds; its F tests with panelists as blocks are R's. With no mark missing and no variance at 0 the
// mixed model gives the same F, which is what makes the two comparable.

const attributeOf = (name: SetName) => {
  const { rows } = blockSet(name);
  const counted = new Map<string, number>();
  const marks = rows.map(({ panelist, product, value }) => {
    const cell = `${panelist} ${product}`;
    counted.set(cell, (counted.get(cell) ?? 0) + 1);
    return { panelist, product, value, repeat: String(counted.get(cell)), attribute: "", moment: "" };
  });
  return resultOfScaleRows(0.05, marks, "1").attributes[0];
};

test.each(["juiciness", "wine"] as const)(
  "%s, balanced: the F of R's block analysis, and its degrees of freedom",
  (name) => {
    const [fValue, numeratorDf, denominatorDf, pValue] = blockSet(name).byR.products_last;
    const mixed = attributeOf(name)?.mixed;
    expect(mixed?.vanished).toBe(false);
    expect(relativeError(mixed?.fValue ?? Number.NaN, fValue)).toBeLessThan(1e-6);
    expect(mixed?.numeratorDf).toBe(numeratorDf);
    expect(mixed?.denominatorDf).toBeCloseTo(denominatorDf, 2);
    expect(relativeError(mixed?.pValue ?? Number.NaN, pValue)).toBeLessThan(1e-3);
  },
);

test("marks missing: another F than that of the blocks, and means for every product", () => {
  const attribute = attributeOf("juiciness-with-gaps");
  expect(attribute?.blocks?.balanced).toBe(false);
  expect(attribute?.mixed?.means.map(({ product }) => product)).toEqual(["current", "new", "rested"]);
  expect(attribute?.mixed?.fValue).not.toBe(attribute?.blocks?.fValue);
  for (const { low, estimate, high } of attribute?.mixed?.means ?? []) {
    expect(low).toBeLessThan(estimate);
    expect(high).toBeGreaterThan(estimate);
  }
});

test("nothing to fit gives none: one panelist, or marks without any spread", () => {
  const row = (panelist: string, product: string, value: number) => ({
    panelist,
    product,
    value,
    repeat: "1",
    attribute: "",
    moment: "",
  });
  expect(resultOfScaleRows(0.05, [row("one", "a", 1), row("one", "b", 2)], "1").attributes[0]?.mixed).toBeNull();
  const flat = ["one", "two", "three"].flatMap((panelist) => [row(panelist, "a", 5), row(panelist, "b", 5)]);
  expect(resultOfScaleRows(0.05, flat, "1").attributes[0]?.mixed).toBeNull();
});

test("below one degree of freedom F, its comparison and the interval go by one: p is that of the Cauchy distribution", () => {
  // made up: three batches of either product, which spread so much that they leave less than one degree
  const marks: [panelist: number, product: string, value: number, batch: number][] = [
    ...([69, 56, 63, 71, 63] as const).map((value, at): [number, string, number, number] => [at, "B", value, at % 3]),
    ...([50, 53, 70, 54] as const).map((value, at): [number, string, number, number] => [
      at + 1,
      "A",
      value,
      (at + 1) % 3,
    ]),
  ];
  const rows = marks.map(([panelist, product, value, batch]) => ({
    ...{ panelist: `p${panelist}`, product, value, batch: `${product}${batch}` },
    ...{ repeat: "1", attribute: "", moment: "" },
  }));
  const [attribute] = resultOfScaleRows(0.05, rows, "1").attributes;
  expect(attribute?.leads).toBe("mixed");
  const [only] = attribute?.contrasts ?? [];
  const t = Math.sqrt(attribute?.mixed?.fValue ?? Number.NaN);
  expect([attribute?.mixed?.denominatorDf, only?.df]).toEqual([1, 1]);
  const cauchy = (2 / Math.PI) * Math.atan(1 / t);
  expect(relativeError(attribute?.mixed?.pValue ?? Number.NaN, cauchy)).toBeLessThan(1e-9);
  expect(relativeError(only?.pValue ?? Number.NaN, cauchy)).toBeLessThan(1e-9);
});
