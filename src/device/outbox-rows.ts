import type { OutboxEvent, SentState } from "../log/outbox.ts";
import type { Attachment } from "../model/ballot-event.ts";
import type { PushReply } from "../model/http-device.ts";
import type { Connection, WriteTransaction } from "./connection.ts";
import type { EventRow } from "./database.ts";

/** The rows of the outbox in IndexedDB. `who` is the device's present id; what it wrote under earlier ones stays too. */
export const allOf = (sent: SentState): IDBKeyRange =>
  IDBKeyRange.bound([sent, "", 0], [sent, "\uffff", Number.MAX_SAFE_INTEGER]);

/** Unsent events in order, at most `max` and about `bytes` of text, with the remarks that travel with them. */
export function unsentRows(
  connection: Connection,
  who: string | undefined,
  max: number,
  bytes: number,
): Promise<{ events: OutboxEvent[]; attachments: Attachment[] }> {
  return connection.run(async (database) => {
    const tx = database.transaction(["events", "attachments"]);
    const events: OutboxEvent[] = [];
    let size = 0;
    const index = tx.objectStore("events").index("sent");
    for (let cursor = await index.openCursor(allOf("unsent")); cursor; cursor = await cursor.continue()) {
      size += cursor.value.text.length;
      if (events.length >= max || (events.length > 0 && size > bytes)) break;
      events.push({ ...cursor.value, own: cursor.value.device === who });
    }
    const found = await Promise.all(events.map((event) => tx.objectStore("attachments").get(event.id)));
    return { events, attachments: found.filter((attachment) => attachment !== undefined) };
  });
}

/** Highest sequence number by stream under the present id. Reads keys alone: it runs with every reply. */
export function topSeqs(connection: Connection, who: string | undefined): Promise<Record<string, number>> {
  return connection.run(async (database) => {
    const tops: Record<string, number> = {};
    let cursor = await database.transaction("events").store.index("place").openKeyCursor();
    for (; cursor; cursor = await cursor.continue()) {
      const [stream, device, seq] = cursor.key;
      if (device === who) tops[stream] = Math.max(tops[stream] ?? 0, seq);
    }
    return tops;
  });
}

/** Takes a reply in, in one transaction; returns how many events that counted as safe the server lacks. */
export async function settleRows(
  connection: Connection,
  who: string | undefined,
  changes: { id: string; sent: SentState }[],
  reply: Pick<PushReply, "incarnation" | "heads">,
): Promise<number> {
  let lost = 0;
  await connection.write(["events", "meta"], async (tx) => {
    const events = tx.objectStore("events");
    for (const { id, sent } of changes) {
      const row = await events.get(id);
      if (row) await events.put({ ...row, sent });
    }
    const known = await tx.objectStore("meta").get("incarnation");
    const another = known !== undefined && known !== reply.incarnation;
    // the heads speak of the present id; what earlier ids wrote is lost only with the whole database
    const missing = (row: EventRow): boolean =>
      row.device === who ? row.seq > (reply.heads[row.stream] ?? 0) : another;
    for (const sent of ["safe", "kept-aside"] as const) {
      lost += await unsettle(tx, sent, missing, another ? null : reply.heads);
    }
    await tx.objectStore("meta").put(reply.incarnation, "incarnation");
  });
  return lost;
}

/** Makes events unsent again that the server lacks; looks at keys first, and at rows only beyond a stream's head. */
async function unsettle(
  tx: WriteTransaction,
  sent: SentState,
  missing: (row: EventRow) => boolean,
  heads: Record<string, number> | null,
): Promise<number> {
  const ids: string[] = [];
  let cursor = await tx.objectStore("events").index("sent").openKeyCursor(allOf(sent));
  for (; cursor; cursor = await cursor.continue()) {
    const [, stream, seq] = cursor.key;
    if (heads === null || seq > (heads[stream] ?? 0)) ids.push(cursor.primaryKey);
  }
  let changed = 0;
  for (const id of ids) {
    const row = await tx.objectStore("events").get(id);
    if (!row || !missing(row)) continue;
    await tx.objectStore("events").put({ ...row, sent: "unsent" });
    changed += 1;
  }
  return changed;
}
