import { closeSync, fdatasyncSync, openSync, writeSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { databasePath } from "../../../src/server/query/store.ts";

/** Rows of the server's own table of events, as they stand there. */
type Row = unknown[];

/**
 * What the driver alone can do: the same rows into the same table, one prepared insert, one transaction a batch, and
 * as durable (WAL, FULL). No HTTP, no reading, no checks, no hashes.
 */
export class RawInserts {
  readonly #server: Database.Database;
  readonly #database: Database.Database;
  readonly #insert: (rows: Row[]) => void;
  #taken = 0;

  /** Takes the folder of a running server's data, and one to write to on the same disk. */
  constructor(served: string, folder: string) {
    this.#server = new Database(databasePath(served), { readonly: true });
    this.#database = new Database(join(folder, "raw.sqlite"));
    this.#database.pragma("journal_mode = WAL");
    this.#database.pragma("synchronous = FULL");
    this.#database.pragma("foreign_keys = OFF"); // the streams that the rows point to are not here
    const made = "select sql from sqlite_master where tbl_name = 'events' and sql is not null order by type desc";
    for (const sql of this.#server.prepare(made).pluck().all()) this.#database.exec(String(sql));
    const columns = this.#database.prepare("select * from events").columns().length;
    const insert = this.#database.prepare(`insert into events values (${Array(columns).fill("?").join(", ")})`);
    this.#insert = this.#database.transaction((rows: Row[]) => {
      for (const row of rows) insert.run(row);
    });
  }

  /** Seconds to insert the next `events` rows that the server has stored. */
  insertBatches(events: number, batch: number): number {
    const rows = this.#server
      .prepare("select * from events order by rowid limit ? offset ?")
      .raw()
      .all(events, this.#taken) as Row[];
    if (rows.length < events) throw new Error(`the server holds ${rows.length} of ${events} rows`);
    this.#taken += events;
    const batches = Array.from({ length: events / batch }, (_, at) => rows.slice(at * batch, (at + 1) * batch));
    const start = performance.now();
    for (const one of batches) this.#insert(one);
    return (performance.now() - start) / 1000;
  }

  close(): void {
    this.#server.close();
    this.#database.close();
  }
}

/** Milliseconds that each of so many flushes of 512 new bytes at the end of a file takes. */
export function flushes(folder: string, count: number): number[] {
  const file = openSync(join(folder, "flushes"), "a");
  const bytes = Buffer.alloc(512, "cloche");
  const times: number[] = [];
  for (let at = 0; at < count; at++) {
    const start = performance.now();
    writeSync(file, bytes);
    fdatasyncSync(file);
    times.push(performance.now() - start);
  }
  closeSync(file);
  return times;
}
