// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { startSending } from "../../src/device/sending.ts";
import { DeviceStore } from "../../src/device/store.ts";
import type { SendOutcome } from "../../src/log/outbox.ts";
import { sha256 } from "../../src/model/canonical.ts";
import type { PushRequest, Status } from "../../src/model/http.ts";

const study = "11111111-1111-4111-8111-111111111111";
const device = "aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa";
const renewed = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
const incarnation = "99999999-9999-4999-8999-999999999999";
const everyMs = 15_000;
type Asked = { path: string; token: string; body: PushRequest };

let store: DeviceStore;
let sending: ReturnType<typeof startSending>;
let asked: Asked[];
let outcomes: SendOutcome[];
let heard: () => void;
/** How the server answers now. */
let answer: (asked: Asked) => Promise<Response>;
let status: () => Promise<Status | null>;
/** Another tab of this browser holds the lock. */
let elsewhere: boolean;

beforeEach(async () => {
  store = new DeviceStore(`device ${crypto.randomUUID()}`);
  await store.setMeta("identity", { device, token: "first token", role: "panel", name: "A", formerly: [] });
  // the disk of these tests runs on setImmediate, which goes on
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  [asked, outcomes, elsewhere] = [[], [], false];
  heard = () => {};
  answer = accept;
  status = async () => null;
  const request = async (_name: string, _options: unknown, work: (lock: object | null) => unknown) =>
    work(elsewhere ? null : {});
  Object.defineProperty(navigator, "locks", { value: { request }, configurable: true });
  sending = startSending({
    store,
    everyMs,
    uniform: () => 0,
    status: () => status(),
    onOutcome: (outcome) => {
      outcomes.push(outcome);
      heard();
    },
    fetcher: async (path, init) => {
      const token = new Headers(init.headers).get("authorization")?.replace("Bearer ", "") ?? "";
      const one = { path, token, body: JSON.parse(String(init.body)) };
      asked.push(one);
      return answer(one);
    },
  });
});
afterEach(async () => {
  sending.stop();
  vi.useRealTimers();
  await store.close();
});

const json = (code: number, body: unknown, headers = {}): Response =>
  new Response(JSON.stringify(body), { status: code, headers: { "content-type": "application/json", ...headers } });

/** A server that stores everything; heads are the highest numbers it has seen of the sender's present name. */
async function accept({ body }: Asked): Promise<Response> {
  const heads: Record<string, number> = {};
  const verdicts = body.events.map((text) => {
    const { id, seq } = JSON.parse(text);
    heads[`study:${study}`] = seq;
    return { id, verdict: "stored" };
  });
  if (body.events.length === 0 && (await store.counts()).total > 0) heads[`study:${study}`] = 1;
  return json(200, { incarnation, verdicts, heads });
}
const away = async (): Promise<Response> => Promise.reject(new TypeError("no network"));

async function write(): Promise<void> {
  const stream = { kind: "study" as const, id: study };
  const body = { tray: 1, clearance: sha256("list") };
  await store.append(device, "2026-05-03T10:00:00.000Z", { stream, kind: "tray-opened", body });
}

/** Lets everything go on that waits for no timer. */
async function settled(): Promise<void> {
  for (let turn = 0; turn < 100; turn += 1) await new Promise((next) => setImmediate(next));
}

/** Nothing happens until so many milliseconds have passed; then one run does, and is over. */
async function nextRunAfter(ms: number): Promise<void> {
  const before = asked.length;
  vi.advanceTimersByTime(ms - 1);
  await settled();
  expect(asked.length).toBe(before);
  const over = new Promise<void>((done) => {
    heard = done;
  });
  vi.advanceTimersByTime(1);
  await over;
  await settled();
}

test("what is unsent goes out, and then there is a look every so often", async () => {
  await write();
  await sending.sendNow();
  expect(asked.map(({ path, token, body }) => [path, token, body.events.length])).toEqual([
    ["/api/events", "first token", 1],
  ]);
  expect(await store.counts()).toMatchObject({ unsent: 0 });
  await nextRunAfter(everyMs);
  await nextRunAfter(everyMs);
  expect(outcomes).toEqual([{ done: "all-sent" }, { done: "all-sent" }, { done: "all-sent" }]);
});

test("what is written while a run is under way goes out in the next one, at once", async () => {
  let release = (): void => {};
  const held = new Promise<void>((done) => {
    release = done;
  });
  answer = async (one) => {
    await held;
    return accept(one);
  };
  const first = sending.sendNow();
  await settled();
  expect(asked).toHaveLength(1);
  await write();
  const second = sending.sendNow();
  await settled();
  expect(asked).toHaveLength(1); // one run at a time
  release();
  await Promise.all([first, second]);
  expect(await store.counts()).toMatchObject({ unsent: 0 });
  expect(asked.at(-1)?.body.events).toEqual([]);
});

test("while it fails the wait doubles, up to a minute less the jitter; a success starts it over", async () => {
  answer = away;
  await sending.sendNow();
  // the rule: doubling from 1 s, at most 60 s, and at least half of that; `uniform` gives the least
  for (const seconds of [0.5, 1, 2, 4, 8, 16, 30, 30]) await nextRunAfter(seconds * 1000);
  expect(new Set(outcomes.map(({ done }) => done))).toEqual(new Set(["failed"]));
  answer = accept;
  await nextRunAfter(30_000);
  answer = away;
  await nextRunAfter(everyMs);
  await nextRunAfter(500);
});

test("a wait that the server asked for is kept", async () => {
  answer = async () =>
    json(429, { code: "request/too-many", details: { seconds: 9 }, errorId: "x" }, { "retry-after": "9" });
  await sending.sendNow();
  await nextRunAfter(9000);
});

test("the network or the screen coming back starts a run without waiting", async () => {
  answer = away;
  await sending.sendNow();
  for (const event of [
    () => window.dispatchEvent(new Event("online")),
    () => document.dispatchEvent(new Event("visibilitychange")),
  ]) {
    const before = asked.length;
    event();
    await settled();
    expect(asked.length).toBe(before + 1);
  }
});

test("stopped is stopped: no timer, no event and no call sends any more", async () => {
  await sending.sendNow();
  sending.stop();
  await write();
  vi.advanceTimersByTime(10 * everyMs);
  window.dispatchEvent(new Event("online"));
  await sending.sendNow();
  await settled();
  expect(asked).toHaveLength(1);
  expect(vi.getTimerCount()).toBe(0);
});

test("another tab that sends is left to it; one that holds on without end is not waited for", async () => {
  await write();
  elsewhere = true;
  await sending.sendNow();
  for (let look = 0; look < 2; look += 1) {
    vi.advanceTimersByTime(everyMs);
    await settled();
  }
  expect(asked).toEqual([]);
  await nextRunAfter(everyMs);
  expect(await store.counts()).toMatchObject({ unsent: 0 });
});

test("a device that is not enrolled asks nobody, and looks again", async () => {
  await store.setMeta("identity", null);
  await sending.sendNow();
  expect(asked).toEqual([]);
  await store.setMeta("identity", { device, token: "first token", role: "panel", name: "A", formerly: [] });
  await nextRunAfter(everyMs);
  expect(asked).toHaveLength(1);
});

test("C11 a rolled-back device goes on under a new name, and what it wrote keeps the old one", async () => {
  await write();
  answer = async (one) => {
    const { path, token } = one;
    if (path === "/api/renew")
      return json(200, { device: renewed, token: "next token", role: "panel", name: "A", incarnation });
    if (token === "next token") return accept(one);
    const verdicts = one.body.events.map((text) => ({ id: JSON.parse(text).id, verdict: "stored" }));
    return json(200, { incarnation, verdicts, heads: { [`study:${study}`]: 7 } });
  };
  await sending.sendNow();
  await settled();
  expect(await store.identity()).toEqual({
    device: renewed,
    token: "next token",
    role: "panel",
    name: "A",
    formerly: [device],
  });
  expect(asked.map(({ path, token }) => [path, token]).slice(0, 2)).toEqual([
    ["/api/events", "first token"],
    ["/api/renew", "first token"],
  ]);
  expect((await store.ownRows()).map((row) => row.device)).toEqual([device]);
});

test("a battery that never answers does not hold up answers", async () => {
  await write();
  status = () => new Promise(() => {});
  const run = sending.sendNow();
  await settled();
  expect(asked).toEqual([]);
  vi.advanceTimersByTime(2000);
  await run;
  expect(asked[0]?.body.status).toBeNull();
  expect(await store.counts()).toMatchObject({ unsent: 0 });
});
