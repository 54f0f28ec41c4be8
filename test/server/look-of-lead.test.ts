import { randomUUID } from "node:crypto";
import "fake-indexeddb/auto";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { previewStopping } from "../../src/analysis/stopping-preview.ts";
import { openDatabase } from "../../src/device/database.ts";
import { knownFacts, seenHeads } from "../../src/device/pull.ts";
import { DeviceStore } from "../../src/device/store.ts";
import { httpTransport } from "../../src/device/transport.ts";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import { sendAll } from "../../src/log/outbox.ts";
import { recordOf } from "../../src/log/record.ts";
import type { EnrollReply } from "../../src/model/http.ts";
import type { OpenedKey } from "../../src/model/key.ts";
import type { Plan } from "../../src/model/plan.ts";
import { appendEvent, type Fetch, type Lead } from "../../src/organizer/app-context.ts";
import { fetchStudy } from "../../src/organizer/facts.ts";
import { lockPlan } from "../../src/organizer/lock.ts";
import { lookOf, takeLook } from "../../src/organizer/look.ts";
import { neverSent } from "../../src/organizer/status.ts";
import { readyPlan } from "../design/scenario.ts";
import { problemOfPromise } from "../problem-of.ts";
import { House } from "./house.ts";
import { Pen } from "./pen.ts";

// A lead's looks through a real server and a real seal: what is said, what is left behind, and what an accident costs.

let house: House;
let me: EnrollReply;
beforeAll(async () => {
  house = await House.open();
  me = await house.lead();
});
afterAll(() => house.close());

const plan = (): Plan => {
  const ready = readyPlan({ people: 12, spares: 0, stopping: { rule: "looks", at: [6, 9] } });
  return { ...ready, waves: ready.waves.slice(0, 1) };
};

let database: string;
let lead: Lead;
let study: string;
let passphrase: string;
let opened: OpenedKey;
let tablet: EnrollReply;
let pen: Pen;
/** What the network does to the next request whose path holds this text. */
let failing: string | null;

beforeEach(async () => {
  failing = null;
  study = randomUUID();
  database = `lead ${study}`;
  const store = new DeviceStore(database);
  const who = { device: me.device, token: me.token, role: "lead" as const, name: "Odalys Brandt", formerly: [] };
  await store.setMeta("identity", who);
  const fetcher: Fetch = async (path, init) => {
    if (failing !== null && path.includes(failing)) throw new TypeError("no network");
    return fetch(`${house.origin}${path}`, init);
  };
  const sendNow = async (): Promise<void> => {
    await sendAll(store, httpTransport(fetcher, me.token), async () => null);
  };
  const now = () => "2026-05-03T10:00:00.000Z";
  lead = { store, fetcher, who, now, sendNow, sent: neverSent, keep: null, setKeep: () => {} };
  const locked = await lockPlan(plan(), study, "test", (length) => crypto.getRandomValues(new Uint8Array(length)));
  ({ passphrase, opened } = locked);
  await appendEvent(lead, { stream: { kind: "study", id: study }, kind: "study-locked", body: locked.body });
  await lead.sendNow();
  tablet = await house.device(me, "panel", study);
  pen = new Pen(tablet.device);
});

/** Answers these trays, right or wrong by the key. */
async function answer(trays: readonly number[], right: boolean): Promise<void> {
  const texts = trays.map((tray) => {
    const samples = opened.key.trays.find((one) => one.tray === tray)?.samples ?? [];
    const odd = samples.find(({ product }) => samples.filter((one) => one.product === product).length === 1);
    const other = samples.find(({ code }) => code !== odd?.code);
    return pen.answer(study, tray, (right ? odd : other)?.code).text;
  });
  await house.push(tablet, texts);
  await fetchStudy(lead, study);
}
const state = async (): Promise<StudyState> => foldStudy(await knownFacts(lead.store, { kind: "study", id: study }));
const next = async () => lookOf(await state())?.next;
const look = () => takeLook(lead, study, { by: "passphrase", text: passphrase });

/** Everything that the lead's browser keeps, as text. */
async function stored(): Promise<string> {
  const open = await openDatabase(database, () => {});
  const rows = await Promise.all([...open.objectStoreNames].map((name) => open.getAll(name)));
  open.close();
  return JSON.stringify(rows);
}

test("a look comes when as many have answered; 6 of 6, which guessing reaches in 0.0014, stops", async () => {
  expect(previewStopping(plan())?.looks.map(({ judgments }) => judgments)).toEqual([6, 9, 12]);
  await answer([1, 2, 3, 4, 5], true);
  expect(await next()).toEqual({ what: "later", look: 1, from: 6 });
  expect((await problemOfPromise(look())).code).toBe("look/not-allowed");
  await answer([6], true);
  expect(await next()).toEqual({ what: "due", look: 1 });
  expect(await look()).toBe("stop");
});

test("4 of 6 goes on, 7 of 9 stops; no key and no answer is left in the browser, no count of right ones in the log", async () => {
  await answer([1, 2, 3, 4], true);
  await answer([5, 6], false);
  expect(await look()).toBe("go-on");
  const kept = await stored();
  expect(kept).toContain("look-done");
  // the field of an answer, not the word: what people agree to speaks of their choice
  expect(kept).toMatch(/"commitment\\*":/);
  expect(kept).not.toMatch(/"choice\\*":/);
  expect(kept).not.toContain(opened.salt);
  expect(kept).not.toContain(passphrase);
  const done = (await state()).looks[0]?.done;
  expect(Object.keys(done?.body ?? {}).sort()).toEqual(["look", "said"]);
  await answer([7, 8, 9], true);
  expect(await next()).toEqual({ what: "due", look: 2 });
  expect(await look()).toBe("stop");
  expect(await next()).toEqual({ what: "stopped" });
  expect((await problemOfPromise(look())).code).toBe("look/over");
});

test("a wrong passphrase costs no look", async () => {
  await answer([1, 2, 3, 4, 5, 6], true);
  const wrong = takeLook(lead, study, { by: "passphrase", text: "one two three four five six seven eight" });
  expect((await problemOfPromise(wrong)).code).toBe("key/wrong-passphrase");
  expect(await next()).toEqual({ what: "due", look: 1 });
});

test("interrupted between begun and done, it is finished later as the same look over the same answers", async () => {
  await answer([1, 2, 3, 4], true);
  await answer([5, 6], false);
  failing = "/looks/";
  expect((await problemOfPromise(look())).code).toBe("server/unreachable");
  expect(await next()).toMatchObject({ what: "unfinished" });
  // three more right ones would have decided: the look does not see them
  await answer([7, 8, 9], true);
  failing = null;
  expect(await look()).toBe("go-on");
  const { looks } = await state();
  expect(looks.map(({ begun, done }) => [begun.body.answered, done?.body.said])).toEqual([[6, "go-on"]]);
});

test("the result stands on the look that decided: 7 of 9; a tenth answer is listed and not counted", async () => {
  await answer([1, 2, 3, 4], true);
  await answer([5, 6], false);
  await look();
  await answer([7, 8, 9], true);
  await look();
  await answer([10], false);
  const stream = { kind: "study" as const, id: study };
  const close = { heads: await seenHeads(lead.store, stream), knownUnsent: 0, note: "" };
  await appendEvent(lead, { stream, kind: "study-closed", body: close });
  const reveal = { heads: await seenHeads(lead.store, stream), opened };
  await appendEvent(lead, { stream, kind: "key-revealed", body: reveal });
  await lead.sendNow();
  await fetchStudy(lead, study);
  const result = analyse(recordOf(await state(), { keyMatches: true }), "test");
  expect(result).toMatchObject({ family: "choice", judgments: 9, correct: 7, outcome: "reached" });
  expect(result.family === "choice" && result.stopping).toMatchObject({
    rule: "looks",
    early: true,
    planned: 12,
    after: 1,
    looks: [
      { judgments: 6, correct: 4, said: "go-on" },
      { judgments: 9, correct: 7, said: "yes" },
    ],
  });
});
