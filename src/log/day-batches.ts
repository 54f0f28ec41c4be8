import type { FactOf } from "./fact.ts";

type Change = FactOf<"batch-changed">;

/**
 * From which pots a tray is served that the plan serves from this one: the pot itself where nothing was changed. A change
 * that names the tray goes before one of the whole wave, which leaves out trays that were served before it. Several: changes were written apart and disagree.
 *
 * Takes    changes: of the tray's wave, in any order
 */
export function potsServed(pot: string, tray: number, changes: readonly Change[]): string[] {
  const reached = new Set<string>();
  const last = new Set<string>();
  const follow = (at: string): void => {
    // a pot that gives way to one that it came for: a circle ends where it began
    if (reached.has(at)) return;
    reached.add(at);
    const mine = changes.filter(
      ({ body }) =>
        body.pot === at && (body.trays.length === 0 ? !body.kept.includes(tray) : body.trays.includes(tray)),
    );
    const named = mine.filter(({ body }) => body.trays.length > 0);
    const next = (named.length > 0 ? named : mine).map(({ body }) => body.becomes).filter((each) => !reached.has(each));
    if (next.length === 0) last.add(at);
    for (const each of next) follow(each);
  };
  follow(pot);
  return [...last].sort();
}

/** One pot of a wave and the trays that are served from it now; none: all of them get another one. */
export type ServedPot = { pot: string; trays: number[]; insteadOf: string[] };

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
    insteadOf: [...new Set(changes.filter(({ body }) => body.becomes === pot).map(({ body }) => body.pot))].sort(),
  }));
}
