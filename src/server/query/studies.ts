import { type Attachment, answerKinds } from "../../model/ballot-event.ts";
import { streamKey } from "../../model/http.ts";
import type { Db } from "./tables.ts";

const key = (study: string) => streamKey({ kind: "study", id: study });

/**
 * Every study that a lead has written in, how far its stream goes, and whether its key is open. A stream that tablets
 * alone wrote in is kept, and is listed once its lead's events are here (again): a tablet makes no study.
 */
export async function allStudies(db: Db): Promise<{ id: string; head: number; revealed: boolean }[]> {
  const streams = await db
    .selectFrom("streams")
    .select(["key", "id", "head"])
    .where("kind", "=", "study")
    .where("key", "in", db.selectFrom("events").select("stream").where("role", "=", "lead"))
    .orderBy("id")
    .execute();
  const revealed = new Set((await revealEvents(db).select("stream").distinct().execute()).map(({ stream }) => stream));
  return streams.map(({ key, id, head }) => ({ id, head, revealed: revealed.has(key) }));
}

/** How far a study's stream goes and whether its key is open; null when the server does not know the study. */
export async function studyHead(db: Db, study: string): Promise<{ head: number; revealed: boolean } | null> {
  const stream = await db.selectFrom("streams").select("head").where("key", "=", key(study)).executeTakeFirst();
  if (!stream) return null;
  const reveal = await revealEvents(db).select("id").where("stream", "=", key(study)).limit(1).execute();
  return { head: stream.head, revealed: reveal.length > 0 };
}

/**
 * Sound reveals by a lead, of studies that a lead has closed: before the close nothing but outlines leaves the server,
 * whatever anybody sends.
 */
function revealEvents(db: Db) {
  return leadEvents(db, "key-revealed").where((each) =>
    each("stream", "in", leadEvents(db, "study-closed").select("stream")),
  );
}

const leadEvents = (db: Db, kind: "key-revealed" | "study-closed") =>
  db.selectFrom("events").where("kind", "=", kind).where("role", "=", "lead").where("held", "=", 0);

/** Has a lead closed the study? */
export async function isClosed(db: Db, study: string): Promise<boolean> {
  const closes = await leadEvents(db, "study-closed").select("id").where("stream", "=", key(study)).limit(1).execute();
  return closes.length > 0;
}

/** The event that locked a study: of two, the one with the lower id, as in the fold. */
export async function lockEvent(db: Db, study: string): Promise<string | null> {
  const row = await db
    .selectFrom("events")
    .select("id")
    .where("stream", "=", key(study))
    .where("kind", "=", "study-locked")
    .where("role", "=", "lead")
    .where("held", "=", 0)
    .orderBy("id")
    .limit(1)
    .executeTakeFirst();
  return row?.id ?? null;
}

export async function eventText(db: Db, id: string): Promise<string> {
  return (await db.selectFrom("events").select("text").where("id", "=", id).executeTakeFirstOrThrow()).text;
}

/**
 * Trays of a study that a device with none of these ids has kept an answer of, in order; and those that were typed in
 * from paper, wherever that was.
 */
export async function takenTrays(db: Db, study: string, ownIds: readonly string[]): Promise<number[]> {
  const rows = await db
    .selectFrom("events")
    .select("tray")
    .distinct()
    .where("stream", "=", key(study))
    .where("kind", "in", [...answerKinds, "tray-stopped", "paper-typed"])
    .where("held", "=", 0)
    .where("tray", "is not", null)
    .where((row) => row.or([row("device", "not in", ownIds), row("kind", "=", "paper-typed")]))
    .orderBy("tray")
    .execute();
  return rows.flatMap(({ tray }) => (tray === null ? [] : [tray]));
}

/** Remarks of a study, each beside an event of the device that sent it, in the order of their events. */
export async function remarksOf(db: Db, study: string): Promise<Attachment[]> {
  return db
    .selectFrom("attachments")
    .innerJoin("events", (j) =>
      j.onRef("events.id", "=", "attachments.event").onRef("events.device", "=", "attachments.device"),
    )
    .select(["attachments.event", "attachments.salt", "attachments.text"])
    .where("events.stream", "=", key(study))
    .where("events.kind", "=", "remark-kept")
    .orderBy("events.position")
    .execute();
}
