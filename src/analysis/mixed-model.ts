import { problem } from "../model/problem.ts";
import { requireNumber } from "./check.ts";
import { solvePositive } from "./cholesky.ts";
import { type MixedDesign, type MixedRow, type MixedTerm, mixedDesign } from "./mixed-design.ts";
import { effectsOf, mixedState, profiledDeviance } from "./mixed-deviance.ts";
import { bestRatios } from "./mixed-search.ts";

/** Values this far from 0 have no use and could overflow as squares. */
const mostValue = 1e12;

export type MixedInput = {
  rows: readonly MixedRow[];
  /** Levels of every factor of the fixed part, in the order of the plan; others are compared with the first. */
  factors: Readonly<Record<string, readonly string[]>>;
  fixed: readonly MixedTerm[];
  /** Terms whose levels are drawn from many: a panelist, a panelist with a product, a batch within a product. */
  random: readonly MixedTerm[];
};

export type MixedEstimates = {
  design: MixedDesign;
  /** Random deviation over the residual one, for each random term. */
  ratios: number[];
  /** Variances in squared points: one for each random term, and what is left. */
  variances: number[];
  residualVariance: number;
  /** Random terms whose variance came out as 0. */
  singular: number[];
  /** Twice the negative restricted log likelihood. */
  deviance: number;
  /** Of the fixed columns, in points; the first is the level where each factor has its first level. */
  effects: number[];
  /** Their covariance, in squared points. */
  covariance: number[][];
};

export type MixedFit =
  | ({ outcome: "ok" | "singular" } & MixedEstimates)
  | { outcome: "no-marks" }
  /** A level of a fixed factor that no row has. */
  | { outcome: "level-missing"; factor: string; missing: string[] }
  /** A random term with one level: its spread cannot be told. A single panelist, a single batch. */
  | { outcome: "one-level"; term: MixedTerm }
  /** Every level of a random term has one row: it is the residual under another name. */
  | { outcome: "one-row-each"; term: MixedTerm }
  /** The rows do not tell the fixed effects apart. */
  | { outcome: "disconnected" }
  /** As many effects as rows. */
  | { outcome: "too-few" }
  /** Nothing is left once the fixed effects are taken out, or all values are the same. */
  | { outcome: "all-equal" };

/**
 * Linear mixed model by restricted maximum likelihood, with one random deviation for each random term.
 *
 * Takes    rows: at least one for a result; repeats stay rows of their own
 * Returns  an outcome that data can produce is a field, never an error. "singular": a fit like any other, in which the
 *          variance of at least one random term is 0
 * Throws   Problem "analysis/unknown-product" (a level that is not among those of its factor), "analysis/out-of-range"
 * Source   D. Bates, M. Machler, B. Bolker and S. Walker 2015, Journal of Statistical Software 67 (from memory)
 */
export function fitMixed({ rows, factors, fixed, random }: MixedInput): MixedFit {
  checkRows(rows, factors);
  if (rows.length === 0) return { outcome: "no-marks" };
  for (const [factor, levels] of Object.entries(factors)) {
    const missing = levels.filter((level) => !rows.some((row) => row.levels[factor] === level));
    if (missing.length > 0) return { outcome: "level-missing", factor, missing };
  }
  const design = mixedDesign(rows, factors, fixed, random);
  if (rows.length <= design.columns.length) return { outcome: "too-few" };
  for (const [at, term] of random.entries()) {
    if ((design.randomLevels[at] ?? 0) < 2) return { outcome: "one-level", term };
    if (design.mostRows[at] === 1) return { outcome: "one-row-each", term };
  }
  const plain = mixedState(
    design,
    random.map(() => 0),
  );
  if (!plain) return { outcome: sameValues(rows) ? "all-equal" : withoutValues(design) };
  if (plain.squares <= 1e-20 * rows.length) return { outcome: "all-equal" };
  return estimated(design, bestRatios(design));
}

function estimated(design: MixedDesign, ratios: number[]): MixedFit {
  const state = mixedState(design, ratios);
  if (!state) return { outcome: "all-equal" };
  const { center, unit } = design;
  const free = design.rows - design.columns.length;
  const residualVariance = (state.squares / free) * unit ** 2;
  const { effects, covariance } = effectsOf(design, state);
  const singular = ratios.flatMap((ratio, term) => (ratio === 0 ? [term] : []));
  return {
    outcome: singular.length > 0 ? "singular" : "ok",
    design,
    ratios,
    variances: ratios.map((ratio) => ratio ** 2 * residualVariance),
    residualVariance,
    singular,
    deviance: profiledDeviance(design, state) + 2 * free * Math.log(unit),
    effects: effects.map((effect, at) => effect * unit + (at === 0 ? center : 0)),
    covariance: covariance.map((row) => row.map((entry) => entry * residualVariance)),
  };
}

function checkRows(rows: readonly MixedRow[], factors: MixedInput["factors"]): void {
  for (const { levels, value } of rows) {
    requireNumber("value", value, -mostValue, mostValue);
    for (const [factor, known] of Object.entries(factors)) {
      const level = levels[factor] ?? "";
      if (!known.includes(level)) throw problem("analysis/unknown-product", { product: level });
    }
  }
}

const sameValues = (rows: readonly MixedRow[]): boolean => rows.every(({ value }) => value === rows[0]?.value);

/** Why nothing could be solved: the fixed columns depend on one another, or they explain every value. */
function withoutValues({ columns, shape, products }: MixedDesign): "disconnected" | "all-equal" {
  const first = shape.size - 1 - columns.length;
  const table = columns.map((_, i) =>
    columns.map((_, j) => {
      const [column, row] = [first + Math.min(i, j), first + Math.max(i, j)];
      const own = shape.rows.subarray(shape.starts[column], shape.starts[column + 1]);
      const found = own.indexOf(row);
      return found < 0 ? 0 : (products[(shape.starts[column] ?? 0) + found] ?? 0);
    }),
  );
  return solvePositive(table, []) ? "all-equal" : "disconnected";
}
