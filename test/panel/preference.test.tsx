// @vitest-environment happy-dom
import { fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { panel as words } from "../../src/words/en/panel.ts";
import { choiceBallots, panelChoice } from "../../src/words/en/panel-choice.ts";
import { button, heading, newTablet, putAway, spoken, start, type } from "./hands.tsx";
import { packet, study, type Tablet } from "./tablet.ts";

let tablet: Tablet;
beforeEach(() => {
  tablet = newTablet();
});
afterEach(() => putAway(tablet));

const ballot = choiceBallots["paired-preference-1"];
const codes = ["317", "530"];
const pair = {
  method: "paired-preference" as const,
  wording: "paired-preference-1",
  trays: packet.trays.map((tray) => (tray.tray === 17 ? { ...tray, codes } : tray)),
};

async function toQuestion(noPreference: boolean): Promise<void> {
  await start(tablet, { ...pair, noPreference });
  type("17-4");
  fireEvent.click(await screen.findByRole("button", { name: words.clearance.clear }));
  fireEvent.click(await screen.findByRole("button", { name: words.rules.go }));
  for (const code of codes) {
    fireEvent.click(await screen.findByRole("button", { name: new RegExp(`${spoken(code)}.*${words.tasting.next}`) }));
    tablet.clock.pass(45_000);
  }
  await heading(ballot?.ask("") ?? "");
}
const kept = async () =>
  (await tablet.store.ownFacts({ kind: "study", id: study })).find(({ kind }) => kind === "answer-kept")?.body;

/** The page without what may differ: which field is the chosen one, and the status line. */
function shape(): string {
  const page = document.body.cloneNode(true) as HTMLElement;
  for (const small of page.querySelectorAll("label.field small")) small.textContent = "";
  for (const field of page.querySelectorAll("label.field")) field.className = "field";
  for (const line of page.querySelectorAll(".status")) line.remove();
  return page.innerHTML;
}

describe("paired preference", () => {
  test("two fields and no box for guessing; no preference is not among them unless the plan offers it", async () => {
    await toQuestion(false);
    expect(screen.getAllByRole("radio").map((radio) => (radio as HTMLInputElement).value)).toEqual(codes);
    expect(screen.queryByRole("checkbox")).toBeNull();
    fireEvent.click(screen.getByRole("radio", { name: spoken(codes[1]) }));
    await screen.findByText(words.question.chosen);
    fireEvent.click(button(words.question.keep));
    await heading(words.remark.title);
    expect(await kept()).toMatchObject({ tray: 17, question: 1, choice: "530", guess: false });
  });

  test("offered, it is a third field like the others, kept as such, and comes back after a restart", async () => {
    await toQuestion(true);
    expect(screen.getAllByRole("radio")).toHaveLength(3);
    expect(document.querySelectorAll("label.field")).toHaveLength(3);
    fireEvent.click(screen.getByRole("radio", { name: words.question.noPreference }));
    await screen.findByText(words.question.chosen);
    tablet.clock.pass(6 * 60_000); // covered
    await heading(words.rest.title);
    type("17-4");
    await heading(ballot?.ask("") ?? "");
    const third = screen.getByRole<HTMLInputElement>("radio", { name: words.question.noPreference });
    await waitFor(() => expect(third.checked).toBe(true));
    fireEvent.click(button(words.question.keep));
    await heading(words.remark.title);
    expect(await kept()).toMatchObject({ choice: "none" });
  });

  test("the same feedback whatever is chosen: only the place of the chosen field differs", async () => {
    const pages: string[] = [];
    for (const choice of [...codes.map(spoken), words.question.noPreference]) {
      await toQuestion(true);
      fireEvent.click(screen.getByRole("radio", { name: choice }));
      await screen.findByText(words.question.chosen);
      const asked = shape();
      fireEvent.click(button(words.question.keep));
      await heading(words.remark.title);
      pages.push(`${asked}\n${shape()}`);
      await putAway(tablet);
      tablet = newTablet();
    }
    expect(pages[1]).toBe(pages[0]);
    expect(pages[2]).toBe(pages[0]);
  });

  test("“I cannot answer” speaks of no box that is not there", async () => {
    await toQuestion(true);
    fireEvent.click(button(words.question.cannot));
    await heading(panelChoice.cannot.title);
    expect(document.body.textContent).toContain(ballot?.cannotTell);
    expect(document.body.textContent).not.toContain(words.question.guess);
  });
});
