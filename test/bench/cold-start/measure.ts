import { join } from "node:path";
import { Machine, scratch, tablet } from "../../e2e/machine.ts";
import { cpuIndexOf, slowdown } from "../cpu-index.ts";
import { alternate, figureOf, type Rounds } from "../pair.ts";
import { type GoalReport, isNoisy, short } from "../report.ts";
import { prepareProfiles } from "./profiles.ts";

/**
 * Goal 5: cold start of the panel without network.
 *
 * A tablet that was off, in a kitchen without reception, has to be ready when the first tray comes. Most of that time
 * is the browser's own: starting its worker, reading its cache. A static page out of the same cache by the same worker
 * takes that and nothing else, so that the ratio is the price of the app. Each start is a new browser process; starting
 * the browser itself is not part of the figure, since the page's clock begins when its address is asked for.
 */
export async function coldStart(quick: boolean): Promise<GoalReport> {
  const { folder, remove } = scratch("bench-start");
  try {
    const { panel, page } = await prepareProfiles(folder);
    const index = await indexOf(join(folder, "index"));
    const rate = slowdown(index, "mid");
    const found = await alternate(quick ? 3 : 9, {
      baseline: () => page.start(rate),
      ours: () => panel.start(rate),
    });
    return reported(found, index, rate);
  } finally {
    remove();
  }
}

async function indexOf(folder: string): Promise<number> {
  const machine = new Machine(folder, tablet);
  try {
    return await cpuIndexOf(await (await machine.start()).newPage());
  } finally {
    await machine.close();
  }
}

function reported({ baseline, ours, load }: Rounds<number>, index: number, rate: number): GoalReport {
  const figure = figureOf("address asked for until painted", "ms", baseline, ours);
  const [ratio, ms] = [figure.ratio.median, figure.ours.median];
  return {
    goal: 5,
    title: `Cold start without network, a page slowed ${short(rate)} times (CPU index ${index}, mid)`,
    sides: { baseline: "static page from the panel's cache", ours: "the panel, ready for a tray number" },
    figures: [figure],
    limits: [
      { grade: "must", text: `at most 3 × static page (${short(ratio)})`, met: ratio <= 3 },
      { grade: "must", text: `at most 1,500 ms (${short(ms)})`, met: ms <= 1500 },
      { grade: "stretch", text: `at most 2 × static page (${short(ratio)})`, met: ratio <= 2 },
    ],
    notes: [],
    load,
    noisy: isNoisy(load),
  };
}
