import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { EnrollReply, LookReply } from "../../src/model/http.ts";
import { newEventId } from "../../src/model/id.ts";
import type { BlindPacket } from "../../src/model/packet.ts";
import type { Plan } from "../../src/model/plan.ts";
import { readyPlan } from "../design/scenario.ts";
import { House, problemCode } from "./house.ts";
import { Pen, packetOf } from "./pen.ts";

let house: House;
let lead: EnrollReply;
let other: EnrollReply;
let tablet: EnrollReply;
let reader: EnrollReply;
beforeAll(async () => {
  house = await House.open();
  lead = await house.lead();
  other = await house.enroll(await house.code(lead, "lead"), "Priya's laptop");
  tablet = await house.device(lead, "panel");
  reader = await house.device(lead, "reader");
});
afterAll(() => house.close());

// a new study for each test, so that none reads what another wrote
let study: string;
let pen: Pen;
let tabletPen: Pen;
beforeEach(() => {
  study = randomUUID();
  pen = new Pen(lead.device);
  tabletPen = new Pen(tablet.device);
});

const codes = [
  ["482", "715", "309"],
  ["264", "518", "937"],
  ["146", "385", "672"],
];
const packet = (): BlindPacket => ({
  ...packetOf(study),
  trays: codes.map((list, at) => ({ tray: at + 1, wave: 1, spare: false, codes: list })),
});
const twoOfThree: Plan["stopping"] = { rule: "looks", at: [2] };

/** Locks a plan with this rule, and answers trays 1 and 2. */
async function begin(stopping: Plan["stopping"]): Promise<void> {
  const plan = { ...readyPlan(), people: 3, stopping };
  const lock = { plan, packet: packet(), seats: [], app: "test" };
  await house.push(lead, [pen.write(study, "study-locked", { ...lock, sealed: sealedOf(lock.packet) }).text]);
  await house.push(
    tablet,
    [tabletPen.opened(study, 1), tabletPen.answer(study, 1), tabletPen.answer(study, 2, "518")].map(({ text }) => text),
  );
}
const sealedOf = ({ commitment }: BlindPacket) => ({
  v: 1 as const,
  study,
  commitment,
  kdf: { rounds: 600_000, salt: "00" },
  iv: "00",
  ciphertext: "AA==",
});
const lookAt = (look: number, head: number, answered: number, by = pen) =>
  by.write(study, "look-begun", { look, heads: { [tablet.device]: head, [lead.device]: 1 }, answered });
const ask = (look: string, who: { token: string } = lead) =>
  house.call("GET", `/api/studies/${study}/looks/${look}`, { token: who.token });
const choices = (reply: { json: unknown }): unknown[] =>
  (reply.json as LookReply).answers.map((text) => (JSON.parse(text) as { body: { choice: string } }).body.choice);

describe("the answers of a look", () => {
  test("once it stands in the log: to the device that began it, those within its heads, and the log says so", async () => {
    await begin(twoOfThree);
    const look = lookAt(1, 3, 2);
    expect((await ask(look.id)).status).toBe(404);
    await house.push(lead, [look.text]);
    // what comes later is not within its heads
    await house.push(tablet, [tabletPen.answer(study, 3, "385").text]);
    const reply = await ask(look.id);
    expect(reply.status).toBe(200);
    expect(choices(reply)).toEqual(["482", "518"]);
    const line = house.log.split("\n").find((text) => text.includes("answers given for a look"));
    expect(JSON.parse(line ?? "{}")).toMatchObject({ look: 1, answers: 2, device: lead.device });
    expect(line).not.toMatch(/"482\\?"/);
    // an interrupted look may be asked for again
    expect(choices(await ask(look.id))).toEqual(["482", "518"]);
  });

  test("no other device gets them: not another lead, no tablet, no reader; the events stay outlines", async () => {
    await begin(twoOfThree);
    const look = lookAt(1, 3, 2);
    await house.push(lead, [look.text]);
    for (const who of [other, tablet, reader]) {
      const reply = await ask(look.id, who);
      expect(problemCode(reply)).toBe("access/not-allowed");
      expect(reply.text).not.toMatch(/"(482|518)"/);
    }
    const { text } = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
    expect(text).not.toContain('"choice"');
  });

  test("a tablet sees nothing of a look: its reply is the same to the byte before and after", async () => {
    await begin(twoOfThree);
    await house.call("POST", `/api/devices/${tablet.device}`, { token: lead.token, body: { study } });
    const before = await house.call("GET", "/api/panel", { token: tablet.token });
    expect(before.text).toContain('"trays"');
    const look = lookAt(1, 3, 2);
    await house.push(lead, [look.text]);
    await ask(look.id);
    await house.push(lead, [pen.write(study, "look-done", { look: look.id, said: "go-on" }).text]);
    const after = await house.call("GET", "/api/panel", { token: tablet.token });
    expect(after.text).toBe(before.text);
  });

  test.each<[string, Plan["stopping"], number, number, string]>([
    ["without a rule", { rule: "fixed" }, 1, 3, "look/not-allowed"],
    ["a second look where one was planned", twoOfThree, 2, 3, "look/not-allowed"],
    ["with fewer answers than the look takes", twoOfThree, 1, 2, "look/too-early"],
    ["that saw more than the server holds", twoOfThree, 1, 9, "look/records-missing"],
    ["by Wald's lines without an answer", { rule: "sequential", beta: 0.1 }, 1, 1, "look/too-early"],
  ])("refused %s", async (_, stopping, number, head, code) => {
    await begin(stopping);
    const look = lookAt(number, head, 2);
    await house.push(lead, [look.text]);
    const reply = await ask(look.id);
    expect(problemCode(reply)).toBe(code);
    expect(reply.text).not.toMatch(/"518\\?"/);
  });

  test("by Wald's lines no look before a verdict could stand, and a further look takes a further answer", async () => {
    await begin({ rule: "sequential", beta: 0.1 });
    const early = lookAt(1, 3, 2);
    await house.push(lead, [early.text]);
    expect(problemCode(await ask(early.id))).toBe("look/too-early");

    study = randomUUID();
    await begin({ rule: "sequential", beta: 0.1 });
    const more = [3, 4, 5, 6].map((tray) => tabletPen.answer(study, tray).text);
    await house.push(tablet, more);
    const [first, again] = [lookAt(1, 7, 6), lookAt(2, 7, 6)];
    await house.push(lead, [first.text, again.text]);
    expect((await ask(first.id)).status).toBe(200);
    expect(problemCode(await ask(again.id))).toBe("look/too-early");
  });

  test("of two looks of one number the one with the lower id is the look", async () => {
    await begin(twoOfThree);
    const otherPen = new Pen(other.device);
    const [first, second] = [newEventId(), newEventId()].sort();
    const begun = { look: 1, heads: { [tablet.device]: 3 }, answered: 2 };
    await house.push(other, [otherPen.write(study, "look-begun", begun, second).text]);
    await house.push(lead, [pen.write(study, "look-begun", begun, first).text]);
    expect((await ask(first ?? "")).status).toBe(200);
    expect(problemCode(await ask(second ?? "", other))).toBe("look/not-allowed");
  });

  test("over once the rule has spoken, and once the study is closed", async () => {
    await begin(twoOfThree);
    const look = lookAt(1, 3, 2);
    await house.push(lead, [look.text, pen.write(study, "look-done", { look: look.id, said: "go-on" }).text]);
    expect(problemCode(await ask(look.id))).toBe("look/over");

    study = randomUUID();
    await begin(twoOfThree);
    const unfinished = lookAt(1, 3, 2);
    await house.push(lead, [unfinished.text, pen.close(study).text]);
    expect(problemCode(await ask(unfinished.id))).toBe("look/over");
  });

  test("a look is a lead's to write: a tablet's is set aside and gives nothing", async () => {
    await begin(twoOfThree);
    const look = lookAt(1, 3, 2, tabletPen);
    expect(await house.verdicts(tablet, [look.text])).toEqual(["refused"]);
    const done = pen.write(study, "look-done", { look: look.id, said: "stop" });
    expect(await house.verdicts(reader, [done.text])).toEqual(["refused"]);
    expect((await ask(look.id)).status).toBe(404);
  });
});
