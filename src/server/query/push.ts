import { chainLink, chainStart } from "../../log/chain.ts";
import { sha256 } from "../../model/canonical.ts";
import type { Attachment } from "../../model/event.ts";
import { streamKey, type Verdict } from "../../model/http.ts";
import type { Judged } from "../judge.ts";
import type { Caller } from "./devices.ts";
import type { Db, Tables } from "./tables.ts";

type Readable = Extract<Judged, { readable: true }>;
type Reason = Tables["quarantine"]["reason"];
/** The end of a stream while a batch is being added to it. */
type End = { head: number; chain: string };

/**
 * Stores a batch in one transaction and says what became of each event, in the order given.
 *
 * Everything but unreadable text without an id is kept: sound or held events in their stream, the rest in quarantine.
 * Returns after the commit, so a verdict means that the event is on the disk. If anything throws, nothing is stored.
 */
export async function pushBatch(
  db: Db,
  caller: Caller,
  events: readonly Judged[],
  attachments: readonly Attachment[],
  now: string,
): Promise<Verdict[]> {
  if (events.length === 0 && attachments.length === 0) return [];
  return db.transaction().execute(async (trx) => {
    const batch = new Batch(trx, caller, now);
    const verdicts: Verdict[] = [];
    for (const event of events) verdicts.push(await batch.add(event));
    await batch.finish();
    for (const attachment of attachments) await batch.attach(attachment);
    return verdicts;
  });
}

/** By stream: the highest gapless sequence number held of a device. */
export async function headsOfDevice(db: Db, device: string): Promise<Record<string, number>> {
  const rows = await db.selectFrom("heads").select(["stream", "head"]).where("device", "=", device).execute();
  return Object.fromEntries(rows.map(({ stream, head }) => [stream, Number(head)]));
}

class Batch {
  readonly #db: Db;
  readonly #caller: Caller;
  readonly #now: string;
  readonly #ends = new Map<string, End>();
  readonly #touched = new Map<string, { device: string; stream: string }>();

  constructor(db: Db, caller: Caller, now: string) {
    this.#db = db;
    this.#caller = caller;
    this.#now = now;
  }

  async add(event: Judged): Promise<Verdict> {
    if (!event.readable) {
      if (event.id !== null) await this.#quarantineUnreadable(event.id, event.text);
      return { id: event.id ?? "", verdict: "refused" };
    }
    const { id } = event.envelope;
    if (event.refused === "device") return this.#aside(event, "device");
    const same = await this.#db.selectFrom("events").select("text").where("id", "=", id).executeTakeFirst();
    if (same) return same.text === event.text ? { id, verdict: "have" } : this.#aside(event, "conflict");
    if (event.refused === "kind") return this.#aside(event, "kind");
    if (await this.#placeTaken(event)) return this.#aside(event, "fork");
    await this.#store(event);
    return { id, verdict: event.held ? "held" : "stored" };
  }

  /** Writes down the new ends of the streams and heads of the devices. */
  async finish(): Promise<void> {
    for (const [key, { head, chain }] of this.#ends) {
      await this.#db.updateTable("streams").set({ head, chain }).where("key", "=", key).execute();
    }
    for (const { device, stream } of this.#touched.values()) await this.#advanceHead(device, stream);
  }

  /**
   * Keeps a remark beside its event, which is here: it travels with it or after it. One for an event that is not here,
   * or is another device's, is dropped; the first one for an event stays.
   */
  async attach({ event, salt, text }: Attachment): Promise<void> {
    const known =
      (await this.#db.selectFrom("events").select("device").where("id", "=", event).executeTakeFirst()) ??
      (await this.#db.selectFrom("quarantine").select("device").where("id", "=", event).executeTakeFirst());
    const device = known?.device ?? null;
    if (device === null || !this.#caller.ids.includes(device)) return;
    await this.#db
      .insertInto("attachments")
      .values({ event, device, salt, text, received_at: this.#now })
      .onConflict((c) => c.doNothing())
      .execute();
  }

  async #placeTaken({ envelope }: Readable): Promise<boolean> {
    const taken = await this.#db
      .selectFrom("events")
      .select("id")
      .where("stream", "=", streamKey(envelope.stream))
      .where("device", "=", envelope.device)
      .where("seq", "=", envelope.seq)
      .executeTakeFirst();
    return taken !== undefined;
  }

  async #store(event: Readable): Promise<void> {
    const { envelope, text, hash } = event;
    const stream = streamKey(envelope.stream);
    const end = await this.#endOf(envelope.stream);
    end.head += 1;
    end.chain = chainLink(end.chain, text);
    const { id, device, seq, kind } = envelope;
    await this.#db
      .insertInto("events")
      .values({
        ...{ id, stream, device, seq, kind, hash, text },
        position: end.head,
        chain: end.chain,
        role: this.#caller.role,
        held: event.held ? 1 : 0,
        tray: event.tray,
        received_at: this.#now,
      })
      .execute();
    this.#touch(device, stream);
  }

  /** The end of a stream, its row locked until the commit: positions have no gap and nobody reads one too early. */
  async #endOf(name: { kind: string; id: string }): Promise<End> {
    const key = streamKey(name);
    const known = this.#ends.get(key);
    if (known) return known;
    await this.#db
      .insertInto("streams")
      .values({ key, kind: name.kind, id: name.id, head: 0, chain: chainStart })
      .onConflict((c) => c.doNothing())
      .execute();
    const end = await this.#db
      .updateTable("streams")
      .set((e) => ({ head: e("head", "+", 0) }))
      .where("key", "=", key)
      .returning(["head", "chain"])
      .executeTakeFirstOrThrow();
    this.#ends.set(key, end);
    return end;
  }

  async #aside(event: Readable, reason: Reason): Promise<Verdict> {
    const { envelope, text, hash } = event;
    const stream = streamKey(envelope.stream);
    const counts = reason === "device" ? 0 : 1; // nobody moves the head of another device
    await this.#db
      .insertInto("quarantine")
      .values({
        ...{ id: envelope.id, hash, stream, device: envelope.device, seq: envelope.seq, counts, reason, text },
        pushed_by: this.#caller.id,
        received_at: this.#now,
      })
      .onConflict((c) => c.doNothing())
      .execute();
    if (counts === 1) this.#touch(envelope.device, stream);
    return { id: envelope.id, verdict: reason === "conflict" || reason === "fork" ? reason : "refused" };
  }

  async #quarantineUnreadable(id: string, text: string): Promise<void> {
    await this.#db
      .insertInto("quarantine")
      .values({
        ...{ id, text, stream: null, device: null, seq: null, counts: 0, reason: "unreadable" as const },
        hash: sha256(text),
        pushed_by: this.#caller.id,
        received_at: this.#now,
      })
      .onConflict((c) => c.doNothing())
      .execute();
  }

  #touch(device: string, stream: string): void {
    this.#touched.set(`${device} ${stream}`, { device, stream });
  }

  /** Moves a head over everything that follows without a gap, sound, held or in quarantine. */
  async #advanceHead(device: string, stream: string): Promise<void> {
    const row = await this.#db
      .selectFrom("heads")
      .select("head")
      .where("device", "=", device)
      .where("stream", "=", stream)
      .executeTakeFirst();
    let head = Number(row?.head ?? 0);
    for (const seq of await this.#seqsBeyond(head, device, stream)) {
      if (seq > head + 1) break;
      head = Math.max(head, seq);
    }
    await this.#db
      .insertInto("heads")
      .values({ device, stream, head })
      .onConflict((c) => c.columns(["device", "stream"]).doUpdateSet({ head }))
      .execute();
  }

  async #seqsBeyond(head: number, device: string, stream: string): Promise<number[]> {
    const stored = this.#db
      .selectFrom("events")
      .select("seq")
      .where("stream", "=", stream)
      .where("device", "=", device)
      .where("seq", ">", head);
    const aside = this.#db
      .selectFrom("quarantine")
      .select((e) => e.ref("seq").$notNull().as("seq"))
      .where("stream", "=", stream)
      .where("device", "=", device)
      .where("counts", "=", 1)
      .where("seq", ">", head);
    const rows = await stored.union(aside).orderBy("seq").execute();
    return rows.map(({ seq }) => Number(seq));
  }
}
