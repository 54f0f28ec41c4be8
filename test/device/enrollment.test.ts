import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { enrollDevice } from "../../src/device/enrollment.ts";
import { DeviceStore } from "../../src/device/store.ts";
import type { Role } from "../../src/model/http.ts";

let store: DeviceStore;
beforeEach(() => {
  store = new DeviceStore(`device ${crypto.randomUUID()}`);
});
afterEach(() => store.close());

const incarnation = "99999999-9999-4999-8999-999999999999";
const typed = { code: "7K3M-9QXD", name: "Odalys Brandt" };

/** A server that gives every caller a new id in the given role, and notes what it was asked. */
function giving(role: Role) {
  const asked: { code: string; name: string; formerly?: string[] }[] = [];
  const given: string[] = [];
  const fetcher = async (_path: string, init: RequestInit): Promise<Response> => {
    const body = JSON.parse(String(init.body));
    asked.push(body);
    const device = crypto.randomUUID();
    given.push(device);
    const reply = { device, token: `token of ${device}`, role, name: body.name, incarnation };
    return new Response(JSON.stringify(reply), { headers: { "content-type": "application/json" } });
  };
  return { fetcher, asked, given };
}

test("the first time there is no earlier name to send; the identity is kept", async () => {
  const { fetcher, asked, given } = giving("lead");
  const who = await enrollDevice(store, fetcher, ["lead"], typed);
  expect(asked).toEqual([typed]);
  expect(who).toMatchObject({ device: given[0], role: "lead", name: "Odalys Brandt", formerly: [] });
  expect(await store.identity()).toEqual(who);
});

test("enrolled again it names every id it had, and keeps them; the server is told the last twenty", async () => {
  const { fetcher, asked, given } = giving("lead");
  for (let time = 0; time < 23; time += 1) await enrollDevice(store, fetcher, ["lead"], typed);
  expect(asked[2]?.formerly).toEqual(given.slice(0, 2));
  expect(asked[22]?.formerly).toEqual(given.slice(2, 22));
  expect(await store.identity()).toMatchObject({ device: given[22], formerly: given.slice(0, 22) });
});

test("a code for another role changes nothing here", async () => {
  await enrollDevice(store, giving("lead").fetcher, ["lead"], typed);
  const before = await store.identity();
  expect(await enrollDevice(store, giving("panel").fetcher, ["lead", "reader"], typed)).toBeNull();
  expect(await store.identity()).toEqual(before);
});

test("a refused code comes as the problem that the server named", async () => {
  const refusal = JSON.stringify({ code: "enroll/bad-code", details: {}, errorId: "x" });
  const fetcher = async () => new Response(refusal, { status: 403, headers: { "content-type": "application/json" } });
  await expect(enrollDevice(store, fetcher, ["panel"], typed)).rejects.toMatchObject({
    problem: { code: "enroll/bad-code" },
  });
  expect(await store.identity()).toBeNull();
});
