import { createHash, randomUUID } from "node:crypto";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { EnrollReply } from "../../src/model/http.ts";
import { scratch } from "./house.ts";
import { Pen } from "./pen.ts";
import { ServerProcess, tryPush } from "./server-process.ts";
import { Wire } from "./wire.ts";

let folder: string;
let server: ServerProcess;
beforeEach(() => {
  folder = scratch("durability");
  server = new ServerProcess(folder);
});
afterEach(async () => {
  await server.end("SIGKILL");
  rmSync(folder, { recursive: true, force: true });
});

const path = () => join(server.data, "cloche.sqlite");

/** Runs a query on a connection of its own, so that what it sees is committed. */
function query<Row>(sql: string, ...values: unknown[]): Row[] {
  const reading = new Database(path(), { readonly: true });
  try {
    return reading.prepare(sql).all(...values) as Row[];
  } finally {
    reading.close();
  }
}

async function until(condition: () => boolean): Promise<void> {
  while (!condition()) await new Promise((next) => setImmediate(next));
}

const rowsOf = (id: string) => query<{ position: number }>("select position from events where id = ?", id);

test("B1 C2 killed after the commit and before the reply: sent again, the server has it, one row, same position", async () => {
  await server.start();
  const lead = await server.lead();
  const study = randomUUID();
  const pen = new Pen(lead.device);
  const wire = await Wire.open(server.port);
  try {
    await tryPush(wire.origin, lead.token, [pen.note(study).text]);
    wire.mode = "hold";
    const { id, text } = pen.note(study);
    const pushed = tryPush(wire.origin, lead.token, [text]);
    await until(() => rowsOf(id).length === 1 && wire.held > 0);
    await server.end("SIGKILL");
    wire.cut();
    expect(await pushed).toBeNull();
    const before = rowsOf(id);

    wire.mode = "pass";
    await server.start();
    const again = await tryPush(wire.origin, lead.token, [text]);
    expect(again?.verdicts).toEqual([{ id, verdict: "have" }]);
    expect(again?.heads).toEqual({ [`study:${study}`]: 2 });
    expect(rowsOf(id)).toEqual(before);
  } finally {
    await wire.close();
  }
});

test("B2 killed before the commit: no row and no reply; sent again, it is stored", async () => {
  await server.start();
  const lead = await server.lead();
  const study = randomUUID();
  const { id, text } = new Pen(lead.device).note(study);
  const blocker = new Database(path());
  blocker.exec("begin immediate");
  const pushed = tryPush(server.origin, lead.token, [text]);
  // the kernel tells that its main thread sleeps inside SQLite's wait for the lock
  await until(() => readFileSync(`/proc/${server.child.pid}/wchan`, "utf8").includes("nanosleep"));
  await server.end("SIGKILL");
  expect(await pushed).toBeNull();
  blocker.exec("rollback");
  blocker.close();
  expect(rowsOf(id)).toEqual([]);
  await server.start();
  expect((await tryPush(server.origin, lead.token, [text]))?.verdicts).toEqual([{ id, verdict: "stored" }]);
});

test("C1 requests that never arrive are sent again in order: all stored, head without a gap", async () => {
  await server.start();
  const lead = await server.lead();
  const study = randomUUID();
  const pen = new Pen(lead.device);
  const wire = await Wire.open(server.port);
  try {
    for (let round = 0; round < 3; round += 1) {
      const batch = [pen.note(study).text, pen.note(study).text];
      wire.cut();
      wire.mode = "refuse";
      expect(await tryPush(wire.origin, lead.token, batch)).toBeNull();
      wire.mode = "pass";
      const reply = await tryPush(wire.origin, lead.token, batch);
      expect(reply?.verdicts.map(({ verdict }) => verdict)).toEqual(["stored", "stored"]);
      expect(reply?.heads).toEqual({ [`study:${study}`]: (round + 1) * 2 });
    }
  } finally {
    await wire.close();
  }
});

/** A device that pushes as fast as it is answered, and knows of each event whether it was acknowledged. */
class Client {
  readonly acked = new Set<string>();
  readonly invoked = new Set<string>();
  readonly #who: EnrollReply;
  readonly #study: string;
  readonly #pen: Pen;
  #unknown: { id: string; text: string }[] = [];

  constructor(who: EnrollReply, study: string) {
    this.#who = who;
    this.#study = study;
    this.#pen = new Pen(who.device);
  }

  /** Pushes until a push gets no answer. Events without one are sent again first. */
  async run(origin: string, random: () => number): Promise<void> {
    for (;;) {
      const fresh = Array.from({ length: 1 + Math.floor(random() * 4) }, () => this.#write());
      if (!(await this.push(origin, fresh))) return;
    }
  }

  async push(origin: string, fresh: { id: string; text: string }[] = []): Promise<boolean> {
    const batch = [...this.#unknown, ...fresh];
    const texts = batch.map(({ text }) => text);
    const reply = await tryPush(origin, this.#who.token, texts);
    this.#unknown = reply ? [] : batch;
    for (const { id, verdict } of reply?.verdicts ?? []) {
      if (verdict !== "stored" && verdict !== "have") throw new Error(`${id} is ${verdict}`);
      this.acked.add(id);
    }
    return reply !== null;
  }

  #write() {
    const event =
      this.#who.role === "lead" ? this.#pen.note(this.#study) : this.#pen.opened(this.#study, 1 + this.invoked.size);
    this.invoked.add(event.id);
    return event;
  }
}

/** Mulberry32 (T. Ettinger), a small seeded generator, from memory: any will do that gives the same run for a seed. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Row = { id: string; device: string; seq: number; position: number; text: string; chain: string };

/** Every acknowledged event is there, none twice, none that nobody sent; positions, sequences and chain are whole. */
function checkHistory(study: string, clients: Client[]): void {
  const rows = query<Row>("select * from events where stream = ? order by position", `study:${study}`);
  const ids = rows.map(({ id }) => id);
  const present = new Set(ids);
  expect(present.size).toBe(ids.length);
  const invoked = new Set(clients.flatMap((client) => [...client.invoked]));
  expect(clients.flatMap((client) => [...client.acked]).filter((id) => !present.has(id))).toEqual([]);
  expect(ids.filter((id) => !invoked.has(id))).toEqual([]);
  expect(rows.map(({ position }) => position)).toEqual(rows.map((_, index) => index + 1));
  let link = "0".repeat(64);
  for (const { text, chain } of rows) {
    link = createHash("sha256").update(`${link}\n${text}`).digest("hex");
    expect(chain).toBe(link);
  }
  for (const device of new Set(rows.map((row) => row.device))) {
    const seqs = rows.filter((row) => row.device === device).map(({ seq }) => seq);
    expect(seqs).toEqual(seqs.map((_, index) => index + 1));
  }
}

/** A round takes about 1.5 s on two busy cores; 100 rounds were run as well, with CLOCHE_KILL_ROUNDS=100. */
const rounds = Number(process.env.CLOCHE_KILL_ROUNDS ?? 20);

test(`B3 killed at random moments under load, ${rounds} times: every acknowledged event is there once, the chain holds`, {
  timeout: 20_000 * rounds,
}, async () => {
  const seed = Date.now() % 2 ** 31;
  process.stdout.write(`B3 seed ${seed}\n`);
  const random = seeded(seed);
  await server.start();
  const lead = await server.lead();
  const study = randomUUID();
  const devices = [lead, await server.device(lead, "panel"), await server.device(lead, "panel")];
  const clients = devices.map((who) => new Client(who, study));
  for (let round = 0; round < rounds; round += 1) {
    const running = Promise.all(clients.map((client) => client.run(server.origin, random)));
    // not after a time, but after so many acknowledgments and a few turns of the loop: the moment is anywhere in a push
    const wanted = clients.reduce((sum, { acked }) => sum + acked.size, 0) + Math.floor(random() * 12);
    await until(() => clients.reduce((sum, { acked }) => sum + acked.size, 0) >= wanted);
    for (let turn = Math.floor(random() * 200); turn > 0; turn -= 1) await new Promise((next) => setImmediate(next));
    await server.end("SIGKILL");
    await running;
    await server.start();
  }
  for (const client of clients) expect(await client.push(server.origin)).toBe(true);
  expect(clients.every(({ acked, invoked }) => acked.size === invoked.size)).toBe(true);
  checkHistory(study, clients);
  expect(query("pragma quick_check")).toEqual([{ quick_check: "ok" }]);
});

test("B14 SIGTERM under load: exit code 0, nothing acknowledged is lost, what was not is sent again", async () => {
  await server.start();
  const lead = await server.lead();
  const study = randomUUID();
  const clients = [lead, await server.device(lead, "panel"), await server.device(lead, "panel")].map(
    (who) => new Client(who, study),
  );
  const running = Promise.all(clients.map((client) => client.run(server.origin, Math.random)));
  await until(() => clients.every(({ acked }) => acked.size > 20));
  expect(await server.end("SIGTERM")).toBe(0);
  await running;
  expect(server.errors).toBe("");
  expect(server.output).toContain("Cloche has stopped.");
  await server.start();
  for (const client of clients) expect(await client.push(server.origin)).toBe(true);
  checkHistory(study, clients);
});

test("SIGINT stops a server that has an idle connection open", async () => {
  await server.start();
  await server.lead(); // fetch keeps the connection alive
  expect(await server.end("SIGINT")).toBe(0);
});
