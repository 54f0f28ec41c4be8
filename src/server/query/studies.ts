import { readEvent } from "../../log/facts.ts";
import { openHalts } from "../../log/halts.ts";
import { type Attachment, answerKinds } from "../../model/ballot-event.ts";
import { streamKey } from "../../model/http.ts";
import type { Db } from "./tables.ts";

const key = (study: string) => streamKey({ kind: "study", id: study });

/** How far a study's stream goes, and what a lead has done with it: whether it is locked, and its key open. */
export type StudyHead = { head: number; locked: boolean; revealed: boolean };

/**
 * Every study that a lead has written in, and how it stands. A stream that tablets
 * alone wrote in is kept, and is listed once its lead's events are here (again): a tablet makes no study.
 */
export async function allStudies(db: Db): Promise<(StudyHead & { id: string })[]> {
  const streams = await db
    .selectFrom("streams")
    .select(["key", "id", "head"])
    .where("kind", "=", "study")
    .where("key", "in", db.selectFrom("events").select("stream").where("role", "=", "lead"))
    .orderBy("id")
    .execute();
  const revealed = new Set((await revealEvents(db).select("stream").distinct().execute()).map(({ stream }) => stream));
  const locks = await leadEvents(db, "study-locked").select("stream").distinct().execute();
  const locked = new Set(locks.map(({ stream }) => stream));
  return streams.map(({ key, id, head }) => ({ id, head, locked: locked.has(key), revealed: revealed.has(key) }));
}

/** How a study stands; null when the server does not know it. */
export async function studyHead(db: Db, study: string): Promise<StudyHead | null> {
  const stream = await db.selectFrom("streams").select("head").where("key", "=", key(study)).executeTakeFirst();
  if (!stream) return null;
  const reveal = await revealEvents(db).select("id").where("stream", "=", key(study)).limit(1).execute();
  const lock = await lockEvent(db, study);
  return { head: stream.head, locked: lock !== null, revealed: reveal.length > 0 };
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

const leadEvents = (db: Db, kind: "study-locked" | "key-revealed" | "study-closed") =>
  db.selectFrom("events").where("kind", "=", kind).where("role", "=", "lead").where("held", "=", 0);

/** Has a lead closed the study? */
export async function isClosed(db: Db, study: string): Promise<boolean> {
  const closes = await leadEvents(db, "study-closed").select("id").where("stream", "=", key(study)).limit(1).execute();
  return closes.length > 0;
}

/** Is serving halted? Asked with every look of every tablet; nearly always there is nothing to read. */
export async function isHalted(db: Db, study: string): Promise<boolean> {
  const rows = await db
    .selectFrom("events")
    .select("text")
    .where("stream", "=", key(study))
    .where("kind", "in", ["serving-halted", "serving-resumed", "entry-voided"])
    .where("role", "in", ["lead", "kitchen"])
    .where("held", "=", 0)
    .execute();
  const facts = rows.flatMap(({ text }) => {
    const event = readEvent(text);
    return event.ok && event.fact ? [event.fact] : [];
  });
  return openHalts(facts).length > 0;
}

/** The event that locked a study: of two, the one with the lower id, as in the fold. */
export async function lockEvent(db: Db, study: string): Promise<string | null> {
  const row = await leadEvents(db, "study-locked")
    .select("id")
    .where("stream", "=", key(study))
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
