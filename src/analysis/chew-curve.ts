import type { CurveResult, DerivedResult } from "../model/result-scale.ts";
import { contrastsOf, meansOf, outcomeUnder, testsOf } from "./block-result.ts";
import type { BlockRow } from "./block-table.ts";
import { blockAnalysis } from "./blocks.ts";
import { aboveZero } from "./check.ts";
import { comparisonSet } from "./comparisons.ts";
import { fisherUpper } from "./fisher.ts";
import { mean } from "./moments.ts";
import type { ScaleInput, ScaleValue } from "./scale.ts";

/** One property over the chew: its questions by their places among the attributes, with their planned seconds. */
export type ChewCurve = {
  attribute: string;
  /** In the order of the chew; `seconds` is null where only the panelist knew the moment. */
  moments: readonly { at: number; seconds: number | null }[];
};

/** What one panelist marked of one sample over one chew, in the order of the moments. */
type Chew = { panelist: string; product: string; values: (number | null)[] };

/**
 * What the moments of one property say together: by how much it changed from the first to the last, and the area under
 * it, each one value a panelist and product with panelists as blocks; and whether the products' curves differ in shape.
 *
 * Takes    input: as `scaleStatistics`; curve: two moments or more
 * Returns  a chew without a mark at one of the moments that a value needs gives no such value: nothing is filled in
 */
export function curveResult(input: ScaleInput, curve: ChewCurve): CurveResult {
  const chews = chewsOf(input.values, curve);
  const seconds = curve.moments.flatMap((moment) => (moment.seconds === null ? [] : [moment.seconds]));
  const timed = seconds.length === curve.moments.length;
  return {
    attribute: curve.attribute,
    at: curve.moments.map(({ at }) => at),
    change: derived(input, chews, changeOf),
    area: timed ? derived(input, chews, (values) => areaUnder(values, seconds)) : null,
    seconds: timed ? (seconds.at(-1) ?? 0) - (seconds[0] ?? 0) : null,
    interaction: interactionOf(
      chews,
      input.products.map(({ id }) => id),
    ),
  };
}

function chewsOf(values: readonly ScaleValue[], { moments }: ChewCurve): Chew[] {
  const places = new Map(moments.map(({ at }, place) => [at, place]));
  const chews = new Map<string, Chew>();
  for (const { attribute, panelist, product, chew, value } of values) {
    const place = places.get(attribute);
    if (place === undefined) continue;
    const name = JSON.stringify([panelist, product, chew]);
    const found = chews.get(name) ?? { panelist, product, values: moments.map(() => null) };
    found.values[place] = value;
    chews.set(name, found);
  }
  return [...chews.values()];
}

function changeOf(values: readonly (number | null)[]): number | null {
  const [first = null, last = null] = [values[0], values.at(-1)];
  return first === null || last === null ? null : last - first;
}

/** By trapezoids over the planned seconds: points times seconds. Null when a mark is missing. */
function areaUnder(values: readonly (number | null)[], seconds: readonly number[]): number | null {
  const marks = values.filter((value) => value !== null);
  if (marks.length < values.length) return null;
  return marks.slice(1).reduce((sum, mark, at) => {
    const width = (seconds[at + 1] ?? 0) - (seconds[at] ?? 0);
    return sum + (width * (mark + (marks[at] ?? 0))) / 2;
  }, 0);
}

function derived(
  { products, alpha, keyMatches, comparisons }: ScaleInput,
  chews: readonly Chew[],
  valueIn: (values: Chew["values"]) => number | null,
): DerivedResult {
  const names = new Map(products.map(({ id, name }) => [id, name]));
  const named = (id: string) => names.get(id) ?? id;
  const rows = chews.flatMap(({ panelist, product, values }): BlockRow[] => {
    const value = valueIn(values);
    return value === null ? [] : [{ panelist, product, value }];
  });
  const ids = products.map(({ id }) => id);
  const set = comparisonSet(comparisons, ids);
  const found = blockAnalysis(rows, ids, 1 - alpha, set);
  return {
    outcome: outcomeUnder(keyMatches, found.outcome),
    people: found.people,
    means: meansOf(found, named),
    blocks: testsOf(found).blocks,
    adjustment: set.adjustment,
    contrasts: contrastsOf(found, named),
  };
}

/**
 * Do the curves differ in shape? Product by moment against panelist by product by moment, repeats averaged first.
 * With two moments it is the test of the change between them. It takes differences between moments to vary alike.
 *
 * Source   split by two crossed factors within blocks (from memory); checked against aov with its Error strata
 */
function interactionOf(chews: readonly Chew[], products: readonly string[]): CurveResult["interaction"] {
  const panelists = [...new Set(chews.map(({ panelist }) => panelist))];
  const tables = panelists.flatMap((panelist) => {
    const own = chews.filter((chew) => chew.panelist === panelist);
    const rows = products.map((product) => averaged(own.filter((chew) => chew.product === product)));
    const whole = rows.filter((row) => row !== null);
    return whole.length === products.length ? [centered(whole)] : [];
  });
  const people = tables.length;
  const cells = tables[0] ?? [];
  const numeratorDf = (products.length - 1) * ((cells.length / products.length || 1) - 1);
  if (people < 2 || numeratorDf < 1) return null;
  const means = cells.map((_, cell) => mean(tables.map((table) => table[cell] ?? 0)));
  const between = people * squares(means);
  const within = tables.reduce(
    (sum, table) => sum + squares(table.map((value, cell) => value - (means[cell] ?? 0))),
    0,
  );
  const size = Math.max(...chews.flatMap(({ values }) => values.map((value) => Math.abs(value ?? 0))));
  // what rounding leaves of equal shapes is nothing to judge by
  if (Math.sqrt(within / (people * cells.length)) <= 32 * Number.EPSILON * size) return null;
  const denominatorDf = (people - 1) * numeratorDf;
  const fValue = between / numeratorDf / (within / denominatorDf);
  const pValue = aboveZero(fisherUpper(fValue, numeratorDf, denominatorDf));
  return { people, fValue, numeratorDf, denominatorDf, pValue };
}

/** Mean over the repeats at each moment; null where one of them is never marked. */
function averaged(chews: readonly Chew[]): number[] | null {
  const length = chews[0]?.values.length ?? 0;
  const means = Array.from({ length }, (_, at) => {
    const marks = chews.flatMap(({ values }) => values[at] ?? []);
    return marks.length === 0 ? null : mean(marks);
  }).filter((value) => value !== null);
  return length > 0 && means.length === length ? means : null;
}

/** A table less its row and column means, row after row: what is left is how the rows differ in shape. */
function centered(rows: readonly (readonly number[])[]): number[] {
  const rowMeans = rows.map((row) => mean([...row]));
  const columnMeans = (rows[0] ?? []).map((_, at) => mean(rows.map((row) => row[at] ?? 0)));
  const all = mean(rowMeans);
  return rows.flatMap((row, place) =>
    row.map((value, at) => value - (rowMeans[place] ?? 0) - (columnMeans[at] ?? 0) + all),
  );
}

const squares = (values: readonly number[]): number => values.reduce((sum, value) => sum + value * value, 0);
