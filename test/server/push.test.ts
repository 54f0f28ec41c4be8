import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, expect, test } from "vitest";
import { sha256 } from "../../src/model/canonical.ts";
import type { DeviceInfo, EnrollReply, EventsReply, PushReply } from "../../src/model/http.ts";
import { newEventId } from "../../src/model/id.ts";
import { House, problemCode } from "./house.ts";
import { answerBody, Pen } from "./pen.ts";

let house: House;
let lead: EnrollReply;
let tablet: EnrollReply;
let study: string;
let pen: Pen;
beforeEach(async () => {
  house = await House.open();
  lead = await house.lead();
  study = randomUUID();
  tablet = await house.device(lead, "panel", study);
  pen = new Pen(tablet.device);
});
afterEach(() => house.close());

const stored = async () => {
  const { json } = await house.call("GET", `/api/studies/${study}/events`, { token: lead.token });
  return json as EventsReply;
};
const head = (reply: PushReply) => reply.heads[`study:${study}`];
const quarantine = () => house.store.db.selectFrom("quarantine").selectAll().execute();

test("C3 the same event sent twice, in one batch or in two, is one row and one position", async () => {
  const { text } = pen.answer(study, 1);
  expect(await house.verdicts(tablet, [text, text])).toEqual(["stored", "have"]);
  expect(await house.verdicts(tablet, [text])).toEqual(["have"]);
  const { events, head } = await stored();
  expect(events.map(({ position }) => position)).toEqual([1]);
  expect(head).toBe(1);
});

test("C10 the same id with another text is a conflict: both are kept, the first one stays", async () => {
  const id = newEventId();
  const first = pen.write(study, "answer-kept", answerBody(1, "482"), id).text;
  const second = pen.write(study, "answer-kept", answerBody(1, "715"), id).text;
  expect(await house.verdicts(tablet, [first])).toEqual(["stored"]);
  const reply = await house.push(tablet, [second]);
  expect(reply.verdicts).toEqual([{ id, verdict: "conflict" }]);
  expect(head(reply)).toBe(2); // kept aside, but it does not jam the queue
  expect(await house.verdicts(tablet, [second, first])).toEqual(["conflict", "have"]);
  expect((await quarantine()).map(({ text, reason }) => ({ text, reason }))).toEqual([
    { text: second, reason: "conflict" },
  ]);
  const { events, quarantined } = await stored();
  expect(events.map(({ hash }) => hash)).toEqual([sha256(first)]);
  expect(quarantined).toBe(1);
});

test("C19 two devices that send the same id: a conflict, and both are kept", async () => {
  const id = newEventId();
  const other = await house.device(lead, "panel", study);
  expect(await house.verdicts(tablet, [pen.write(study, "tray-finished", { tray: 1 }, id).text])).toEqual(["stored"]);
  const second = new Pen(other.device).write(study, "tray-finished", { tray: 1 }, id).text;
  expect(await house.verdicts(other, [second])).toEqual(["conflict"]);
  expect((await quarantine())[0]?.text).toBe(second);
});

test("C11 the same sequence number with another id is a fork: both are kept", async () => {
  const clone = new Pen(tablet.device);
  const [mine, theirs] = [pen.answer(study, 1), clone.answer(study, 2)];
  expect(await house.verdicts(tablet, [mine.text])).toEqual(["stored"]);
  const reply = await house.push(tablet, [theirs.text]);
  expect(reply.verdicts).toEqual([{ id: theirs.id, verdict: "fork" }]);
  expect(head(reply)).toBe(1);
  expect((await quarantine()).map(({ id, reason }) => ({ id, reason }))).toEqual([{ id: theirs.id, reason: "fork" }]);
  expect(await house.verdicts(tablet, [theirs.text])).toEqual(["fork"]);
  expect(await quarantine()).toHaveLength(1);
});

test("C12 a gap holds the head back until it is filled, and positions have no gap", async () => {
  const texts = [1, 2, 3, 4, 5].map((tray) => pen.opened(study, tray).text);
  const [one = "", two = "", three = "", four = "", five = ""] = texts;
  expect(head(await house.push(tablet, [one, two, four]))).toBe(2);
  expect(head(await house.push(tablet, [five]))).toBe(2);
  expect(head(await house.push(tablet, [three]))).toBe(5);
  const { events } = await stored();
  expect(events.map(({ position }) => position)).toEqual([1, 2, 3, 4, 5]);
  expect(events.map(({ hash }) => hash)).toEqual([one, two, four, five, three].map(sha256));
});

test("C4 events that arrive in reverse order are all stored", async () => {
  const texts = [1, 2, 3, 4].map((tray) => pen.opened(study, tray).text).reverse();
  const heads: (number | undefined)[] = [];
  for (const text of texts) heads.push(head(await house.push(tablet, [text])));
  expect(heads).toEqual([0, 0, 0, 4]);
});

test("C16 a new database has another incarnation and no heads: the device learns that everything is missing", async () => {
  const { text } = pen.answer(study, 1);
  const before = await house.push(tablet, [text]);
  expect(head(before)).toBe(1);
  const fresh = await House.open();
  try {
    const anew = await fresh.enroll(await fresh.code(await fresh.lead(), "panel"), "", [tablet.device]);
    const reply = await fresh.push(anew, []);
    expect(reply.incarnation).not.toBe(before.incarnation);
    expect(reply.heads).toEqual({});
    expect(await fresh.verdicts(anew, [text])).toEqual(["stored"]);
  } finally {
    await fresh.close();
  }
});

test("C16 a restart keeps incarnation, heads, tokens and verdicts", async () => {
  const { text } = pen.answer(study, 1);
  const before = await house.push(tablet, [text]);
  await house.stop();
  await house.start();
  expect(await house.push(tablet, [text])).toEqual({
    ...before,
    verdicts: [{ id: before.verdicts[0]?.id, verdict: "have" }],
  });
});

test("F5 newer versions, unknown kinds and bodies that do not fit are held, not refused, and advance the head", async () => {
  const texts = [
    pen.raw(study, 1, "answer-kept", { tray: 1, choice: "482", mood: "fine" }, { v: 2 }),
    pen.raw(study, 2, "answer-whispered", { tray: 1 }),
    pen.raw(study, 3, "answer-kept", { tray: "one" }),
  ];
  const reply = await house.push(tablet, texts);
  expect(reply.verdicts.map(({ verdict }) => verdict)).toEqual(["held", "held", "held"]);
  expect(head(reply)).toBe(3);
  expect(await house.verdicts(tablet, texts)).toEqual(["have", "have", "have"]);
  expect((await stored()).held).toBe(3);
});

test("F5 what an older server held is judged again at the start", async () => {
  const { text } = pen.answer(study, 1);
  await house.push(tablet, [text]);
  // as a server left it that did not know this kind yet
  await house.store.db.updateTable("events").set({ held: 1, tray: null }).execute();
  await house.stop();
  await house.start();
  expect(await house.store.db.selectFrom("events").select(["held", "tray"]).execute()).toEqual([{ held: 0, tray: 1 }]);
});

test("D11 an event of a study that the server does not know is stored", async () => {
  const unknown = randomUUID();
  expect(await house.verdicts(tablet, [pen.answer(unknown, 1).text])).toEqual(["stored"]);
});

test("C9 one refused event among sound ones is kept aside and the others go through", async () => {
  const other = new Pen(lead.device);
  const texts = [pen.opened(study, 1).text, other.note(study).text, "{}", "no JSON", pen.answer(study, 1).text];
  const reply = await house.push(tablet, texts);
  expect(reply.verdicts.map(({ verdict }) => verdict)).toEqual(["stored", "refused", "refused", "refused", "stored"]);
  expect(head(reply)).toBe(2);
});

test("what cannot be read is refused, kept aside, and counted for the lead by the device that sent it", async () => {
  const counted = async (): Promise<number[]> => {
    const { json } = await house.call("GET", "/api/devices", { token: lead.token });
    const { devices } = json as { devices: DeviceInfo[] };
    return [tablet.device, lead.device].map((id) => devices.find((device) => device.id === id)?.unreadable ?? -1);
  };
  expect(await counted()).toEqual([0, 0]);
  const broken = [newEventId(), newEventId()].map((id) => JSON.stringify({ id, stream: "none" }));
  expect(await house.verdicts(tablet, [...broken, pen.opened(study, 1).text])).toEqual([
    "refused",
    "refused",
    "stored",
  ]);
  expect(await house.verdicts(tablet, broken)).toEqual(["refused", "refused"]);
  expect(await counted()).toEqual([2, 0]);
  expect((await quarantine()).map(({ text }) => text).sort()).toEqual([...broken].sort());
});

test("a refused event of the device itself advances its head; one in another device's name moves nobody's", async () => {
  const own = pen.raw(study, 1, "study-closed", { heads: {}, knownUnsent: 0, note: "" });
  const foreign = new Pen(lead.device).note(study).text;
  const reply = await house.push(tablet, [own, foreign]);
  expect(reply.verdicts.map(({ verdict }) => verdict)).toEqual(["refused", "refused"]);
  expect(reply.heads).toEqual({ [`study:${study}`]: 1 });
  expect((await house.push(lead, [])).heads).toEqual({});
  expect((await quarantine()).map(({ reason }) => reason).sort()).toEqual(["device", "kind"]);
});

test("a panel device writes ballot events in studies only; a lead writes none; a reader writes nothing", async () => {
  const reader = await house.device(lead, "reader");
  const leadPen = new Pen(lead.device);
  const kitchen = pen.raw(study, 1, "answer-kept", answerBody(1), { stream: { kind: "kitchen", id: study } });
  expect(await house.verdicts(tablet, [kitchen])).toEqual(["refused"]);
  expect(await house.verdicts(tablet, [pen.lock(study).text])).toEqual(["refused"]);
  expect(await house.verdicts(lead, [leadPen.answer(study, 1).text, leadPen.note(study).text])).toEqual([
    "refused",
    "stored",
  ]);
  expect(await house.verdicts(reader, [new Pen(reader.device).note(study).text])).toEqual(["refused"]);
});

test("many devices push at once: every position is taken once, every verdict is right", async () => {
  const devices = await Promise.all([1, 2, 3, 4, 5].map(() => house.device(lead, "panel", study)));
  const pushes = devices.flatMap((device) => {
    const own = new Pen(device.device);
    return [1, 2, 3, 4].map((tray) =>
      house.verdicts(device, [own.opened(study, tray).text, own.answer(study, tray).text]),
    );
  });
  const verdicts = (await Promise.all(pushes)).flat();
  expect(verdicts).toEqual(Array(40).fill("stored"));
  const { events } = await stored();
  expect(events.map(({ position }) => position)).toEqual(Array.from({ length: 40 }, (_, index) => index + 1));
});

test("the exact text is what is stored, whatever is in it", async () => {
  const note = "Robert'); DROP TABLE events;-- \u0000 \u202e‏ 🥚 \\ \" %";
  const event = new Pen(lead.device).write(study, "late-admitted", { tray: 1, device: tablet.device, note });
  await house.push(lead, [event.text]);
  expect((await stored()).events.map(({ text, hash }) => ({ text, hash }))).toEqual([
    { text: event.text, hash: sha256(event.text) },
  ]);
});

test("a batch that the database cannot take gets no verdict and leaves nothing behind", async () => {
  const texts = [pen.opened(study, 1).text, pen.answer(study, 1).text];
  // a row of the past in the way: the second event's position is taken, so the batch fails half-way
  await house.push(tablet, [new Pen(tablet.device).opened(randomUUID(), 1).text]);
  await house.store.db
    .insertInto("streams")
    .values({ key: `study:${study}`, kind: "study", id: study, head: 0, chain: "0".repeat(64) })
    .execute();
  await house.store.db
    .insertInto("events")
    .values({
      ...{
        id: newEventId(),
        stream: `study:${study}`,
        device: randomUUID(),
        seq: 1,
        position: 2,
        kind: "x",
        role: "lead",
      },
      ...{ held: 1, tray: null, hash: sha256(""), text: "{}", chain: sha256(""), received_at: "" },
    })
    .execute();
  const body = { events: texts, attachments: [], status: null };
  const failed = await house.call("POST", "/api/events", { token: tablet.token, body });
  expect([failed.status, problemCode(failed)]).toEqual([500, "server/internal"]);
  expect(Object.keys(failed.json as object).sort()).toEqual(["code", "details", "errorId"]);
  const left = await house.store.db.selectFrom("events").select("id").where("device", "=", tablet.device).execute();
  expect(left).toHaveLength(1);
  await house.store.db.deleteFrom("events").where("kind", "=", "x").execute();
  expect(await house.verdicts(tablet, texts)).toEqual(["stored", "stored"]);
});
