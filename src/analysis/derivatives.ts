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
      const up = values(moved(point, [[at, step]]));
      const down = values(moved(point, [[at, -step]]));
      return up.map((value, i) => (value - (down[i] ?? 0)) / (2 * step));
    }),
  );
}

/** Second slopes of one function, every pair of numbers; see `slopes`. */
export function curvature(
  value: (point: readonly number[]) => number,
  point: readonly number[],
  steps: readonly number[],
): number[][] {
  const middle = value(point);
  const single = (i: number) =>
    extrapolated((part) => {
      const step = (steps[i] ?? 0) * part;
      return [(value(moved(point, [[i, step]])) - 2 * middle + value(moved(point, [[i, -step]]))) / step ** 2];
    })[0] ?? 0;
  const mixed = (i: number, j: number) =>
    extrapolated((part) => {
      const [a, b] = [(steps[i] ?? 0) * part, (steps[j] ?? 0) * part];
      const corner = (x: number, y: number) => value(moved(moved(point, [[i, x]]), [[j, y]]));
      return [(corner(a, b) - corner(a, -b) - corner(-a, b) + corner(-a, -b)) / (4 * a * b)];
    })[0] ?? 0;
  const table = point.map((_, i) => point.map((_, j) => (j < i ? mixed(i, j) : j === i ? single(i) : 0)));
  return table.map((row, i) => row.map((entry, j) => (j > i ? (table[j]?.[i] ?? 0) : entry)));
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

function moved(point: readonly number[], moves: readonly (readonly [number, number])[]): number[] {
  const made = [...point];
  for (const [at, by] of moves) made[at] = (made[at] ?? 0) + by;
  return made;
}
