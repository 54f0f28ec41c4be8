import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Body } from "../../src/model/event.ts";
import { draftName } from "../../src/panel/draft.ts";
import { LineBallot } from "../../src/panel/line/line-ballot.ts";
import { Session } from "../../src/panel/session.ts";
import { linePacket, markAt } from "./line-packet.ts";
import { emptyDisk, study, Tablet } from "./tablet.ts";

let tablet: Tablet;
let session: Session;
const codes = linePacket.trays[16]?.codes ?? [];
const newSession = (): Session => new Session({ ...tablet.parts, wordings: ["line-scale-1"], onKept: () => {} });

beforeEach(async () => {
  emptyDisk();
  tablet = await new Tablet().ready(linePacket);
  await tablet.measured();
  session = newSession();
});
afterEach(async () => {
  vi.restoreAllMocks();
  await tablet.store.close();
});

const ballot = (): LineBallot => {
  const ballot = session.late?.ballot;
  if (!(ballot instanceof LineBallot)) throw new Error("no tray on the line is in hand");
  return ballot;
};
const step = () => session.state.step;
const marks = async (): Promise<Body<"mark-kept">[]> => {
  const facts = await tablet.store.ownFacts({ kind: "study", id: study });
  return facts.flatMap((fact) => (fact.kind === "mark-kept" && !fact.outline ? [fact.body] : []));
};

/** Up to the first sample of tray 17. */
async function toFirst(): Promise<void> {
  await session.open("17-4");
  await session.clear();
  session.begin();
  expect(step()).toMatchObject({ at: "compare" });
  ballot().matches();
  expect(step()).toMatchObject({ at: "take", sample: 0, restUntil: null });
}
/** Keeps what is on screen; the mark stays for a moment before the next screen. */
async function keep(): Promise<void> {
  const keeping = ballot().keep();
  await vi.waitFor(() => {
    const now = step();
    expect(now.at === "mark" && now.settled ? "settled" : session.state.busy ? "busy" : "next").not.toBe("busy");
  });
  tablet.clock.pass(300);
  await keeping;
}
async function markAndKeep(fraction: number): Promise<void> {
  ballot().mark(markAt(fraction));
  await keep();
}
/** The page dies, and the same tablet starts again. */
async function reload(): Promise<void> {
  tablet.held.clear();
  session = newSession();
  await session.resume();
}
const onDisk = (at: string) =>
  vi.waitFor(async () => expect(await tablet.store.draft(draftName(study, 17))).toMatchObject({ at }));

describe("a tablet that cannot show the line", () => {
  const code = async (): Promise<unknown> => {
    await session.open("17-4");
    expect(step()).toEqual({ at: "rest" });
    expect(tablet.held.size).toBe(0);
    return session.state.problem;
  };
  test("not measured: no tray of a line opens, others do", async () => {
    await tablet.store.setMeta("card check", null);
    expect(await code()).toEqual({ code: "tray/no-card-check", details: { lengthMm: 120 } });
  });

  test("held upright: too short now, and long enough when turned; 504 of 600 px are 96 mm at 5.2 a millimeter", async () => {
    tablet.glass = { ...tablet.glass, widthPx: 600 };
    expect(await code()).toEqual({
      code: "tray/line-too-long",
      details: { lengthMm: 120, roomMm: 96, turnedMm: 183 },
    });
    tablet.glass = { ...tablet.glass, widthPx: 1080 };
    await session.open("17-4");
    expect(step()).toMatchObject({ at: "clearance" });
  });

  test("zoomed differently than when it was measured", async () => {
    tablet.glass = { ...tablet.glass, pixelRatio: 2.5 };
    expect(await code()).toEqual({ code: "tray/zoomed", details: {} });
  });

  test("another length is the same check anew", async () => {
    const line = { ...linePacket.line, lengthMm: 190 };
    await tablet.store.setMeta("packet", { ...linePacket, line });
    expect(await code()).toMatchObject({ code: "tray/line-too-long", details: { lengthMm: 190, roomMm: 183 } });
  });
});

describe("one sample after the other", () => {
  test("the code of another sample does not count, and the sentence names the next", async () => {
    await toFirst();
    ballot().bite(codes[1] ?? "");
    expect(step()).toMatchObject({ at: "take", sample: 0 });
    expect(session.state.problem).toEqual({
      code: "tray/wrong-code",
      details: { tapped: codes[1], expected: codes[0] },
    });
  });

  test("first-bite questions at once; the later one at its moment, by the clock that the code's touch began", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    expect(step()).toMatchObject({ at: "mark", sample: 0, item: 0, now: false });
    tablet.clock.pass(2000);
    await markAndKeep(0.25);
    expect(step()).toMatchObject({ at: "mark", item: 1 });
    await markAndKeep(0.5);
    expect(step()).toMatchObject({ at: "chew", item: 2 });
    const bite = (step() as { bite: number }).bite;
    tablet.clock.pass(bite + 9999 - tablet.clock.monotonic());
    expect(step()).toMatchObject({ at: "chew" });
    tablet.clock.pass(1);
    expect(step()).toMatchObject({ at: "mark", item: 2, now: true });
    tablet.clock.pass(1500);
    await markAndKeep(1);
    const kept = await marks();
    expect(kept.map(({ question, code, mark }) => [question, code, mark?.fraction])).toEqual([
      [1, codes[0], 0.25],
      [2, codes[0], 0.5],
      [3, codes[0], 1],
    ]);
    expect(kept.map(({ attribute }) => attribute)).toEqual(linePacket.line.attributes.map(({ id }) => id));
    expect(kept.map(({ chewedSeconds }) => chewedSeconds)).toEqual([null, null, 10]);
    expect(kept[0]).toEqual({
      tray: 17,
      question: 1,
      code: codes[0],
      attribute: linePacket.line.attributes[0]?.id,
      mark: { fraction: 0.25, start: "pointer", moves: 0, firstMs: 700 },
      why: null,
      line: { lengthPx: 624, lengthMm: 120 },
      chewedSeconds: null,
      hidden: false,
      elapsedMs: 2000,
      screen: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "pen" },
      salt: "5".repeat(64),
    });
  });

  test("a question that is kept only after the next one's moment: that comes at once, with its real seconds", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await markAndKeep(0.2);
    const bite = (step() as { bite: number }).bite;
    tablet.clock.pass(bite + 12_500 - tablet.clock.monotonic());
    await markAndKeep(0.3);
    expect(step()).toMatchObject({ at: "mark", item: 2, now: false });
    await markAndKeep(0.4);
    expect((await marks())[2]?.chewedSeconds).toBeCloseTo(12.8, 1);
  });

  test("nothing is kept without a mark, and a kept mark shows for a moment before the next screen", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await ballot().keep();
    expect(step()).toMatchObject({ at: "mark", item: 0 });
    expect(await marks()).toEqual([]);
    ballot().mark(markAt(0.7));
    const keeping = ballot().keep();
    await vi.waitFor(() => expect(step()).toMatchObject({ at: "mark", item: 0, settled: true }));
    ballot().mark(markAt(0.1));
    ballot().back();
    tablet.clock.pass(299);
    expect(step()).toMatchObject({ item: 0, settled: true });
    tablet.clock.pass(1);
    await keeping;
    expect((await marks()).map(({ mark }) => mark?.fraction)).toEqual([0.7]);
  });

  test("between samples there is the pause of the plan: a touch in it does nothing", async () => {
    await throughSample(0);
    expect(step()).toMatchObject({ at: "take", sample: 1 });
    tablet.clock.pass(44_000);
    ballot().bite(codes[1] ?? "");
    expect(step()).toMatchObject({ at: "take", sample: 1 });
    tablet.clock.pass(1000);
    ballot().bite(codes[1] ?? "");
    expect(step()).toMatchObject({ at: "mark", sample: 1, item: 0 });
  });

  test("after the last question of the last sample: the remark, then thanks; nine marks, each once", async () => {
    for (const place of [0, 1, 2]) await throughSample(place);
    expect(step()).toMatchObject({ at: "remark" });
    await session.finish();
    expect(step()).toEqual({ at: "thanks" });
    expect((await marks()).map(({ question }) => question)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect((await tablet.events()).at(-1)).toBe("tray-finished 17");
    expect(session.late).toBeNull();
  });
});

/** Bites and answers all three questions of a sample. */
async function throughSample(place: number): Promise<void> {
  if (place === 0) await toFirst();
  else tablet.clock.pass(45_000);
  ballot().bite(codes[place] ?? "");
  for (const fraction of [0.1, 0.2]) await markAndKeep(fraction);
  tablet.clock.pass(10_000);
  await markAndKeep(0.3);
}

describe("going back", () => {
  test("a kept mark may be moved until the next sample: the later event says so, under the same question", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await markAndKeep(0.25);
    ballot().mark(markAt(0.9)); // not kept yet
    ballot().back();
    expect(step()).toMatchObject({ at: "mark", item: 0 });
    await markAndKeep(0.35);
    expect((await marks()).map(({ question, mark }) => [question, mark?.fraction])).toEqual([
      [1, 0.25],
      [1, 0.35],
    ]);
    const now = step();
    expect(now.at === "mark" && now.asked[1]?.mark?.fraction).toBe(0.9);
  });

  test("looked at again and left as it was: no event", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await markAndKeep(0.25);
    ballot().back();
    await keep();
    expect(await marks()).toHaveLength(1);
    expect(step()).toMatchObject({ at: "mark", item: 1 });
  });

  test("the first question of a sample has nothing before it, and no sample is gone back to", async () => {
    await throughSample(0);
    tablet.clock.pass(45_000);
    ballot().bite(codes[1] ?? "");
    ballot().back();
    expect(step()).toMatchObject({ at: "mark", sample: 1, item: 0 });
  });
});

describe("without a mark", () => {
  test("“I cannot judge this” is kept as missing with its reason, never as a place", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    ballot().mark(markAt(0.5));
    ballot().cannot();
    await ballot().keep();
    expect(step()).toMatchObject({ at: "no-mark", why: null });
    ballot().because("sample");
    await keep();
    expect(await marks()).toMatchObject([{ question: 1, mark: null, why: "sample" }]);
    expect(step()).toMatchObject({ at: "mark", item: 1 });
    ballot().back();
    await markAndKeep(0.4);
    expect((await marks())[1]).toMatchObject({ question: 1, mark: { fraction: 0.4 }, why: null });
  });

  test("going back from the reasons leaves the mark where it was", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    ballot().mark(markAt(0.5));
    ballot().cannot();
    ballot().because("other");
    ballot().back();
    const now = step();
    expect(now.at === "mark" && now.asked[0]).toMatchObject({ mark: { fraction: 0.5 }, why: null });
  });
});

describe("after the page died", () => {
  test("the same question with the mark that was not kept yet", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await markAndKeep(0.25);
    ballot().mark(markAt(0.8));
    await vi.waitFor(async () =>
      expect(JSON.stringify(await tablet.store.draft(draftName(study, 17)))).toContain('"fraction":0.8'),
    );
    await reload();
    const now = step();
    expect(now).toMatchObject({ at: "mark", sample: 0, item: 1 });
    expect(now.at === "mark" && now.asked[1]?.mark?.fraction).toBe(0.8);
    ballot().back();
    await markAndKeep(0.3);
    expect((await marks()).map(({ mark }) => mark?.fraction)).toEqual([0.25, 0.3]);
  });

  test("in the chew: the clock is gone, so its code is touched with another bite; then the question at its moment", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    for (const fraction of [0.1, 0.2]) await markAndKeep(fraction);
    expect(step()).toMatchObject({ at: "chew" });
    await onDisk("chew");
    await reload();
    expect(step()).toMatchObject({ at: "take", sample: 0, again: true, restUntil: null });
    tablet.clock.pass(60_000);
    expect(step()).toMatchObject({ at: "take" });
    ballot().bite(codes[0] ?? "");
    expect(step()).toMatchObject({ at: "chew", item: 2 });
    tablet.clock.pass(10_000);
    await markAndKeep(0.3);
    expect((await marks())[2]).toMatchObject({ question: 3, chewedSeconds: 10 });
  });

  test("in the pause: it begins anew; a draft that was lost changes only that", async () => {
    await throughSample(0);
    await onDisk("take");
    await reload();
    expect(step()).toMatchObject({ at: "take", sample: 1, again: false, restUntil: tablet.clock.monotonic() + 45_000 });
    await tablet.store.dropDraft(draftName(study, 17));
    await reload();
    expect(step()).toMatchObject({ at: "take", sample: 1, again: false });
  });

  test("with everything kept only the remark is open, on a tablet that was turned meanwhile too", async () => {
    for (const place of [0, 1, 2]) await throughSample(place);
    tablet.glass = { ...tablet.glass, widthPx: 600 };
    await reload();
    expect(step()).toMatchObject({ at: "remark", text: "" });
  });

  test("taken elsewhere or closed meanwhile: what was begun here may be finished here", async () => {
    await toFirst();
    ballot().bite(codes[0] ?? "");
    await markAndKeep(0.25);
    await session.rest();
    await tablet.store.setMeta("taken", [17]);
    await tablet.store.setMeta("closed", study);
    await session.open("17-4");
    expect(step()).toMatchObject({ at: "mark", sample: 0, item: 1 });
  });
});

test("the page was hidden while somebody chewed: the answer is kept, and says so; the first bite's does not", async () => {
  await toFirst();
  ballot().bite(codes[0] ?? "");
  await markAndKeep(0.1);
  tablet.hide();
  await markAndKeep(0.2);
  tablet.clock.pass(10_000);
  await markAndKeep(0.3);
  expect((await marks()).map(({ hidden }) => hidden)).toEqual([false, false, true]);
});

test("stopped in the chew: no question comes after that", async () => {
  await toFirst();
  ballot().bite(codes[0] ?? "");
  for (const fraction of [0.1, 0.2]) await markAndKeep(fraction);
  await session.stop();
  tablet.clock.pass(60_000);
  expect(step()).toMatchObject({ at: "stopped", reason: "stopped" });
  expect(session.late).toBeNull();
});

test("a tray of another method on the same tablet is not asked on the line", async () => {
  await toFirst();
  await session.rest();
  expect(session.late).toBeNull();
});
