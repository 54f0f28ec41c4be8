/**
 * Where a function of a few numbers is lowest near a start.
 *
 * Takes    values: finite or Infinity; step: how far the first tries lie from the start
 * Returns  the place, to about half the digits of a double: the ground of a valley is flat
 * Source   J. A. Nelder and R. Mead 1965 with the coefficients of J. C. Lagarias and others 1998 (from memory)
 */
export function lowest(
  values: (point: readonly number[]) => number,
  start: readonly number[],
  step: number,
  tolerance = 1e-5,
): number[] {
  const size = start.length;
  const tried = (point: readonly number[]) => ({ point, value: values(point) });
  let corners = [start, ...start.map((_, at) => start.map((x, i) => (i === at ? x + step : x)))].map(tried);
  for (let round = 0; round < 400 * size; round++) {
    corners.sort((a, b) => a.value - b.value);
    const [best, worst, second] = [corners[0], corners[size], corners[size - 1]];
    if (!best || !worst || !second || widest(corners, best.point) < tolerance) break;
    const middle = start.map(
      (_, i) => corners.slice(0, size).reduce((sum, { point }) => sum + (point[i] ?? 0), 0) / size,
    );
    const along = (share: number) => tried(middle.map((x, i) => x + share * ((worst.point[i] ?? 0) - x)));
    const mirrored = along(-1);
    const next = ((): typeof mirrored | null => {
      if (mirrored.value < best.value) {
        const further = along(-2);
        return further.value < mirrored.value ? further : mirrored;
      }
      if (mirrored.value < second.value) return mirrored;
      const inside = along(mirrored.value < worst.value ? -0.5 : 0.5);
      return inside.value < Math.min(mirrored.value, worst.value) ? inside : null;
    })();
    if (next) corners[size] = next;
    else corners = corners.map((c) => (c === best ? c : tried(c.point.map((x, i) => ((best.point[i] ?? 0) + x) / 2))));
  }
  corners.sort((a, b) => a.value - b.value);
  return [...(corners[0]?.point ?? start)];
}

const widest = (corners: readonly { point: readonly number[] }[], from: readonly number[]): number =>
  Math.max(...corners.flatMap(({ point }) => point.map((x, i) => Math.abs(x - (from[i] ?? 0)))));
