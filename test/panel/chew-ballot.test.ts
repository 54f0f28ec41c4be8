import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Body } from "../../src/model/event.ts";
import { ChewBallot } from "../../src/panel/chew/chew-ballot.ts";
import { draftName } from "../../src/panel/draft.ts";
import { Session } from "../../src/panel/session.ts";
import { emptyDisk, packet, study, Tablet } from "./tablet.ts";

/** The scenario's portions: 5 g chewed for 15 s, a rinsed mouth left for 30 s, 45 s between portions. */
const chewPacket = {
  ...packet,
  ...{ method: "chew-and-weigh" as const, wording: "chew-and-weigh-1", swallow: "spit" as const },
  chew: { seconds: 15, mouth: "rinsed-and-waited" as const, waitSeconds: 30, rinseGrams: 10 },
};
const codes = chewPacket.trays[16]?.codes ?? [];

let tablet: Tablet;
let session: Session;
const newSession = (): Session => new Session({ ...tablet.parts, wordings: ["chew-and-weigh-1"], onKept: () => {} });
beforeEach(async () => {
  emptyDisk();
  tablet = await new Tablet().ready(chewPacket);
  session = newSession();
});
afterEach(() => tablet.store.close());

const ballot = (): ChewBallot => {
  const ballot = session.late?.ballot;
  if (!(ballot instanceof ChewBallot)) throw new Error("no tray of portions is in hand");
  return ballot;
};
const step = () => session.state.step;
async function chewed(): Promise<Body<"portion-chewed">[]> {
  const facts = await tablet.store.ownFacts({ kind: "study", id: study });
  return facts.flatMap((fact) => (fact.kind === "portion-chewed" && !fact.outline ? [fact.body] : []));
}
/** Up to the mouth before the first portion. */
async function toFirst(): Promise<void> {
  await session.open("17-4");
  await session.clear();
  session.begin();
  ballot().matches();
}
/** From the mouth to the code that is touched. */
function toBite(): void {
  ballot().prepared();
  tablet.clock.pass(30_000);
  expect(step()).toMatchObject({ phase: "bite" });
  ballot().bite();
}
async function keep(whole: boolean): Promise<void> {
  ballot().say(whole);
  await ballot().keep();
  expect(step()).toMatchObject({ phase: "lid" });
}
async function reload(): Promise<void> {
  tablet.held.clear();
  session = newSession();
  await session.resume();
}
const onDisk = (phase: string) =>
  vi.waitFor(async () => expect(await tablet.store.draft(draftName(study, 17))).toMatchObject({ phase }));

test("the wait, the word and the pause come by themselves; real seconds are those between the touches", async () => {
  await toFirst();
  ballot().prepared();
  tablet.clock.pass(29_999);
  expect(step()).toMatchObject({ phase: "wait" });
  ballot().bite();
  tablet.clock.pass(1);
  ballot().bite();
  tablet.clock.pass(14_999);
  expect(step()).toMatchObject({ phase: "chew", now: false });
  tablet.clock.pass(1);
  expect(step()).toMatchObject({ phase: "chew", now: true });
  tablet.clock.pass(1_250);
  ballot().spat();
  await keep(true);
  expect(await chewed()).toMatchObject([
    { tray: 17, question: 1, code: codes[0], chewedSeconds: 16.25, whole: true, hidden: false },
  ]);
  ballot().closed();
  ballot().prepared();
  expect(step()).toMatchObject({ sample: 1, phase: "mouth" });
  expect(step()).not.toMatchObject({ until: null });
  tablet.clock.pass(45_000);
  expect(step()).toMatchObject({ sample: 1, phase: "mouth", until: null });
});

test("whoever spits before the word is not held up, and what was swallowed is kept as such", async () => {
  await toFirst();
  toBite();
  tablet.clock.pass(4_500);
  ballot().spat();
  tablet.clock.pass(60_000);
  await ballot().keep();
  expect(step()).toMatchObject({ phase: "whole" });
  await keep(false);
  expect(await chewed()).toMatchObject([{ chewedSeconds: 4.5, whole: false }]);
});

test("a page that was hidden while the clock ran says so", async () => {
  await toFirst();
  toBite();
  tablet.hide();
  ballot().spat();
  await keep(true);
  expect(await chewed()).toMatchObject([{ hidden: true }]);
});

test("loaded anew in the chew: only spitting is left, and the seconds are not known", async () => {
  await toFirst();
  toBite();
  await onDisk("chew");
  await reload();
  expect(step()).toMatchObject({ phase: "chew", bite: null, now: true });
  ballot().spat();
  await keep(true);
  expect(await chewed()).toMatchObject([{ chewedSeconds: null, whole: true }]);
});

test("loaded anew after it: the seconds are there; at the lid: the cup is still to be closed", async () => {
  await toFirst();
  toBite();
  tablet.clock.pass(15_500);
  ballot().spat();
  await onDisk("whole");
  await reload();
  expect(step()).toMatchObject({ phase: "whole", seconds: 15.5 });
  await keep(true);
  await onDisk("lid");
  await reload();
  expect(step()).toMatchObject({ sample: 0, phase: "lid" });
  expect(await chewed()).toHaveLength(1);
});

test("every portion once, then the remark and the end", async () => {
  await toFirst();
  for (const sample of codes.keys()) {
    expect(step()).toMatchObject({ sample, phase: "mouth" });
    tablet.clock.pass(45_000);
    toBite();
    tablet.clock.pass(15_000);
    ballot().spat();
    await keep(true);
    ballot().closed();
  }
  expect(step()).toMatchObject({ at: "remark" });
  await session.finish();
  expect((await chewed()).map(({ question, code }) => [question, code])).toEqual(
    codes.map((code, at) => [at + 1, code]),
  );
  expect((await tablet.events()).at(-1)).toBe("tray-finished 17");
});

test("stopped in the chew: no word comes after that", async () => {
  await toFirst();
  toBite();
  await session.stop();
  tablet.clock.pass(60_000);
  expect(step()).toMatchObject({ at: "stopped", reason: "stopped" });
  expect(session.late).toBeNull();
  expect(await chewed()).toEqual([]);
});
