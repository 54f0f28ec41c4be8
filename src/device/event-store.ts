import * as z from "zod/mini";
import type { OutboxEvent, OutboxStore, SentState } from "../log/outbox.ts";
import type { EventText } from "../log/reading.ts";
import type { Attachment, StreamName } from "../model/ballot-event.ts";
import type { Body, Fact, Kind } from "../model/event.ts";
import type { StoredEvent } from "../model/http.ts";
import { type PushReply, roles, streamKey } from "../model/http-device.ts";
import { newEventId } from "../model/id.ts";
import { type BlindPacket, blindPacket } from "../model/packet.ts";
import { problem } from "../model/problem.ts";
import { id } from "../model/schema.ts";
import { Connection } from "./connection.ts";
import type { EventRow, ReceivedRow } from "./database.ts";
import { allOf, settleRows, topSeqs, unsentRows } from "./outbox-rows.ts";

/** Who this device is to the server. */
export const identity = z.strictObject({
  device: id,
  token: z.string(),
  role: z.enum(roles),
  name: z.string(),
  /** Ids this device had before (its storage was rolled back, or cloned); their events keep them. */
  formerly: z.array(id),
});
export type Identity = z.infer<typeof identity>;

export type Append<K extends Kind> = {
  stream: StreamName;
  kind: K;
  body: Body<K>;
  /** Names a thing that may happen once on this device ("answer 17 1"); a second one returns the first. */
  mark?: string;
  /** A remark that belongs to the event. */
  attachment?: { salt: string; text: string };
  /** A draft that this event replaces. */
  draft?: string;
};

/**
 * What a device keeps: its identity, its own events with their sending state, drafts, and what it received.
 *
 * `append` resolves only after the transaction is complete on disk (durability "strict"); every failure to get there
 * is thrown as a Problem and nothing was added. A connection that the browser closed under us is opened again and the
 * write tried once more.
 */
export class EventStore implements OutboxStore {
  #connection: Connection;
  #listeners = new Set<() => void>();
  #channel: BroadcastChannel | null;

  readonly #events: EventText;

  constructor(name: string, events: EventText) {
    this.#events = events;
    this.#connection = new Connection(name);
    this.#channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(name);
    if (this.#channel) this.#channel.onmessage = () => this.#tell(false);
  }

  /** Calls `listener` after every change by this or another tab; returns the way to stop that. */
  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  async close(): Promise<void> {
    this.#channel?.close();
    await this.#connection.close();
  }

  // --- identity and settings

  async identity(): Promise<Identity | null> {
    const parsed = z.safeParse(identity, await this.meta("identity"));
    return parsed.success ? parsed.data : null;
  }

  async meta(name: string): Promise<unknown> {
    return this.#connection.run((database) => database.get("meta", name));
  }

  async setMeta(name: string, value: unknown): Promise<void> {
    await this.#connection.write(["meta"], async (tx) => {
      await tx.objectStore("meta").put(value, name);
    });
    this.#tell(true);
  }

  // --- own events

  /**
   * Adds an event to the log of this device. Returns it once it is on disk.
   * Takes    events: of a kind that is loaded apart from the others
   */
  async append<K extends Kind>(who: string, at: string, what: Append<K>, events = this.#events): Promise<Fact> {
    const stream = streamKey(what.stream);
    let fact: Fact | null = null;
    await this.#connection.write(["events", "attachments", "drafts"], async (tx) => {
      const rows = tx.objectStore("events");
      const range = IDBKeyRange.bound([stream, who, 0], [stream, who, Number.MAX_SAFE_INTEGER]);
      // asked side by side: whoever pressed is waiting
      const [done, cursor] = await Promise.all([
        what.mark === undefined ? undefined : rows.index("mark").get(what.mark),
        rows.index("place").openCursor(range, "prev"),
      ]);
      if (done) {
        fact = factOf(events, done);
        return;
      }
      const last = cursor?.value;
      const seq = (last?.seq ?? 0) + 1;
      const written = events.writeEvent({
        id: newEventId(),
        stream: what.stream,
        device: who,
        seq,
        prev: last?.hash ?? null,
        at,
        kind: what.kind,
        body: what.body,
      });
      const row: EventRow = {
        id: written.fact.id,
        stream,
        device: who,
        seq,
        text: written.text,
        hash: written.hash,
        sent: "unsent",
      };
      await Promise.all([
        rows.add(what.mark === undefined ? row : { ...row, mark: what.mark }),
        what.attachment ? tx.objectStore("attachments").add({ event: row.id, ...what.attachment }) : null,
        what.draft === undefined ? null : tx.objectStore("drafts").delete(what.draft),
      ]);
      fact = written.fact;
    });
    this.#tell(true);
    if (!fact) throw problem("device/not-saved", { reason: "nothing was written" });
    return fact;
  }

  /** Own events of a stream, or of all, as facts. `events`: the kinds that are asked for. */
  async ownFacts(stream?: StreamName, events = this.#events): Promise<Fact[]> {
    const rows = await this.#rows(stream && streamKey(stream));
    return rows.map((row) => factOf(events, row)).filter((fact) => fact !== null);
  }

  /** Own events of a stream as rows: for a file that hands them over. */
  async ownRows(stream?: StreamName): Promise<EventRow[]> {
    return this.#rows(stream && streamKey(stream));
  }

  async counts(): Promise<{ total: number; unsent: number; aside: number }> {
    return this.#connection.run(async (database) => {
      const index = database.transaction("events").store.index("sent");
      const of = (sent: SentState) => index.count(allOf(sent));
      const [total, unsent, aside, refused] = await Promise.all([
        database.count("events"),
        of("unsent"),
        of("kept-aside"),
        of("refused"),
      ]);
      return { total, unsent, aside: aside + refused };
    });
  }

  // --- outbox

  async unsent(max: number, bytes: number): Promise<{ events: OutboxEvent[]; attachments: Attachment[] }> {
    return unsentRows(this.#connection, (await this.identity())?.device, max, bytes);
  }

  async topSeqs(): Promise<Record<string, number>> {
    return topSeqs(this.#connection, (await this.identity())?.device);
  }

  async settle(
    changes: { id: string; sent: SentState }[],
    reply: Pick<PushReply, "incarnation" | "heads">,
  ): Promise<{ lost: number }> {
    const lost = await settleRows(this.#connection, (await this.identity())?.device, changes, reply);
    if (changes.length + lost > 0) this.#tell(true);
    return { lost };
  }

  // --- drafts: marks that are not kept yet

  async draft(name: string): Promise<unknown> {
    return this.#connection.run((database) => database.get("drafts", name));
  }

  async saveDraft(name: string, value: unknown): Promise<void> {
    await this.#connection.write(["drafts"], async (tx) => {
      await tx.objectStore("drafts").put(value, name);
    });
  }

  async dropDraft(name: string): Promise<void> {
    await this.#connection.write(["drafts"], async (tx) => {
      await tx.objectStore("drafts").delete(name);
    });
  }

  /** Names of drafts that begin so. */
  async draftNames(prefix: string): Promise<string[]> {
    return this.#connection.run((database) =>
      database.getAllKeys("drafts", IDBKeyRange.bound(prefix, `${prefix}\uffff`)),
    );
  }

  // --- a panel device's packet

  async packet(): Promise<BlindPacket | null> {
    const parsed = z.safeParse(blindPacket, await this.meta("packet"));
    return parsed.success ? parsed.data : null;
  }

  // --- what a lead or reader received

  async received(stream: StreamName): Promise<ReceivedRow[]> {
    const name = streamKey(stream);
    return this.#connection.run((database) =>
      database.getAll("received", IDBKeyRange.bound([name, ""], [name, "\uffff"])),
    );
  }

  async receivedStreams(): Promise<string[]> {
    const keys = await this.#connection.run((database) => database.getAllKeys("received"));
    return [...new Set(keys.map(([stream]) => stream))];
  }

  /**
   * Keeps received events, by their hash, beside what was kept before: nothing is forgotten because a server no longer
   * has it. A text replaces the outline of its event, never the other way round.
   */
  async keepReceived(stream: StreamName, events: StoredEvent[]): Promise<void> {
    const name = streamKey(stream);
    await this.#connection.write(["received"], async (tx) => {
      const store = tx.objectStore("received");
      for (const { hash, text, outline } of events) {
        const before = await store.get([name, hash]);
        if (!before || before.text === null) await store.put({ stream: name, hash, text, outline });
      }
    });
    this.#tell(true);
  }

  // --- names: the erasable record

  async names(prefix: string): Promise<Record<string, string>> {
    return this.#connection.run(async (database) => {
      const range = IDBKeyRange.bound(prefix, `${prefix}\uffff`);
      const [keys, values] = await Promise.all([database.getAllKeys("names", range), database.getAll("names", range)]);
      return Object.fromEntries(keys.map((key, index) => [key.slice(prefix.length), values[index] ?? ""]));
    });
  }

  async saveName(key: string, name: string): Promise<void> {
    await this.#connection.write(["names"], async (tx) => {
      const names = tx.objectStore("names");
      await (name === "" ? names.delete(key) : names.put(name, key));
    });
  }

  // --- inside

  #tell(others: boolean): void {
    for (const listener of this.#listeners) listener();
    if (others) this.#channel?.postMessage("changed");
  }

  #rows(stream?: string): Promise<EventRow[]> {
    return this.#connection.run((database) =>
      stream === undefined
        ? database.getAllFromIndex("events", "place")
        : database.getAllFromIndex(
            "events",
            "place",
            IDBKeyRange.bound([stream, "", 0], [stream, "\uffff", Number.MAX_SAFE_INTEGER]),
          ),
    );
  }
}

function factOf(events: EventText, row: EventRow): Fact | null {
  const read = events.readEvent(row.text);
  return read.ok ? read.fact : null;
}
