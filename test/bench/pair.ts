import { loadavg } from "node:os";

/** What each round gave, the two sides of one and the same round at the same place. */
export type Rounds<T> = { baseline: T[]; ours: T[]; load: number[] };

/**
 * Measures two things by turns, A B A B: whatever else the machine is doing meanwhile meets both alike.
 * A first round of each is thrown away: compilers and caches are cold in it.
 *
 * Takes    rounds; for each side, what one round of it gives
 */
export async function alternate<T>(
  rounds: number,
  side: { baseline: () => Promise<T>; ours: () => Promise<T> },
): Promise<Rounds<T>> {
  const found: Rounds<T> = { baseline: [], ours: [], load: [] };
  for (let round = 0; round <= rounds; round++) {
    const baseline = await side.baseline();
    const ours = await side.ours();
    // on standard error: a run takes minutes, and what is piped on is the figures alone
    process.stderr.write(round === 0 ? "  warmed up\n" : `  round ${round} of ${rounds}\n`);
    if (round === 0) continue;
    found.baseline.push(baseline);
    found.ours.push(ours);
    found.load.push(loadavg()[0] ?? 0);
  }
  return found;
}

/** The q-th part of the values lies at or below the returned one (nearest rank). Throws when there are none. */
export function quantileOf(values: readonly number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const found = sorted[Math.max(0, Math.ceil(q * sorted.length) - 1)];
  if (found === undefined) throw new Error("nothing was measured");
  return found;
}

export function medianOf(values: readonly number[]): number {
  const middle = [...values].sort((a, b) => a - b).slice((values.length - 1) >> 1, (values.length >> 1) + 1);
  if (middle.length === 0) throw new Error("nothing was measured");
  return middle.reduce((sum, value) => sum + value, 0) / middle.length;
}

export type Spread = { median: number; low: number; high: number };
export const spreadOf = (values: readonly number[]): Spread => ({
  median: medianOf(values),
  low: Math.min(...values),
  high: Math.max(...values),
});

/** One figure of a goal, each side's value taken round by round. */
export type Figure = {
  name: string;
  unit: string;
  /** Every round's value, in order. */
  rounds: { baseline: number[]; ours: number[] };
  baseline: Spread;
  ours: Spread;
  /** Ours by baseline: ratio of the medians, and the lowest and highest ratio of a single round. */
  ratio: Spread;
};

/** Compares what the rounds gave, one value of each side a round. */
export function figureOf(name: string, unit: string, baseline: number[], ours: number[]): Figure {
  const ratios = ours.map((value, at) => value / (baseline[at] ?? Number.NaN));
  const ratio = { ...spreadOf(ratios), median: medianOf(ours) / medianOf(baseline) };
  return { name, unit, rounds: { baseline, ours }, baseline: spreadOf(baseline), ours: spreadOf(ours), ratio };
}
