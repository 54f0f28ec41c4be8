import { createHash, randomUUID } from "node:crypto";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { EnrollReply, EventsReply, PanelReply, StoredEvent } from "../../src/model/http.ts";
import { House, problemCode } from "./house.ts";
import { Pen, packetOf } from "./pen.ts";

let house: House;
let lead: EnrollReply;
let tablet: EnrollReply;
let study: string;
let leadPen: Pen;
let pen: Pen;
beforeEach(async () => {
  house = await House.open();
  lead = await house.lead();
  study = randomUUID();
  tablet = await house.device(lead, "panel", study);
  leadPen = new Pen(lead.device);
  pen = new Pen(tablet.device);
});
afterEach(() => house.close());

const panel = async (device: EnrollReply) =>
  (await house.call("GET", "/api/panel", { token: device.token })).json as PanelReply;
const eventsOf = async (device: EnrollReply, after = 0) =>
  (await house.call("GET", `/api/studies/${study}/events?after=${after}`, { token: device.token })).json as EventsReply;
const visible = (events: StoredEvent[]) => events.map(({ text, outline }) => (text === null ? outline : "text"));
const salt = "ab".repeat(32);

test("a tablet gets the blind packet of its study, as it was locked, and nothing else of the lock", async () => {
  expect((await panel(tablet)).packet).toBeNull();
  const packet = packetOf(study);
  await house.push(lead, [leadPen.lock(study, packet).text]);
  const reply = await house.call("GET", "/api/panel", { token: tablet.token });
  expect(reply.json).toEqual({
    incarnation: house.store.incarnation,
    heads: {},
    packet,
    taken: [],
    closed: false,
    halted: false,
  });
  expect(reply.headers.get("cache-control")).toBe("no-store");
});

test("a log goes on past its hundred-thousandth event: position, head and heads are served", async () => {
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [pen.opened(study, 1).text]);
  // as if all the events in between were there
  const long = 250_000;
  const { db } = house.store;
  await db.updateTable("events").set({ position: long, seq: long }).where("device", "=", tablet.device).execute();
  await db.updateTable("heads").set({ head: long }).where("device", "=", tablet.device).execute();
  await db.updateTable("streams").set({ head: long }).execute();
  expect(await eventsOf(lead, 1)).toMatchObject({
    head: long,
    heads: { [tablet.device]: long },
    events: [{ position: long }],
  });
  expect(await panel(tablet)).toMatchObject({ heads: { [`study:${study}`]: long } });
  const studies = await house.call("GET", "/api/studies", { token: lead.token });
  expect(studies.json).toMatchObject({ studies: [{ id: study, head: long }] });
  const { verdicts, heads } = await house.push(tablet, [pen.raw(study, long + 1, "tray-finished", { tray: 1 })]);
  expect(verdicts).toMatchObject([{ verdict: "stored" }]);
  expect(heads).toEqual({ [`study:${study}`]: long + 1 });
  expect((await eventsOf(lead, long)).events).toMatchObject([{ position: long + 1 }]);
  await house.push(lead, [
    leadPen.write(study, "study-closed", { heads: { [tablet.device]: long + 1 }, knownUnsent: 0, note: "" }).text,
  ]);
  expect((await eventsOf(lead)).held).toBe(0);
});

test("of two locks the one with the lower id counts, whichever came first", async () => {
  const second = await house.device(lead, "lead");
  const [low, high] = ["01900000-0000-7000-8000-000000000001", "01900000-0000-7000-8000-000000000002"];
  const [first, other] = [packetOf(study), packetOf(study)];
  await house.push(second, [new Pen(second.device).lock(study, other, high).text]);
  expect((await panel(tablet)).packet).toEqual(other);
  await house.push(lead, [leadPen.lock(study, first, low).text]);
  expect((await panel(tablet)).packet).toEqual(first);
});

test("the lead moves a tablet to another study; a tablet without one gets no packet", async () => {
  const next = randomUUID();
  await house.push(lead, [leadPen.lock(study).text, leadPen.lock(next).text]);
  const move = (to: string | null) =>
    house.call("POST", `/api/devices/${tablet.device}`, { token: lead.token, body: { study: to } });
  expect((await move(next)).json).toMatchObject({ id: tablet.device, study: next, role: "panel" });
  expect((await panel(tablet)).packet?.study).toBe(next);
  await move(null);
  expect(await panel(tablet)).toMatchObject({ packet: null, taken: [] });
});

test("a tray that was ended on another tablet is taken too; once the lead has closed, tablets are told so", async () => {
  const other = await house.device(lead, "panel", study);
  await house.push(lead, [leadPen.lock(study).text]);
  const stop = new Pen(other.device).write(study, "tray-stopped", { tray: 2, reason: "cannot-answer" });
  await house.push(other, [stop.text]);
  expect(await panel(tablet)).toMatchObject({ taken: [2], closed: false });
  expect(await panel(other)).toMatchObject({ taken: [] });
  await house.push(lead, [leadPen.close(study).text]);
  expect(await panel(tablet)).toMatchObject({ closed: true });
});

test("trays answered on another tablet are taken; own ones, opened ones, held and forked answers are not", async () => {
  const other = await house.device(lead, "panel", study);
  const otherPen = new Pen(other.device);
  await house.push(tablet, [pen.answer(study, 3).text, pen.opened(study, 7).text]);
  await house.push(other, [
    otherPen.answer(study, 9).text,
    otherPen.answer(study, 2).text,
    otherPen.raw(study, 3, "answer-kept", { tray: 8 }),
    new Pen(other.device).answer(study, 11).text,
  ]);
  expect((await panel(tablet)).taken).toEqual([2, 9]);
  expect((await panel(other)).taken).toEqual([3]);
  const { json } = await house.call("POST", "/api/renew", { token: tablet.token, body: {} });
  expect((await panel(json as EnrollReply)).taken).toEqual([2, 9]);
});

test("marks of a line scale: taken for the other tablet, an outline for the lead, and no fraction before the reveal", async () => {
  const other = await house.device(lead, "panel", study);
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [pen.mark(study, 1, 1, 0.584).text, pen.mark(study, 1, 2, null).text]);
  expect((await panel(other)).taken).toEqual([1]);
  const sealed = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
  expect(sealed.text).toContain('"kind":"mark-kept"');
  for (const secret of ["0.584", "not-perceived", "fraction", "chewedSeconds"])
    expect(sealed.text).not.toContain(secret);
  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  const opened = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
  expect(opened.text).toContain("0.584");
});

test("a ballot on paper: taken for every tablet, which questions have an answer for the lead, and no answer before the reveal", async () => {
  const other = await house.device(lead, "panel", study);
  await house.push(lead, [leadPen.lock(study).text]);
  const body = {
    ...{ tray: 1, typing: 1 as const, against: null, agrees: null, clearance: salt, consent: null, stopped: null },
    ...{ lineMm: null, choices: [{ question: 1, choice: "715", guess: true }], marks: [], salt },
  };
  await house.push(tablet, [pen.write(study, "paper-typed", body).text]);
  // on the tablet where it was typed, too: nobody is to open the tray there
  for (const device of [tablet, other]) expect((await panel(device)).taken).toEqual([1]);
  const [sealed] = visible((await eventsOf(lead)).events).slice(-1);
  expect(sealed).toMatchObject({
    kind: "paper-typed",
    body: { tray: 1, typing: 1, against: null, agrees: null, stopped: null, questions: [1] },
  });
  expect(JSON.stringify(sealed)).not.toMatch(/"715\\?"|guess|abab|clearance/);
  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  const opened = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
  expect(opened.text).toMatch(theCode);
});

test("a ballot on paper typed in at two tablets: the lead learns whether the two agree, and not what they say", async () => {
  const other = await house.device(lead, "panel", study);
  const otherPen = new Pen(other.device);
  await house.push(lead, [leadPen.lock(study).text]);
  const typing = (of: Pen, tray: number, person: 1 | 2, choice: string): string =>
    of.write(study, "paper-typed", {
      ...{ tray, typing: person, against: null, agrees: null, clearance: salt, consent: null, stopped: null },
      ...{ lineMm: null, choices: [{ question: 1, choice, guess: false }], marks: [], salt },
    }).text;
  await house.push(tablet, [typing(pen, 1, 1, "715"), typing(pen, 2, 1, "264")]);
  const before = (await eventsOf(lead)).head;
  await house.push(other, [
    typing(otherPen, 1, 2, "309"),
    typing(otherPen, 2, 2, "264"),
    typing(otherPen, 1, 2, "715"),
  ]);
  const outlines = (
    visible((await eventsOf(lead)).events) as { id: string; kind: string; body: { compared: unknown } }[]
  ).filter(({ kind }) => kind === "paper-typed");
  const ids = outlines.map(({ id }) => id);
  const said = outlines.map(({ body }) => body.compared);
  expect(said).toEqual([
    [],
    [],
    [{ typing: ids[0], agrees: false }],
    [{ typing: ids[1], agrees: true }],
    [{ typing: ids[0], agrees: true }],
  ]);
  // a lead that has the first ones already is told the same of the later ones
  const later = await house.call("GET", `/api/studies/${study}/events?after=${before}`, { token: lead.token });
  expect(later.text).toContain(`"typing":"${ids[1]}","agrees":true`);
  expect(later.text).not.toMatch(/"715\\?"|"264\\?"|"309\\?"|guess|choices/);
  // and no tablet is told anything of it
  for (const { token } of [tablet, other]) {
    const reply = await house.call("GET", "/api/panel", { token });
    expect(reply.text).not.toMatch(/agrees|compared/);
  }
});

test("G6 a field too many in the packet is a 500 and nothing of it is sent", async () => {
  const { text } = leadPen.lock(study);
  await house.push(lead, [text]);
  // as if a mistake had let it through: what was stored has a field that no packet may have
  const leaky = text.replace('"palette":"day"', '"odd":"canary-7f3","palette":"day"');
  expect(leaky).not.toBe(text);
  await house.store.db.updateTable("events").set({ text: leaky }).execute();
  const reply = await house.call("GET", "/api/panel", { token: tablet.token });
  expect([reply.status, problemCode(reply)]).toEqual([500, "server/internal"]);
  expect(reply.text).not.toContain("canary");
  expect(reply.text).not.toMatch(/"482\\?"/);
});

/** The code as a value, not its digits: those come up in a hash now and then. */
const theCode = /"715\\?"/;

test("before the reveal the lead sees that a ballot event happened, never what; after it the full text", async () => {
  const lock = leadPen.lock(study);
  const events = [pen.opened(study, 1), pen.answer(study, 1, "715")];
  const remark = pen.write(study, "remark-kept", { tray: 1, remark: salt });
  await house.push(lead, [lock.text]);
  await house.push(
    tablet,
    [...events, remark].map(({ text }) => text),
    [{ event: remark.id, salt, text: "A little dry" }],
  );
  const before = await eventsOf(lead);
  expect(before).toMatchObject({ revealed: false, head: 4, quarantined: 0, held: 0 });
  expect(visible(before.events)).toEqual([
    "text",
    JSON.parse(events[0]?.text ?? ""),
    { ...JSON.parse(events[1]?.text ?? ""), body: { tray: 1, question: 1 } },
    { ...JSON.parse(remark.text), body: { tray: 1 } },
  ]);
  expect(JSON.stringify(before.events.slice(1))).not.toMatch(theCode); // the lock itself lists every code
  const early = await house.call("GET", `/api/studies/${study}/remarks`, { token: lead.token });
  expect([early.status, problemCode(early)]).toEqual([403, "access/not-allowed"]);

  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  const after = await eventsOf(lead);
  expect(after.revealed).toBe(true);
  expect(after.events.map(({ text }) => text).slice(1, 4)).toEqual([...events, remark].map(({ text }) => text));
  expect((await house.call("GET", `/api/studies/${study}/remarks`, { token: lead.token })).json).toEqual({
    remarks: [{ event: remark.id, salt, text: "A little dry" }],
  });
});

test("before the reveal not even an answer that this server cannot judge is shown", async () => {
  await house.push(tablet, [pen.raw(study, 1, "answer-kept", { tray: 1, choice: "715" }, { v: 2 })]);
  const { events, held } = await eventsOf(lead);
  expect(held).toBe(1);
  expect(events.map(({ text, outline }) => [text, (outline as { body: unknown }).body])).toEqual([[null, null]]);
  expect(JSON.stringify(events)).not.toMatch(theCode);
});

test("a tablet makes no study: a stream it alone wrote in is kept, and listed once a lead has written there", async () => {
  const listed = async () =>
    ((await house.call("GET", "/api/studies", { token: lead.token })).json as { studies: { id: string }[] }).studies;
  await house.push(tablet, [pen.answer(study, 1).text, pen.answer(randomUUID(), 1).text]);
  expect(await listed()).toEqual([]);
  await house.push(lead, [leadPen.lock(study).text]);
  expect(await listed()).toEqual([{ id: study, head: 2, revealed: false }]);
});

test("a remark for an event that is not here is not taken; one that comes with or after its event is", async () => {
  const remarks = () => house.store.db.selectFrom("attachments").select(["event", "text"]).execute();
  const later = pen.write(study, "remark-kept", { tray: 1, remark: salt });
  await house.push(tablet, [], [{ event: later.id, salt, text: "Before its event" }]);
  await house.push(tablet, [], [{ event: randomUUID(), salt, text: "Of no event" }]);
  expect(await remarks()).toEqual([]);
  await house.push(tablet, [later.text]);
  await house.push(tablet, [later.text], [{ event: later.id, salt, text: "A little dry" }]);
  expect(await remarks()).toEqual([{ event: later.id, text: "A little dry" }]);
});

test("a remark for another device's event is not taken", async () => {
  const other = await house.device(lead, "panel", study);
  const remark = pen.write(study, "remark-kept", { tray: 1, remark: salt });
  await house.push(tablet, [remark.text]);
  await house.push(other, [], [{ event: remark.id, salt, text: "Not mine" }]);
  await house.push(tablet, [], [{ event: remark.id, salt, text: "Mine" }]);
  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  const { json } = await house.call("GET", `/api/studies/${study}/remarks`, { token: lead.token });
  expect(json).toEqual({ remarks: [{ event: remark.id, salt, text: "Mine" }] });
});

test("a reader sees a study only after its reveal; until then it looks like one that does not exist", async () => {
  const reader = await house.device(lead, "reader");
  const bound = await house.device(lead, "reader", randomUUID());
  await house.push(lead, [leadPen.lock(study).text]);
  const listed = async (who: EnrollReply) =>
    ((await house.call("GET", "/api/studies", { token: who.token })).json as { studies: unknown[] }).studies;
  expect(await listed(lead)).toEqual([{ id: study, head: 1, revealed: false }]);
  expect(await listed(reader)).toEqual([]);
  const replies = await Promise.all(
    [study, randomUUID()].map((id) => house.call("GET", `/api/studies/${id}/events`, { token: reader.token })),
  );
  for (const reply of replies) expect([reply.status, problemCode(reply)]).toEqual([404, "access/not-found"]);

  await house.push(lead, [leadPen.close(study).text, leadPen.reveal(study).text]);
  expect(await listed(reader)).toEqual([{ id: study, head: 3, revealed: true }]);
  expect(visible((await eventsOf(reader)).events)).toEqual(["text", "text", "text"]);
  expect(await listed(bound)).toEqual([]); // enrolled for another study
});

test("G13: a reveal before the close opens nothing; the close that follows does", async () => {
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [pen.answer(study, 1).text]);
  await house.push(lead, [leadPen.reveal(study).text]);
  expect((await eventsOf(lead)).revealed).toBe(false);
  await house.push(lead, [leadPen.close(study).text]);
  expect((await eventsOf(lead)).revealed).toBe(true);
});

test("a reveal that a tablet sends opens nothing", async () => {
  await house.push(lead, [leadPen.lock(study).text]);
  await house.push(tablet, [pen.reveal(study).text, pen.answer(study, 1).text]);
  expect((await eventsOf(lead)).revealed).toBe(false);
});

test("J8 the chain: SHA-256 over the link before, a line feed and the text, from 64 zeros on, page by page", async () => {
  const texts = Array.from({ length: 750 }, () => leadPen.note(study).text);
  await house.push(lead, texts.slice(0, 400));
  await house.push(lead, texts.slice(400));
  const events: StoredEvent[] = [];
  for (;;) {
    const page = await eventsOf(lead, events.length);
    expect(page.head).toBe(750);
    if (page.events.length === 0) break;
    events.push(...page.events);
  }
  expect(events.map(({ text }) => text)).toEqual(texts);
  let link = "0".repeat(64);
  for (const { chain, text } of events) {
    link = createHash("sha256").update(`${link}\n${text}`).digest("hex");
    expect(chain).toBe(link);
  }
});

test("the lead's device list tells when each device was last heard of, what it said, and how far it is held", async () => {
  const status = { unsent: 3, battery: 0.5, persisted: true, app: "0.1.0" };
  house.clock += 5000;
  await house.call("POST", "/api/events", {
    token: tablet.token,
    body: { events: [pen.opened(study, 1).text], attachments: [], status },
  });
  const expected = {
    id: tablet.device,
    study,
    revoked: false,
    unreadable: 0,
    status,
    enrolledAt: "2026-05-03T10:00:00.000Z",
    lastSeen: "2026-05-03T10:00:05.000Z",
    heads: { [study]: 1 },
  };
  const listed = async () => (await house.call("GET", "/api/devices", { token: lead.token })).json;
  expect(await listed()).toMatchObject({ devices: expect.arrayContaining([expect.objectContaining(expected)]) });
  await house.stop();
  await house.start();
  expect(await listed()).toMatchObject({ devices: expect.arrayContaining([expect.objectContaining(expected)]) });
});
