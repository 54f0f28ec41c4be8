// @vitest-environment happy-dom
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { problems } from "../../src/words/en/problems.ts";
import { button, heading, newTablet, putAway, show, spoken, type } from "./hands.tsx";
import { linePacket } from "./line-packet.ts";
import type { Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const codes = linePacket.trays[16]?.codes ?? [];
const bar = () => screen.getByRole("slider");
const empty = () => screen.findByRole("button", { name: new RegExp(lineWords.line.none) });

async function start(measured = true): Promise<void> {
  await tablet.ready(linePacket);
  if (measured) await tablet.measured();
  show(tablet);
  await heading(words.rest.title);
}
/** Up to the first question of the first sample. */
async function toMark(): Promise<void> {
  await start();
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  await heading(lineWords.compare.title);
  for (const code of codes) expect(screen.getByText(spoken(code))).toBeTruthy();
  fireEvent.click(button(lineWords.compare.match));
  fireEvent.click(
    await screen.findByRole("button", { name: new RegExp(`${spoken(codes[0])}.*${words.tasting.next}`) }),
  );
  await empty();
}
async function keep(): Promise<void> {
  fireEvent.click(button(words.question.keep));
  await waitFor(() => {
    tablet.clock.pass(300);
    expect(document.querySelector(".scale[inert]")).toBeNull();
    expect(document.querySelector(".band[data-state=marked]")).toBeNull();
  });
}

test("without the card check the sentence says what to do, and no event is written", async () => {
  await start(false);
  type("17-4");
  expect((await screen.findByRole("alert")).textContent).toBe(problems["tray/no-card-check"]({ lengthMm: 120 }));
  expect(await tablet.events()).toEqual([]);
});

test("codes that do not match: help is asked for, and the way back leads to the same page", async () => {
  await start();
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  await heading(lineWords.compare.title);
  fireEvent.click(button(words.tasting.differ));
  await heading(words.differ.title);
  fireEvent.click(button(words.differ.back));
  await heading(lineWords.compare.title);
});

describe("a question on the line", () => {
  test("names property, sample and moment; “Keep this” stays off, reachable, and says why", async () => {
    await toMark();
    const title = screen.getByRole("heading", { level: 1 });
    expect(title.textContent).toContain("How juicy is sample");
    expect(title.textContent).toContain("at the first bite");
    const off = button(words.question.keep);
    expect(off.getAttribute("aria-disabled")).toBe("true");
    expect(off.hasAttribute("disabled")).toBe(false);
    fireEvent.click(off);
    expect(await screen.findByText(lineWords.mark.first)).toBeTruthy();
    expect(screen.queryByRole("button", { name: lineWords.mark.back })).toBeNull();
    fireEvent.click(screen.getByText(lineWords.mark.meaning("juicy")));
    expect(screen.getByText("How juicy it is in the mouth.")).toBeTruthy();
  });

  test("marked by a key and kept; the next question has the focus and a way back, where the mark still stands", async () => {
    await toMark();
    fireEvent.keyDown(await empty(), { key: "6" });
    await waitFor(() => expect(bar().getAttribute("aria-valuenow")).toBe("60"));
    await keep();
    await waitFor(() => expect(document.activeElement?.textContent).toContain("How firm is sample"));
    fireEvent.click(button(lineWords.mark.back));
    await waitFor(() => expect(bar().getAttribute("aria-valuenow")).toBe("60"));
  });

  test("the chew has no countdown and nothing to press; “Now” comes at the moment, at the head of its question", async () => {
    await toMark();
    for (const key of ["6", "2"]) {
      fireEvent.keyDown(await empty(), { key });
      await waitFor(() => expect(bar()).toBeTruthy());
      fireEvent.click(button(words.question.keep));
      await waitFor(() => expect(document.querySelector(".scale[inert]")).not.toBeNull());
      tablet.clock.pass(300);
      await waitFor(() => expect(document.querySelector(".scale[inert]")).toBeNull());
    }
    await heading(lineWords.chew.title);
    expect(screen.getAllByRole("button").map(({ textContent }) => textContent)).toEqual([words.stopNow]);
    const { textContent } = document.querySelector("main") as HTMLElement;
    expect(textContent).not.toMatch(/\d/);
    tablet.clock.pass(10_000);
    const title = await screen.findByRole("heading", { name: new RegExp(`^${lineWords.mark.now}.*after 10 seconds`) });
    await waitFor(() => expect(document.activeElement).toBe(title));
  });

  test("a moment that comes while an earlier question is open is said in a quiet line", async () => {
    await toMark();
    fireEvent.keyDown(await empty(), { key: "6" });
    await keep();
    await screen.findByRole("heading", { name: /How firm/ });
    expect(screen.queryByText(lineWords.mark.due)).toBeNull();
    await waitFor(() => {
      tablet.clock.pass(10_000);
      expect(screen.queryByText(lineWords.mark.due)).not.toBeNull();
    });
  });

  test("no mark: a reason is chosen and kept, and the page says what that counts as", async () => {
    await toMark();
    fireEvent.click(button(lineWords.mark.cannot));
    await heading(lineWords.noMark.title);
    expect(button(lineWords.noMark.keep).getAttribute("aria-disabled")).toBe("true");
    fireEvent.click(screen.getByRole("radio", { name: lineWords.noMark.reasons.sample }));
    await waitFor(() => expect(button(lineWords.noMark.keep).getAttribute("aria-disabled")).toBe("false"));
    fireEvent.click(button(lineWords.noMark.keep));
    await screen.findByRole("heading", { name: /How firm/ });
    fireEvent.click(button(lineWords.mark.back));
    expect(await screen.findByText(lineWords.mark.without)).toBeTruthy();
    expect(await tablet.events()).toEqual(["tray-opened 17", "mark-kept 17"]);
  });

  test("turned upright in the middle of it: no shorter line is shown; turned back, the mark is where it was", async () => {
    await toMark();
    fireEvent.keyDown(await empty(), { key: "6" });
    await waitFor(() => expect(bar()).toBeTruthy());
    tablet.glass = { ...tablet.glass, widthPx: 600 };
    fireEvent(window, new Event("resize"));
    expect(await screen.findByText(lineWords.mark.noRoom.turn)).toBeTruthy();
    expect(screen.queryByRole("slider")).toBeNull();
    tablet.glass = { ...tablet.glass, widthPx: 1080 };
    fireEvent(window, new Event("resize"));
    await waitFor(() => expect(bar().getAttribute("aria-valuenow")).toBe("60"));
  });
});
