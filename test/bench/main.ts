import { accessSync, constants, writeFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { type Goal, type Options, readOptions, usage } from "./options.ts";
import { type GoalReport, linesOf } from "./report.ts";
import { aroundLines, lookAround } from "./surroundings.ts";

// Each is loaded when it is asked for: without Chromium the goals that need none still run.
const measures: Record<Goal, (quick: boolean) => Promise<GoalReport>> = {
  2: async (quick) => (await import("./tap/measure.ts")).tapToDurable(quick),
  5: async (quick) => (await import("./cold-start/measure.ts")).coldStart(quick),
  7: async (quick) => (await import("./ingest/measure.ts")).ingest(quick),
  12: async (quick) => (await import("./large-report/measure.ts")).largeReport(quick),
  11: async (quick) => (await import("./design/measure.ts")).design(quick),
  10: async (quick) => (await import("./mixed-model/measure.ts")).mixedModel(quick),
  9: async (quick) => (await import("./critical-numbers/measure.ts")).criticalNumbers(quick),
};

const needChromium: readonly Goal[] = [2, 5, 12];
const noChromium = "no Chromium was found. On Debian: apt-get install chromium; or name one in CLOCHE_CHROMIUM";

/** Runs the goals that are asked for. Returns the exit code: 0 whatever the figures are, 1 when something could not run. */
export async function main(given: string[]): Promise<number> {
  const options = readOptions(given);
  if (options === null || typeof options === "string") {
    (options === null ? say : complain)([options, usage].filter(Boolean).join("\n\n"));
    return options === null ? 0 : 1;
  }
  const out = resolve(options.out);
  try {
    accessSync(dirname(out), constants.W_OK);
  } catch {
    complain(`Nothing can be written to ${dirname(out)}. Name another place with --out.`);
    return 1;
  }
  return run({ ...options, out });
}

async function run({ goals, quick, out }: Options): Promise<number> {
  const around = await lookAround();
  say(aroundLines(around).join("\n"));
  if (quick) say("Quick: few rounds, to see that everything runs. The figures mean little.");
  const reports: GoalReport[] = [];
  const failed: { goal: Goal; why: string }[] = [];
  for (const goal of goals) {
    try {
      if (needChromium.includes(goal) && around.chromium === null) throw new Error(noChromium);
      const report = await measures[goal](quick);
      reports.push(report);
      say(`\n${linesOf(report).join("\n")}`);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      failed.push({ goal, why });
      complain(`\nGoal ${goal} could not be measured: ${why}`);
    }
  }
  writeFileSync(out, `${JSON.stringify({ quick, around, goals: reports, failed }, null, 2)}\n`);
  say(`\nWritten to ${out}`);
  return failed.length === 0 ? 0 : 1;
}

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const complain = (text: string): void => void process.stderr.write(`${text}\n`);
