import { type BlockRow, blockTable } from "./block-table.ts";
import { aboveZero } from "./check.ts";
import { fisherUpper } from "./fisher.ts";
import { correlation, mean, squaresAboutMean } from "./moments.ts";
import { oneWay } from "./one-way.ts";

/**
 * How one panelist used the scale beside the others: describes the panel, and is no reason to leave anybody out. The three
 * properties of an assessor that the trade looks at are discrimination, agreement and repeatability (ISO 11132 names
 * them in its scope; its clauses were not seen).
 */
export type PanelCheck = {
  panelist: string;
  /** Largest less smallest mean that this panelist gave a product; null with fewer than two products. */
  range: number | null;
  /** Correlation of this panelist's product means with the means of all others; null with fewer than three products in common, or where one side is constant. */
  agreement: number | null;
  /** Deviation between repeats of one product; null where nothing was tasted twice. */
  repeatDeviation: number | null;
  /** Products against that deviation, this panelist's marks alone; null without repeats, or where they never differ. */
  separates: { fValue: number; numeratorDf: number; denominatorDf: number; pValue: number } | null;
};

/**
 * The checks of every panelist, in the order in which they first appear.
 *
 * Takes    rows: marks; products: in the order of the plan
 * Throws   as `blockTable`
 */
export function panelChecks(rows: readonly BlockRow[], products: readonly string[]): PanelCheck[] {
  const { panelists } = blockTable(rows, products);
  const cells = cellsOf(rows, products);
  // the mean of the others is that of everybody without one's own: a panel of thousands is gone through once
  const everybody = products.map((_, at) => {
    const given = panelists.flatMap(({ values }) => values[at] ?? []);
    return { count: given.length, mean: given.length === 0 ? 0 : mean(given) };
  });
  return panelists.map(({ panelist, values }) => {
    const own = values.filter((value) => value !== null);
    const shared = everybody.flatMap(({ count, mean: middle }, at) => {
      const mine = values[at] ?? null;
      return mine === null || count < 2 ? [] : [{ mine, others: middle + (middle - mine) / (count - 1) }];
    });
    return {
      panelist,
      range: own.length < 2 ? null : Math.max(...own) - Math.min(...own),
      agreement:
        shared.length < 3
          ? null
          : correlation(
              shared.map(({ mine }) => mine),
              shared.map(({ others }) => others),
            ),
      ...withinOf(cells.get(panelist) ?? []),
    };
  });
}

/** Each panelist's marks by product, of the products that have one. */
function cellsOf(rows: readonly BlockRow[], products: readonly string[]): Map<string, number[][]> {
  const places = new Map(products.map((product, at) => [product, at]));
  const marks = new Map<string, number[][]>();
  for (const { panelist, product, value } of rows) {
    const own = marks.get(panelist) ?? products.map(() => []);
    own[places.get(product) ?? 0]?.push(value);
    marks.set(panelist, own);
  }
  return new Map([...marks].map(([panelist, own]) => [panelist, own.filter((cell) => cell.length > 0)]));
}

/** One panelist's marks as groups by product: a one-way analysis of variance. */
function withinOf(cells: readonly (readonly number[])[]): Pick<PanelCheck, "repeatDeviation" | "separates"> {
  const free = cells.reduce((sum, cell) => sum + cell.length - 1, 0);
  if (free < 1) return { repeatDeviation: null, separates: null };
  const repeatDeviation = Math.sqrt(cells.reduce((sum, cell) => sum + squaresAboutMean(cell), 0) / free);
  const found = oneWay(cells);
  if (found.outcome !== "ok") return { repeatDeviation, separates: null };
  const { fValue, numeratorDf, denominatorDf } = found;
  return {
    repeatDeviation,
    separates: {
      fValue,
      numeratorDf,
      denominatorDf,
      pValue: aboveZero(fisherUpper(fValue, numeratorDf, denominatorDf)),
    },
  };
}
