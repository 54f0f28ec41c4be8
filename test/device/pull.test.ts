import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { knownFacts, knownStudies, knownTexts, pullKitchen, pullStudy, seenHeads } from "../../src/device/pull.ts";
import { DeviceStore } from "../../src/device/store.ts";
import { chainLink, chainStart } from "../../src/log/chain.ts";
import { writeEvent } from "../../src/log/facts.ts";
import { kitchenStream } from "../../src/model/event.ts";
import type { EventsReply, StoredEvent } from "../../src/model/http.ts";
import { newEventId } from "../../src/model/id.ts";
import { kitchenOf } from "../design/kitchen.ts";

const study = "11111111-1111-4111-8111-111111111111";
const writer = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
const stream = { kind: "study" as const, id: study };

let store: DeviceStore;
let log: Log;
beforeEach(() => {
  store = new DeviceStore(`device ${crypto.randomUUID()}`);
  log = new Log();
});
afterEach(() => store.close());

/** A server's log of one study that gives out pages of three, as the contract says. */
class Log {
  incarnation = "99999999-9999-4999-8999-999999999999";
  texts: string[] = [];
  asked: number[] = [];
  paths = new Set<string>();
  /** From this call on nobody answers. */
  failsAt = Number.POSITIVE_INFINITY;

  /** A version of the kitchen's defaults; the stream of a kitchen holds nothing else. */
  describe(place: string): void {
    const made = { id: newEventId(), stream: kitchenStream, device: writer, seq: this.texts.length + 1, prev: null };
    const body = { base: null, merged: [], kitchen: kitchenOf({ place }) };
    const at = "2026-05-03T10:00:00.000Z";
    this.texts.push(writeEvent({ ...made, at, kind: "kitchen-saved", body }).text);
  }

  write(count: number): void {
    for (let at = 0; at < count; at += 1) {
      const seq = this.texts.length + 1;
      const body = { paper: "labels" as const, reprint: seq > 1 };
      const made = { id: newEventId(), stream, device: writer, seq, prev: null, at: "2026-05-03T10:00:00.000Z" };
      this.texts.push(writeEvent({ ...made, kind: "paper-printed", body }).text);
    }
  }

  readonly fetcher = async (path: string): Promise<Response> => {
    const after = Number(new URLSearchParams(path.split("?")[1]).get("after"));
    this.asked.push(after);
    this.paths.add(path.split("?")[0] ?? "");
    if (this.asked.length >= this.failsAt) throw new TypeError("no network");
    const head = this.texts.length;
    const shared = { revealed: false, quarantined: 0, held: 0, heads: { [writer]: head } };
    const reply: EventsReply = {
      ...shared,
      incarnation: this.incarnation,
      head,
      events: this.#stored().slice(after, after + 3),
    };
    return new Response(JSON.stringify(reply), { headers: { "content-type": "application/json" } });
  };

  #stored(): StoredEvent[] {
    let chain = chainStart;
    return this.texts.map((text, at) => {
      chain = chainLink(chain, text);
      const hash = chainLink(chainStart, text); // any name of its own will do here
      return { position: at + 1, receivedAt: "2026-05-03T10:00:01.000Z", chain, hash, text, outline: null };
    });
  }
}

const pull = () => pullStudy(store, log.fetcher, "a token", study);
const known = async (): Promise<string[]> => (await knownTexts(store, stream)).sort();

test("a log of several pages is received whole, and the next pull asks for its last event alone", async () => {
  log.write(8);
  expect(await pull()).toMatchObject({ position: 8 });
  expect(await known()).toEqual([...log.texts].sort());
  expect((await knownFacts(store, stream)).map(({ kind }) => kind)).toEqual(Array(8).fill("paper-printed"));
  expect(await seenHeads(store, stream)).toEqual({ [writer]: 8 });
  log.asked = [];
  let changes = 0;
  store.onChange(() => {
    changes += 1;
  });
  await pull();
  expect(log.asked).toEqual([7]);
  expect(changes).toBe(0); // no screen is drawn anew for nothing
  log.write(1);
  expect(await pull()).toMatchObject({ position: 9 });
  expect(await known()).toEqual([...log.texts].sort());
});

test("the network goes away between two pages: what came stays, and the next pull brings the rest", async () => {
  log.write(8);
  log.failsAt = 2;
  await expect(pull()).rejects.toMatchObject({ problem: { code: "server/unreachable" } });
  expect(await known()).toHaveLength(3);
  log.failsAt = Number.POSITIVE_INFINITY;
  expect(await pull()).toMatchObject({ position: 8 });
  expect(await known()).toEqual([...log.texts].sort());
});

test.each([
  ["shorter", 2, 0],
  ["as long, with other events", 2, 4],
  ["longer, with other events", 2, 7],
])(
  "C16 a log put back from a copy, now %s: read from its beginning, and nothing received is forgotten",
  async (_what, kept, more) => {
    log.write(6);
    await pull();
    const before = await known();
    log.texts = log.texts.slice(0, kept);
    log.write(more);
    log.asked = [];
    expect(await pull()).toMatchObject({ position: kept + more });
    expect(log.asked.slice(0, 2)).toEqual([5, 0]);
    expect(await known()).toEqual([...new Set([...before, ...log.texts])].sort());
  },
);

test("C16 a new database: read from its beginning, and nothing received is forgotten", async () => {
  log.write(4);
  await pull();
  const before = await known();
  log.incarnation = "88888888-8888-4888-8888-888888888888";
  log.texts = [];
  expect(await pull()).toMatchObject({ position: 0, incarnation: log.incarnation });
  log.write(5);
  await pull();
  expect(await known()).toEqual([...before, ...log.texts].sort());
});

test("the kitchen's defaults are received from an address of their own, page by page, and are no study", async () => {
  for (const place of ["window bench", "north bench", "tasting room", "cellar"]) log.describe(place);
  expect(await pullKitchen(store, log.fetcher, "a token")).toMatchObject({ position: 4 });
  expect([...log.paths]).toEqual(["/api/kitchen/events"]);
  const places = (await knownFacts(store, kitchenStream)).map((fact) =>
    fact.kind === "kitchen-saved" ? fact.body.kitchen.place : fact.kind,
  );
  expect(places.sort()).toEqual(["cellar", "north bench", "tasting room", "window bench"]);
  expect(await knownStudies(store)).toEqual([]);
});
