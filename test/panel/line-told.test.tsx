// @vitest-environment happy-dom
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { AskedAttribute, Moment } from "../../src/model/attribute.ts";
import type { Body } from "../../src/model/event.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { button, heading, newTablet, putAway, show, spoken, type } from "./hands.tsx";
import { linePacket } from "./line-packet.ts";
import { study, type Tablet } from "./tablet.ts";

// A moment that only the panelist knows: juicy at the first bite, and again just before it is gone.
let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const codes = linePacket.trays[16]?.codes ?? [];
const [juicy] = linePacket.line.attributes;
const asked = (moment: Moment, place: number): AskedAttribute => {
  if (!juicy) throw new Error("no attribute");
  return { ...juicy, id: juicy.id.replace(/1$/, String(place)), moment };
};
const packetOf = (last: Moment) => ({
  ...linePacket,
  swallow: "spit" as const,
  line: { ...linePacket.line, attributes: [asked({ at: "first-bite" }, 1), asked(last, 2)] },
});

/** Up to the first question of the first sample. */
async function bite(last: Moment): Promise<void> {
  await tablet.ready(packetOf(last));
  await tablet.measured();
  show(tablet);
  await heading(words.rest.title);
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  fireEvent.click(await screen.findByRole("button", { name: lineWords.compare.match }));
  fireEvent.click(
    await screen.findByRole("button", { name: new RegExp(`${spoken(codes[0])}.*${words.tasting.next}`) }),
  );
}
async function mark(key: string): Promise<void> {
  const line = await screen.findByRole("button", { name: new RegExp(lineWords.line.none) });
  fireEvent.keyDown(line, { key });
  await screen.findByRole("slider");
  fireEvent.click(button(words.question.keep));
}
/** The kept mark shows for a moment of the tablet's clock before the next screen. */
const until = (there: () => unknown) =>
  waitFor(() => {
    tablet.clock.pass(300);
    expect(there()).toBeTruthy();
  });
const kept = async (): Promise<Body<"mark-kept">[]> =>
  (await tablet.store.ownFacts({ kind: "study", id: study })).flatMap((fact) =>
    fact.kind === "mark-kept" && !fact.outline ? [fact.body] : [],
  );

test("before it is gone: said while the first question shows; the chew waits for “Now”, whose seconds are stored", async () => {
  await bite({ at: "before-swallowing" });
  await screen.findByText(lineWords.chew.ahead("spit"));
  await mark("Home");
  await until(() => screen.queryByText("Touch “Now” just before you spit it out."));
  tablet.clock.pass(60_000);
  expect(screen.queryByRole("slider")).toBeNull();
  fireEvent.click(button(lineWords.chew.now));
  expect((await screen.findByRole("heading", { level: 1 })).textContent).toContain(", just before you spit it out?");
  await mark("End");
  await until(() => screen.queryByRole("heading", { name: lineWords.take.title }));
  const marks = await kept();
  expect(marks.map(({ question, mark }) => [question, mark?.fraction])).toEqual([
    [1, 0],
    [2, 1],
  ]);
  expect(marks[0]?.chewedSeconds).toBeNull();
  expect(marks[1]?.chewedSeconds).toBeGreaterThanOrEqual(60);
});

test("a number of chews is counted by the panelist; a moment that went by is no answer, with a reason", async () => {
  await bite({ at: "chews", chews: 15 });
  await mark("Home");
  await until(() => screen.queryByText("Touch “Now” after 15 chews, counted from the first bite."));
  fireEvent.click(button(lineWords.chew.missed));
  await heading(lineWords.noMark.title);
  fireEvent.click(screen.getByRole("radio", { name: lineWords.noMark.reasons.other }));
  fireEvent.click(button(lineWords.noMark.keep));
  await until(() => screen.queryByRole("heading", { name: lineWords.take.title }));
  expect((await kept()).map(({ mark, why }) => [mark?.fraction ?? null, why])).toEqual([
    [0, null],
    [null, "other"],
  ]);
});
