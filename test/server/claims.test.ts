import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { readEvent } from "../../src/log/facts.ts";
import type { EnrollReply, EventsReply } from "../../src/model/http.ts";
import { claimOf } from "../log/claim-example.ts";
import { House } from "./house.ts";
import { Pen } from "./pen.ts";

let house: House;
let lead: EnrollReply;
const study = randomUUID();
const claim = randomUUID();
beforeEach(async () => {
  house = await House.open();
  lead = await house.lead();
});
afterEach(() => house.close());

const saved = (device: string, seq: number, title: string, stream = { kind: "claim", id: claim }): string =>
  new Pen(device).raw(
    "",
    seq,
    "claim-saved",
    { base: null, merged: [], claim: claimOf({ title }), known: [] },
    { stream },
  );
const read = async (who: { token: string }, path: string) => (await house.call("GET", path, { token: who.token })).json;
const titlesIn = ({ events }: EventsReply): string[] =>
  events.map(({ text }) => {
    const event = readEvent(text ?? "");
    return event.ok && event.fact?.kind === "claim-saved" ? event.fact.body.claim.title : "unreadable";
  });

test("what one lead saves every lead gets, whole, in order, from any position on; it is no study", async () => {
  const second = await house.device(lead, "lead");
  expect(await house.verdicts(lead, [saved(lead.device, 1, "steam first")])).toEqual(["stored"]);
  expect(await house.verdicts(second, [saved(second.device, 1, "steam only")])).toEqual(["stored"]);
  for (const who of [lead, second]) {
    expect(await read(who, "/api/claims")).toMatchObject({ claims: [{ id: claim, head: 2 }] });
    const page = (await read(who, `/api/claims/${claim}/events`)) as EventsReply;
    expect(titlesIn(page)).toEqual(["steam first", "steam only"]);
    expect(page.heads).toEqual({ [lead.device]: 1, [second.device]: 1 });
  }
  expect(titlesIn((await read(lead, `/api/claims/${claim}/events?after=1`)) as EventsReply)).toEqual(["steam only"]);
  expect(await read(lead, "/api/studies")).toMatchObject({ studies: [] });
});

test("tablets and readers write no claim: what they send is kept aside and makes none", async () => {
  for (const role of ["panel", "reader"] as const) {
    const device = await house.device(lead, role, role === "panel" ? study : null);
    const inStudy = saved(device.device, 1, "theirs", { kind: "study", id: study });
    const odd = new Pen(device.device).raw("", 2, "rumor", {}, { stream: { kind: "claim", id: claim } });
    expect(await house.verdicts(device, [saved(device.device, 1, "theirs"), inStudy, odd])).toEqual(
      Array.from({ length: 3 }, () => "refused"),
    );
  }
  expect(await read(lead, "/api/claims")).toMatchObject({ claims: [] });
});

test("G1 what a tablet and a reader receive is the same byte for byte, whatever is claimed", async () => {
  const pen = new Pen(lead.device);
  await house.push(lead, [pen.lock(study).text]);
  const tablet = await house.device(lead, "panel", study);
  const reader = await house.device(lead, "reader");
  const paths = ["/api/claims", `/api/claims/${claim}/events`, "/api/studies", `/api/studies/${study}/events`];
  const bytes = async (): Promise<string[]> => {
    const calls = [tablet, reader].flatMap((who) =>
      [...paths, "/api/panel", "/api/hello"].map((path) => ({ who, path })),
    );
    const replies = await Promise.all(calls.map(({ who, path }) => house.call("GET", path, { token: who.token })));
    return replies.map(({ text }) => text.replace(/"errorId":"[^"]*"/, ""));
  };
  const before = await bytes();
  expect(before.join()).toContain('"trays":[');
  await house.verdicts(lead, [saved(lead.device, 1, "secret hope")]);
  expect(await bytes()).toEqual(before);
  await house.push(lead, [pen.close(study).text, pen.reveal(study).text]);
  expect((await bytes()).join()).not.toContain("secret hope");
});
