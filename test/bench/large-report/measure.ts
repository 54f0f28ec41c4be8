import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { freePort, Machine, ServerProcess, scratch } from "../../e2e/machine.ts";
import { cpuIndexOf, slowdown } from "../cpu-index.ts";
import { compiled } from "../critical-numbers/answers.ts";
import { alternate, type Figure, figureOf } from "../pair.ts";
import { RSide } from "../r.ts";
import { type GoalReport, isNoisy, type Limit, short } from "../report.ts";
import { type PageFigures, readReport } from "./page.ts";
import { csvOf, groups, type Row, rowsOf } from "./values.ts";

type Table = typeof import("../../../src/analysis/block-table.ts");

/**
 * Goal 12: a report of 100,000 answers. Count, mean and deviation of each group against R's tapply, which gets its groups
 * as factors already; and what the page is like meanwhile, slowed down to a device of the middle class.
 */
export async function largeReport(quick: boolean): Promise<GoalReport> {
  const { folder, remove } = scratch("bench-large");
  try {
    const rows = rowsOf();
    const file = join(folder, "values.csv");
    writeFileSync(file, csvOf(rows));
    const counted = await descriptives(rows, file, quick);
    return reported(counted, await pageOf(folder, file));
  } finally {
    remove();
  }
}

type Counted = { figures: Figure[]; limits: Limit[]; load: number[]; notes: string[] };

async function descriptives(rows: readonly Row[], file: string, quick: boolean): Promise<Counted> {
  const { blockTable, productSummaries } = await compiled<Table>("analysis/block-table");
  const products = Array.from({ length: groups.products }, (_, at) => `sample ${at + 1}`);
  const described = () =>
    Array.from({ length: groups.properties }, (_, at) => {
      const own = rows.filter(({ attribute }) => attribute === `property ${at + 1}`);
      return productSummaries(blockTable(own, products), products, 0.95);
    }).flat();
  const ours = async (): Promise<number> => {
    const start = performance.now();
    described();
    return performance.now() - start;
  };
  const r = await RSide.open(join(import.meta.dirname, "descriptives.R"), [file]);
  if (!r) return { figures: [], limits: [], load: [], notes: ["Nothing was compared: there is no R here."] };
  try {
    const theirs = await r.numbers();
    const mine = described().flatMap(({ marks, mean, deviation }) => [marks, mean ?? 0, deviation ?? 0]);
    const off = Math.max(...theirs.map((value, at) => Math.abs(value - (mine[at] ?? Number.NaN)) / Math.abs(value)));
    const baseline = async (): Promise<number> => (await r.seconds(1)) * 1000;
    const found = await alternate(quick ? 3 : 9, { baseline, ours });
    const figure = figureOf("count, mean and deviation of each group", "ms", found.baseline, found.ours);
    const ratio = figure.ratio.median;
    return {
      figures: [figure],
      load: found.load,
      notes: [],
      limits: [
        { grade: "must", text: `the numbers are R's to 1e-10 (${short(off)})`, met: off <= 1e-10 },
        { grade: "must", text: `descriptives at most 2 × tapply (${short(ratio)})`, met: ratio <= 2 },
        { grade: "stretch", text: `at most 1 × tapply (${short(ratio)})`, met: ratio <= 1 },
      ],
    };
  } finally {
    r.close();
  }
}

type Seen = PageFigures & { index: number; rate: number };

async function pageOf(folder: string, file: string): Promise<Seen> {
  const data = join(folder, "data");
  mkdirSync(data);
  const server = new ServerProcess(await freePort(), data);
  await server.start();
  const machine = new Machine(join(folder, "profile"), { width: 1280, height: 900 });
  try {
    const context = await machine.start();
    const index = await cpuIndexOf(await context.newPage());
    const rate = slowdown(index, "mid");
    return { ...(await readReport(await context.newPage(), server.origin, file, rate)), index, rate };
  } finally {
    await machine.close();
    await server.end("SIGTERM");
  }
}

function reported({ figures, limits, load, notes }: Counted, page: Seen): GoalReport {
  return {
    goal: 12,
    title: `Report of 100,000 answers, the page slowed ${short(page.rate)} times (CPU index ${page.index}, mid)`,
    sides: { baseline: "tapply of R, timed inside R", ours: "blockTable and productSummaries, compiled" },
    figures,
    limits: [
      ...limits,
      {
        grade: "must",
        text: `no task over 50 ms on the main thread (longest ${page.longest})`,
        met: page.longest <= 50,
      },
      { grade: "must", text: `at most 3,000 nodes (${page.nodes})`, met: page.nodes <= 3000 },
      { grade: "must", text: `at most 12 pages of print (${page.pages})`, met: page.pages <= 12 },
      {
        grade: "must",
        text: `first picture at most 1,000 ms after the data (${short(page.pictureMs)})`,
        met: page.pictureMs <= 1000,
      },
    ],
    notes: [
      ...notes,
      `From the file to the result, in the worker: ${short(page.computedMs)} ms. Pages grow with properties and pairs, not with answers.`,
    ],
    load,
    noisy: isNoisy(load),
  };
}
