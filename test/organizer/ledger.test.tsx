// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { weighedFindingOf } from "../../src/analysis/finding.ts";
import { knownFacts } from "../../src/device/pull.ts";
import { foldClaim } from "../../src/log/claim.ts";
import type { Ledger } from "../../src/model/ledger.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { ClaimPage } from "../../src/organizer/claim-page.tsx";
import { stepsIn, withNewBatch, withSteps, withWeighing } from "../../src/organizer/ledger-edit.ts";
import { ledgerFrom } from "../../src/organizer/ledger-table.ts";
import { ledgerWords as words } from "../../src/words/en/organizer-ledger.ts";
import { ledgerOf, scenarioRows } from "../analysis/ledger-example.ts";
import { massByR } from "../analysis/mass-reference.ts";
import { claimOf, cookLoss, measureOf, own, rival } from "../log/claim-example.ts";
import { problemOf } from "../problem-of.ts";
import { asLead, device, newLead, now } from "./lead-page.tsx";

const id = "d4e9b4e0-1d7b-4c5b-8e2f-5f5c8c3f9a32";
const stream = { kind: "claim" as const, id };
let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const mass = (weighed: Ledger | null) =>
  measureOf({
    ...{ id: cookLoss, kind: "mass", name: "Cook loss", attached: [], weighed },
    predictions: { [own]: "lower", [rival]: "none" },
  });

/** Opens the page of a claim whose only measure is a mass. */
async function open(weighed: Ledger | null): Promise<HTMLElement> {
  const claim = claimOf({ measures: [mass(weighed)] });
  await lead.store.append(device, now, {
    stream,
    kind: "claim-saved",
    body: { base: null, merged: [], claim, known: [] },
  });
  asLead(lead, <ClaimPage id={id} />);
  const summary = await screen.findByText(/Cook loss:/);
  const part = summary.closest("details");
  if (!part) throw new Error("no measure");
  return part;
}
const kept = async (): Promise<Ledger | null | undefined> =>
  foldClaim(await knownFacts(lead.store, stream)).current?.claim.measures[0]?.weighed;
const grams = (step: string, batch: string, process: string) =>
  screen.findByLabelText<HTMLInputElement>(words.field("grams", step, batch, process));
/** Types into a field and leaves it, as a browser tells of it. */
function type(field: HTMLElement, value: string): void {
  fireEvent.input(field, { target: { value } });
  fireEvent.change(field, { target: { value } });
  fireEvent.focusOut(field);
}

describe("weighing batches for a claim, without any study", () => {
  test("from nothing: two batches, readings kept as typed, losses beside them, and the finding beside the predictions", async () => {
    await open(null);
    fireEvent.click(await screen.findByText(words.begin));
    for (const [process, raw, cooked] of [
      ["current", "1497.0", "1180.3"],
      ["new", "1503.3", "1284.1"],
    ] as const) {
      type(await grams("raw", "1", process), raw);
      type(await grams("cooked", "1", process), cooked);
    }
    await waitFor(async () =>
      expect((await kept())?.batches.map(({ weighings }) => weighings.map((each) => each?.grams ?? null))).toEqual([
        ["1497.0", "1180.3", null, null],
        ["1503.3", "1284.1", null, null],
      ]),
    );
    // ux: this step and of raw, 21.2 % and 78.8 %
    const row = (await grams("cooked", "1", "current")).closest("tr");
    expect(row?.textContent).toMatch(/\u221221\.2.*78\.8/);
    // one cook of each: a number, and no verdict
    expect(screen.getByText(/\u22126\.6 percentage points.*no verdict/)).toBeTruthy();
  });

  test("the scenario's ledger: 6.5 points less (R's t.test), and each explanation is held against it", async () => {
    await open(ledgerOf(scenarioRows, { matters: 4 }));
    const found = (await screen.findByText(/^Weighed here, raw to held: 4 and 4.batches, after Welch$/)).closest("div");
    if (!found) throw new Error("no finding");
    expect(found.textContent).toMatch(
      /\u22126\.5 percentage points of the raw mass lost \(\u22127\.7 to \u22125\.2, 95\u00a0% interval\)/,
    );
    const rows = within(found)
      .getAllByRole("row")
      .map((row) => row.textContent);
    expect(rows[1]).toMatch(/still allowed/);
    expect(rows[2]).toMatch(/contradicted/);
  });

  test("a gain is refused with a sentence: what was stored stays, and a reason lets it stand", async () => {
    await open(ledgerOf(scenarioRows));
    const field = await grams("cooked", "2", "new");
    type(field, "1598.5");
    await screen.findByText(/The mass grew from 1501\.9 g at “raw” to 1598\.5 g.*1298\.5.g stays stored/);
    expect(field.value).toBe("1598.5");
    expect((await kept())?.batches[5]?.weighings[1]?.grams).toBe("1298.5");
    // its own step then loses more, and nothing else of the batch is refused
    const reason = await screen.findByLabelText(words.reason);
    type(reason, "basted");
    await waitFor(async () =>
      expect((await kept())?.batches[5]?.weighings[1]).toMatchObject({ grams: "1598.5", gainReason: "basted" }),
    );
  });

  test("what is no number is said and not stored; a removal can be undone", async () => {
    await open(ledgerOf(scenarioRows));
    type(await grams("held", "1", "current"), "1,1 kg");
    await screen.findByText(new RegExp(words.notAReading));
    fireEvent.click(screen.getByText(words.removeBatch("1", "current")));
    await waitFor(() => expect(screen.queryByLabelText(words.field("grams", "raw", "4", "current"))).not.toBeNull());
    expect(screen.queryByText(words.removeBatch("1", "current"))).toBeNull();
    fireEvent.click(screen.getByRole("button", { name: /Undo|undo/ }));
    await screen.findByText(words.removeBatch("1", "current"));
  });
});

describe("changes of a ledger", () => {
  const ledger = ledgerOf(scenarioRows);
  test("a renamed step keeps its weighings, a step put between has none, one taken out goes with them", () => {
    const first = (steps: string) =>
      withSteps(ledger, stepsIn(steps) ?? []).batches[0]?.weighings.map((each) => each?.grams);
    expect(first("raw, steamed, rested, held")).toEqual(["1497.0", "1180.3", "1162.9", "1129.1"]);
    expect(first("raw, cooked, cut, rested, held")).toEqual(["1497.0", "1180.3", undefined, "1162.9", "1129.1"]);
    expect(first("raw, held")).toEqual(["1497.0", "1129.1"]);
    expect([stepsIn("raw"), stepsIn("raw, raw"), stepsIn("raw,, held")]).toEqual([null, null, null]);
  });
  test("a new batch has the next free number of its process", () => {
    expect(withNewBatch(ledger, 1).batches.at(-1)).toMatchObject({ product: 1, name: "5" });
    expect(withNewBatch(ledgerOf([[], []]), 0).batches[0]?.name).toBe("1");
  });
  test("a raw mass below what was weighed later is refused where it was typed", () => {
    expect(withWeighing(ledger, 0, 0, { grams: "1000.0" }).refusal).toMatchObject({ what: "gain", step: 1 });
    expect(withWeighing(ledger, 0, 3, { grams: "" }).ledger?.batches[0]?.weighings[3]).toBeNull();
  });
});

describe("weighings from a file", () => {
  const claims = { ...ledgerOf([[], []]), products: ["current", "new"] };
  const header = "batch,product,step,grams";
  test("its products go by the claim's names, whichever stands first", () => {
    const text = [header, "1,new,raw,1503.3", "1,new,cooked,1284.1", "1,current,raw,1497.0"].join("\n");
    const found = ledgerFrom(claims, text, "a.csv");
    expect(found.batches.map(({ product, weighings }) => [product, weighings[0]?.grams])).toEqual([
      [1, "1503.3"],
      [0, "1497.0"],
    ]);
  });
  test("whatever their case and order: New first, Current second is no other sign", () => {
    const text = [header, "1, New ,raw,1503.3", "1,CURRENT,raw,1497.0"].join("\n");
    const found = ledgerFrom(claims, text, "a.csv");
    expect(found.batches.map(({ product, weighings }) => [product, weighings[0]?.grams])).toEqual([
      [1, "1503.3"],
      [0, "1497.0"],
    ]);
  });
  test("a name that the claim does not have is refused with the claim's; by place only where the claim has none", () => {
    const text = [header, "1,new,raw,1503.3", "1,oven,raw,1497.0"].join("\n");
    expect(problemOf(() => ledgerFrom(claims, text, "a.csv"))).toEqual({
      code: "csv/unknown-process",
      details: { path: "a.csv", line: 3, value: "oven", known: "“current” and “new”" },
    });
    const half = ledgerFrom({ ...claims, products: ["", "new"] }, text, "a.csv");
    expect(half.batches.map(({ product }) => product)).toEqual([1, 0]);
    const none = ledgerFrom({ ...claims, products: ["", ""] }, text, "a.csv");
    expect(none.batches.map(({ product }) => product)).toEqual([0, 1]);
  });
  test("a third product, or what cannot be, is refused with its line", () => {
    const third = [header, "1,a,raw,10", "1,b,raw,10", "1,c,raw,10"].join("\n");
    expect(problemOf(() => ledgerFrom(claims, third, "a.csv")).code).toBe("csv/ledger-too-large");
    const gain = [header, "1,new,raw,10.0", "1,new,cooked,12.0"].join("\n");
    expect(problemOf(() => ledgerFrom(claims, gain, "a.csv"))).toMatchObject({
      ...{ code: "csv/impossible-weighing", details: { line: 3 } },
    });
  });
});

test("what a ledger shows: the last step both were weighed at, its interval from R, nothing while something cannot be", () => {
  const [estimate, low, high] = massByR.ledger.held.ofRaw.difference;
  const found = weighedFindingOf(ledgerOf(scenarioRows, { matters: 4 }));
  expect(found).toMatchObject({
    found: "lower",
    reach: { matters: 4 },
    numbers: { steps: ["raw", "held"], batches: [4, 4] },
  });
  const numbers = found?.numbers?.what === "weighed" ? found.numbers : null;
  expect([numbers?.estimate, numbers?.low, numbers?.high].map((each) => each?.toFixed(9))).toEqual(
    [estimate, low, high].map((each) => each?.toFixed(9)),
  );
  expect(weighedFindingOf(ledgerOf([[["1497.0"]], []]))).toBeNull();
  expect(weighedFindingOf(ledgerOf([[["1497.0", "1580.0"]], [["1500.0", "1200.0"]]]))).toBeNull();
});
