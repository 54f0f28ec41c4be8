import type { FactOf } from "./fact.ts";

type Change = FactOf<"batch-changed">;

/**
 * From which pots a tray is served that the plan serves from this one: the pot itself where nothing was changed. A change
 * that names the tray goes before one of the whole wave, and one of the whole wave leaves those alone that were kept by then.
 * Several: changes were written apart and disagree, or follow each other in a circle, and nothing says where it ends.
 *
 * Takes    changes: of the tray's wave, in any order
 */
export function potsServed(pot: string, tray: number, changes: readonly Change[]): string[] {
  const next = (at: string): string[] => {
    const mine = changes.filter(({ body }) => body.pot === at && concerns(body, tray));
    const named = mine.filter(({ body }) => body.trays.length > 0);
    return (named.length > 0 ? named : mine).map(({ body }) => body.becomes);
  };
  const reached = reachedFrom([pot], next);
  return [...reached].filter((at) => next(at).length === 0 || reachedFrom(next(at), next).has(at)).sort();
}

const concerns = ({ trays, kept }: Change["body"], tray: number): boolean =>
  trays.length === 0 ? !kept.includes(tray) : trays.includes(tray);

/** Everything that is come to from these, themselves among it. */
function reachedFrom(from: readonly string[], next: (at: string) => readonly string[]): Set<string> {
  const reached = new Set(from);
  // a set hands out what is added while it is walked
  for (const at of reached) for (const each of next(at)) reached.add(each);
  return reached;
}

/** Pots of a wave whose changes follow each other in a circle: of none of them anybody can say that it is served from. */
export function circleOf(changes: readonly Change[]): string[] {
  const next = (at: string) => changes.filter(({ body }) => body.pot === at).map(({ body }) => body.becomes);
  return [...new Set(changes.map(({ body }) => body.pot))].filter((at) => reachedFrom(next(at), next).has(at)).sort();
}

/**
 * One pot of a wave and the trays that have their food from it; none: all of them get another one. `toServe`: without those
 * that were kept when it gave way: of these nothing more is served from it.
 */
export type ServedPot = { pot: string; trays: number[]; toServe: number[]; insteadOf: string[] };

/**
 * The pots of a wave, those that gave way among them, in the order of their labels.
 *
 * Takes    planned: labels that the lock gives the wave; trays: those that are served with it
 */
export function potsOfWave(
  planned: readonly string[],
  trays: readonly number[],
  changes: readonly Change[],
): ServedPot[] {
  const all = new Set([...planned, ...changes.flatMap(({ body }) => [body.pot, body.becomes])]);
  const served = new Map<string, number[]>([...all].sort().map((pot) => [pot, []]));
  for (const tray of trays) {
    for (const pot of new Set(planned.flatMap((each) => potsServed(each, tray, changes)))) served.get(pot)?.push(tray);
  }
  return [...served].map(([pot, mine]) => ({
    pot,
    trays: mine,
    toServe: mine.filter((tray) => !changes.some(({ body }) => body.pot === pot && body.kept.includes(tray))),
    insteadOf: [...new Set(changes.filter(({ body }) => body.becomes === pot).map(({ body }) => body.pot))].sort(),
  }));
}
