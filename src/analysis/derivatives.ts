/**
 * Slope of several functions of several numbers, by central differences with steps halved and extrapolated.
 *
 * Takes    values: smooth on both sides of the point; steps: the first step for each number
 * Returns  for each number the slopes of all functions; about 10 digits where the functions hold 15
 * Source   L. F. Richardson 1911 (from memory)
 */
export function slopes(
  values: (point: readonly number[]) => number[],
  point: readonly number[],
  steps: readonly number[],
): number[][] {
  return point.map((_, at) =>
    extrapolated((part) => {
      const step = (steps[at] ?? 0) * part;
      const up = values(moved(point, at, step));
      const down = values(moved(point, at, -step));
      return up.map((value, i) => (value - (down[i] ?? 0)) / (2 * step));
    }),
  );
}

/** Four halvings; each pass takes out the next even power of the step. */
function extrapolated(difference: (part: number) => number[]): number[] {
  let tried = [1, 1 / 2, 1 / 4, 1 / 8].map(difference);
  for (let power = 4; tried.length > 1; power *= 4) {
    tried = tried
      .slice(1)
      .map((finer, at) => finer.map((value, i) => value + (value - (tried[at]?.[i] ?? 0)) / (power - 1)));
  }
  return tried[0] ?? [];
}

const moved = (point: readonly number[], at: number, by: number): number[] =>
  point.map((x, i) => (i === at ? x + by : x));
