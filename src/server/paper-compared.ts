import type { FactOf } from "../log/fact.ts";
import { readEvent } from "../log/facts.ts";
import { agree } from "../model/paper-agree.ts";
import { type EventRow, paperTypings } from "./query/streams.ts";
import type { Db } from "./query/tables.ts";

type Typing = Extract<FactOf<"paper-typed">, { outline: false }>;

/** By an event's position: the other person's typings of its tray that came before it, and whether the two agree. */
export type Compared = ReadonlyMap<number, readonly { typing: string; agrees: boolean }[]>;

/**
 * Holds the typings of paper ballots against each other. Two tablets never see each other's answers, and a lead sees
 * none before the reveal; the server holds them all, and what it says here tells of two whether they are the same,
 * never what they are.
 *
 * Takes    rows: a page of a stream, as it is about to be given out
 */
export async function comparedIn(db: Db, stream: string, rows: readonly EventRow[]): Promise<Compared> {
  const trays = rows.flatMap(({ kind, tray }) => (kind === "paper-typed" && tray !== null ? [tray] : []));
  if (trays.length === 0) return new Map();
  const typings = (await paperTypings(db, stream, [...new Set(trays)])).flatMap(({ position, text }) => {
    const event = readEvent(text);
    return event.ok && event.fact?.kind === "paper-typed" ? [{ position, fact: event.fact as Typing }] : [];
  });
  return new Map(
    typings.map(({ position, fact }, at) => [
      position,
      typings
        .slice(0, at)
        .filter((earlier) => earlier.fact.body.tray === fact.body.tray && earlier.fact.body.typing !== fact.body.typing)
        .map((earlier) => ({ typing: earlier.fact.id, agrees: agree(earlier.fact.body, fact.body) })),
    ]),
  );
}
