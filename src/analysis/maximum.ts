/**
 * Where a function of one number is highest between two points.
 *
 * Takes    values: finite or -Infinity, with at most a few humps; cells: into how many parts the way is first cut, so
 *          that the highest hump is found
 * Returns  the place, either end included, and the height there. The place is good to about half the digits of a double,
 *          since a hump is flat; the height to nearly all
 * Source   golden-section search after J. Kiefer 1953 (from memory)
 * Example  highest((x) => -((x - 1) ** 2), 0, 3).at // 1.0000000
 */
export function highest(
  values: (x: number) => number,
  low: number,
  high: number,
  cells = 24,
): { at: number; value: number } {
  const step = (high - low) / cells;
  let best = { at: low, value: values(low) };
  for (let cell = 1; cell <= cells; cell++) {
    const at = cell === cells ? high : low + cell * step;
    const value = values(at);
    if (value > best.value) best = { at, value };
  }
  const inside = golden(values, Math.max(low, best.at - step), Math.min(high, best.at + step));
  return inside.value > best.value ? inside : best;
}

const ratio = (Math.sqrt(5) - 1) / 2;

function golden(values: (x: number) => number, from: number, to: number): { at: number; value: number } {
  let [low, high] = [from, to];
  let left = high - ratio * (high - low);
  let right = low + ratio * (high - low);
  let [leftValue, rightValue] = [values(left), values(right)];
  while (high - low > 1e-9 * Math.max(1e-3, Math.abs(left))) {
    if (leftValue >= rightValue) {
      [high, right, rightValue] = [right, left, leftValue];
      left = high - ratio * (high - low);
      leftValue = values(left);
    } else {
      [low, left, leftValue] = [left, right, rightValue];
      right = low + ratio * (high - low);
      rightValue = values(right);
    }
  }
  return leftValue >= rightValue ? { at: left, value: leftValue } : { at: right, value: rightValue };
}
