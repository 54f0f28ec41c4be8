// @vitest-environment happy-dom
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { consentOf } from "../../src/design/consent.ts";
import { trayLabel } from "../../src/model/tray.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { problems } from "../../src/words/en/problems.ts";
import { readyPlan } from "../design/scenario.ts";
import { ask, button, codes, heading, newTablet, putAway, spoken, start, toQuestion, type } from "./hands.tsx";
import { packet, type Tablet } from "./tablet.ts";

const consent = consentOf(readyPlan());

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

describe("one tray", () => {
  test("from the number to the next person: kept once, and nothing of it left on the page", async () => {
    await start(tablet);
    await toQuestion(tablet);
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
    await start(tablet);
    const seen: string[] = [];
    for (const [place, tray] of [15, 16, 17].entries()) {
      const mine = packet.trays[tray - 1]?.codes ?? [];
      await toQuestion(tablet, trayLabel(tray), mine);
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
    await start(tablet);
    await toQuestion(tablet);
    const keep = button(words.question.keep);
    expect(keep.getAttribute("aria-disabled")).toBe("true");
    fireEvent.click(keep);
    expect(await screen.findByText(words.question.pickFirst)).toBeTruthy();
    expect(await tablet.events()).toEqual(["tray-opened 17"]);
  });

  test("a code out of turn is a sentence that names the next; during the pause a touch changes nothing", async () => {
    await start(tablet);
    type("17-4");
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
    await start(tablet);
    type("17-4");
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

  test("whoever is asked to take part reads all of it first; agreeing is kept with the clearance, by its version", async () => {
    await start(tablet, { consent });
    type("17-4");
    await heading(words.consent.title);
    const page = document.body.textContent ?? "";
    for (const { term, text } of consent.lines) expect(page).toContain(`${term}${text}`);
    fireEvent.click(button(words.consent.agree));
    await heading(words.clearance.title);
    expect(await tablet.events()).toEqual([]);
    fireEvent.click(button(words.clearance.clear));
    await heading(words.rules.title);
    const [opened] = await tablet.store.ownFacts({ kind: "study", id: packet.study });
    expect(opened?.body).toEqual({ tray: 17, clearance: packet.allergens.version, consent: consent.version });
  });

  test("whoever would rather not leaves the same trace as at the allergens", async () => {
    await start(tablet, { consent });
    type("17-4");
    fireEvent.click(await screen.findByRole("button", { name: words.consent.decline }));
    await heading(words.stopped["not-cleared"].title);
    expect(await tablet.events()).toEqual(["tray-stopped 17"]);
    const [stopped] = await tablet.store.ownFacts({ kind: "study", id: packet.study });
    expect(stopped?.body).toEqual({ tray: 17, reason: "not-cleared" });
  });

  test("a wrong check digit is said in words, and goes away when typing begins again", async () => {
    await start(tablet);
    type("17-9");
    expect((await screen.findByRole("alert")).textContent).toBe(problems["tray/check-digit"]({ typed: "17-9" }));
    fireEvent.click(button(words.rest.eraseLast));
    await waitFor(() => expect(screen.queryByRole("alert")).toBeNull());
    fireEvent.keyDown(window, { key: "4" });
    fireEvent.click(button(words.rest.open));
    await heading(words.clearance.title);
  });

  test("left alone in the middle, the tablet covers the tray; its number brings the same place back", async () => {
    await start(tablet);
    await toQuestion(tablet);
    fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
    tablet.clock.pass(4 * 60_000);
    fireEvent.keyDown(document.body, { key: "Tab" });
    tablet.clock.pass(4 * 60_000);
    expect(screen.queryByRole("heading", { name: ask })).not.toBeNull();
    tablet.clock.pass(5 * 60_000);
    await heading(words.rest.title);
    expect(document.body.textContent).not.toContain(spoken(codes[1]));
    type("17-4");
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
