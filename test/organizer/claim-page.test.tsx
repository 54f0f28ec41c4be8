// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { noVerdict, typedFindingOf } from "../../src/analysis/finding.ts";
import { knownFacts } from "../../src/device/pull.ts";
import { type ClaimState, foldClaim } from "../../src/log/claim.ts";
import type { Claim } from "../../src/model/claim.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { fits, withKind, withoutExplanation } from "../../src/organizer/claim-edit.ts";
import { ClaimPage } from "../../src/organizer/claim-page.tsx";
import { resultsIn } from "../../src/organizer/claim-results.ts";
import { rowsOf, standingsOf } from "../../src/organizer/claim-rows.ts";
import { Claims } from "../../src/organizer/claims.tsx";
import { StudyClaims } from "../../src/organizer/study-claims.tsx";
import { claimWords as words } from "../../src/words/en/organizer-claims.ts";
import { findingWords } from "../../src/words/en/organizer-findings.ts";
import { linePlan, preferencePlan } from "../design/scenario.ts";
import {
  attachmentOf,
  claimOf,
  cookLoss,
  juiciness,
  measureOf,
  own,
  predicting,
  rival,
  study,
} from "../log/claim-example.ts";
import { asLead, device, newLead, now } from "./lead-page.tsx";

const id = "d4e9b4e0-1d7b-4c5b-8e2f-5f5c8c3f9a32";
const stream = { kind: "claim" as const, id };
const phone = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const state = async (): Promise<ClaimState> => foldClaim(await knownFacts(lead.store, stream));
const kept = async (): Promise<Claim | undefined> => (await state()).current?.claim;
async function saved(by: string, claim: Claim, base: string | null = null): Promise<string> {
  const body = { base, merged: [], claim, known: [] };
  return (await lead.store.append(by, now, { stream, kind: "claim-saved", body })).id;
}
const typed = { difference: -6.5, low: -7.7, high: -5.2, unit: "points", matters: 4, source: "ledger" };
const mass = measureOf({
  ...{ id: cookLoss, kind: "mass", name: "Cook loss", attached: [], typed },
  predictions: { [own]: "lower", [rival]: "none" },
});

describe("the page of a claim", () => {
  test("what is typed is kept when the field is left, a removal can be undone", async () => {
    await saved(device, claimOf());
    asLead(lead, <ClaimPage id={id} />);
    const title = await screen.findByLabelText(words.claim.title);
    fireEvent.input(title, { target: { value: "Steam keeps the juice" } });
    fireEvent.focusOut(title);
    await waitFor(async () => expect((await kept())?.title).toBe("Steam keeps the juice"));
    const gone = screen.getByRole("button", { name: words.measure.remove("Juiciness"), hidden: true });
    fireEvent.click(gone);
    fireEvent.focusOut(title);
    await waitFor(async () => expect((await kept())?.measures).toEqual([]));
    fireEvent.click(screen.getByRole("button", { name: /^Undo: Removed/ }));
    fireEvent.focusOut(title);
    await waitFor(async () => expect((await kept())?.measures.map(({ id }) => id)).toEqual([juiciness]));
  });

  test("prediction stands beside finding, row by row; a typed one is marked, and contradicts the rival", async () => {
    const before = await saved(device, claimOf({ measures: [{ ...mass, typed: null }] }));
    await saved(device, claimOf({ measures: [mass] }), before);
    asLead(lead, <ClaimPage id={id} />);
    await screen.findByText(findingWords.typedMark);
    const [first, second] = within(await screen.findByRole("table"))
      .getAllByRole("row")
      .slice(1);
    expect(first?.textContent).toContain(findingWords.judgment.allowed);
    expect(second?.textContent).toContain(findingWords.judgment.contradicted);
    expect(screen.getByText(/They contradict .They only look moister/)).toBeTruthy();
  });

  test("a prediction that is changed with the result on the page says so, with what stood before", async () => {
    const first = await saved(device, claimOf({ measures: [{ ...mass, typed: null }] }));
    await saved(device, claimOf({ measures: [mass] }), first);
    asLead(lead, <ClaimPage id={id} />);
    const select = await screen.findByLabelText("They only look moister");
    fireEvent.change(select, { target: { value: "lower" } });
    await screen.findByText(`${findingWords.after}.`);
    expect(screen.getByText(findingWords.stoodJudged(findingWords.judgment.contradicted))).toBeTruthy();
    // what stood before counts
    expect(screen.getByText(/They contradict .They only look moister/)).toBeTruthy();
  });

  test("two browsers that did not know of each other: both versions are named, and one settles it", async () => {
    const first = await saved(device, claimOf());
    await saved(device, claimOf({ title: "one" }), first);
    await saved(phone, claimOf({ title: "other" }), first);
    asLead(lead, <ClaimPage id={id} />);
    await screen.findByText(words.versions.heading(2).replaceAll("\u00a0", " "));
    fireEvent.click(screen.getByRole("button", { name: new RegExp(`^${words.versions.take}`) }));
    await waitFor(async () => expect((await state()).others).toEqual([]));
    expect((await kept())?.title).toBe("one");
  });

  test("the list finds a claim, and says how many results are in", async () => {
    await saved(device, claimOf({ measures: [mass, measureOf()] }));
    asLead(lead, <Claims />);
    await screen.findByRole("link", { name: "Steam first is juicier" });
    expect(screen.getByText(words.state(1, 2).replaceAll("\u00a0", " "))).toBeTruthy();
  });

  test("a study's page names its claims, and attaches the study to what it can measure", async () => {
    await saved(device, claimOf({ measures: [mass, measureOf({ attached: [] })] }));
    asLead(lead, <StudyClaims study={study} plan={linePlan()} />);
    const select = await screen.findByLabelText(words.ofStudy.place);
    fireEvent.change(select, { target: { value: `${id} ${juiciness}` } });
    fireEvent.click(screen.getByRole("button", { name: words.ofStudy.submit }));
    await screen.findByRole("link", { name: "Steam first is juicier" });
    expect((await kept())?.measures[1]?.attached).toMatchObject([{ study, effect: "pair" }]);
  });
});

describe("rows and standings", () => {
  test("a study that is not opened gives no finding, and its result is waited for", () => {
    const claim = predicting({ [own]: "higher" });
    const sealed = { id: study, plan: linePlan(), revealed: false, result: null, waits: "sealed" as const };
    const at = { over: [], claim, known: [] };
    const rows = rowsOf({ claim, versions: new Map(), now: at, studies: new Map([[study, sealed]]) });
    expect(rows.map(({ finding, waits }) => [finding, waits])).toEqual([[null, "sealed"]]);
    expect(standingsOf(claim, rows).map(({ judgment }) => judgment)).toEqual(["not-tested", "not-tested"]);
    expect(resultsIn(claim, () => false)).toEqual({ known: 0, all: 1 });
    expect([noVerdict("withheld").found, typedFindingOf(typed).found]).toEqual(["no-verdict", "lower"]);
  });
});

describe("changes", () => {
  test("two explanations stay, and a rival takes its predictions along", () => {
    expect(withoutExplanation(claimOf(), rival)).toEqual(claimOf());
    const [one, two] = claimOf().explanations;
    if (!one || !two) throw new Error("too few");
    const three = claimOf({ explanations: [one, two, { ...two, id: study }] });
    expect(withoutExplanation(three, rival).measures[0]?.predictions).toEqual({ [own]: "higher" });
  });

  test("another kind keeps no study that does not measure it, and no prediction it cannot have", () => {
    const changed = withKind(measureOf({ attached: [attachmentOf()] }), "noticed", () => linePlan());
    expect([changed.attached, changed.predictions]).toEqual([[], { [rival]: "none" }]);
    expect(fits(preferencePlan(), { kind: "preference", about: "products" })).toBe(true);
    expect(fits(linePlan(), { kind: "intensity", about: "interaction" })).toBe(false);
  });
});
