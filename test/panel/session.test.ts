import { IDBDatabase as FakeDatabase } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { sha256 } from "../../src/model/canonical.ts";
import { draftName } from "../../src/panel/draft.ts";
import { Session } from "../../src/panel/session.ts";
import { emptyDisk, packet, study, Tablet } from "./tablet.ts";

let tablet: Tablet;
const newSession = (): Session => new Session({ ...tablet.parts, wordings: ["triangle-1"], onKept: () => {} });
let session: Session;
const codes = packet.trays[16]?.codes ?? [];

beforeEach(async () => {
  emptyDisk();
  tablet = await new Tablet().ready();
  session = newSession();
});
afterEach(async () => {
  vi.restoreAllMocks();
  await tablet.store.close();
});

/** Up to the question of tray 17. */
async function toQuestion(): Promise<void> {
  await session.open("17-4");
  await session.clear();
  session.begin();
  for (const code of codes) {
    session.touch(code);
    tablet.clock.pass(45_000);
  }
  expect(session.state.step).toMatchObject({ at: "question", picked: null });
}

/** Waits until the draft of tray 17 says what the screen says. */
async function onDisk(): Promise<void> {
  const { step } = session.state;
  const wanted = {
    ...step,
    tray: undefined,
    ...(step.at === "tasting" ? { restUntil: undefined, resting: true } : {}),
  };
  const shown = Object.fromEntries(Object.entries(wanted).filter(([, value]) => value !== undefined));
  await vi.waitFor(async () => {
    const draft = (await tablet.store.draft(draftName(study, 17))) ?? {};
    if (step.at !== "rules") expect(draft).toMatchObject(shown);
  });
}

/** Every write of events fails from now on, as on a full disk. */
function fillDisk(): () => void {
  const original = FakeDatabase.prototype.transaction;
  const spy = vi.spyOn(FakeDatabase.prototype, "transaction").mockImplementation(function (this: IDBDatabase, ...args) {
    if (args[1] === "readwrite") throw new DOMException("full", "QuotaExceededError");
    return original.apply(this, args);
  });
  return () => spy.mockRestore();
}

describe("keeping", () => {
  test("the next screen shows only once the answer is on disk", async () => {
    await toQuestion();
    session.pick(codes[1] ?? "");
    const shown: string[] = [];
    let atRemark: string[] | null = null;
    session.onChange(() => shown.push(session.state.step.at));
    const stop = session.onChange(() => {
      if (session.state.step.at === "remark") atRemark ??= shown;
    });
    const keeping = session.keep();
    expect(session.state.step.at).toBe("question");
    await keeping;
    stop();
    expect(atRemark).not.toBeNull();
    expect(await tablet.events()).toContain("answer-kept 17");
  });

  test("A4: on a full disk the answer stays on screen with the reason, and one press more keeps it", async () => {
    await toQuestion();
    session.pick(codes[2] ?? "");
    session.guess(true);
    const freeDisk = fillDisk();
    await session.keep();
    expect(session.state).toMatchObject({
      step: { at: "question", picked: codes[2], guess: true },
      busy: false,
      problem: { code: "device/full" },
    });
    freeDisk();
    await session.keep();
    expect(session.state).toMatchObject({ step: { at: "remark" }, problem: null });
    expect((await tablet.events()).filter((event) => event === "answer-kept 17")).toHaveLength(1);
  });

  test("A6: a transaction that aborts after its put is not kept, and nothing else shows", async () => {
    await toQuestion();
    session.pick(codes[0] ?? "");
    await onDisk();
    const original = FakeDatabase.prototype.transaction;
    const spy = vi.spyOn(FakeDatabase.prototype, "transaction").mockImplementation(function (
      this: IDBDatabase,
      ...args
    ) {
      const tx = original.apply(this, args);
      if (args[1] === "readwrite" && [args[0]].flat().includes("events")) {
        const add = tx.objectStore("events").constructor.prototype as { add: (value: unknown) => IDBRequest };
        const put = add.add;
        vi.spyOn(add, "add").mockImplementation(function (this: unknown, value) {
          const request = put.call(this, value);
          request.addEventListener("success", () => tx.abort());
          return request;
        });
      }
      return tx;
    });
    await session.keep();
    spy.mockRestore();
    vi.restoreAllMocks();
    expect(session.state.step.at).toBe("question");
    expect(session.state.problem?.code).toBe("device/not-saved");
    expect(await tablet.events()).not.toContain("answer-kept 17");
  });

  test("A11: presses in one task, and a press while the first is written, are one event", async () => {
    await toQuestion();
    session.pick(codes[1] ?? "");
    await Promise.all([session.keep(), session.keep(), session.keep()]);
    await Promise.all([session.finish(), session.finish()]);
    const events = await tablet.events();
    expect(events).toEqual(["tray-opened 17", "answer-kept 17", "tray-finished 17"]);
  });

  test("nothing chosen, nothing kept; and a code that the tray does not carry cannot be chosen", async () => {
    await toQuestion();
    session.pick("999");
    await session.keep();
    expect(session.state.step).toMatchObject({ at: "question", picked: null });
    expect(await tablet.events()).toEqual(["tray-opened 17"]);
  });

  test("the event says what was chosen, whether guessed, on which screen, and how long the question stood", async () => {
    await toQuestion();
    tablet.clock.pass(8000);
    session.pick(codes[1] ?? "");
    session.guess(true);
    await session.keep();
    const facts = await tablet.store.ownFacts({ kind: "study", id: study });
    expect(facts.find((fact) => fact.kind === "answer-kept")?.body).toEqual({
      tray: 17,
      question: 1,
      choice: codes[1],
      guess: true,
      // the question stood while the clock of `toQuestion` ran on after the last code
      elapsedMs: 53_000,
      screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
      salt: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
    expect(facts[0]?.body).toEqual({ tray: 17, clearance: packet.allergens.version });
  });

  test("a remark is kept beside its salted hash, and only after the answer", async () => {
    await toQuestion();
    session.remark("too early");
    session.pick(codes[1] ?? "");
    await session.keep();
    session.remark("  a bit dry ");
    await session.finish();
    expect(await tablet.events()).toEqual(["tray-opened 17", "answer-kept 17", "remark-kept 17", "tray-finished 17"]);
    const { attachments } = await tablet.store.unsent(10, 100_000);
    const salt = "5".repeat(64);
    expect(attachments).toMatchObject([{ salt, text: "a bit dry" }]);
    const facts = await tablet.store.ownFacts({ kind: "study", id: study });
    expect(facts[2]?.body).toEqual({ tray: 17, remark: sha256(`${salt}\na bit dry`) });
  });
});

describe("coming back", () => {
  test.each([
    ["at the rules", async () => session.clear()],
    [
      "in the pause",
      async () => {
        await session.clear();
        session.begin();
        session.touch(codes[0] ?? "");
      },
    ],
  ])("A12: after a reload the tray stands where it stood: %s", async (_where, go) => {
    await session.open("17-4");
    await go();
    await onDisk();
    const before = session.state.step;
    tablet.held.clear(); // the window is gone, and its hold with it
    session = newSession();
    await session.resume();
    expect(session.state.step).toEqual(before);
  });

  test("A12: a choice and its tick are there after a reload, and no event was written twice", async () => {
    await toQuestion();
    session.pick(codes[2] ?? "");
    session.guess(true);
    await onDisk();
    tablet.held.clear();
    session = newSession();
    await session.resume();
    expect(session.state.step).toMatchObject({ at: "question", picked: codes[2], guess: true });
    await session.keep();
    expect(await tablet.events()).toEqual(["tray-opened 17", "answer-kept 17"]);
  });

  test("a tray left long ago waits for its number, with everything still there", async () => {
    await toQuestion();
    session.pick(codes[2] ?? "");
    await onDisk();
    tablet.held.clear();
    tablet.clock.pass(60 * 60_000);
    session = newSession();
    await session.resume();
    expect(session.state.step).toEqual({ at: "rest" });
    await session.open("17-4");
    expect(session.state.step).toMatchObject({ at: "question", picked: codes[2] });
  });

  test("covering leaves nothing of the tray in sight and deletes nothing", async () => {
    await toQuestion();
    session.pick(codes[0] ?? "");
    await session.rest();
    expect(session.state).toEqual({ step: { at: "rest" }, packet: null, busy: false, problem: null });
    expect(tablet.held.size).toBe(0);
    expect(tablet.awake).toBe(false);
    await session.open("17-4");
    expect(session.state.step).toMatchObject({ at: "question", picked: codes[0] });
    expect(tablet.awake).toBe(true);
  });

  test("Keep this, pressed while the cover comes down, does nothing: the choice is there when the tray opens again", async () => {
    await toQuestion();
    session.pick(codes[1] ?? "");
    await Promise.all([session.rest(), session.keep()]);
    expect(session.state).toEqual({ step: { at: "rest" }, packet: null, busy: false, problem: null });
    expect(await tablet.events()).not.toContain("answer-kept 17");
    await session.open("17-4");
    expect(session.state.step).toMatchObject({ at: "question", picked: codes[1] });
    await session.keep();
    expect(session.state.step).toMatchObject({ at: "remark" });
  });

  test("Stop, pressed while the cover comes down, is kept and shows the calm page", async () => {
    await toQuestion();
    await Promise.all([session.rest(), session.stop()]);
    expect(session.state).toMatchObject({ step: { at: "stopped", reason: "stopped" }, busy: false });
    expect(await tablet.events()).toContain("tray-stopped 17");
    expect(tablet.held.size).toBe(0);
  });

  test("answered but not finished: the number leads to the remark, and no second answer", async () => {
    await toQuestion();
    session.pick(codes[0] ?? "");
    await session.keep();
    await session.rest();
    await session.open("17-4");
    expect(session.state.step).toMatchObject({ at: "remark", text: "" });
  });
});

describe("trays that do not open", () => {
  const code = async (typed: string): Promise<string | undefined> => {
    await session.open(typed);
    expect(session.state.step).toEqual({ at: "rest" });
    return session.state.problem?.code;
  };
  test("used here, used elsewhere, stopped here, open in another window: each says which", async () => {
    await toQuestion();
    session.pick(codes[0] ?? "");
    await session.keep();
    await session.finish();
    await session.rest();
    expect(await code("17-4")).toBe("tray/used-here");

    await tablet.store.setMeta("taken", [1]);
    expect(await code("1-3")).toBe("tray/used-elsewhere");

    await session.open("2-1");
    await session.notCleared();
    expect(session.state.step).toMatchObject({ at: "stopped", reason: "not-cleared" });
    await session.rest();
    expect(await code("2-1")).toBe("tray/stopped-here");

    tablet.held.add(`${study} 3`);
    expect(await code("3-7")).toBe("tray/open-in-other-tab");

    await tablet.store.setMeta("packet", null);
    expect(await code("4-5")).toBe("tray/no-study");
    expect(await tablet.events()).toEqual(["tray-opened 17", "answer-kept 17", "tray-finished 17", "tray-stopped 2"]);
  });
});

describe("stopping", () => {
  test("the calm page shows before anything is written, and stays when writing fails", async () => {
    await toQuestion();
    const freeDisk = fillDisk();
    const stopping = session.stop();
    expect(session.state.step).toMatchObject({ at: "stopped", reason: "stopped" });
    await stopping;
    expect(session.state).toMatchObject({ step: { at: "stopped" }, problem: { code: "device/full" } });
    freeDisk();
    await session.keepStop();
    expect(session.state.problem).toBeNull();
    expect(await tablet.events()).toEqual(["tray-opened 17", "tray-stopped 17"]);
  });

  test("stopping while an answer is being written keeps both, and shows the calm page", async () => {
    await toQuestion();
    session.pick(codes[0] ?? "");
    await Promise.all([session.keep(), session.stop()]);
    expect(session.state.step).toMatchObject({ at: "stopped" });
    expect([...(await tablet.events())].sort()).toEqual(["answer-kept 17", "tray-opened 17", "tray-stopped 17"]);
  });

  test("not cleared stores no reason; cannot answer ends the tray", async () => {
    await session.open("17-4");
    await session.notCleared();
    const facts = await tablet.store.ownFacts({ kind: "study", id: study });
    expect(facts.map((fact) => fact.body)).toEqual([{ tray: 17, reason: "not-cleared" }]);
    await session.rest();

    await session.open("16-3");
    await session.clear();
    session.begin();
    for (const one of packet.trays[15]?.codes ?? []) {
      session.touch(one);
      tablet.clock.pass(45_000);
    }
    session.cannot();
    session.back();
    session.cannot();
    await session.endWithoutAnswer();
    expect(session.state.step).toMatchObject({ at: "stopped", reason: "cannot-answer" });
    expect(await tablet.events()).toEqual(["tray-stopped 17", "tray-opened 16", "tray-stopped 16"]);
  });
});
