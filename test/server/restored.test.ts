import "fake-indexeddb/auto";
import { cpSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { DeviceStore } from "../../src/device/store.ts";
import { httpTransport } from "../../src/device/transport.ts";
import { sendAll } from "../../src/log/outbox.ts";
import { sha256 } from "../../src/model/canonical.ts";
import type { EnrollReply, EventsReply } from "../../src/model/http.ts";
import { House } from "./house.ts";

// A database that was put back from a copy, and a tablet that sent more since the copy was made.
let house: House;
let store: DeviceStore;
const study = "11111111-1111-4111-8111-111111111111";

beforeEach(async () => {
  house = await House.open();
  store = new DeviceStore(`cloche-${crypto.randomUUID()}`);
});
afterEach(async () => {
  await store.close();
  await house.close();
});

async function send(): Promise<void> {
  const token = (await store.identity())?.token ?? "";
  const fetcher = (path: string, init: RequestInit) => fetch(`${house.origin}${path}`, init);
  expect(await sendAll(store, httpTransport(fetcher, token), async () => null)).toEqual({ done: "all-sent" });
}

/** The tablet goes by this enrollment from now on. */
async function become({ device, token, role, name }: EnrollReply): Promise<void> {
  const before = await store.identity();
  const formerly = before ? [...before.formerly, before.device] : [];
  await store.setMeta("identity", { device, token, role, name, formerly });
}

async function open(tray: number): Promise<void> {
  const device = (await store.identity())?.device ?? "";
  const stream = { kind: "study" as const, id: study };
  const body = { tray, clearance: sha256("list") };
  await store.append(device, "2026-05-03T10:00:00.000Z", { stream, kind: "tray-opened", body });
}

async function trays(lead: EnrollReply): Promise<number[]> {
  const { json } = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
  const { events } = json as EventsReply;
  return events.map(({ outline }) => (outline as { body: { tray: number } }).body.tray).sort();
}

test("started with --restored the server is sent what it lost, under earlier names too", async () => {
  const lead = await house.lead();
  await become(await house.device(lead, "panel", study));
  await open(1); // written before the tablet got a new name, and sent after
  const token = (await store.identity())?.token ?? "";
  await become((await house.call("POST", "/api/renew", { token, body: {} })).json as EnrollReply);

  await house.stop();
  const [data, copy] = [join(house.folder, "data"), join(house.folder, "copy")];
  cpSync(data, copy, { recursive: true });
  await house.start();
  await open(2);
  await send();
  expect(await trays(lead)).toEqual([1, 2]);

  await house.stop();
  rmSync(data, { recursive: true });
  cpSync(copy, data, { recursive: true });
  await house.start({ restored: true });
  await send();
  expect(await trays(lead)).toEqual([1, 2]);
  expect(await store.counts()).toEqual({ total: 2, unsent: 0, aside: 0 });
});
