import "fake-indexeddb/auto";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { knownFacts, pullStudy, seenHeads } from "../../src/device/pull.ts";
import { DeviceStore } from "../../src/device/store.ts";
import { foldStudy } from "../../src/log/fold.ts";
import type { EnrollReply } from "../../src/model/http.ts";
import { House } from "./house.ts";
import { answerBody, Pen } from "./pen.ts";

// What a lead's device knows, against a real server: held and quarantined events, a new database, an opened study.
let house: House;
let lead: EnrollReply;
let tablet: EnrollReply;
let store: DeviceStore;
const study = "11111111-1111-4111-8111-111111111111";
const stream = { kind: "study" as const, id: study };

beforeEach(async () => {
  house = await House.open();
  lead = await house.lead();
  tablet = await house.device(lead, "panel", study);
  store = new DeviceStore(`cloche-${crypto.randomUUID()}`);
});
afterEach(async () => {
  await store.close();
  await house.close();
});

const pull = (token = lead.token) =>
  pullStudy(store, (path, init) => fetch(`${house.origin}${path}`, init), token, study);

test("an event that the server holds for a newer version does not make the answers after it late", async () => {
  const pen = new Pen(tablet.device);
  const leadPen = new Pen(lead.device);
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [
    pen.raw(study, 1, "tray-opened", { tray: 1, clearance: "0".repeat(64) }),
    pen.raw(study, 2, "weather-observed", { clouds: 3 }),
    pen.raw(study, 3, "answer-kept", answerBody(1)),
    pen.raw(study, 4, "tray-finished", { tray: 1 }),
  ]);
  await pull();
  const heads = await seenHeads(store, stream);
  expect(heads[tablet.device]).toBe(4);
  await house.push(lead, [leadPen.write(study, "study-closed", { heads, knownUnsent: 0, note: "" }).text]);
  await pull();
  expect(foldStudy(await knownFacts(store, stream)).trays.get(1)).toMatchObject({
    status: "answered",
    counted: { arrival: "on-time" },
  });
});

test("what a lead received stays when the server comes back with an empty database", async () => {
  const pen = new Pen(tablet.device);
  const leadPen = new Pen(lead.device);
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [
    pen.opened(study, 1).text,
    pen.answer(study, 1).text,
    pen.write(study, "tray-finished", { tray: 1 }).text,
  ]);
  await pull();
  const before = await knownFacts(store, stream);
  await house.stop();
  rmSync(join(house.folder, "data"), { recursive: true });
  await house.start();
  const again = await house.lead();
  const newPen = new Pen(again.device);
  await house.push(again, [newPen.write(study, "paper-printed", { paper: "labels", reprint: false }).text]);
  await pull(again.token);
  const after = await knownFacts(store, stream);
  expect(after.map(({ id }) => id)).toEqual(expect.arrayContaining(before.map(({ id }) => id)));
  expect(after).toHaveLength(before.length + 1);
});

test("after the reveal full texts replace outlines, and a second pull fetches nothing anew", async () => {
  const pen = new Pen(tablet.device);
  const leadPen = new Pen(lead.device);
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [
    pen.opened(study, 1).text,
    pen.answer(study, 1, "715").text,
    pen.write(study, "tray-finished", { tray: 1 }).text,
  ]);
  await pull();
  expect(JSON.stringify(await knownFacts(store, stream))).not.toContain('"choice"');
  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  await pull();
  const facts = await knownFacts(store, stream);
  expect(facts.filter(({ outline }) => outline)).toEqual([]);
  expect(facts.find(({ kind }) => kind === "answer-kept")?.body).toMatchObject({ choice: "715" });
  const state = await pull();
  expect(await pull()).toEqual(state);
});
