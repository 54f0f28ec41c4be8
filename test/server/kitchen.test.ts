import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { readEvent } from "../../src/log/facts.ts";
import { kitchenStream } from "../../src/model/event.ts";
import type { EnrollReply, EventsReply } from "../../src/model/http.ts";
import { kitchenOf } from "../design/kitchen.ts";
import { House } from "./house.ts";
import { Pen } from "./pen.ts";

let house: House;
let lead: EnrollReply;
const study = randomUUID();
beforeEach(async () => {
  house = await House.open();
  lead = await house.lead();
});
afterEach(() => house.close());

const saved = (device: string, seq: number, place: string, stream = kitchenStream): string =>
  new Pen(device).raw("", seq, "kitchen-saved", { base: null, merged: [], kitchen: kitchenOf({ place }) }, { stream });
const kitchen = async (who: { token: string }, after = 0): Promise<EventsReply> =>
  (await house.call("GET", `/api/kitchen/events?after=${after}`, { token: who.token })).json as EventsReply;
const placesIn = ({ events }: EventsReply): string[] =>
  events.map(({ text }) => {
    const read = readEvent(text ?? "");
    return read.ok && read.fact?.kind === "kitchen-saved" ? read.fact.body.kitchen.place : "unreadable";
  });

test("a kitchen nobody described has an empty stream, not a missing one", async () => {
  expect(await kitchen(lead)).toMatchObject({ head: 0, events: [], heads: {} });
});

test("what one lead saves every lead gets, whole, in order, and from any position on", async () => {
  const second = await house.device(lead, "lead");
  expect(await house.verdicts(lead, [saved(lead.device, 1, "window bench")])).toEqual(["stored"]);
  expect(await house.verdicts(second, [saved(second.device, 1, "north bench")])).toEqual(["stored"]);
  for (const who of [lead, second]) expect(placesIn(await kitchen(who))).toEqual(["window bench", "north bench"]);
  expect(placesIn(await kitchen(lead, 1))).toEqual(["north bench"]);
  expect((await kitchen(lead)).heads).toEqual({ [lead.device]: 1, [second.device]: 1 });
});

test("it is no study, and no study of any device", async () => {
  await house.verdicts(lead, [saved(lead.device, 1, "window bench")]);
  const studies = await house.call("GET", "/api/studies", { token: lead.token });
  expect(studies.json).toMatchObject({ studies: [] });
  const { json } = await house.call("GET", "/api/devices", { token: lead.token });
  expect(json).toMatchObject({ devices: [{ id: lead.device, heads: {} }] });
});

test("tablets and readers write nothing there: what they send is kept aside", async () => {
  for (const role of ["panel", "reader"] as const) {
    const device = await house.device(lead, role, role === "panel" ? study : null);
    const inStudy = saved(device.device, 1, "theirs", { kind: "study", id: study });
    expect(await house.verdicts(device, [saved(device.device, 1, "theirs"), inStudy])).toEqual(["refused", "refused"]);
  }
  expect((await kitchen(lead)).events).toEqual([]);
});

test("G1 what a tablet and a reader receive is the same byte for byte, whatever the kitchen's defaults say", async () => {
  await house.push(lead, [new Pen(lead.device).lock(study).text]);
  const tablet = await house.device(lead, "panel", study);
  const reader = await house.device(lead, "reader");
  const calls = [
    [tablet, "/api/panel"],
    [tablet, "/api/kitchen/events"],
    [tablet, "/api/hello"],
    [reader, "/api/studies"],
    [reader, "/api/kitchen/events"],
  ] as const;
  const bytes = async (): Promise<string[]> => {
    const replies = await Promise.all(calls.map(([who, path]) => house.call("GET", path, { token: who.token })));
    return replies.map(({ text }) => text.replace(/"errorId":"[^"]*"/, ""));
  };
  const before = await bytes();
  expect(before[0]).toContain('"trays":[');
  await house.verdicts(lead, [saved(lead.device, 1, "secret bench")]);
  expect(await bytes()).toEqual(before);
  expect(before.join()).not.toContain("bench");
});
