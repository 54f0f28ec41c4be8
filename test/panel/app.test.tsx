// @vitest-environment happy-dom
import { fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { problems } from "../../src/words/en/problems.ts";
import { ask, button, codes, heading, newTablet, putAway, show, spoken, start, toQuestion, type } from "./hands.tsx";
import { emptyDisk, packet, study, type Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(async () => {
  vi.restoreAllMocks();
  await putAway(tablet);
});

describe("enrolling", () => {
  test("a wrong code says so; a right one, with its name, leads to rest", async () => {
    show(tablet);
    await heading(panelEnroll.title);
    fireEvent.click(button(panelEnroll.go));
    expect(await screen.findByText(panelEnroll.codeMissing)).toBeTruthy();
    fireEvent.input(screen.getByLabelText(panelEnroll.code), { target: { value: "AAAA-AAAA" } });
    fireEvent.click(button(panelEnroll.go));
    expect((await screen.findByRole("alert")).textContent).toBe(problems["enroll/bad-code"]({}));
    fireEvent.input(screen.getByLabelText(panelEnroll.name), { target: { value: "Booth 3" } });
    fireEvent.input(screen.getByLabelText(panelEnroll.code), { target: { value: "K7QM-4XTP" } });
    fireEvent.click(button(panelEnroll.go));
    await heading(words.rest.title);
    expect(await tablet.store.identity()).toMatchObject({ role: "panel", name: "Booth 3", formerly: [] });
  });

  test("a code that came with the address stands in the field; one for another role is refused in words", async () => {
    tablet.server.role = "lead";
    show(tablet, { code: "K7QM-4XTP" });
    await heading(panelEnroll.title);
    fireEvent.input(screen.getByLabelText(panelEnroll.name), { target: { value: "Booth 3" } });
    fireEvent.click(button(panelEnroll.go));
    expect(await screen.findByText(panelEnroll.wrongRole)).toBeTruthy();
    expect(await tablet.store.identity()).toBeNull();
  });

  test("a tablet that gives itself no name has the one that the lead gave with the code", async () => {
    tablet.server.nameGiven = "Booth 4";
    show(tablet, { code: "K7QM-4XTP" });
    await heading(panelEnroll.title);
    fireEvent.click(button(panelEnroll.go));
    await heading(words.rest.title);
    expect(await tablet.store.identity()).toMatchObject({ name: "Booth 4" });
  });

  test("enrolled before, and the storage cleared since: said before anything else", async () => {
    show(tablet, { wasEnrolled: async () => true });
    expect(await screen.findByText(panelEnroll.before)).toBeTruthy();
  });
});

describe("around the trays", () => {
  test("the status line says what is on this tablet only, and since when; an opened tray is no answer", async () => {
    tablet.server.reachable = false;
    await start(tablet);
    const status = () => document.querySelector(".status")?.textContent;
    await waitFor(() => expect(status()).toBe(`${words.status.offline} · ${words.status.sent}`));
    type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
    await waitFor(() => expect(status()).toBe(`${words.status.offline} · ${words.status.unsentRecords(1)}`));
    tablet.clock.pass(5 * 60_000 + 1000); // covered by now, which draws the page again
    await heading(words.rest.title);
    expect(status()).toContain(`${words.status.unsentRecords(1)} ${words.status.since(5)}`);
  });

  test("once the lead has closed the study no tray is opened any more, and the sentence says why", async () => {
    tablet.server.reply = { ...tablet.server.reply, closed: true };
    await start(tablet);
    await waitFor(async () => expect(await tablet.store.meta("closed")).toBe(packet.study));
    type("17-4");
    expect((await screen.findByRole("alert")).textContent).toContain("closed");
    expect(await tablet.store.counts()).toMatchObject({ total: 0 });
  });

  test("a packet that comes while a tray is in hand waits until the tablet is at rest", async () => {
    await start(tablet);
    type("17-4");
    await heading(words.clearance.title);
    const later = { ...packet, palette: "day" as const };
    tablet.server.reply = { ...tablet.server.reply, packet: later, taken: [3] };
    await waitFor(async () => {
      tablet.clock.pass(5_000);
      expect(await tablet.store.meta("taken")).toEqual([3]);
    });
    expect(await tablet.store.packet()).toMatchObject({ palette: "dim" });
    fireEvent.click(button(words.clearance.otherTray));
    await heading(words.rest.title);
    await waitFor(async () => expect(await tablet.store.packet()).toMatchObject({ palette: "day" }));
    await waitFor(() => expect(document.documentElement.dataset.palette).toBe("day"));
  });

  test("not known to the server any more: said, enrolled again under the old name too, and nothing is dropped", async () => {
    const watch = vi.spyOn(tablet.parts, "watchForUpdate");
    await start(tablet);
    type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
    await heading(words.rules.title);
    tablet.server.known = false;
    tablet.clock.pass(15_000);
    await waitFor(() => expect(document.querySelector(".status")?.textContent).toContain(words.status.enrollAgain));
    tablet.clock.pass(6 * 60_000);
    fireEvent.click(await screen.findByRole("button", { name: words.rest.enrollAgain }));
    await heading(panelEnroll.title);
    tablet.server.known = true;
    fireEvent.input(screen.getByLabelText(panelEnroll.code), { target: { value: "K7QM-4XTP" } });
    fireEvent.click(button(panelEnroll.go));
    await heading(words.rest.title);
    const sent = tablet.server.asked.find(({ path }) => path === "/api/enroll");
    expect(sent?.body).toMatchObject({ formerly: ["aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa"] });
    expect(await tablet.events()).toEqual(["tray-opened 17"]);
    expect(watch).toHaveBeenCalledTimes(1);
  });

  test("A16: the server holds more of this tablet than it does: no tray opens until the lead has seen it", async () => {
    tablet.server.reply = { ...tablet.server.reply, heads: { [`study:${study}`]: 7 } };
    await tablet.ready();
    show(tablet);
    expect((await screen.findByRole("alert")).textContent).toBe(problems["device/emptied"]({ known: 7, found: 0 }));
    expect(screen.queryByLabelText(words.rest.field)).toBeNull();
    tablet.server.reply = { ...tablet.server.reply, heads: {} };
    fireEvent.click(button(words.rest.emptiedSeen));
    await screen.findByLabelText(words.rest.field);
  });

  test("F2 F3: a new version is offered at rest only, and waits while another window has a tray open", async () => {
    await start(tablet);
    let taken = false;
    const accept = async (): Promise<void> => {
      taken = true;
    };
    type("17-4");
    await heading(words.clearance.title);
    tablet.update?.(accept);
    expect(screen.queryByText(words.rest.update)).toBeNull();
    fireEvent.click(button(words.clearance.otherTray));
    await screen.findByText(words.rest.update);
    tablet.heldElsewhere = true;
    fireEvent.click(button(words.rest.updateNow));
    await screen.findByText(words.rest.updateLater);
    expect(taken).toBe(false);
    tablet.heldElsewhere = false;
    fireEvent.click(button(words.rest.updateNow));
    await waitFor(() => expect(taken).toBe(true));
  });

  test("A10: without storage no tray can be opened, and the page says why", async () => {
    Reflect.deleteProperty(globalThis, "indexedDB");
    show(tablet);
    await heading(words.failed.title);
    expect(screen.getByRole("alert").textContent).toContain("does not let Cloche keep answers");
    expect(screen.queryByLabelText(words.rest.field)).toBeNull();
    emptyDisk();
    await tablet.ready();
    fireEvent.click(button(words.tryAgain));
    await heading(words.rest.title);
  });

  test("no study assigned: says so, and takes the packet as soon as there is one", async () => {
    tablet.server.reply = { ...tablet.server.reply, packet: null };
    await tablet.ready();
    tablet.server.reply = { ...tablet.server.reply, packet: null };
    await tablet.store.setMeta("packet", null);
    show(tablet);
    await heading(words.rest.noStudyTitle);
    tablet.server.reply = { ...tablet.server.reply, packet };
    await waitFor(() => {
      tablet.clock.pass(15_000);
      expect(within(document.body).queryByLabelText(words.rest.field)).not.toBeNull();
    });
  });
});

test("a screen that could not be covered while something was being written is covered after that", async () => {
  await start(tablet);
  await toQuestion(tablet);
  fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
  let fail = (_reason: unknown): void => {};
  vi.spyOn(tablet.store, "append").mockImplementation(
    () =>
      new Promise((_done, failed) => {
        fail = failed;
      }),
  );
  fireEvent.click(button(words.question.keep));
  await waitFor(() => expect(tablet.store.append).toHaveBeenCalled());
  tablet.clock.pass(10 * 60_000);
  expect(screen.getByRole("heading", { name: ask })).toBeTruthy();
  fail(new DOMException("full", "QuotaExceededError"));
  await screen.findByRole("alert");
  tablet.clock.pass(1000);
  await heading(words.rest.title);
});

test("an error that nobody waits for is said in words, and the answer stays on the screen", async () => {
  await start(tablet);
  await toQuestion(tablet);
  fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
  window.dispatchEvent(new ErrorEvent("error", { error: new Error("a part failed") }));
  expect((await screen.findByRole("alert")).textContent).toBe(
    problems["device/not-saved"]({ reason: "a part failed" }),
  );
  expect(screen.getByRole<HTMLInputElement>("radio", { name: spoken(codes[1]) }).checked).toBe(true);
});

test("an error while drawing is said in words; the tray comes back with its choice", async () => {
  const broken = Object.getOwnPropertyDescriptor(words.question, "guess");
  await start(tablet);
  await toQuestion(tablet);
  fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
  await screen.findByText(words.question.chosen);
  Object.defineProperty(words.question, "guess", {
    configurable: true,
    get: () => {
      throw new Error("no such word");
    },
  });
  fireEvent.click(screen.getByRole("radio", { name: spoken(codes[2]) }));
  await heading(words.failed.title);
  expect(document.body.textContent).toContain(words.failed.blame("no such word"));
  Object.defineProperty(words.question, "guess", broken ?? { value: "", configurable: true });
  fireEvent.click(button(words.failed.again));
  await heading(ask);
  expect(screen.getByRole<HTMLInputElement>("radio", { name: spoken(codes[2]) }).checked).toBe(true);
});
