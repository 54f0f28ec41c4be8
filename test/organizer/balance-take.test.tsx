// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor } from "@testing-library/preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, expect, test } from "vitest";
import { firstBalanceSettings, keptBalanceSettings } from "../../src/device/balance-settings.ts";
import type { Claim } from "../../src/model/claim.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { withNewBatch } from "../../src/organizer/ledger-edit.ts";
import { WeighedBatches } from "../../src/organizer/ledger-fields.tsx";
import { balance } from "../../src/organizer/use-balance.ts";
import type { ClaimDraft } from "../../src/organizer/use-claim.ts";
import { balanceProblems } from "../../src/words/en/balance-problems.ts";
import { balanceWords as words } from "../../src/words/en/organizer-balance.ts";
import { ledgerWords } from "../../src/words/en/organizer-ledger.ts";
import { ledgerOf } from "../analysis/ledger-example.ts";
import { FakePort, putSerial, serialWith } from "../device/serial-fake.ts";
import { claimOf, cookLoss, measureOf, own, rival } from "../log/claim-example.ts";
import { asLead, newLead } from "./lead-page.tsx";

let lead: Lead;
let port: FakePort;
beforeEach(async () => {
  lead = await newLead();
  port = new FakePort();
});
afterEach(async () => {
  cleanup();
  await balance.disconnect();
  putSerial(undefined);
  await lead.store.close();
});

/** The weighings of a claim as they stand on the screen now. */
let claim: Claim;

/** A claim's ledger with one batch of the current process, to be weighed: what it changes is kept in memory alone. */
function Weighing() {
  const [shown, show] = useState(claim);
  claim = shown;
  const draft: ClaimDraft = {
    ...{ claim: shown, undo: null, redo: null },
    edit: (change) => show(change),
    flush: async () => {},
    settle: () => {},
  };
  const [measure] = shown.measures;
  return measure ? <WeighedBatches draft={draft} studies={[]} measure={measure} /> : null;
}
async function openLedger(): Promise<void> {
  const weighed = withNewBatch(ledgerOf([[], []], { steps: ["raw", "cooked"] }), 0);
  const mass = measureOf({
    ...{ id: cookLoss, kind: "mass", name: "Cook loss", attached: [], weighed },
    predictions: { [own]: "lower", [rival]: "none" },
  });
  claim = claimOf({ measures: [mass] });
  asLead(lead, <Weighing />);
}
const fieldName = (step: string) => ledgerWords.field("grams", step, "1", "current");
const grams = (step: string) => screen.getByLabelText<HTMLInputElement>(fieldName(step));
const take = (step: string) => screen.findByRole("button", { name: words.takeInto(fieldName(step)), hidden: true });
const kept = () => claim.measures[0]?.weighed?.batches.at(-1)?.weighings.map((each) => each?.grams ?? null);
const connect = async () => {
  const first = await screen.findByText(words.connect);
  // the page has one connection, and remembers the port of the test before
  fireEvent.click(screen.queryByText(words.another) ?? first);
  await waitFor(() => expect(balance.state().link).toBe("open"));
  port.send("\r\n");
};

test("where the browser has no serial ports, nothing is said of a balance and masses are typed", async () => {
  await openLedger();
  expect(grams("raw").value).toBe("");
  expect(screen.queryByText(words.hint)).toBeNull();
  expect(screen.queryByText(words.take)).toBeNull();
});

test("from connecting to a kept mass: an unstable reading waits, the stable one goes in with its decimals", async () => {
  putSerial(serialWith([], port));
  await openLedger();
  expect(screen.queryByText(words.take)).toBeNull();
  await connect();
  fireEvent.click(await take("raw"));
  await screen.findByText(words.waiting);
  // cut within lines, an unstable reading, the pan lifted, noise
  port.send("US,+001", "502.9  g\r", "\n");
  await screen.findByText(words.unstable);
  port.send("L\r\nx\u00ffy\r\n");
  await screen.findByText(words.waitsFor("noise"));
  expect(kept()).toEqual([null, null]);
  port.send("ST,+0015", "02.0  g\r\n");
  await waitFor(() => expect(kept()).toEqual(["1502.0", null]));
  expect(grams("raw").value).toBe("1502.0");
  // what was chosen is filled; the next reading goes nowhere by itself
  port.send("ST,+001183.4  g\r\n");
  await waitFor(() => expect(balance.state().last).toMatchObject({ grams: "1183.4" }));
  expect(grams("cooked").value).toBe("");
  fireEvent.click(await take("cooked"));
  port.send("+ 1.1834 kg\r\n");
  await waitFor(() => expect(kept()).toEqual(["1502.0", "1183.4"]));
});

test("below zero is refused with a sentence; what the ledger refuses stays on the screen and is not stored", async () => {
  putSerial(serialWith([], port));
  await openLedger();
  await connect();
  fireEvent.click(await take("raw"));
  port.send("- 3.2 g\r\n");
  await screen.findByText(words.negative);
  port.send("1502.0 g\r\n");
  await waitFor(() => expect(kept()?.[0]).toBe("1502.0"));
  fireEvent.click(await take("cooked"));
  // kilograms in steps of 100 g: 1400 g would pass for a reading to the gram
  port.send("1.4 kg\r\n");
  await screen.findByText(/in steps of 100.g, which grams would not show/);
  port.send("1602.0 g\r\n");
  await screen.findByText(/The mass grew from 1502.* at “raw” to 1602/);
  expect(grams("cooked").value).toBe("1602.0");
  expect(kept()?.[1]).toBeNull();
});

test("one field waits at a time, Escape lets go, and a lost cable is said where somebody waits", async () => {
  putSerial(serialWith([], port));
  await openLedger();
  await connect();
  fireEvent.click(await take("raw"));
  fireEvent.click(await take("cooked"));
  await waitFor(() => expect(screen.getAllByText(words.stop)).toHaveLength(1));
  fireEvent.keyDown(screen.getByText(words.stop), { key: "Escape" });
  await waitFor(() => expect(screen.queryByText(words.stop)).toBeNull());
  fireEvent.click(await take("raw"));
  port.send("ST,+0015");
  port.pull();
  // in the balance's part, and at the field
  await waitFor(() => expect(screen.getAllByText(balanceProblems["balance/lost"]({}))).toHaveLength(2));
  expect(grams("raw").value).toBe("");
  // a press connects again, without asking
  fireEvent.click(await take("raw"));
  await waitFor(() => expect(port.opened).toHaveLength(2));
});

test("speed and bare grams are kept on this device, and an open balance is opened anew with them", async () => {
  putSerial(serialWith([], port));
  await openLedger();
  await connect();
  fireEvent.change(screen.getByLabelText(words.speed), { target: { value: "2400" } });
  await waitFor(() => expect(port.opened.at(-1)?.baudRate).toBe(2400));
  fireEvent.click(screen.getByLabelText(words.bare));
  await waitFor(() => expect(port.opened).toHaveLength(3));
  expect(await keptBalanceSettings(lead.store)).toEqual({ ...firstBalanceSettings, baud: 2400, bareGrams: true });
  // what cannot be read is as if nothing was kept
  await lead.store.setMeta("balance", { baud: 1 });
  expect(await keptBalanceSettings(lead.store)).toEqual(firstBalanceSettings);
});
