/** Part of a list that was too long for one message, and where in the whole it belongs. */
export type Piece = { path: (string | number)[]; items: unknown[] };

/** Items of one message. A browser unpacks a message in one go, and the page answers nobody meanwhile. */
const mostItems = 500;

/**
 * Takes every list of more than `mostItems` out of plain data, which keeps an empty list in its place.
 *
 * Returns  the pieces of those lists, in order; `putBack` makes the whole of them again
 */
export function takenOut(whole: unknown, path: Piece["path"] = []): Piece[] {
  if (typeof whole !== "object" || whole === null) return [];
  if (!Array.isArray(whole)) return Object.entries(whole).flatMap(([key, part]) => takenOut(part, [...path, key]));
  if (whole.length <= mostItems) return whole.flatMap((part, at) => takenOut(part, [...path, at]));
  const pieces: Piece[] = [];
  while (whole.length > 0) pieces.push({ path, items: whole.splice(0, mostItems) });
  return pieces;
}

/** Puts pieces back where they were taken out. Throws RangeError where there is no list for one. */
export function putBack(whole: unknown, pieces: readonly Piece[]): void {
  for (const { path, items } of pieces) {
    const list = path.reduce((part: unknown, key) => (part as Record<string, unknown> | undefined)?.[key], whole);
    if (!Array.isArray(list)) throw new RangeError(`no list at ${path.join(".")}`);
    list.push(...items);
  }
}
