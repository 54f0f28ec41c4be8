import { DeviceStore } from "../../src/device/store.ts";
import { brokenLinks } from "../../src/log/chain.ts";
import { sendAll } from "../../src/log/outbox.ts";
import type { PushReply, PushRequest } from "../../src/model/http.ts";
import { stream, study, tabletA } from "../log/example.ts";

/**
 * What a device's store and outbox must do, as cases that know no test runner: the same list runs on fake-indexeddb
 * (test/device/store.test.ts) and in a real browser (test/e2e/outbox.test.ts). Each case gets a name of a database
 * that nobody used before.
 */
export type Case = { name: string; run: (database: string) => Promise<void> };

const at = "2026-05-03T12:00:00.000Z";
const quiet = async () => null;
const finished = (tray: number) => ({ stream, kind: "tray-finished" as const, body: { tray } });
const screen = { widthPx: 1, heightPx: 1, pixelRatio: 1, pointer: "touch" };
const answer = (tray: number, choice: string) => ({
  stream,
  kind: "answer-kept" as const,
  body: { tray, question: 1, choice, guess: false, elapsedMs: 10, screen, salt: "5a".repeat(32) },
});

async function enrolled(name: string): Promise<DeviceStore> {
  const store = new DeviceStore(name);
  await store.setMeta("identity", { device: tabletA, token: "t", role: "panel", name: "A", formerly: [] });
  return store;
}

export function equal(got: unknown, wanted: unknown, what: string): void {
  const [left, right] = [JSON.stringify(got), JSON.stringify(wanted)];
  if (left !== right) throw new Error(`${what}: wanted ${right}, got ${left}`);
}

/** A server in memory: keeps ids and sequence numbers, says "have" for what it knows, can lose all of it. */
export function memoryServer() {
  const held = new Map<string, number>();
  const server = {
    held,
    pushes: [] as number[],
    incarnation: "99999999-9999-4999-8999-999999999999",
    push: async (request: PushRequest): Promise<{ ok: true; reply: PushReply }> => {
      server.pushes.push(request.events.length);
      const verdicts = request.events.map((text) => {
        const { id, seq } = JSON.parse(text) as { id: string; seq: number };
        const verdict = held.has(id) ? ("have" as const) : ("stored" as const);
        held.set(id, seq);
        return { id, verdict };
      });
      const seqs = new Set(held.values());
      let head = 0;
      while (seqs.has(head + 1)) head += 1;
      return { ok: true, reply: { incarnation: server.incarnation, verdicts, heads: { [`study:${study}`]: head } } };
    },
  };
  return server;
}

/** Replaces a method of a prototype while `work` runs. */
async function patched<T extends object, K extends keyof T>(target: T, name: K, by: T[K], work: () => Promise<void>) {
  const original = target[name];
  target[name] = by;
  try {
    await work();
  } finally {
    target[name] = original;
  }
}

async function fails(work: Promise<unknown>, what: string): Promise<unknown> {
  try {
    await work;
  } catch (error) {
    return error;
  }
  throw new Error(`${what}: it was said to be saved`);
}

export const cases: Case[] = [
  {
    name: "A3: every write asks for strict durability",
    run: async (name) => {
      const store = await enrolled(name);
      const asked: unknown[] = [];
      const original = IDBDatabase.prototype.transaction;
      const spy = function (this: IDBDatabase, ...args: Parameters<IDBDatabase["transaction"]>) {
        if (args[1] === "readwrite") asked.push(args[2]?.durability);
        return original.apply(this, args);
      };
      await patched(IDBDatabase.prototype, "transaction", spy, async () => {
        await store.append(tabletA, at, finished(1));
        await store.saveDraft("d", 1);
        await store.dropDraft("d");
        await store.settle([], { incarnation: study, heads: {} });
        await store.saveName("seat 1", "x");
      });
      equal([asked.length >= 5, [...new Set(asked)]], [true, ["strict"]], "durability of each write");
      await store.close();
    },
  },
  {
    name: "A6: a put that succeeds in a transaction that then aborts is not saved, and the caller hears it",
    run: async (name) => {
      const store = await enrolled(name);
      await store.append(tabletA, at, finished(1));
      const original = IDBObjectStore.prototype.add;
      let aborted = 0;
      const aborting = function (this: IDBObjectStore, ...args: Parameters<IDBObjectStore["add"]>) {
        const request = original.apply(this, args);
        request.addEventListener("success", () => {
          aborted += 1;
          request.transaction?.abort();
        });
        return request;
      };
      await patched(IDBObjectStore.prototype, "add", aborting, async () => {
        await fails(store.append(tabletA, at, finished(2)), "append");
      });
      equal(aborted, 1, "aborts after success");
      equal((await store.counts()).total, 1, "events after the abort");
      equal((await store.append(tabletA, at, finished(2))).seq, 2, "the next sequence number");
      await store.close();
    },
  },
  {
    name: "A7: a connection closed under us is opened again and the answer kept once",
    run: async (name) => {
      const store = await enrolled(name);
      const original = IDBDatabase.prototype.transaction;
      let thrown = 0;
      const closing = function (this: IDBDatabase, ...args: Parameters<IDBDatabase["transaction"]>) {
        if (thrown === 0) {
          thrown += 1;
          throw new DOMException("the connection is closing", "InvalidStateError");
        }
        return original.apply(this, args);
      };
      await patched(IDBDatabase.prototype, "transaction", closing, async () => {
        await store.append(tabletA, at, answer(1, "482"));
      });
      equal([thrown, (await store.counts()).total], [1, 1], "thrown and kept");
      await store.close();
    },
  },
  {
    name: "A11: the same answer kept twice at once, by two taps or two tabs, is one event",
    run: async (name) => {
      const [store, tab] = [await enrolled(name), new DeviceStore(name)];
      const taps = [store, tab, store, tab].map((one) =>
        one.append(tabletA, at, { ...answer(1, "482"), mark: "answer 1 1" }),
      );
      equal(new Set((await Promise.all(taps)).map((fact) => fact.id)).size, 1, "events of four taps");
      equal((await store.counts()).total, 1, "events kept");
      await Promise.all([store.close(), tab.close()]);
    },
  },
  {
    name: "E1: two tabs append 200 events each: sequence numbers gapless, chain whole, nothing clashes",
    run: async (name) => {
      const [store, tab] = [await enrolled(name), new DeviceStore(name)];
      await Promise.all(
        Array.from({ length: 400 }, (_, i) => (i % 2 ? tab : store).append(tabletA, at, finished((i % 99) + 1))),
      );
      const facts = await store.ownFacts(stream);
      equal(
        facts.map((fact) => fact.seq),
        Array.from({ length: 400 }, (_, i) => i + 1),
        "sequence numbers",
      );
      equal(brokenLinks(facts), [], "broken links");
      await Promise.all([store.close(), tab.close()]);
    },
  },
  {
    name: "keeping an answer drops its draft in the same transaction; a failing one leaves the draft",
    run: async (name) => {
      const store = await enrolled(name);
      await store.saveDraft("tray 1", { picked: "482" });
      const error = await fails(store.append(tabletA, at, { ...answer(1, "48"), draft: "tray 1" }), "a bad code");
      equal(String(error).includes("choice"), true, "the reason");
      equal(await store.draft("tray 1"), { picked: "482" }, "the draft after a failure");
      await store.append(tabletA, at, { ...answer(1, "482"), draft: "tray 1" });
      equal(await store.draft("tray 1"), undefined, "the draft after keeping");
      await store.close();
    },
  },
  {
    name: "a remark travels with its event, and the event holds only its hash",
    run: async (name) => {
      const store = await enrolled(name);
      const attachment = { salt: "b".repeat(64), text: "a little salty" };
      await store.append(tabletA, at, {
        stream,
        kind: "remark-kept",
        body: { tray: 1, remark: "a".repeat(64) },
        attachment,
      });
      const { events, attachments } = await store.unsent(10, 10_000);
      equal(attachments, [{ event: events[0]?.id, ...attachment }], "attachments");
      equal(events[0]?.text.includes("salty"), false, "the remark inside the event");
      await store.close();
    },
  },
  {
    name: "C14: 450 unsent events go out in order and in bounded batches, and are then safe",
    run: async (name) => {
      const store = await enrolled(name);
      for (let i = 0; i < 450; i++) await store.append(tabletA, at, finished((i % 99) + 1));
      const server = memoryServer();
      equal(await sendAll(store, server, quiet), { done: "all-sent" }, "outcome");
      equal([server.held.size, (await store.counts()).unsent], [450, 0], "held and unsent");
      equal(
        server.pushes.every((size) => size <= 200),
        true,
        "batches",
      );
      await store.close();
    },
  },
  {
    name: "C16: a server that lost its database is refilled and everything is safe again",
    run: async (name) => {
      const store = await enrolled(name);
      for (let tray = 1; tray <= 25; tray++) await store.append(tabletA, at, finished(tray));
      const server = memoryServer();
      equal(await sendAll(store, server, quiet), { done: "all-sent" }, "first outcome");
      server.held.clear();
      server.incarnation = "88888888-8888-4888-8888-888888888888";
      equal(await sendAll(store, server, quiet), { done: "all-sent" }, "second outcome");
      equal([server.held.size, (await store.counts()).unsent], [25, 0], "held and unsent");
      equal(await store.meta("incarnation"), server.incarnation, "incarnation");
      await store.close();
    },
  },
  {
    name: "C11: a fork is noticed even when the device is not behind, and nothing is thrown away",
    run: async (name) => {
      const store = await enrolled(name);
      await store.append(tabletA, at, finished(1));
      const server = memoryServer();
      const forking = {
        push: async (request: PushRequest) => {
          const { reply } = await server.push(request);
          return {
            ok: true as const,
            reply: { ...reply, verdicts: reply.verdicts.map(({ id }) => ({ id, verdict: "fork" as const })) },
          };
        },
      };
      equal(await sendAll(store, forking, quiet), { done: "rolled-back" }, "outcome");
      equal(await store.counts(), { total: 1, unsent: 0, aside: 1 }, "events kept");
      await store.close();
    },
  },
  {
    name: "D10: what was written under an earlier id goes out again to a server that lost its database",
    run: async (name) => {
      const store = await enrolled(name);
      for (let tray = 1; tray <= 3; tray++) await store.append(tabletA, at, finished(tray));
      const server = memoryServer();
      await sendAll(store, server, quiet);
      const now = "cccccccc-cccc-4ccc-8ccc-cccccccccccc";
      await store.setMeta("identity", { device: now, token: "t", role: "panel", name: "A", formerly: [tabletA] });
      await sendAll(store, server, quiet);
      server.held.clear();
      server.incarnation = "88888888-8888-4888-8888-888888888888";
      const foreign = {
        push: async (request: PushRequest) => {
          const { reply } = await server.push(request);
          return { ok: true as const, reply: { ...reply, heads: {} } }; // no event of the new id yet
        },
      };
      equal(await sendAll(store, foreign, quiet), { done: "all-sent" }, "outcome");
      equal([server.held.size, (await store.counts()).unsent], [3, 0], "held and unsent");
      await store.close();
    },
  },
  {
    name: "C17: storage that was rolled back is noticed, and nothing is thrown away",
    run: async (name) => {
      const store = await enrolled(name);
      await store.append(tabletA, at, finished(1));
      const server = memoryServer();
      for (let seq = 1; seq <= 9; seq++) server.held.set(`before ${seq}`, seq);
      equal(await sendAll(store, server, quiet), { done: "rolled-back" }, "outcome");
      equal((await store.counts()).total, 1, "events kept");
      await store.close();
    },
  },
];
