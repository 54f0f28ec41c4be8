import type { LeftOut, ServedTerm } from "../model/result-scale.ts";
import type { BlockRow } from "./block-table.ts";
import type { MixedTerm } from "./mixed-design.ts";
import { fitMixed, type MixedEstimates, type MixedFit } from "./mixed-model.ts";

/** A mark and what it was served with. */
export type ServedRow = BlockRow & {
  /** Place served, from 1; null where nobody wrote it down. */
  place: number | null;
  /** Empty: not written down. */
  session: string;
  batch: string;
};

/** From so many batches of each product on they count as drawn from many (common practice, no source). */
const leastBatches = 3;

export type FittedTerms = {
  fit: MixedFit;
  /** The terms that are in, beside panelists and products. */
  terms: ServedTerm[];
  leftOut: LeftOut[];
};

/**
 * The mixed model of marks: products fixed, panelists drawn from many, panelist by product too where somebody marked a
 * product more than once; and of what marks were served with, whatever they can tell apart.
 *
 * Takes    rows: at least one; products: ids in the order of the plan; asked: the terms that the plan varies: session
 *          (fixed), position (fixed), batch (within its product and drawn from many, if every product has three or more)
 * Returns  a term that the marks cannot tell from the others, or that leaves nothing to judge chance by, is left out and
 *          named; terms are tried all together, and one after the other in that order where that fails
 */
export function fitTerms(
  rows: readonly ServedRow[],
  products: readonly string[],
  asked: readonly ServedTerm[],
): FittedTerms {
  const leftOut: LeftOut[] = [];
  const open = asked.filter((term) => {
    const why = unusable(rows, products, term);
    if (why) leftOut.push({ term, why });
    return why === null;
  });
  const whole = fitWith(rows, products, open);
  if (isFit(whole) || open.length === 0) return { fit: whole, terms: open, leftOut };
  let [fit, terms] = [fitWith(rows, products, []), [] as ServedTerm[]];
  if (!isFit(fit)) return { fit, terms, leftOut };
  for (const term of open) {
    const next = fitWith(rows, products, [...terms, term]);
    if (isFit(next)) [fit, terms] = [next, [...terms, term]];
    else leftOut.push({ term, why: next.outcome === "too-few" ? "too-few" : "confounded" });
  }
  return { fit, terms, leftOut };
}

export const isFit = (fit: MixedFit): fit is Extract<MixedFit, MixedEstimates> =>
  fit.outcome === "ok" || fit.outcome === "singular";

const levelOf = (row: ServedRow, term: ServedTerm): string =>
  term === "position" ? (row.place === null ? "" : String(row.place)) : row[term];
const cellOf = ({ panelist, product }: BlockRow): string => JSON.stringify([panelist, product]);
const batchOf = ({ product, batch }: ServedRow): string => JSON.stringify([product, batch]);

/** Why a term cannot even be tried; null: it can. */
function unusable(rows: readonly ServedRow[], products: readonly string[], term: ServedTerm): LeftOut["why"] | null {
  const levels = new Set(rows.map((row) => levelOf(row, term)));
  if (levels.has("")) return "unknown";
  if (term !== "batch") return levels.size < 2 ? "one-level" : null;
  if (fewestBatches(rows, products) < leastBatches) return "few-batches";
  const batches = new Set(rows.map(batchOf));
  if (batches.size === rows.length) return "one-mark-each";
  // marks that share a batch just when they share a person and a product: one spread under two names
  const cells = new Set(rows.map(cellOf));
  const both = new Set(rows.map((row) => `${cellOf(row)} ${batchOf(row)}`));
  return both.size === batches.size && both.size === cells.size ? "confounded" : null;
}

/** Batches of the product that has the fewest. */
export const fewestBatches = (rows: readonly ServedRow[], products: readonly string[]): number =>
  Math.min(
    ...products.map((product) => new Set(rows.flatMap((row) => (row.product === product ? [row.batch] : []))).size),
  );

function fitWith(rows: readonly ServedRow[], products: readonly string[], terms: readonly ServedTerm[]): MixedFit {
  const fixed = terms.filter((term) => term !== "batch");
  const factors = Object.fromEntries(fixed.map((term) => [term, levelsOf(rows, term)]));
  const effects = Object.values(factors).reduce((sum, levels) => sum + levels.length - 1, products.length);
  const people = new Set(rows.map(({ panelist }) => panelist)).size;
  // people leave no more than this even if their spread is so large that nothing is told between them
  if (rows.length - people - effects + 1 < 1) return { outcome: "too-few" };
  const repeated = new Set(rows.map(cellOf)).size < rows.length;
  const random: MixedTerm[] = [
    ["panelist"],
    ...(repeated ? [["panelist", "product"]] : []),
    ...(terms.includes("batch") ? [["product", "batch"]] : []),
  ];
  return fitMixed({
    rows: rows.map((row) => ({ levels: levelsFor(row), value: row.value })),
    factors: { product: products, ...factors },
    fixed: [["product"], ...fixed.map((term) => [term])],
    random,
  });
}

const levelsFor = (row: ServedRow): Record<string, string> => ({
  panelist: row.panelist,
  product: row.product,
  session: row.session,
  batch: row.batch,
  position: levelOf(row, "position"),
});

/** Places in their order, sessions as they first appear. */
function levelsOf(rows: readonly ServedRow[], term: ServedTerm): string[] {
  const levels = [...new Set(rows.map((row) => levelOf(row, term)))];
  return term === "position" ? levels.sort((one, other) => Number(one) - Number(other)) : levels;
}
