// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { PushRequest, Status } from "../../src/model/http.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelHelp } from "../../src/words/en/panel-help.ts";
import { button, heading, newTablet, putAway, show, start, toQuestion, type } from "./hands.tsx";
import type { Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(async () => {
  document.getElementById("halted")?.remove();
  await putAway(tablet);
});

const status = async (): Promise<Status> => ({ unsent: 0, battery: null, persisted: null, app: "test" });
/** What the server was last told of a tray that asks for somebody. */
const help = () =>
  tablet.server.asked
    .filter(({ path }) => path === "/api/events")
    .map(({ body }) => (body as PushRequest).status?.help)
    .at(-1);

test("tasting is stopped: the notice covers everything and no tray opens, until it goes on; the question is still there", async () => {
  const halt = async (halted: boolean): Promise<void> => {
    tablet.server.reply = { ...tablet.server.reply, halted };
    await waitFor(() => {
      tablet.clock.pass(15_000);
      expect(screen.queryByRole("heading", { name: panelHelp.halted.title }) !== null).toBe(halted);
    });
  };
  await start(tablet);
  await halt(true);
  for (const key of ["1", "7", "4"]) fireEvent.keyDown(document.body, { key });
  expect(screen.getByLabelText<HTMLInputElement>(words.rest.field).value).toBe("");
  await halt(false);
  type("17-4");
  await heading(words.clearance.title);
});

test("somebody is called to a tray and the call taken back; without network it says so", async () => {
  await tablet.ready();
  show(tablet, { status });
  await heading(words.rest.title);
  await toQuestion(tablet);
  fireEvent.click(button(words.question.cannot));
  fireEvent.click(await screen.findByRole("button", { name: panelHelp.call }));
  expect(await screen.findByText(panelHelp.called)).toBeTruthy();
  expect(help()).toBe(17);
  fireEvent.click(button(panelHelp.takeBack));
  await waitFor(() => expect(help()).toBeNull());
  tablet.server.reachable = false;
  fireEvent.click(button(panelHelp.call));
  expect(await screen.findByText(panelHelp.notSent)).toBeTruthy();
});
