import { join } from "node:path";
import { alternate, figureOf, medianOf } from "../pair.ts";
import { RSide } from "../r.ts";
import { type GoalReport, isNoisy, short } from "../report.ts";
import { answers, compiled } from "./answers.ts";
import { grid, type Place, placesOf } from "./grid.ts";

type Binomial = typeof import("../../../src/analysis/binomial.ts");

/** One pass takes about a millisecond: too short for one reading of a clock. */
const passes = 40;

/**
 * Goal 9: critical numbers against R.
 *
 * While a lead moves the sliders of a plan, hundreds of these are worked out for each picture. R's `qbinom` is the
 * measure because it is compiled, well known, and comes to its numbers in another way, so that it also says whether
 * ours are right. R takes its own time: starting it and talking to it are not part of the figure.
 */
export async function criticalNumbers(quick: boolean): Promise<GoalReport> {
  const { criticalNumber } = await compiled<Binomial>("analysis/binomial");
  const places = placesOf(grid);
  const numbers = (): number[] => places.map(({ n, alpha, guess }) => criticalNumber(n, guess, alpha) ?? n + 1);
  const ours = async (): Promise<number> => {
    const start = performance.now();
    for (let pass = 0; pass < passes; pass++) numbers();
    return (performance.now() - start) / passes;
  };
  const rounds = quick ? 3 : 9;
  const { least, greatest, alphas, guesses } = grid;
  const shares = guesses.map(({ of }) => of).join(",");
  const script = join(import.meta.dirname, "critical-numbers.R");
  const r = await RSide.open(script, [String(least), String(greatest), alphas.join(","), shares]);
  if (!r) return withAnswers(alone(await alternate(rounds, { baseline: ours, ours })), quick);
  try {
    const wrong = differences(places, numbers(), await r.numbers());
    const baseline = async (): Promise<number> => ((await r.seconds(passes)) / passes) * 1000;
    return await withAnswers(against(await alternate(rounds, { baseline, ours }), wrong), quick);
  } finally {
    r.close();
  }
}

/** Beside the numbers: what a person waits for, see `answers`. Its baseline is a root, not R. */
async function withAnswers(report: GoalReport, quick: boolean): Promise<GoalReport> {
  const { figures, limits, load } = await answers(quick);
  const all = [...report.load, ...load];
  return {
    ...report,
    figures: [...report.figures, ...figures],
    limits: [...report.limits, ...limits],
    load: all,
    noisy: isNoisy(all),
  };
}

const frame = {
  goal: 9 as const,
  title: `Critical numbers, n ${grid.least} to ${grid.greatest}, ${grid.alphas.length} risks, guessing 1/2 and 1/3`,
};
const name = `all ${placesOf(grid).length} numbers`;

type Found = Awaited<ReturnType<typeof alternate<number>>>;

function against({ baseline, ours, load }: Found, wrong: string[]): GoalReport {
  const figure = figureOf(name, "ms", baseline, ours);
  const ratio = figure.ratio.median;
  const same = `${wrong.length} of them different from R's`;
  return {
    ...frame,
    sides: { baseline: "qbinom + 1, timed inside R", ours: "criticalNumber, compiled" },
    figures: [figure],
    limits: [
      { grade: "must", text: `every number is R's (${same})`, met: wrong.length === 0 },
      { grade: "must", text: `at most 5 × R (${short(ratio)})`, met: ratio <= 5 },
      { grade: "stretch", text: `ahead of R (${short(ratio)})`, met: ratio < 1 },
      { grade: "stretch", text: `at most 2 × R (${short(ratio)})`, met: ratio <= 2 },
    ],
    notes: wrong.slice(0, 10),
    load,
    noisy: isNoisy(load),
  };
}

function alone({ ours, load }: Found): GoalReport {
  return {
    ...frame,
    sides: { baseline: "none: there is no R here (Rscript was not found)", ours: "criticalNumber, compiled" },
    figures: [],
    limits: [],
    notes: [
      `${name}: ${short(medianOf(ours))} ms (${short(Math.min(...ours))} to ${short(Math.max(...ours))}) in ${ours.length} rounds`,
      "Nothing was compared, neither time nor numbers. On Debian: apt-get install r-base-core",
    ],
    load,
    noisy: isNoisy(load),
  };
}

function differences(places: readonly Place[], ours: readonly number[], theirs: readonly number[]): string[] {
  if (ours.length !== theirs.length) throw new Error(`R gave ${theirs.length} numbers instead of ${ours.length}`);
  return places.flatMap(({ n, alpha, guess }, at) =>
    ours[at] === theirs[at] ? [] : [`n ${n}, risk ${alpha}, guessing ${short(guess)}: ${ours[at]}, R ${theirs[at]}`],
  );
}
