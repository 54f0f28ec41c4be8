import { join } from "node:path";
import { freePort, Machine, ServerProcess, scratch, tablet } from "../../e2e/machine.ts";
import { ApiLead } from "../../e2e/study-by-api.ts";
import { cpuIndexOf, slowdown } from "../cpu-index.ts";
import { alternate, type Figure, figureOf, quantileOf, type Rounds } from "../pair.ts";
import { type GoalReport, isNoisy, short } from "../report.ts";
import { Booth, planFor } from "./booth.ts";
import type { Tap } from "./finger.ts";
import { Skeleton } from "./skeleton.ts";

/**
 * Goal 2: a tap on Keep until the answer is durable.
 *
 * The screen waits for the disk before it says that an answer is kept, so this is how long a panelist looks at a
 * screen that does nothing. A skeleton page that writes the very same record as durably shows what the browser and the
 * disk take by themselves. Both run on a page slowed down to a tablet of the lowest class.
 */
export async function tapToDurable(quick: boolean): Promise<GoalReport> {
  const { folder, remove } = scratch("bench-tap");
  const server = new ServerProcess(await freePort(), join(folder, "data"));
  const machine = new Machine(join(folder, "profile"), tablet);
  let skeleton: Skeleton | null = null;
  try {
    const { rounds, taps } = quick ? { rounds: 3, taps: 4 } : { rounds: 8, taps: 25 };
    await server.start();
    const lead = await ApiLead.enroll(server);
    await lead.lock(planFor((rounds + 1) * taps + 1));
    const context = await machine.start();
    const page = await context.newPage();
    const index = await cpuIndexOf(page);
    const rate = slowdown(index, "low");
    const booth = await Booth.open(page, rate, lead, server.origin);
    const record = await booth.firstRecord();
    skeleton = await Skeleton.open(await context.newPage(), rate, join(folder, "page"), record);
    const sides = { baseline: skeleton, ours: booth };
    const found = await alternate(rounds, {
      baseline: () => taken(taps, sides.baseline),
      ours: () => taken(taps, sides.ours),
    });
    return reported(found, index, rate);
  } finally {
    await machine.close();
    skeleton?.close();
    await server.end("SIGTERM");
    remove();
  }
}

async function taken(taps: number, side: Booth | Skeleton): Promise<Tap[]> {
  await side.toFront();
  const all: Tap[] = [];
  for (let at = 0; at < taps; at++) all.push(await side.keep());
  return all;
}

function reported(found: Rounds<Tap[]>, index: number, rate: number): GoalReport {
  const p95 = partOf(found, 0.95);
  const all = found.ours.flat();
  const slowest = quantileOf(
    all.map(({ ms }) => ms),
    0.95,
  );
  const early = all.filter((tap) => tap.early).length;
  const ratio = p95.ratio.median;
  return {
    goal: 2,
    title: `A tap on Keep until the answer is durable, a page slowed ${short(rate)} times (CPU index ${index}, low)`,
    sides: { baseline: "skeleton page, the same record, strict", ours: "the panel" },
    figures: [partOf(found, 0.5), p95],
    limits: [
      { grade: "must", text: `p95 at most 1.5 × skeleton (${short(ratio)})`, met: ratio <= 1.5 },
      { grade: "must", text: `p95 of all ${all.length} taps at most 150 ms (${short(slowest)})`, met: slowest <= 150 },
      { grade: "must", text: `never said to be kept before it was (${early} of ${all.length})`, met: early === 0 },
      { grade: "stretch", text: `p95 at most 1.2 × skeleton (${short(ratio)})`, met: ratio <= 1.2 },
    ],
    notes: [],
    load: found.load,
    noisy: isNoisy(found.load),
  };
}

function partOf({ baseline, ours }: Rounds<Tap[]>, q: number): Figure {
  const part = (rounds: Tap[][]) =>
    rounds.map((taps) =>
      quantileOf(
        taps.map(({ ms }) => ms),
        q,
      ),
    );
  return figureOf(`p${q * 100} of ${ours[0]?.length ?? 0} taps a round`, "ms", part(baseline), part(ours));
}
