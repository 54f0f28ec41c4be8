import Database from "better-sqlite3";
import {
  CompiledQuery,
  type DatabaseConnection,
  type Driver,
  Kysely,
  type SqliteDatabase,
  SqliteDialect,
  type SqliteDialectConfig,
  SqliteDriver,
} from "kysely";
import { type Problem, problem } from "../../model/problem.ts";
import type { Tables } from "./tables.ts";

/**
 * The only file that knows which SQL driver there is, and SQLite's own statements.
 *
 * Kysely's SQLite driver hands its single connection to one caller at a time and to a transaction as a whole, so
 * there is one writer and transactions never interleave.
 */
export type Opened = { db: Kysely<Tables>; close(): Promise<void> };

/** The oldest SQLite that is safe in WAL mode: earlier ones could lose pages when a checkpoint raced a reset. */
const oldestVersion = [3, 51, 3] as const;

/**
 * Opens the database file, made if missing, and checks it.
 *
 * Takes    path; busyMs: how long to wait for a lock that another process holds
 * Throws   Problem "start/database-damaged", or what `storageProblem` makes of SQLite's refusal
 */
export function openSqlite(path: string, busyMs: number): Opened {
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { timeout: busyMs });
    prepare(database, path);
  } catch (error) {
    database?.close();
    throw storageProblem(error, path) ?? error;
  }
  const db = new Kysely<Tables>({ dialect: new WritingDialect({ database }) });
  return { db, close: () => db.destroy() };
}

function prepare(database: Database.Database, path: string): void {
  const version = String(database.prepare("select sqlite_version()").pluck().get());
  if (!isAtLeast(version)) {
    const reason = `SQLite is ${version}, needed is ${oldestVersion.join(".")} or newer`;
    throw problem("start/database-damaged", { path, reason });
  }
  database.pragma("journal_mode = WAL");
  database.pragma("synchronous = FULL"); // a commit that was answered is on the disk
  database.pragma("foreign_keys = ON");
  const found = database.pragma("quick_check(1)", { simple: true });
  if (found !== "ok") throw problem("start/database-damaged", { path, reason: firstLine(String(found)) });
}

/** The settings that durability rests on, as this connection has them. */
export async function settings(db: Kysely<Tables>): Promise<Record<string, unknown>> {
  const ask = async (text: string) =>
    Object.values((await db.executeQuery(CompiledQuery.raw(text))).rows[0] as Record<string, unknown>)[0];
  return {
    version: await ask("select sqlite_version()"),
    journalMode: await ask("pragma journal_mode"),
    synchronous: await ask("pragma synchronous"),
    foreignKeys: await ask("pragma foreign_keys"),
    busyTimeout: await ask("pragma busy_timeout"),
  };
}

/** What SQLite's error code means for a person; null when it is no storage trouble but a fault of ours. */
export function storageProblem(error: unknown, path = ""): Problem | null {
  if (!(error instanceof Database.SqliteError)) return null;
  const { code } = error;
  if (code.startsWith("SQLITE_BUSY") || code.startsWith("SQLITE_LOCKED")) return problem("server/busy");
  if (code.startsWith("SQLITE_CORRUPT") || code.startsWith("SQLITE_NOTADB")) {
    return problem("start/database-damaged", { path, reason: firstLine(error.message) });
  }
  const cannotStore = ["SQLITE_FULL", "SQLITE_IOERR", "SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM"];
  if (!cannotStore.some((start) => code.startsWith(start))) return null;
  return path === ""
    ? problem("server/storage")
    : problem("start/folder-unwritable", { path, reason: firstLine(error.message) });
}

const firstLine = (text: string) => text.split("\n")[0] ?? text;

function isAtLeast(version: string): boolean {
  const parts = version.split(".").map(Number);
  for (const [index, needed] of oldestVersion.entries()) {
    const part = parts[index] ?? 0;
    if (part !== needed) return part > needed;
  }
  return true;
}

/** Statements kept for another time. A server asks some forty; a batch of another length is another statement. */
const keptStatements = 200;

/** The database with its statements kept: preparing one anew costs more than running it. */
function keeping(database: Database.Database): SqliteDatabase {
  const statements = new Map<string, Database.Statement>();
  return {
    prepare: (sql) => {
      const statement = statements.get(sql) ?? database.prepare(sql);
      // the one used last goes to the end: what is not asked for falls off
      statements.delete(sql);
      statements.set(sql, statement);
      for (const oldest of statements.keys()) {
        if (statements.size <= keptStatements) break;
        statements.delete(oldest);
      }
      return statement as ReturnType<SqliteDatabase["prepare"]>;
    },
    close: () => database.close(),
  };
}

class WritingDialect extends SqliteDialect {
  readonly #database: Database.Database;
  constructor(config: { database: Database.Database }) {
    super(config as SqliteDialectConfig);
    this.#database = config.database;
  }
  override createDriver(): Driver {
    return new WritingDriver(this.#database);
  }
}

/** Every transaction here writes. It takes the lock at once, so it cannot fail half-way because another process wrote. */
class WritingDriver extends SqliteDriver {
  readonly #database: Database.Database;
  constructor(database: Database.Database) {
    super({ database: keeping(database) });
    this.#database = database;
  }
  override async beginTransaction(connection: DatabaseConnection): Promise<void> {
    await connection.executeQuery(CompiledQuery.raw("begin immediate"));
  }
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    // after some errors (a full disk) SQLite has rolled back by itself; a second rollback would hide the reason
    if (this.#database.inTransaction) await connection.executeQuery(CompiledQuery.raw("rollback"));
  }
}
