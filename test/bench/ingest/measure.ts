import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { scratch } from "../../server/house.ts";
import { ServerProcess } from "../../server/server-process.ts";
import { alternate, type Figure, figureOf, quantileOf, type Rounds } from "../pair.ts";
import { type GoalReport, isNoisy, type Limit, short } from "../report.ts";
import { isInMemory } from "../surroundings.ts";
import { flushes, RawInserts } from "./disk.ts";
import { Tablets } from "./tablets.ts";

const tablets = 4;
const batch = 100;

/**
 * Goal 7: taking in events.
 *
 * After hours without network every tablet sends at once, and a panelist's answer counts as safe only when the server
 * says so. What bounds both is the disk: a commit waits for a flush. So the measures are what the database driver does
 * without us (equal batches of the very same rows), and what one bare flush takes. The rest is our price for reading,
 * checking, chaining and answering.
 */
export async function ingest(quick: boolean): Promise<GoalReport> {
  const folder = scratch("bench-ingest");
  const raw = join(folder, "raw");
  mkdirSync(raw);
  const server = new ServerProcess(folder);
  let senders: Tablets | null = null;
  let inserts: RawInserts | null = null;
  try {
    await server.start();
    senders = await Tablets.enroll(server, tablets);
    const events = quick ? 2000 : 20_000;
    await senders.sendBatches(events, batch); // the rows that the raw side begins with
    inserts = new RawInserts(server.data, raw);
    const rates = await takeRates(quick ? 3 : 7, events, senders, inserts);
    const acks = await takeAcks(quick ? 3 : 9, quick ? 20 : 100, senders, raw);
    return reported(events, rates, acks, isInMemory(folder));
  } finally {
    senders?.close();
    inserts?.close();
    await server.end("SIGTERM");
    rmSync(folder, { recursive: true, force: true });
  }
}

const takeRates = (rounds: number, events: number, senders: Tablets, inserts: RawInserts): Promise<Rounds<number>> =>
  alternate(rounds, {
    baseline: async () => events / inserts.insertBatches(events, batch),
    ours: async () => events / (await senders.sendBatches(events, batch)),
  });

const takeAcks = (rounds: number, count: number, senders: Tablets, folder: string): Promise<Rounds<number[]>> =>
  alternate(rounds, {
    baseline: async () => flushes(folder, count),
    ours: () => senders.sendSingly(count),
  });

function reported(events: number, rates: Rounds<number>, acks: Rounds<number[]>, inMemory: boolean): GoalReport {
  const rate = figureOf(
    `${events.toLocaleString("en-US")} events a round`,
    "events a second",
    rates.baseline,
    rates.ours,
  );
  const ack = ackFigure(acks, 0.95);
  const load = [...rates.load, ...acks.load];
  return {
    goal: 7,
    title: `Taking in events: batches of ${batch}, ${tablets} connections; and one by one`,
    sides: {
      baseline: "better-sqlite3, the same rows in equal batches, WAL, FULL; one by one: 512 bytes and fdatasync",
      ours: "the built server over HTTP: checks, chain, WAL, FULL, verdicts",
    },
    figures: [rate, ackFigure(acks, 0.5), ack],
    limits: limitsOf(rate.ratio.median, ack.ratio.median),
    notes: [
      "The sending tablets share the cores with the server.",
      ...(inMemory
        ? ["The temporary folder is in memory: nothing was flushed. Set TMPDIR to a folder on a disk."]
        : []),
    ],
    load,
    noisy: isNoisy(load),
  };
}

function ackFigure({ baseline, ours }: Rounds<number[]>, q: number): Figure {
  const part = (rounds: number[][]) => rounds.map((times) => quantileOf(times, q));
  const name = `one event until it is acknowledged, p${q * 100} of ${ours[0]?.length ?? 0} a round`;
  return figureOf(name, "ms", part(baseline), part(ours));
}

const limitsOf = (rate: number, ack: number): Limit[] => [
  { grade: "must", text: `at least 0.5 of raw inserts (${short(rate)})`, met: rate >= 0.5 },
  { grade: "must", text: `one event, p95: at most 2.5 flushes (${short(ack)})`, met: ack <= 2.5 },
  { grade: "stretch", text: `at least 0.7 of raw inserts (${short(rate)})`, met: rate >= 0.7 },
  { grade: "stretch", text: `one event, p95: at most 1.8 flushes (${short(ack)})`, met: ack <= 1.8 },
];
