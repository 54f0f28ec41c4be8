import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { afterAll, beforeAll, expect, test } from "vitest";
import { panelists } from "../../src/demo/kitchen.ts";
import { knownClaims } from "../../src/device/pull.ts";
import { DeviceStore } from "../../src/device/store.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { beginDemo } from "../../src/organizer/demo-loading.ts";
import { readStudies } from "../../src/organizer/facts.ts";
import { namesPrefix } from "../../src/organizer/paper-seating.tsx";
import { neverSent } from "../../src/organizer/status.ts";
import { House } from "../server/house.ts";

/** The one click, without its page: a lead's store, and a real server. One load, looked at by all tests: it is slow. */
let house: House;
let lead: Lead;
/** What went out in all, and up to the moment when only the enrollments were through. */
let asked: RequestInit[];
let askedToBegin: RequestInit[];
beforeAll(async () => {
  globalThis.indexedDB = new IDBFactory();
  house = await House.open();
  const { device, token } = await house.lead();
  const store = new DeviceStore(`lead-${crypto.randomUUID()}`);
  const who = { device, token, role: "lead" as const, name: "Odalys Brandt", formerly: [] };
  await store.setMeta("identity", who);
  asked = [];
  const fetcher: Lead["fetcher"] = async (path, init) => {
    asked.push(init);
    return fetch(`${house.origin}${path}`, init);
  };
  const now = () => "2026-05-13T08:00:00.000Z";
  lead = { store, fetcher, who, now, sendNow: async () => {}, sent: neverSent, keep: null, setKeep: () => {} };
  const demo = await beginDemo(lead);
  askedToBegin = [...asked];
  await demo.finish();
});
afterAll(async () => {
  await lead.store.close();
  await house.close();
});

test("the twelve studies stand in the lead's browser, eleven of them opened with all their answers", async () => {
  const studies = await readStudies(lead.store);
  const counted = studies.map(({ state }) => [...state.trays.values()].filter((tray) => tray.counted).length);
  expect(counted.sort((a, b) => a - b)).toEqual([0, 12, 12, 12, 18, 24, 24, 24, 24, 36, 60, 60]);
  expect(studies.every(({ state }) => state.lock?.body.plan.invented)).toBe(true);
  expect(studies.filter(({ state }) => state.reveal)).toHaveLength(11);
  expect(await knownClaims(lead.store)).toHaveLength(1);
});

test("the lead's own device wrote nothing: its log goes on where it was", async () => {
  expect((await lead.store.counts()).total).toBe(0);
});

test("the twelve names are in this browser's erasable record of six studies, and nowhere on the server", async () => {
  const lists = await Promise.all((await readStudies(lead.store)).map(({ id }) => lead.store.names(namesPrefix(id))));
  const named = lists.filter((names) => Object.keys(names).length > 0);
  expect(named).toHaveLength(6);
  for (const names of named) expect(panelists.map((_, seat) => names[String(seat + 1)])).toEqual(panelists);
  const sent = asked.map(({ body }) => String(body)).join("\n");
  for (const name of panelists) expect(sent).not.toContain(name);
});

test("no cookie goes out or comes in while it enrolls: this browser must not pass for one of the demo's tablets", () => {
  const posts = askedToBegin.filter(({ method }) => method === "POST");
  expect(posts.length).toBeGreaterThanOrEqual(8);
  expect(new Set(askedToBegin.map(({ credentials }) => credentials))).toEqual(new Set(["omit"]));
});
