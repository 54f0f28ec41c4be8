// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import type { Fact } from "../../src/model/event.ts";
import { trayLabel } from "../../src/model/tray.ts";
import { type Lead, LeadContext } from "../../src/organizer/app-context.ts";
import { voidable, voidBody } from "../../src/organizer/day.ts";
import {
  ballotName,
  chooseSpare,
  settleHindrance,
  spareHindrance,
  voidHindrance,
} from "../../src/organizer/rulings.ts";
import { Spare } from "../../src/organizer/spare.tsx";
import { VoidBallot } from "../../src/organizer/void-ballot.tsx";
import { dayWords, spareReasons, voidReasons } from "../../src/words/en/organizer-day.ts";
import { lead as leadDevice, study, tabletA, tabletB, Writer } from "../log/example.ts";
import { newLead, now } from "./lead-page.tsx";

let log: Writer;
let facts: Fact[];
let lead: Lead;
beforeEach(async () => {
  log = new Writer();
  facts = [log.lock()];
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const state = () => foldStudy(facts);
const voidOf = (tray: number, device: string): void => {
  const ballot = voidable(state()).find((each) => each.tray === tray && each.device === device);
  if (!ballot) throw new Error("there is such a ballot");
  facts.push(log.write(leadDevice, "ballot-voided", voidBody(ballot, "talked", "")));
};

describe("what hinders a ruling", () => {
  test("voiding: a ballot and a reason must be chosen, and the ballot must still be there", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletB, 2, "264"));
    const name = ballotName({ tray: 2, device: tabletB, paper: null, events: [] });
    expect(voidHindrance("", "talked", voidable(state()))).toBe("pick");
    expect(voidHindrance(name, null, voidable(state()))).toBe("reason");
    expect(voidHindrance(name, "talked", voidable(state()))).toBeNull();
    voidOf(2, tabletB);
    expect(voidHindrance(name, "talked", voidable(state()))).toBe("gone");
  });

  test("settling: the ballot that is to count must still be one of them", () => {
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletB, 1, "715"));
    const tray = () => state().trays.get(1) ?? expect.fail("tray 1 is planned");
    expect(settleHindrance(null, tray())).toBe("pick");
    expect(settleHindrance(tabletB, tray())).toBeNull();
    voidOf(1, tabletB);
    expect(settleHindrance(tabletB, tray())).toBe("gone");
  });

  test("a spare instead of a tray: not while its ballot counts or is contested", () => {
    const replacing = (tray: number) =>
      spareHindrance(chooseSpare(state(), { reason: "replaces", instead: tray }), state());
    facts.push(...log.ballot(tabletA, 1, "482"), ...log.ballot(tabletA, 2, "264").slice(0, 1));
    facts.push(...log.ballot(tabletA, 3, "146"), ...log.ballot(tabletB, 3, "385"));
    expect([1, 2, 3].map(replacing)).toEqual(["stands", null, "stands"]);
    voidOf(1, tabletA);
    expect(replacing(1)).toBeNull();
  });

  test("a spare that was named stays, and is refused once somebody else has it", () => {
    const choice = chooseSpare(state(), { reason: "extra-person", instead: null });
    expect(choice.offered).toBe(4);
    expect(spareHindrance(choice, state())).toBeNull();
    facts.push(...log.ballot(tabletA, 4, "529").slice(0, 1));
    expect(choice.offered).toBe(4);
    expect(spareHindrance(choice, state())).toBe("gone");
  });

  test("nothing is served for no reason, or instead of no tray", () => {
    expect(spareHindrance(chooseSpare(state(), { reason: null, instead: 1 }), state())).toBe("reason");
    expect(spareHindrance(chooseSpare(state(), { reason: "replaces", instead: null }), state())).toBe("instead");
  });
});

const fetching = { at: now, thrown: null };
const page = (Step: typeof VoidBallot, shown: StudyState) => (
  <LeadContext.Provider value={lead}>
    <Step id={study} state={shown} fetching={fetching} />
  </LeadContext.Provider>
);
const events = async () => (await lead.store.ownFacts()).map(({ kind, body }) => ({ kind, body }));
const press = (name: string) => fireEvent.click(screen.getByRole("button", { name }));
const pick = (label: string, value: string) => fireEvent.change(screen.getByLabelText(label), { target: { value } });

describe("the form that voids", () => {
  const words = dayWords.void;
  const shownBallot = () => screen.getByLabelText<HTMLSelectElement>(words.which).value;

  test("nothing is chosen beforehand, and pressing the button then writes nothing", async () => {
    facts.push(...log.ballot(tabletA, 1, "482"));
    render(page(VoidBallot, state()));
    expect(shownBallot()).toBe("");
    expect(document.querySelectorAll("input:checked")).toHaveLength(0);
    press(words.submit);
    await screen.findByText(words.missing.pick);
    pick(words.which, ballotName({ tray: 1, device: tabletA, paper: null, events: [] }));
    press(words.submit);
    await screen.findByText(words.missing.reason);
    expect(await events()).toEqual([]);
  });

  test("the chosen ballot stays while others come in before it, and is refused once it is void", async () => {
    facts.push(...log.ballot(tabletB, 2, "264"));
    const { rerender } = render(page(VoidBallot, state()));
    const name = ballotName({ tray: 2, device: tabletB, paper: null, events: [] });
    pick(words.which, name);
    facts.push(...log.ballot(tabletA, 1, "482"));
    rerender(page(VoidBallot, state()));
    expect(shownBallot()).toBe(name);
    fireEvent.click(screen.getByLabelText(voidReasons.talked));
    voidOf(2, tabletB);
    rerender(page(VoidBallot, state()));
    await screen.findByText(words.missing.gone);
    press(words.submit);
    expect(await events()).toEqual([]);
    pick(words.which, ballotName({ tray: 1, device: tabletA, paper: null, events: [] }));
    press(words.submit);
    await waitFor(async () =>
      expect(await events()).toMatchObject([{ kind: "ballot-voided", body: { tray: 1, reason: "talked" } }]),
    );
  });
});

describe("the form that serves a spare", () => {
  const words = dayWords.spare;

  test("instead of a tray whose ballot counts: it says so, leads to voiding, and writes nothing", async () => {
    facts.push(...log.ballot(tabletA, 1, "482"));
    const { rerender } = render(page(Spare, state()));
    expect(document.querySelectorAll("input:checked")).toHaveLength(0);
    fireEvent.click(screen.getByLabelText(spareReasons.replaces));
    pick(words.instead, "1");
    await screen.findByText(words.stands(trayLabel(1)), { exact: false });
    expect(screen.getByRole("link", { name: words.voidFirst }).getAttribute("href")).toBe(`#/study/${study}/void`);
    press(words.submit(trayLabel(4)));
    expect(await events()).toEqual([]);
    voidOf(1, tabletA);
    rerender(page(Spare, state()));
    press(words.submit(trayLabel(4)));
    await waitFor(async () =>
      expect(await events()).toMatchObject([{ kind: "spare-served", body: { tray: 4, instead: 1 } }]),
    );
  });
});
