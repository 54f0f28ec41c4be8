import { randomUUID } from "node:crypto";
import { chmodSync, closeSync, mkdirSync, openSync, rmSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { settings } from "../../src/server/query/sqlite.ts";
import { databasePath, openStore } from "../../src/server/query/store.ts";
import { problemOfPromise } from "../problem-of.ts";
import { House, problemCode, scratch } from "./house.ts";
import { Pen } from "./pen.ts";

let folder: string;
beforeEach(() => {
  folder = scratch("storage");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test("B5 the store runs in WAL mode, syncs every commit, holds foreign keys, waits for locks, on a sound SQLite", async () => {
  const store = await openStore(folder);
  const found = await settings(store.db);
  await store.close();
  // "PRAGMA synchronous" gives 2 for FULL (from memory)
  expect(found).toMatchObject({ journalMode: "wal", synchronous: 2, foreignKeys: 1, busyTimeout: 5000 });
  const [major = 0, minor = 0, patch = 0] = String(found.version).split(".").map(Number);
  expect(major * 1_000_000 + minor * 1000 + patch).toBeGreaterThanOrEqual(3_051_003);
});

test("B5 the database itself refuses a second event with one id, place or position, and an event without a stream", async () => {
  const store = await openStore(folder);
  await store.close();
  const database = new Database(databasePath(folder));
  database.pragma("foreign_keys = ON");
  database.exec("insert into streams values ('study:s', 'study', 's', 0, '')");
  const insert = database.prepare(
    "insert into events (id, stream, device, seq, position, kind, role, held, hash, text, chain, received_at) " +
      "values (?, ?, 'd', ?, ?, 'k', 'lead', 0, '', '', '', '')",
  );
  insert.run("a", "study:s", 1, 1);
  expect(() => insert.run("a", "study:s", 2, 2)).toThrow(/UNIQUE/);
  expect(() => insert.run("b", "study:s", 1, 2)).toThrow(/UNIQUE/);
  expect(() => insert.run("b", "study:s", 2, 1)).toThrow(/UNIQUE/);
  expect(() => insert.run("b", "study:t", 2, 2)).toThrow(/FOREIGN KEY/);
  database.close();
});

test("B7 a folder that cannot be made is named", async () => {
  writeFileSync(join(folder, "file"), "");
  const place = join(folder, "file", "data");
  expect(await problemOfPromise(openStore(place))).toEqual({
    code: "start/folder-unwritable",
    details: { path: place, reason: "ENOTDIR" },
  });
  // a place that takes no new names at all
  expect(await problemOfPromise(openStore("/proc/cloche/data"))).toMatchObject({ code: "start/folder-unwritable" });
});

test("B13 a file that is no database, or a damaged one, is refused and left as it is", async () => {
  const place = join(folder, "none");
  mkdirSync(place);
  writeFileSync(databasePath(place), "not a database ".repeat(1000));
  expect((await problemOfPromise(openStore(place))).code).toBe("start/database-damaged");

  const store = await openStore(folder);
  for (let count = 0; count < 300; count += 1) {
    await store.db
      .insertInto("meta")
      .values({ name: `filler ${count}`, value: "x".repeat(500) })
      .execute();
  }
  await store.close();
  // zeros over pages in the middle, as a bad disk leaves them
  const file = openSync(databasePath(folder), "r+");
  writeSync(file, Buffer.alloc(40_000), 0, 40_000, 90_000);
  closeSync(file);
  const found = await problemOfPromise(openStore(folder));
  expect(found.code).toBe("start/database-damaged");
  expect(found.details).toMatchObject({ path: databasePath(folder) });
});

test("a database that a newer version has changed is refused", async () => {
  await (await openStore(folder)).close();
  const database = new Database(databasePath(folder));
  database.exec("insert into kysely_migration values ('999-later', '2099-01-01')");
  database.close();
  expect((await problemOfPromise(openStore(folder))).code).toBe("start/database-damaged");
});

test("B8 while another process holds the lock a push gets 503 and no verdict, reads go on, and then it is stored", async () => {
  const house = await House.open({ busyMs: 50 });
  try {
    const lead = await house.lead();
    const { text } = new Pen(lead.device).note(randomUUID());
    const blocker = new Database(house.store.path);
    blocker.exec("begin immediate");
    const body = { events: [text], attachments: [], status: null };
    const busy = await house.call("POST", "/api/events", { token: lead.token, body });
    expect([busy.status, problemCode(busy)]).toEqual([503, "server/busy"]);
    expect(busy.headers.get("retry-after")).toBe("2");
    expect((await house.call("GET", "/api/devices", { token: lead.token })).status).toBe(200);
    blocker.exec("rollback");
    blocker.close();
    expect(await house.verdicts(lead, [text])).toEqual(["stored"]);
  } finally {
    await house.close();
  }
});

test("B6 a database that may not grow gives 507 and no verdict; reads go on; with space it is stored", async () => {
  const house = await House.open();
  try {
    const lead = await house.lead();
    const study = randomUUID();
    const pen = new Pen(lead.device);
    await house.push(lead, [pen.note(study).text]);
    // SQLite's own limit stands in for a full disk: it gives the same SQLITE_FULL
    const { value } = await pragma(house, "page_count");
    await pragma(house, `max_page_count = ${value}`);
    const texts = Array.from({ length: 400 }, () => pen.note(study).text);
    const body = { events: texts, attachments: [], status: null };
    const full = await house.call("POST", "/api/events", { token: lead.token, body });
    expect([full.status, problemCode(full)]).toEqual([507, "server/storage"]);
    const page = await house.call("GET", `/api/studies/${study}/events`, { token: lead.token });
    expect(page.json).toMatchObject({ head: 1 });
    expect((await pragma(house, "quick_check")).value).toBe("ok");
    await pragma(house, "max_page_count = 1000000");
    expect(new Set(await house.verdicts(lead, texts))).toEqual(new Set(["stored"]));
  } finally {
    await house.close();
  }
});

async function pragma(house: House, text: string): Promise<{ value: unknown }> {
  const { sql } = await import("kysely");
  const { rows } = await sql.raw<Record<string, unknown>>(`pragma ${text}`).execute(house.store.db);
  return { value: Object.values(rows[0] ?? {})[0] };
}

test("the data folder is closed to other users of the machine", async () => {
  const place = join(folder, "new");
  await (await openStore(place)).close();
  const { statSync } = await import("node:fs");
  expect(statSync(place).mode & 0o077).toBe(0);
  chmodSync(place, 0o700);
});
