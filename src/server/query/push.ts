import type { Insertable } from "kysely";
import { chainLink, chainStart } from "../../log/chain.ts";
import type { Attachment } from "../../model/ballot-event.ts";
import { sha256 } from "../../model/canonical.ts";
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
    const batch = new Batch(trx, caller, now, await heldAlready(trx, events));
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

/** What is held of a batch's ids and places in the streams; grows as the batch is added. */
type Held = { texts: Map<string, string>; places: Set<string> };

const placeOf = ({ envelope }: Readable): string => `${streamKey(envelope.stream)} ${envelope.device} ${envelope.seq}`;

/** Asked once for the whole batch: one question an event would cost more than storing it. */
async function heldAlready(db: Db, events: readonly Judged[]): Promise<Held> {
  const readable = events.filter((event): event is Readable => event.readable);
  const envelopes = readable.map(({ envelope }) => envelope);
  if (envelopes.length === 0) return { texts: new Map(), places: new Set() };
  const ids = envelopes.map(({ id }) => id);
  const same = await db.selectFrom("events").select(["id", "text"]).where("id", "in", ids).execute();
  const taken = await db
    .selectFrom("events")
    .select(["stream", "device", "seq"])
    .where("stream", "in", [...new Set(envelopes.map(({ stream }) => streamKey(stream)))])
    .where("device", "in", [...new Set(envelopes.map(({ device }) => device))])
    .where("seq", "in", [...new Set(envelopes.map(({ seq }) => seq))])
    .execute();
  return {
    texts: new Map(same.map(({ id, text }) => [id, text])),
    places: new Set(taken.map(({ stream, device, seq }) => `${stream} ${device} ${seq}`)),
  };
}

class Batch {
  readonly #db: Db;
  readonly #caller: Caller;
  readonly #now: string;
  readonly #held: Held;
  readonly #rows: Insertable<Tables["events"]>[] = [];
  readonly #ends = new Map<string, End>();
  readonly #touched = new Map<string, { device: string; stream: string }>();

  constructor(db: Db, caller: Caller, now: string, held: Held) {
    this.#db = db;
    this.#caller = caller;
    this.#now = now;
    this.#held = held;
  }

  async add(event: Judged): Promise<Verdict> {
    if (!event.readable) {
      if (event.id !== null) await this.#quarantineUnreadable(event.id, event.text);
      return { id: event.id ?? "", verdict: "refused" };
    }
    const { id } = event.envelope;
    if (event.refused === "device") return this.#aside(event, "device");
    const same = this.#held.texts.get(id);
    if (same !== undefined) return same === event.text ? { id, verdict: "have" } : this.#aside(event, "conflict");
    if (event.refused === "kind") return this.#aside(event, "kind");
    if (this.#held.places.has(placeOf(event))) return this.#aside(event, "fork");
    await this.#store(event);
    return { id, verdict: event.held ? "held" : "stored" };
  }

  /** Writes the new events, in the order of their positions, the ends of the streams and the heads of the devices. */
  async finish(): Promise<void> {
    if (this.#rows.length > 0) await this.#db.insertInto("events").values(this.#rows).execute();
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

  async #store(event: Readable): Promise<void> {
    const { envelope, text, hash } = event;
    const stream = streamKey(envelope.stream);
    const end = await this.#endOf(envelope.stream);
    end.head += 1;
    end.chain = chainLink(end.chain, text);
    const { id, device, seq, kind } = envelope;
    this.#rows.push({
      ...{ id, stream, device, seq, kind, hash, text },
      position: end.head,
      chain: end.chain,
      role: this.#caller.role,
      held: event.held ? 1 : 0,
      tray: event.tray,
      received_at: this.#now,
    });
    this.#held.texts.set(id, text);
    this.#held.places.add(placeOf(event));
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
