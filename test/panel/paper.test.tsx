// @vitest-environment happy-dom
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Body } from "../../src/model/event.ts";
import type { BlindPacket } from "../../src/model/packet.ts";
import { panel } from "../../src/words/en/panel.ts";
import { panelPaper as words } from "../../src/words/en/panel-paper.ts";
import { button, heading, newTablet, putAway, show, spoken, start } from "./hands.tsx";
import { linePacket } from "./line-packet.ts";
import { packet, study, type Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const { who, form, done } = words;
/** From rest to the question who types. */
async function typeIn(label = "17-4"): Promise<void> {
  fireEvent.click(button(panel.tools.paper));
  await heading(words.title);
  await tray(label);
}
async function tray(label: string): Promise<void> {
  fireEvent.input(screen.getByLabelText(words.field), { target: { value: label } });
  fireEvent.click(button(words.next));
  await heading(who.title(label));
}
const tick = (label: string) => fireEvent.click(screen.getByLabelText(label));
async function goOn(as: keyof typeof who.options): Promise<void> {
  tick(who.options[as]);
  fireEvent.click(button(words.next));
  await screen.findByText(form.how);
}
const keep = () => fireEvent.click(button(form.submit));
const says = () => screen.getAllByRole("status").map(({ textContent }) => textContent);
const typings = async (): Promise<Body<"paper-typed">[]> => {
  const facts = await tablet.store.ownFacts({ kind: "study", id: study });
  return facts.flatMap((fact) => (fact.kind === "paper-typed" && !fact.outline ? [fact.body] : []));
};
/** One whole typing of a triangle: cleared, one code ticked. */
async function typeCode(as: keyof typeof who.options, code: string): Promise<void> {
  await goOn(as);
  tick(panel.clearance.clear);
  fireEvent.click(screen.getByRole("radio", { name: spoken(code) }));
  keep();
}

/** The first person types the ballot, and somebody comes to the same tray again. */
async function firstTyping(): Promise<void> {
  await typeCode("first-fresh", "317");
  await heading(done.title.first);
  fireEvent.click(button(done.another));
  await tray("17-4");
}

describe("a ballot on paper", () => {
  test("typed by one, by a second anew: kept as two events, and both agree", async () => {
    await start(tablet);
    await typeIn();
    await firstTyping();
    // the only way on is as somebody else, and nothing of the first typing shows
    expect(screen.queryByLabelText(who.options["first-fresh"])).toBeNull();
    await goOn("second-after");
    expect(screen.getAllByRole("radio").filter((radio) => (radio as HTMLInputElement).checked)).toEqual([]);
    fireEvent.click(button(form.leave));
    await tray("17-4");
    await typeCode("second-after", "317");
    await heading(done.title.agrees);
    const [first, second] = await typings();
    expect(first).toMatchObject({
      ...{ tray: 17, typing: 1, against: null, agrees: null, clearance: packet.allergens.version, stopped: null },
      choices: [{ question: 1, choice: "317", guess: false }],
    });
    expect(second).toMatchObject({ tray: 17, typing: 2, agrees: true, choices: first?.choices });
    expect(second?.against).toMatch(/^[0-9a-f-]{36}$/);
    fireEvent.click(button(done.another));
    await tray("17-4");
    expect(screen.getByText(who.checked("17-4"))).toBeTruthy();
    expect(screen.queryByRole("radio")).toBeNull();
  });

  test("typed in anew after both agreed, as when the lead has voided it: held against nothing from before", async () => {
    await start(tablet);
    await typeIn();
    await firstTyping();
    await typeCode("second-after", "317");
    await heading(done.title.agrees);
    fireEvent.click(button(done.another));
    await tray("17-4");
    fireEvent.click(button(who.anew));
    await screen.findByText(who.fresh("17-4"));
    await firstTyping();
    await typeCode("second-after", "317");
    await heading(done.title.agrees);
    const kept = await typings();
    expect(kept.map(({ typing, agrees }) => [typing, agrees])).toEqual([
      [1, null],
      [2, true],
      [1, null],
      [2, true],
    ]);
    expect(kept[3]?.against).not.toBe(kept[1]?.against);
  });

  test("two that differ: where is said, never what; one of them types again", async () => {
    await start(tablet);
    await typeIn();
    await firstTyping();
    await typeCode("second-after", "530");
    await heading(done.title.differs);
    expect(screen.getByText(form.theQuestion)).toBeTruthy();
    expect(document.body.textContent).not.toMatch(/317|530/);
    fireEvent.click(button(done.again));
    await heading(who.title("17-4"));
    await typeCode("first-again", "530");
    await heading(done.title.agrees);
    expect((await typings()).map(({ typing, agrees }) => [typing, agrees])).toEqual([
      [1, null],
      [2, false],
      [1, true],
    ]);
  });

  test("a box at the head that is not ticked: said once, then kept without any answer", async () => {
    await start(tablet);
    await typeIn();
    await goOn("first-fresh");
    fireEvent.click(screen.getByRole("radio", { name: spoken("317") }));
    keep();
    expect(says()).toContain(words.confirm.notCleared);
    expect(await typings()).toEqual([]);
    keep();
    await heading(done.title.first);
    expect(await typings()).toMatchObject([{ clearance: null, stopped: "not-cleared", choices: [] }]);
  });

  test("nobody chosen, nothing filled in, a wrong check digit: said, and nothing is kept", async () => {
    await start(tablet);
    fireEvent.click(button(panel.tools.paper));
    await heading(words.title);
    fireEvent.input(screen.getByLabelText(words.field), { target: { value: "17-5" } });
    fireEvent.click(button(words.next));
    await screen.findByRole("alert");
    await tray("17-4");
    fireEvent.click(button(words.next));
    expect(says()).toContain(who.pick);
    await goOn("first-fresh");
    tick(panel.clearance.clear);
    keep();
    expect(says()).toContain(words.allEmpty);
    fireEvent.click(screen.getByLabelText(panel.question.cannot));
    keep();
    await heading(done.title.first);
    expect(await typings()).toMatchObject([
      { stopped: "cannot-answer", choices: [{ question: 1, choice: null, guess: false }] },
    ]);
  });

  test("a second person at another tablet is told that this one cannot compare", async () => {
    await start(tablet);
    await tablet.store.setMeta("taken", [17]);
    await typeIn();
    expect(screen.getByText(who.taken)).toBeTruthy();
    await typeCode("second-elsewhere", "317");
    await heading(done.title.alone);
    expect(await typings()).toMatchObject([{ typing: 2, against: null, agrees: null }]);
  });

  test("a tray that another window has in hand is not typed in here", async () => {
    await start(tablet);
    tablet.held.add(`${study} 17`);
    fireEvent.click(button(panel.tools.paper));
    await heading(words.title);
    fireEvent.input(screen.getByLabelText(words.field), { target: { value: "17-4" } });
    fireEvent.click(button(words.next));
    expect((await screen.findByRole("alert")).textContent).toContain("17");
    expect(screen.queryByRole("heading", { name: who.title("17-4") })).toBeNull();
  });
});

describe("what is typed and not kept", () => {
  const draftOf = (person: 1 | 2) => tablet.store.draft(`paper ${study} 17 ${person}`);
  const isTicked = (name: string): boolean => screen.getByRole<HTMLInputElement>("radio", { name }).checked;
  /** The page is loaded anew: only what is on disk is left. */
  async function reload(): Promise<void> {
    cleanup();
    show(tablet);
    await heading(panel.rest.title);
  }

  test("a reload loses nothing of it; the other person meets nothing of it; kept, it is erased", async () => {
    await start(tablet);
    await typeIn();
    await goOn("first-fresh");
    tick(panel.clearance.clear);
    fireEvent.click(screen.getByRole("radio", { name: spoken("317") }));
    await waitFor(async () =>
      expect(await draftOf(1)).toMatchObject({ cleared: true, entries: [[1, { picked: "317" }]] }),
    );
    await reload();
    fireEvent.click(button(panel.tools.paper));
    await screen.findByText(words.begun([{ label: "17-4", person: 1 }]));
    await tray("17-4");
    await goOn("second-elsewhere");
    expect(screen.queryByText(form.begun)).toBeNull();
    expect(isTicked(spoken("317"))).toBe(false);
    fireEvent.click(button(form.leave));
    await tray("17-4");
    await goOn("first-fresh");
    await screen.findByText(form.begun);
    expect(isTicked(spoken("317"))).toBe(true);
    keep();
    await heading(done.title.first);
    expect(await typings()).toMatchObject([{ choices: [{ question: 1, choice: "317" }] }]);
    expect(await draftOf(1)).toBeUndefined();
  });

  test("left by \u201cDo not keep\u201d it is erased", async () => {
    await start(tablet);
    await typeIn();
    await goOn("first-fresh");
    tick(panel.clearance.clear);
    await waitFor(async () => expect(await draftOf(1)).toMatchObject({ cleared: true }));
    fireEvent.click(button(form.leave));
    await heading(words.title);
    await waitFor(async () => expect(await draftOf(1)).toBeUndefined());
  });

  test("a full disk is said at once, and what was typed stays; with space again it is kept", async () => {
    await start(tablet);
    await typeIn();
    await goOn("first-fresh");
    const open = IDBDatabase.prototype.transaction;
    const full = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementation(function (
      this: IDBDatabase,
      ...args: Parameters<IDBDatabase["transaction"]>
    ) {
      if (args[1] === "readwrite") throw new DOMException("full", "QuotaExceededError");
      return open.apply(this, args);
    });
    tick(panel.clearance.clear);
    fireEvent.click(screen.getByRole("radio", { name: spoken("317") }));
    await screen.findByRole("alert");
    keep();
    await screen.findByRole("alert");
    expect(isTicked(spoken("317"))).toBe(true);
    expect(await typings()).toEqual([]);
    full.mockRestore();
    keep();
    await heading(done.title.first);
    expect(await typings()).toMatchObject([{ choices: [{ question: 1, choice: "317" }] }]);
  });
});

const line: Partial<BlindPacket> = linePacket;

describe("a scale on paper", () => {
  const first = linePacket.trays[0]?.codes ?? [];
  const stroke = (code: string, text: RegExp): HTMLElement =>
    screen.getAllByLabelText(text).find((one) => one.getAttribute("aria-label")?.includes(code)) as HTMLElement;
  const fill = (field: HTMLElement, value: string) => fireEvent.input(field, { target: { value } });

  test("millimeters on the measured line; what cannot be is marked, what is empty is asked about, then it is kept", async () => {
    await start(tablet, line);
    await typeIn("1-3");
    await goOn("first-fresh");
    tick(panel.clearance.clear);
    const [one = "", two = ""] = first;
    fill(stroke(one, /How juicy .*first bite/), "60");
    keep();
    expect(screen.getByText(words.wrong["length-missing"])).toBeTruthy();
    fill(screen.getByLabelText(`${form.length}, ${form.mm}`), "118");
    expect(screen.getByText(words.notPlanned(120))).toBeTruthy();
    fill(stroke(two, /How juicy .*first bite/), "119");
    keep();
    expect(screen.getByText(words.wrong.beyond(118))).toBeTruthy();
    fill(stroke(two, /How juicy .*first bite/), "");
    keep();
    expect(says().join()).toContain("press Keep again");
    expect(await typings()).toEqual([]);
    keep();
    await heading(done.title.first);
    expect(await typings()).toMatchObject([
      { lineMm: 118, choices: [], marks: [{ question: 1, code: one, mm: 60, step: null, why: null }] },
    ]);
  });
});
