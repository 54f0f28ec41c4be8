import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { readEvent, readOutline } from "../../src/log/facts.ts";
import { type EnrollReply, eventsReply, panelReply, studiesReply } from "../../src/model/http.ts";
import type { Plan } from "../../src/model/plan.ts";
import { commitmentOf, withSalt } from "../../src/seal/commitment.ts";
import { linePlan, readyPlan } from "../design/scenario.ts";
import { ballot, packer, study, writer } from "./blind-world.ts";
import { House, problemCode, type Reply } from "./house.ts";
import { Pen } from "./pen.ts";

/** One way the world could be: which key was drawn, and what the tablets answered. */
type World = { plan: Plan; seed: string; place: number; salt: number };
const plain: World = { plan: readyPlan(), seed: "00", place: 0, salt: 1 };

let house: House;
afterEach(() => house.close());

/** Plays a study until the key is open, and keeps every reply that a phone of the kitchen gets at each stage. */
async function played({ plan, seed, place, salt }: World) {
  house = await House.open();
  const lead = await house.lead();
  const write = writer();
  const trays = makeTrays(plan, study, { seed, codes: seeded("the same codes in every world", "codes") });
  const opened = withSalt(trays.key, (length) => new Uint8Array(length).fill(salt));
  const commitment = commitmentOf(opened);
  const packet = packer(plan, trays, commitment);
  // what would leak if any of it came through: the key in clear
  const ciphertext = Buffer.from(JSON.stringify(opened)).toString("base64");
  const sealed = { v: 1 as const, study, commitment, kdf: { rounds: 600_000, salt: "ab" }, iv: "cd", ciphertext };
  const phone = await house.device(lead, "kitchen");
  const tablet = await house.device(lead, "panel", study);
  const tape: Record<string, Reply[]> = {};
  const look = async (stage: string): Promise<void> => {
    const paths = ["/api/studies", `/api/studies/${study}/events?after=0`, `/api/studies/${study}/calls`];
    tape[stage] = [];
    for (const path of paths) tape[stage].push(await house.call("GET", path, { token: phone.token }));
  };

  await house.push(lead, [write(lead.device, "draft-saved", { base: null, merged: [], plan })]);
  await look("draft");
  const lock = { plan, packet, sealed, seats: trays.seats, app: "test", pots: trays.pots };
  await house.push(lead, [
    write(lead.device, "study-locked", lock),
    write(lead.device, "paper-printed", { paper: "sealed-page", reprint: false }),
  ]);
  await house.push(phone, [
    write(phone.device, "tray-handled", { tray: 1, turn: "filled", sound: true, after: [], note: "" }),
  ]);
  const [first] = trays.blind;
  if (!first) throw new Error("the world is too small");
  await house.push(tablet, ballot(write, tablet.device, packet, first, place));
  await look("collecting");
  const heads = { [lead.device]: 3 };
  await house.push(lead, [write(lead.device, "study-closed", { heads, knownUnsent: 0, note: "" })]);
  await look("closed");
  await house.push(lead, [write(lead.device, "key-revealed", { heads, opened })]);
  await look("revealed");
  return { tape, lead, phone, tablet, commitment, ciphertext, labels: trays.pots.flatMap(({ pots }) => pots) };
}

type Played = Awaited<ReturnType<typeof played>>;

/** What the server draws by lot, and hashes over the key's fresh random bytes, by name. Labels of pots are set aside. */
function masked({ tape, lead, phone, tablet, commitment, labels }: Played): string {
  const names: [string, string][] = [
    ...[lead, phone, tablet].map(({ device }, at): [string, string] => [device, `DEVICE ${at}`]),
    [phone.incarnation, "INCARNATION"],
    [commitment, "COMMITMENT"],
  ];
  const text = JSON.stringify(Object.values(tape).map((replies) => replies.map(({ status, json }) => [status, json])));
  return names
    .reduce((masking, [secret, name]) => masking.replaceAll(secret, name), text)
    .replace(/(hash|chain|prev)(\\?":\\?")[0-9a-f]{64}/g, "$1$2HASH")
    .replace(/"errorId":"[^"]*"/g, '"errorId":"LOT"')
    .replace(/"pots":\[[^\]]*\]/g, (pots) => pots.replace(new RegExp(labels.join("|"), "g"), "POT"));
}

describe("what a phone of the kitchen gets", () => {
  test.each([
    ["choices", readyPlan()],
    ["marks", linePlan()],
  ])("%s: no byte of it depends on the key or on an answer, and none is of the sealed key", async (_name, plan) => {
    const one = await played({ ...plain, plan });
    const bytes = masked(one);
    expect(bytes).not.toContain(one.ciphertext);
    expect(bytes).toContain("HASH");
    await house.close();
    const other = await played({ plan, seed: "77aa", place: 1, salt: 9 });
    expect(other.ciphertext).not.toBe(one.ciphertext);
    expect(masked(other)).toBe(bytes);
  });

  test("of a draft and after the reveal nothing; between them what concerns it, and of all else its place", async () => {
    const plan = { ...readyPlan(), objective: "Is it the steam?" };
    const { tape, labels } = await played({ ...plain, plan });
    const at = (stage: string) => tape[stage] ?? expect.fail("somebody looked then");
    const codes = (stage: string) => at(stage).map((reply) => (reply.status === 200 ? 200 : problemCode(reply)));
    const nothing = [200, "access/not-found", "access/not-found"];
    const day = [200, 200, 200];
    const stages = ["draft", "collecting", "closed", "revealed"];
    expect(stages.map(codes)).toEqual([nothing, day, day, nothing]);
    const listed = (stage: string) => studiesReply.parse(at(stage)[0]?.json).studies.length;
    expect(stages.map(listed)).toEqual([0, 1, 1, 0]);

    const read = eventsReply.parse(at("closed")[1]?.json).events.map(({ text, outline, hash }) => {
      const event = text === null ? null : readEvent(text);
      return event?.ok ? event.fact : readOutline(outline, hash);
    });
    expect(read.map((fact) => fact?.kind ?? null)).toEqual([
      null, // the draft
      "study-locked",
      "paper-printed",
      "tray-handled",
      "tray-opened",
      "answer-kept",
      "tray-finished",
      "study-closed",
    ]);
    const lock = read[1]?.kind === "study-locked" ? read[1].body : expect.fail("the lock is readable");
    expect(lock.sealed).toMatchObject({ ciphertext: "", iv: "00", kdf: { salt: "00" } });
    expect([lock.plan.objective, lock.plan.ifYes, lock.plan.ifNo]).toEqual(["", "", ""]);
    expect(lock.pots?.flatMap(({ pots }) => pots)).toEqual(labels);
    expect(read[5]?.body).toEqual({ tray: 1, question: 1 });
  });
});

describe("what is told of the day", () => {
  let lead: EnrollReply;
  let phone: EnrollReply;
  let tablet: EnrollReply;
  const pens = () => [new Pen(lead.device), new Pen(phone.device)] as const;
  beforeEach(async () => {
    house = await House.open();
    lead = await house.lead();
    phone = await house.device(lead, "kitchen");
    tablet = await house.device(lead, "panel", study);
  });

  test("leads read what the kitchen wrote, before the reveal too", async () => {
    const [mine, theirs] = pens();
    await house.push(lead, [mine.lock(study).text]);
    const body = { wave: 1, tray: 1, celsius: "58.5", note: "" };
    await house.push(phone, [theirs.write(study, "serving-read", body).text]);
    const events = await house.call("GET", `/api/studies/${study}/events?after=0`, { token: lead.token });
    expect(events.text).toContain("58.5");
  });

  test("a halt reaches tablets until every halt is ended, whoever made it", async () => {
    const [mine, theirs] = pens();
    const halted = async () =>
      panelReply.parse((await house.call("GET", "/api/panel", { token: tablet.token })).json).halted;
    await house.push(lead, [mine.lock(study).text]);
    expect(await halted()).toBe(false);
    const one = theirs.write(study, "serving-halted", { why: "person" });
    const two = mine.write(study, "serving-halted", { why: "room" });
    await house.push(phone, [one.text]);
    await house.push(lead, [two.text]);
    expect(await halted()).toBe(true);
    // only a lead lets it go on
    const phones = theirs.write(study, "serving-resumed", { halts: [one.id, two.id], note: "" });
    expect(await house.verdicts(phone, [phones.text])).toEqual(["refused"]);
    expect(await halted()).toBe(true);
    await house.push(lead, [mine.write(study, "serving-resumed", { halts: [one.id], note: "" }).text]);
    expect(await halted()).toBe(true);
    await house.push(lead, [mine.write(study, "serving-resumed", { halts: [two.id], note: "" }).text]);
    expect(await halted()).toBe(false);
  });

  test("a call for somebody shows with its tray until it is taken back", async () => {
    const call = async (help: number | null) => {
      const status = { unsent: 0, battery: 0.1, persisted: true, app: "test", help };
      await house.call("POST", "/api/events", { token: tablet.token, body: { events: [], attachments: [], status } });
    };
    const calls = async () => (await house.call("GET", `/api/studies/${study}/calls`, { token: phone.token })).json;
    await house.push(lead, [pens()[0].lock(study).text]);
    await call(7);
    const lastSeen = new Date(house.clock).toISOString();
    expect(await calls()).toEqual({ calls: [{ device: tablet.device, name: "Tablet", tray: 7, lastSeen }] });
    await call(null);
    expect(await calls()).toEqual({ calls: [] });
  });
});
