import type { Db, Tables } from "./tables.ts";

export type EventRow = Pick<
  Tables["events"],
  "position" | "received_at" | "chain" | "hash" | "text" | "role" | "held" | "kind" | "tray"
>;

/** A page of events ends after so many, or after so much text. */
const pageEvents = 500;
const pageText = 2_000_000;

/** How far a stream goes; null when nothing was written in it. `stream` is its key, "study:<id>". */
export async function streamHead(db: Db, stream: string): Promise<number | null> {
  const row = await db.selectFrom("streams").select("head").where("key", "=", stream).executeTakeFirst();
  return row?.head ?? null;
}

/** Every claim, and how far its stream goes. A stream that only refused events named is none. */
export async function allClaims(db: Db): Promise<{ id: string; head: number }[]> {
  return db
    .selectFrom("streams")
    .select(["id", "head"])
    .where("kind", "=", "claim")
    .where("head", ">", 0)
    .orderBy("id")
    .execute();
}

/** Events of a stream after a position, in order; at most a page. */
export async function eventsAfter(db: Db, stream: string, after: number): Promise<EventRow[]> {
  const rows = await db
    .selectFrom("events")
    .select(["position", "received_at", "chain", "hash", "text", "role", "held", "kind", "tray"])
    .where("stream", "=", stream)
    .where("position", ">", after)
    .orderBy("position")
    .limit(pageEvents)
    .execute();
  let size = 0;
  const end = rows.findIndex(({ text }) => {
    size += text.length;
    return size > pageText;
  });
  return end === -1 ? rows : rows.slice(0, Math.max(1, end));
}

/** The sound typings of paper ballots of some trays, in the order of their arrival. */
export async function paperTypings(db: Db, stream: string, trays: readonly number[]) {
  return db
    .selectFrom("events")
    .select(["position", "text"])
    .where("stream", "=", stream)
    .where("kind", "=", "paper-typed")
    .where("role", "=", "panel")
    .where("held", "=", 0)
    .where("tray", "in", trays)
    .orderBy("position")
    .execute();
}

/** How many events of a stream lie in quarantine, and how many are held. */
export async function asideCounts(db: Db, stream: string): Promise<{ quarantined: number; held: number }> {
  const quarantined = await db
    .selectFrom("quarantine")
    .select((e) => e.fn.countAll().as("n"))
    .where("stream", "=", stream)
    .executeTakeFirstOrThrow();
  const held = await db
    .selectFrom("events")
    .select((e) => e.fn.countAll().as("n"))
    .where("stream", "=", stream)
    .where("held", "=", 1)
    .executeTakeFirstOrThrow();
  return { quarantined: Number(quarantined.n), held: Number(held.n) };
}

/** How far each device's events of a stream are held without a gap, those kept aside or held included. */
export async function headsOfStream(db: Db, stream: string): Promise<Record<string, number>> {
  const rows = await db.selectFrom("heads").select(["device", "head"]).where("stream", "=", stream).execute();
  return Object.fromEntries(rows.map(({ device, head }) => [device, Number(head)]));
}
