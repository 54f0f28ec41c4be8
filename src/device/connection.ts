import type { IDBPTransaction } from "idb";
import { problem } from "../model/problem.ts";
import { type Database, openDatabase, type Schema } from "./database.ts";

export type WriteStore = "meta" | "events" | "attachments" | "drafts" | "received" | "names";
export type WriteTransaction = IDBPTransaction<Schema, WriteStore[], "readwrite">;

/**
 * A connection to a device's database that survives being closed by the browser: it opens again and tries once more.
 * Every write is one transaction with strict durability, and counts only when the transaction is complete.
 */
export class Connection {
  #name: string;
  #database: Promise<Database> | null = null;

  constructor(name: string) {
    this.#name = name;
  }

  async close(): Promise<void> {
    const database = await this.#database?.catch(() => null);
    database?.close();
    this.#database = null;
  }

  /**
   * One strict transaction over the stores. `work` must await each of its requests, so that none fails unheard.
   * Throws Problem "device/full" or "device/not-saved"; then nothing of it was written.
   */
  write(stores: WriteStore[], work: (tx: WriteTransaction) => Promise<void>): Promise<void> {
    return this.run(async (database) => {
      const tx = database.transaction(stores, "readwrite", { durability: "strict" }) as WriteTransaction;
      const [done, worked] = await Promise.allSettled([tx.done, work(tx).catch((error) => abort(tx, error))]);
      if (done.status === "fulfilled") return;
      // a full disk shows only as the transaction's own reason; a plain abort means that the work itself failed
      const plain = done.reason instanceof DOMException && done.reason.name === "AbortError";
      throw plain && worked.status === "rejected" ? worked.reason : done.reason;
    });
  }

  /** A piece of work on the open database; once more on a fresh connection when the old one was closed under us. */
  async run<T>(work: (database: Database) => Promise<T>): Promise<T> {
    try {
      return await work(await this.#open());
    } catch (error) {
      if (!isClosed(error)) throw storeProblem(error);
    }
    const stale = this.#database;
    this.#database = null;
    void stale?.then((database) => database.close()).catch(() => undefined);
    try {
      return await work(await this.#open());
    } catch (error) {
      throw storeProblem(error);
    }
  }

  #open(): Promise<Database> {
    if (this.#database) return this.#database;
    const opening = openDatabase(this.#name, () => {
      this.#database = null;
    });
    opening.catch(() => {
      this.#database = null;
    });
    this.#database = opening;
    return opening;
  }
}

function abort(tx: WriteTransaction, error: unknown): never {
  try {
    tx.abort();
  } catch {
    // it has ended already
  }
  throw error;
}

function isClosed(error: unknown): boolean {
  return error instanceof DOMException && (error.name === "InvalidStateError" || error.name === "UnknownError");
}

function storeProblem(error: unknown): unknown {
  if (!(error instanceof DOMException)) return error;
  if (error.name === "QuotaExceededError") return problem("device/full");
  return problem("device/not-saved", { reason: error.message || error.name });
}
