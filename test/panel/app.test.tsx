// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { trayLabel } from "../../src/model/tray.ts";
import { App } from "../../src/panel/app.tsx";
import { panel as words } from "../../src/words/en/panel.ts";
import { problems } from "../../src/words/en/problems.ts";
import { emptyDisk, packet, study, Tablet } from "./tablet.ts";

let tablet: Tablet;
const codes = packet.trays[16]?.codes ?? [];
const button = (name: string | RegExp): HTMLElement => screen.getByRole("button", { name });
const heading = (name: string): Promise<HTMLElement> => screen.findByRole("heading", { name });
const spoken = (code: string | undefined): string => [...(code ?? "")].join(" ");

beforeEach(() => {
  emptyDisk();
  window.scrollTo = () => {};
  // this DOM names locks but has none; one window needs no more than being let through
  const locks = { request: async (_name: string, _options: unknown, work: (lock: object) => unknown) => work({}) };
  Object.defineProperty(navigator, "locks", { value: locks, configurable: true });
  tablet = new Tablet();
});
afterEach(async () => {
  cleanup();
  vi.restoreAllMocks();
  await tablet.store.close();
});

async function start(change: Partial<typeof packet> = {}): Promise<void> {
  await tablet.ready(change);
  render(<App parts={tablet.parts} />);
  await heading(words.rest.title);
}

async function type(label: string): Promise<void> {
  for (const digit of label.replace("-", "")) fireEvent.click(button(digit));
  fireEvent.click(button(words.rest.open));
}

async function toQuestion(label = "17-4", of = codes): Promise<void> {
  await type(label);
  await heading(words.clearance.title);
  fireEvent.click(button(words.clearance.clear));
  await heading(words.rules.title);
  fireEvent.click(button(words.rules.go));
  await heading(words.tasting.title);
  for (const code of of) {
    fireEvent.click(await screen.findByRole("button", { name: new RegExp(`${spoken(code)}.*${words.tasting.next}`) }));
    tablet.clock.pass(45_000);
  }
  await heading(ask);
}
const ask = words.ballots["triangle-1"]?.ask ?? "";

describe("enrolling", () => {
  test("a wrong code says so; a right one, with its name, leads to rest", async () => {
    render(<App parts={tablet.parts} />);
    await heading(words.enroll.title);
    fireEvent.click(button(words.enroll.go));
    expect(await screen.findByText(words.enroll.codeMissing)).toBeTruthy();
    fireEvent.input(screen.getByLabelText(words.enroll.code), { target: { value: "AAAA-AAAA" } });
    fireEvent.click(button(words.enroll.go));
    expect(await screen.findByText(words.enroll.nameMissing)).toBeTruthy();
    fireEvent.input(screen.getByLabelText(words.enroll.name), { target: { value: "Booth 3" } });
    fireEvent.click(button(words.enroll.go));
    expect((await screen.findByRole("alert")).textContent).toBe(problems["enroll/bad-code"]({}));
    fireEvent.input(screen.getByLabelText(words.enroll.code), { target: { value: "K7QM-4XTP" } });
    fireEvent.click(button(words.enroll.go));
    await heading(words.rest.title);
    expect(await tablet.store.identity()).toMatchObject({ role: "panel", name: "Booth 3", formerly: [] });
  });

  test("a code that came with the address stands in the field; one for another role is refused in words", async () => {
    tablet.server.role = "lead";
    render(<App parts={{ ...tablet.parts, code: "K7QM-4XTP" }} />);
    await heading(words.enroll.title);
    fireEvent.input(screen.getByLabelText(words.enroll.name), { target: { value: "Booth 3" } });
    fireEvent.click(button(words.enroll.go));
    expect(await screen.findByText(words.enroll.wrongRole)).toBeTruthy();
    expect(await tablet.store.identity()).toBeNull();
  });

  test("enrolled before, and the storage cleared since: said before anything else", async () => {
    render(<App parts={{ ...tablet.parts, wasEnrolled: async () => true }} />);
    expect(await screen.findByText(words.enroll.before)).toBeTruthy();
  });
});

describe("one tray", () => {
  test("from the number to the next person: kept once, and nothing of it left on the page", async () => {
    await start();
    await toQuestion();
    expect(document.documentElement.dataset.palette).toBe("dim");
    fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
    fireEvent.click(screen.getByLabelText(words.question.guess));
    const keep = button(words.question.keep);
    fireEvent.click(keep);
    fireEvent.click(keep);
    await heading(words.remark.title);
    fireEvent.input(screen.getByLabelText(words.remark.label), { target: { value: "a bit dry" } });
    fireEvent.click(button(words.remark.go));
    await heading(words.thanks.title);
    expect(await tablet.events()).toEqual(["tray-opened 17", "answer-kept 17", "remark-kept 17", "tray-finished 17"]);
    fireEvent.click(button(words.nextPerson));
    await waitFor(() => expect(document.activeElement?.textContent).toBe(words.rest.title));
    for (const trace of ["17", "a bit dry", ...codes, ...codes.map(spoken)]) {
      expect(document.body.textContent).not.toContain(trace);
    }
    expect(screen.getByLabelText<HTMLInputElement>(words.rest.field).value).toBe("");
    await waitFor(() => expect(tablet.server.taken.size).toBe(4));
  });

  test("the same feedback whatever is chosen: only the place of the chosen code differs", async () => {
    await start();
    const seen: string[] = [];
    for (const [place, tray] of [15, 16, 17].entries()) {
      const mine = packet.trays[tray - 1]?.codes ?? [];
      await toQuestion(trayLabel(tray), mine);
      fireEvent.click(screen.getByRole("radio", { name: spoken(mine[place]) }));
      await waitFor(() => expect(screen.getByText(words.question.chosen)).toBeTruthy());
      const chosen = shape(mine);
      fireEvent.click(button(words.question.keep));
      await heading(words.remark.title);
      const kept = shape(mine);
      fireEvent.click(button(words.remark.go));
      await heading(words.thanks.title);
      seen.push([chosen, kept, shape(mine)].join("\n").replaceAll(`Tray ${tray}`, "Tray"));
      fireEvent.click(button(words.nextPerson));
      await heading(words.rest.title);
    }
    // labels differ in the check digit, the status line in what is not sent yet; both do not depend on the choice
    const plain = seen.map((page) => page.replace(/Tray-\d/g, "Tray").replace(/<p class="status">.*?<\/p>/g, ""));
    expect(plain[1]).toBe(plain[0]);
    expect(plain[2]).toBe(plain[0]);
  });

  test("“Keep this” with nothing chosen says why, and keeps the focus and the page", async () => {
    await start();
    await toQuestion();
    const keep = button(words.question.keep);
    expect(keep.getAttribute("aria-disabled")).toBe("true");
    fireEvent.click(keep);
    expect(await screen.findByText(words.question.pickFirst)).toBeTruthy();
    expect(await tablet.events()).toEqual(["tray-opened 17"]);
  });

  test("a code out of turn is a sentence that names the next; during the pause a touch changes nothing", async () => {
    await start();
    await type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
    fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
    fireEvent.click(await screen.findByRole("button", { name: new RegExp(spoken(codes[2])) }));
    expect((await screen.findByRole("alert")).textContent).toContain(spoken(codes[0]));
    fireEvent.click(button(new RegExp(spoken(codes[0]))));
    expect(await screen.findByText(words.tasting.left(45))).toBeTruthy();
    fireEvent.click(button(new RegExp(spoken(codes[1]))));
    expect(await screen.findByText(words.tasting.early)).toBeTruthy();
    tablet.clock.pass(6000);
    expect(await screen.findByText(words.tasting.left(40))).toBeTruthy();
    tablet.clock.pass(39_000);
    expect(
      await screen.findByRole("button", { name: new RegExp(`${spoken(codes[1])}.*${words.tasting.next}`) }),
    ).toBeTruthy();
  });

  test("allergens and cautions of the packet all stand on the page, and a stop there keeps no reason", async () => {
    await start();
    await type("17-4");
    await heading(words.clearance.title);
    const page = document.body.textContent ?? "";
    for (const allergen of ["celery", "egg", "gluten-cereals", "milk", "mustard"] as const) {
      expect(page).toContain(words.clearance.allergens[allergen]);
    }
    expect(page).toContain(words.clearance.caution.choking);
    expect(page).not.toContain(words.clearance.caution.alcohol);
    expect(page).toContain(words.clearance.disclaimer);
    fireEvent.click(button(words.clearance.concerned));
    await heading(words.stopped["not-cleared"].title);
    expect(await tablet.events()).toEqual(["tray-stopped 17"]);
  });

  test("a wrong check digit is said in words, and goes away when typing begins again", async () => {
    await start();
    await type("17-9");
    expect((await screen.findByRole("alert")).textContent).toBe(problems["tray/check-digit"]({ typed: "17-9" }));
    fireEvent.click(button(words.rest.eraseLast));
    await waitFor(() => expect(screen.queryByRole("alert")).toBeNull());
    fireEvent.keyDown(window, { key: "4" });
    fireEvent.click(button(words.rest.open));
    await heading(words.clearance.title);
  });

  test("left alone in the middle, the tablet covers the tray; its number brings the same place back", async () => {
    await start();
    await toQuestion();
    fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
    tablet.clock.pass(4 * 60_000);
    fireEvent.keyDown(document.body, { key: "Tab" });
    tablet.clock.pass(4 * 60_000);
    expect(screen.queryByRole("heading", { name: ask })).not.toBeNull();
    tablet.clock.pass(5 * 60_000);
    await heading(words.rest.title);
    expect(document.body.textContent).not.toContain(spoken(codes[1]));
    await type("17-4");
    await heading(ask);
    expect(screen.getByRole<HTMLInputElement>("radio", { name: spoken(codes[1]) }).checked).toBe(true);
  });
});

/** The page without what names this tray's codes or says which field is the chosen one. */
function shape(of: string[]): string {
  const page = document.body.cloneNode(true) as HTMLElement;
  const fields = [...page.querySelectorAll(".field")];
  for (const field of fields) {
    if (field.classList.contains("chosen")) field.parentElement?.prepend(field);
  }
  let text = page.innerHTML;
  for (const code of of) {
    text = text.replaceAll(spoken(code), "c o d").replaceAll(`value="${code}"`, 'value="cod"');
  }
  return text.replace(/<span aria-hidden="true"[^>]*>\d<\/span>/g, "<span>d</span>");
}

describe("around the trays", () => {
  test("the status line says how many trays are on this tablet only, and since when", async () => {
    tablet.server.reachable = false;
    await start();
    const status = () => document.querySelector(".status")?.textContent;
    await waitFor(() => expect(status()).toBe(`${words.status.offline} · ${words.status.sent}`));
    await type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
    await waitFor(() => expect(status()).toBe(`${words.status.offline} · ${words.status.unsent(1)}`));
    tablet.clock.pass(5 * 60_000 + 1000); // covered by now, which draws the page again
    await heading(words.rest.title);
    expect(status()).toContain(`${words.status.unsent(1)} ${words.status.since(5)}`);
  });

  test("a packet that comes while a tray is in hand waits until the tablet is at rest", async () => {
    await start();
    await type("17-4");
    await heading(words.clearance.title);
    const later = { ...packet, palette: "day" as const };
    tablet.server.reply = { ...tablet.server.reply, packet: later, taken: [3] };
    tablet.clock.pass(15_000);
    await waitFor(async () => expect(await tablet.store.meta("taken")).toEqual([3]));
    expect(await tablet.store.packet()).toMatchObject({ palette: "dim" });
    fireEvent.click(button(words.clearance.otherTray));
    await heading(words.rest.title);
    await waitFor(async () => expect(await tablet.store.packet()).toMatchObject({ palette: "day" }));
    await waitFor(() => expect(document.documentElement.dataset.palette).toBe("day"));
  });

  test("not known to the server any more: said, enrolled again under the old name too, and nothing is dropped", async () => {
    await start();
    await type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
    await heading(words.rules.title);
    tablet.server.known = false;
    tablet.clock.pass(15_000);
    await waitFor(() => expect(document.querySelector(".status")?.textContent).toContain(words.status.enrollAgain));
    tablet.clock.pass(6 * 60_000);
    fireEvent.click(await screen.findByRole("button", { name: words.rest.enrollAgain }));
    await heading(words.enroll.title);
    tablet.server.known = true;
    fireEvent.input(screen.getByLabelText(words.enroll.code), { target: { value: "K7QM-4XTP" } });
    fireEvent.click(button(words.enroll.go));
    await heading(words.rest.title);
    const sent = tablet.server.asked.find(({ path }) => path === "/api/enroll");
    expect(sent?.body).toMatchObject({ formerly: ["aaaaaaaa-aaaa-4aaa-8aaa-aaaaaaaaaaaa"] });
    expect(await tablet.events()).toEqual(["tray-opened 17"]);
  });

  test("A16: the server holds more of this tablet than it does: no tray opens until the lead has seen it", async () => {
    tablet.server.reply = { ...tablet.server.reply, heads: { [`study:${study}`]: 7 } };
    await tablet.ready();
    render(<App parts={tablet.parts} />);
    expect((await screen.findByRole("alert")).textContent).toBe(problems["device/emptied"]({ known: 7, found: 0 }));
    expect(screen.queryByLabelText(words.rest.field)).toBeNull();
    tablet.server.reply = { ...tablet.server.reply, heads: {} };
    fireEvent.click(button(words.rest.emptiedSeen));
    await screen.findByLabelText(words.rest.field);
  });

  test("F2 F3: a new version is offered at rest only, and waits while another window has a tray open", async () => {
    await start();
    let taken = false;
    const accept = (): void => {
      taken = true;
    };
    await type("17-4");
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
    render(<App parts={tablet.parts} />);
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
    render(<App parts={tablet.parts} />);
    await heading(words.rest.noStudyTitle);
    tablet.server.reply = { ...tablet.server.reply, packet };
    await waitFor(() => {
      tablet.clock.pass(15_000);
      expect(within(document.body).queryByLabelText(words.rest.field)).not.toBeNull();
    });
  });
});
