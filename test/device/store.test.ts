import "fake-indexeddb/auto";
import { IDBDatabase as FakeDatabase, IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { DeviceStore } from "../../src/device/store.ts";
import { brokenLinks } from "../../src/log/chain.ts";
import { sendAll } from "../../src/log/outbox.ts";
import type { PushRequest } from "../../src/model/http.ts";
import { Problem } from "../../src/model/problem.ts";
import { stream, study, tabletA } from "../log/example.ts";

// fake-indexeddb has no disk: these tests prove the logic and that durability is asked for; test/e2e runs the same
// outbox in a real browser.
const at = "2026-05-03T12:00:00.000Z";
const finished = (tray: number) => ({ stream, kind: "tray-finished" as const, body: { tray } });
const answer = (tray: number, choice: string) => ({
  stream,
  kind: "answer-kept" as const,
  body: {
    tray,
    question: 1,
    choice,
    guess: false,
    elapsedMs: 10,
    screen: { widthPx: 1, heightPx: 1, pixelRatio: 1, pointer: "touch" },
  },
});

let store: DeviceStore;
beforeEach(async () => {
  globalThis.indexedDB = new IDBFactory();
  store = new DeviceStore("cloche-test");
  await store.setMeta("identity", { device: tabletA, token: "t", role: "panel", name: "A", formerly: [] });
});
afterEach(async () => {
  vi.restoreAllMocks();
  await store.close();
});

describe("device store", () => {
  test("A3: every write asks for strict durability", async () => {
    const asked: unknown[] = [];
    const original = FakeDatabase.prototype.transaction;
    vi.spyOn(FakeDatabase.prototype, "transaction").mockImplementation(function (this: FakeDatabase, ...args) {
      if (args[1] === "readwrite") asked.push((args[2] as { durability?: string } | undefined)?.durability);
      return original.apply(this, args);
    });
    await store.append(tabletA, at, finished(1));
    await store.saveDraft("d", 1);
    await store.dropDraft("d");
    await store.settle([], study);
    await store.saveName("seat 1", "x");
    expect(asked.length).toBeGreaterThanOrEqual(5);
    expect(new Set(asked)).toEqual(new Set(["strict"]));
  });

  test("A6: a put that succeeds in a transaction that then aborts is not saved, and the caller hears it", async () => {
    await store.append(tabletA, at, finished(1));
    const original = FakeDatabase.prototype.transaction;
    const spy = vi.spyOn(FakeDatabase.prototype, "transaction").mockImplementation(function (
      this: FakeDatabase,
      ...args
    ) {
      const tx = original.apply(this, args);
      if (args[1] === "readwrite") {
        const add = tx.objectStore("events").add.bind(tx.objectStore("events"));
        const events = tx.objectStore("events");
        events.add = (value: unknown) => {
          const request = add(value);
          request.addEventListener("success", () => tx.abort());
          return request;
        };
        tx.objectStore = ((name: string) =>
          name === "events" ? events : Object.getPrototypeOf(tx).objectStore.call(tx, name)) as typeof tx.objectStore;
      }
      return tx;
    });
    await expect(store.append(tabletA, at, finished(2))).rejects.toBeInstanceOf(Problem);
    spy.mockRestore();
    expect(await store.counts()).toMatchObject({ total: 1 });
    const next = await store.append(tabletA, at, finished(2));
    expect(next.seq).toBe(2);
  });

  test("A7: a connection closed under us is opened again and the answer kept once", async () => {
    await store.append(tabletA, at, finished(1));
    const original = FakeDatabase.prototype.transaction;
    let thrown = 0;
    vi.spyOn(FakeDatabase.prototype, "transaction").mockImplementation(function (this: FakeDatabase, ...args) {
      if (thrown === 0) {
        thrown += 1;
        throw new DOMException("the connection is closing", "InvalidStateError");
      }
      return original.apply(this, args);
    });
    await store.append(tabletA, at, answer(1, "482"));
    expect(thrown).toBe(1);
    expect(await store.counts()).toMatchObject({ total: 2 });
  });

  test("A11: the same answer kept twice at once, by two taps or two tabs, is one event", async () => {
    const tab = new DeviceStore("cloche-test");
    const kept = await Promise.all(
      [store, tab, store, tab].map((one) => one.append(tabletA, at, { ...answer(1, "482"), mark: "answer 1 1" })),
    );
    expect(new Set(kept.map((fact) => fact.id)).size).toBe(1);
    expect(await store.counts()).toMatchObject({ total: 1 });
    await tab.close();
  });

  test("E1: two tabs append 200 events each: sequence numbers gapless, chain whole, nothing clashes", async () => {
    const tab = new DeviceStore("cloche-test");
    await Promise.all(
      Array.from({ length: 400 }, (_, index) =>
        (index % 2 ? tab : store).append(tabletA, at, finished((index % 99) + 1)),
      ),
    );
    const facts = await store.ownFacts(stream);
    expect(facts.map((fact) => fact.seq)).toEqual(Array.from({ length: 400 }, (_, index) => index + 1));
    expect(brokenLinks(facts)).toEqual([]);
    await tab.close();
  });

  test("keeping an answer drops its draft in the same transaction; a failing one leaves the draft", async () => {
    await store.saveDraft("tray 1", { picked: "482" });
    const bad = { ...answer(1, "48"), draft: "tray 1" };
    await expect(store.append(tabletA, at, bad)).rejects.toThrow(/choice/);
    expect(await store.draft("tray 1")).toEqual({ picked: "482" });
    await store.append(tabletA, at, { ...answer(1, "482"), draft: "tray 1" });
    expect(await store.draft("tray 1")).toBeUndefined();
  });

  test("a remark travels with its event and the event holds only its hash", async () => {
    const remark = "a".repeat(64);
    await store.append(tabletA, at, {
      stream,
      kind: "remark-kept",
      body: { tray: 1, remark },
      attachment: { salt: "b".repeat(64), text: "a little salty" },
    });
    const { events, attachments } = await store.unsent(10, 10_000);
    expect(attachments).toEqual([{ event: events[0]?.id, salt: "b".repeat(64), text: "a little salty" }]);
    expect(events[0]?.text).not.toContain("salty");
  });

  test("C16: with the real store, a server that lost its database is refilled and everything is safe again", async () => {
    for (let tray = 1; tray <= 25; tray++) await store.append(tabletA, at, finished(tray));
    const server = memoryServer();
    expect(await sendAll(store, server, async () => null)).toEqual({ done: "all-sent" });
    expect(await store.counts()).toMatchObject({ unsent: 0 });
    server.held.clear();
    server.incarnation = "88888888-8888-4888-8888-888888888888";
    expect(await sendAll(store, server, async () => null)).toEqual({ done: "all-sent" });
    expect([server.held.size, (await store.counts()).unsent]).toEqual([25, 0]);
    expect(await store.meta("incarnation")).toBe(server.incarnation);
  });
});

function memoryServer() {
  const held = new Map<string, { seq: number }>();
  const server = {
    held,
    incarnation: "99999999-9999-4999-8999-999999999999",
    push: async (request: PushRequest) => {
      const verdicts = request.events.map((text) => {
        const { id, seq } = JSON.parse(text) as { id: string; seq: number };
        const verdict = held.has(id) ? ("have" as const) : ("stored" as const);
        held.set(id, { seq });
        return { id, verdict };
      });
      const seqs = new Set([...held.values()].map(({ seq }) => seq));
      let head = 0;
      while (seqs.has(head + 1)) head += 1;
      return {
        ok: true as const,
        reply: { incarnation: server.incarnation, verdicts, heads: { [`study:${study}`]: head } },
      };
    },
  };
  return server;
}
