import { cpus } from "node:os";
import type { Goal } from "./options.ts";
import type { Figure, Spread } from "./pair.ts";

/** A limit and whether what was measured keeps it. */
export type Limit = { grade: "must" | "stretch"; text: string; met: boolean };

export type GoalReport = {
  goal: Goal;
  title: string;
  /** What stands on the two sides, in a few words. */
  sides: { baseline: string; ours: string };
  figures: Figure[];
  limits: Limit[];
  /** What has to be known to read the figures. */
  notes: string[];
  /** Load average over one minute at the end of each round. */
  load: number[];
  /** Somebody else, or this run itself, wanted more than the cores there are: the figures are rough. */
  noisy: boolean;
};

export const isNoisy = (load: readonly number[]): boolean => Math.max(0, ...load) > cpus().length;

/** A goal as lines of text. */
export function linesOf(report: GoalReport): string[] {
  const { goal, title, sides, figures, limits, notes, load, noisy } = report;
  const mark = noisy ? "  noisy" : "";
  const lines = [`Goal ${goal}  ${title}`];
  lines.push(`  A ${sides.baseline}`, `  B ${sides.ours}`);
  for (const { name, unit, rounds, baseline, ours, ratio } of figures) {
    lines.push(
      `  ${name}`,
      `    A ${spreadText(baseline)} ${unit}`,
      `    B ${spreadText(ours)} ${unit}`,
      `    B : A ${spreadText(ratio)} in ${rounds.ours.length} rounds${mark}`,
    );
  }
  for (const { grade, text, met } of limits) lines.push(`  ${grade.padEnd(7)} ${met ? "met    " : "NOT met"} ${text}`);
  for (const note of notes) lines.push(`  ${note}`);
  if (load.length > 0) lines.push(`  load average ${short(Math.min(...load))} to ${short(Math.max(...load))}`);
  return lines;
}

const spreadText = ({ median, low, high }: Spread): string =>
  `${short(median)} (${short(low)} to ${short(high)})`.padEnd(26);

/** Three figures are more than any of this is worth. */
export const short = (value: number): string =>
  Number.isFinite(value) ? Number(value.toPrecision(3)).toLocaleString("en-US", { maximumFractionDigits: 6 }) : "none";
