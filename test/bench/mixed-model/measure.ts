import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { MixedFit } from "../../../src/analysis/mixed-model.ts";
import { compiled } from "../critical-numbers/answers.ts";
import { alternate, figureOf, medianOf } from "../pair.ts";
import { RSide } from "../r.ts";
import { type GoalReport, isNoisy, short } from "../report.ts";

type Mixed = typeof import("../../../src/analysis/mixed-model.ts");
type Row = { panelist: string; product: string; value: number };

const products = ["A", "B", "C", "D", "E", "F"];
const random = [["panelist"], ["panelist", "product"]];
/** Fits of all models in one reading of the clock. */
const passes = 3;

/**
 * Goal 10: a mixed model of 60 people, 6 products and 3 repeats, the same with a tenth of the marks missing, and one whose
 * spread of panelists with products comes out as 0.
 *
 * R's lme4 is the measure: what the field fits such models with, and it says whether ours come to the same. Both fit by
 * restricted maximum likelihood from the same rows; R takes its own time, its start is not part of the figure.
 */
export async function mixedModel(quick: boolean): Promise<GoalReport> {
  const { fitMixed } = await compiled<Mixed>("analysis/mixed-model");
  const whole = marks();
  const sets = [whole, whole.filter((_, at) => at % 10 !== 7), levelled(whole)];
  const inputs = sets.map((rows) => ({
    rows: rows.map(({ value, ...levels }) => ({ levels, value })),
    factors: { product: products },
    fixed: [["product"]],
    random,
  }));
  const fits = (): MixedFit[] => inputs.map((input) => fitMixed(input));
  const ours = async (): Promise<number> => {
    const start = performance.now();
    for (let pass = 0; pass < passes; pass++) fits();
    return (performance.now() - start) / passes;
  };
  const rounds = quick ? 3 : 9;
  const folder = mkdtempSync(join(tmpdir(), "cloche-bench-"));
  const r = await RSide.open(join(import.meta.dirname, "mixed-model.R"), writeSets(sets, folder));
  try {
    const theirs = r ? await r.numbers() : [];
    if (!r || theirs.length === 0) return alone(await alternate(rounds, { baseline: ours, ours }));
    const off = farthest(fits().flatMap(numbersOf), theirs);
    const baseline = async (): Promise<number> => ((await r.seconds(passes)) / passes) * 1000;
    return against(await alternate(rounds, { baseline, ours }), off);
  } finally {
    r?.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Marks with spreads as a trained panel has them, from a generator of its own, so that every run has the same. */
function marks(): Row[] {
  let state = 1;
  // a short linear congruential generator: nothing here has to be hard to guess
  const uniform = () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return Array.from({ length: 60 }, (_, at) => at).flatMap((panelist) => {
    const own = 10 * normal();
    return products.flatMap((product, at) => {
      const liking = 5 * normal();
      return [1, 2, 3].map(() => {
        const value = 50 + 3 * at + own + liking + 8 * normal();
        return { panelist: `p${panelist}`, product, value: Math.round(value * 10) / 10 };
      });
    });
  });
}

/** The same with every panelist's cells moved to their mean and that of the product: nothing is left for the two together. */
function levelled(rows: readonly Row[]): Row[] {
  const meanOf = (alike: (row: Row) => boolean): number => {
    const found = rows.filter(alike);
    return found.reduce((sum, { value }) => sum + value, 0) / found.length;
  };
  const cells = new Map<string, number>();
  for (const { panelist, product } of rows) {
    const key = `${panelist} ${product}`;
    if (cells.has(key)) continue;
    const own = meanOf((row) => row.panelist === panelist) + meanOf((row) => row.product === product);
    cells.set(key, own - meanOf((row) => row.panelist === panelist && row.product === product));
  }
  return rows.map((row) => ({ ...row, value: row.value + (cells.get(`${row.panelist} ${row.product}`) ?? 0) }));
}

function writeSets(sets: readonly Row[][], folder: string): string[] {
  return sets.map((rows, at) => {
    const path = join(folder, `${at}.csv`);
    const lines = rows.map(({ panelist, product, value }) => `${panelist},${product},${value}`);
    writeFileSync(path, `panelist,product,value\n${lines.join("\n")}\n`);
    return path;
  });
}

/** As R prints them: deviations, then each product less the first. */
function numbersOf(fit: MixedFit): number[] {
  if (fit.outcome !== "ok" && fit.outcome !== "singular") throw new Error(`no fit: ${fit.outcome}`);
  const deviations = [...fit.variances, fit.residualVariance].map(Math.sqrt);
  return [...deviations, ...fit.effects.slice(1)];
}

/** The largest distance of two numbers, as a share of the larger of 1 and the number. */
function farthest(ours: readonly number[], theirs: readonly number[]): number {
  if (ours.length !== theirs.length) throw new Error(`R gave ${theirs.length} numbers instead of ${ours.length}`);
  return Math.max(
    ...theirs.map((their, at) => Math.abs(their - (ours[at] ?? Number.NaN)) / Math.max(1, Math.abs(their))),
  );
}

const frame = {
  goal: 10 as const,
  title: "Mixed model, 60 people × 6 products × 3, whole, with a tenth missing, and at a spread of 0",
};
const name = "all three fits";

type Found = Awaited<ReturnType<typeof alternate<number>>>;

function against({ baseline, ours, load }: Found, off: number): GoalReport {
  const figure = figureOf(name, "ms", baseline, ours);
  const ratio = figure.ratio.median;
  return {
    ...frame,
    sides: { baseline: "lmer of lme4, timed inside R", ours: "fitMixed, compiled" },
    figures: [figure],
    limits: [
      { grade: "must", text: `deviations and differences within 1e-4 of R's (${short(off)})`, met: off <= 1e-4 },
      { grade: "must", text: `at most 1 × R (${short(ratio)})`, met: ratio <= 1 },
      { grade: "stretch", text: `at most 0.5 × R (${short(ratio)})`, met: ratio <= 0.5 },
    ],
    notes: [],
    load,
    noisy: isNoisy(load),
  };
}

function alone({ ours, load }: Found): GoalReport {
  return {
    ...frame,
    sides: { baseline: "none: there is no R with lme4 here", ours: "fitMixed, compiled" },
    figures: [],
    limits: [],
    notes: [
      `${name}: ${short(medianOf(ours))} ms (${short(Math.min(...ours))} to ${short(Math.max(...ours))}) in ${ours.length} rounds`,
      "Nothing was compared, neither time nor numbers. On Debian: apt-get install r-cran-lme4",
    ],
    load,
    noisy: isNoisy(load),
  };
}
