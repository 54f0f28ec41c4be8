import type { Heads } from "../../model/ballot-event.ts";
import type { Db } from "./tables.ts";

export type LeadText = { id: string; device: string; text: string };

/** Sound looks and their outcomes, written by leads, in the order of their ids. `stream` is "study:<id>". */
export async function lookTexts(db: Db, stream: string, kind: "look-begun" | "look-done"): Promise<LeadText[]> {
  return db
    .selectFrom("events")
    .select(["id", "device", "text"])
    .where("stream", "=", stream)
    .where("kind", "=", kind)
    .where("role", "=", "lead")
    .where("held", "=", 0)
    .orderBy("id")
    .execute();
}

/**
 * The kept answers of a stream that some heads name, and what was typed in from paper, in the order of their arrival,
 * with their trays.
 */
export async function answersWithin(
  db: Db,
  stream: string,
  heads: Heads,
): Promise<{ tray: number; kind: string; text: string }[]> {
  const rows = await db
    .selectFrom("events")
    .select(["device", "seq", "tray", "kind", "text"])
    .where("stream", "=", stream)
    .where("kind", "in", ["answer-kept", "paper-typed"])
    .where("role", "=", "panel")
    .where("held", "=", 0)
    .orderBy("position")
    .execute();
  return rows.flatMap(({ device, seq, tray, kind, text }) =>
    tray !== null && seq <= (heads[device] ?? 0) ? [{ tray, kind, text }] : [],
  );
}
