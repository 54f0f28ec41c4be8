import { accessSync, constants, existsSync, mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { Migrator } from "kysely";
import { readEvent } from "../../log/facts.ts";
import { newId } from "../../model/id.ts";
import { problem } from "../../model/problem.ts";
import { mayWrite, takenTray } from "../judge.ts";
import { migrations } from "./migrations.ts";
import { openSqlite } from "./sqlite.ts";
import type { Db } from "./tables.ts";

/** The durable log, open. `incarnation` names this database: a restored or new one has another. */
export type Store = { db: Db; incarnation: string; path: string; close(): Promise<void> };

export const databasePath = (folder: string): string => join(folder, "cloche.sqlite");

export type OpenOptions = {
  /** How long to wait for a lock that another process holds on the database. */
  busyMs?: number;
  /** The database was put back from a copy: it gets a new name, so that every device sends again what it holds. */
  restored?: boolean;
};

/**
 * Opens the store in a folder, which is made if missing; brings its tables up to date and judges held events again.
 *
 * Throws   Problem "start/folder-unwritable", "start/database-damaged", "server/busy"
 */
export async function openStore(folder: string, { busyMs = 5000, restored = false }: OpenOptions = {}): Promise<Store> {
  const path = databasePath(folder);
  requireWritable(folder, path);
  const { db, close } = openSqlite(path, busyMs);
  try {
    await migrate(db, path);
    const incarnation = await incarnationOf(db, restored);
    await judgeHeldAgain(db);
    return { db, incarnation, path, close };
  } catch (error) {
    await close();
    throw error;
  }
}

function requireWritable(folder: string, path: string): void {
  try {
    makeFolder(folder);
    accessSync(folder, constants.W_OK | constants.X_OK);
    if (existsSync(path)) accessSync(path, constants.R_OK | constants.W_OK);
  } catch (error) {
    const reason = error instanceof Error && "code" in error ? String(error.code) : String(error);
    throw problem("start/folder-unwritable", { path: folder, reason });
  }
}

/** Node's own recursive mkdir never returns where the system answers ENOENT for a new name, as /proc does. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  makeFolder(dirname(folder));
  mkdirSync(folder, { mode: 0o700 });
}

async function migrate(db: Db, path: string): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = await migrator.migrateToLatest();
  if (!error) return;
  // a database that a newer Cloche has changed is not touched
  const reason = error instanceof Error ? error.message : String(error);
  throw problem("start/database-damaged", { path, reason });
}

async function incarnationOf(db: Db, anew: boolean): Promise<string> {
  if (anew) await db.deleteFrom("meta").where("name", "=", "incarnation").execute();
  await db
    .insertInto("meta")
    .values({ name: "incarnation", value: newId() })
    .onConflict((c) => c.doNothing())
    .execute();
  return (await db.selectFrom("meta").select("value").where("name", "=", "incarnation").executeTakeFirstOrThrow())
    .value;
}

/** After an upgrade this server may understand what an older one could only hold. */
async function judgeHeldAgain(db: Db): Promise<void> {
  const held = await db.selectFrom("events").select(["id", "text", "role"]).where("held", "=", 1).execute();
  for (const { id, text, role } of held) {
    const read = readEvent(text);
    if (!read.ok || !read.fact || !mayWrite(role, read.envelope)) continue;
    await db
      .updateTable("events")
      .set({ held: 0, tray: takenTray(read.fact) })
      .where("id", "=", id)
      .execute();
  }
}

/** Reads one row; throws when the database cannot be read. */
export async function readOneRow(db: Db): Promise<void> {
  await db.selectFrom("meta").select("name").limit(1).execute();
}
