import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { SentState } from "../log/outbox.ts";
import type { Attachment } from "../model/ballot-event.ts";
import { problem } from "../model/problem.ts";

/** An own event as a row. `mark` makes a thing that may happen once unique on this device, whatever tab does it. */
export type EventRow = {
  id: string;
  stream: string;
  device: string;
  seq: number;
  text: string;
  hash: string;
  sent: SentState;
  mark?: string;
};

/** A fact received from the server (lead, reader): its text, or an outline. */
export type ReceivedRow = { stream: string; hash: string; text: string | null; outline: unknown };

export type Schema = DBSchema & {
  /** Identity, incarnation, packet, counters, screen settings; by name. */
  meta: { key: string; value: unknown };
  events: {
    key: string;
    value: EventRow;
    indexes: { place: [string, string, number]; sent: [SentState, string, number]; mark: string };
  };
  attachments: { key: string; value: Attachment };
  drafts: { key: string; value: unknown };
  received: { key: [string, string]; value: ReceivedRow };
  /** The erasable record: seat names and the like. Never sent. */
  names: { key: string; value: string };
};
export type Database = IDBPDatabase<Schema>;

export const databaseVersion = 1;

/**
 * Opens a device's database. Upgrades only add.
 *
 * Throws Problem "device/no-storage" when the browser refuses or does not answer within `timeoutMs`,
 *        "device/newer-version" when a newer Cloche made it, "device/blocked" when an older tab holds it
 */
export function openDatabase(name: string, onClosed: () => void, timeoutMs = 10_000): Promise<Database> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(problem("device/no-storage", { reason: "it does not answer" })), timeoutMs);
    openDB<Schema>(name, databaseVersion, {
      upgrade(database, from) {
        if (from < 1) createStores(database);
      },
      blocked: () => reject(problem("device/blocked")),
      // another tab wants to upgrade: every kept answer is durable already, so closing loses nothing
      blocking: (_current, _blocked, event) => {
        (event.target as IDBDatabase).close();
        onClosed();
      },
      terminated: onClosed,
    })
      .then(resolve, (error) => reject(openProblem(error)))
      .finally(() => clearTimeout(timer));
  });
}

function createStores(database: Database): void {
  database.createObjectStore("meta");
  const events = database.createObjectStore("events", { keyPath: "id" });
  events.createIndex("place", ["stream", "device", "seq"], { unique: true });
  events.createIndex("sent", ["sent", "stream", "seq"]);
  events.createIndex("mark", "mark", { unique: true });
  database.createObjectStore("attachments", { keyPath: "event" });
  database.createObjectStore("drafts");
  database.createObjectStore("received", { keyPath: ["stream", "hash"] });
  database.createObjectStore("names");
}

function openProblem(error: unknown): Error {
  if (error instanceof DOMException && error.name === "VersionError") return problem("device/newer-version");
  return problem("device/no-storage", { reason: error instanceof Error ? error.message : String(error) });
}
