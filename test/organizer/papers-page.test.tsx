// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, configure, fireEvent, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { knownFacts } from "../../src/device/pull.ts";
import { foldStudy } from "../../src/log/fold.ts";
import type { Paper } from "../../src/model/event.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { keyMemory } from "../../src/organizer/key-memory.ts";
import { type Locked, lockPlan } from "../../src/organizer/lock.ts";
import { Papers } from "../../src/organizer/papers.tsx";
import { randomBytes } from "../../src/seal/random.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { paperWords } from "../../src/words/en/organizer-papers.ts";
import { readyPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

// for a busy machine: nothing here is timed
configure({ asyncUtilTimeout: 20_000 });

let locked: Locked;
let lead: Lead;
beforeAll(async () => {
  locked = await lockPlan(readyPlan(), study, "0.1.0", randomBytes);
});
beforeEach(async () => {
  lead = await newLead();
  await lead.store.append(device, now, { stream, kind: "study-locked", body: locked.body });
  keyMemory.hold({ study, opened: locked.opened, passphrase: null, fresh: true, paper: null }, now);
  window.print = vi.fn();
});
afterEach(async () => {
  cleanup();
  vi.restoreAllMocks();
  keyMemory.goTo(null);
  await lead.store.close();
});

const fold = async () => foldStudy(await knownFacts(lead.store, stream));
const prints = async () => (await fold()).papers.map(({ body }) => body);
async function show(paper: Paper): Promise<void> {
  const state = await fold();
  if (!state.lock) throw new Error("the study is locked");
  const fetching = { at: now, thrown: null };
  asLead(lead, <Papers id={study} state={state} fetching={fetching} lock={state.lock} paper={paper} />);
}
const preview = () => screen.queryByRole("region", { name: paperWords.preview });
const press = (name: string) => fireEvent.click(screen.getByRole("button", { name }));
function typePassphrase(): void {
  fireEvent.input(screen.getByLabelText(lockWords.open.passphrase), { target: { value: locked.passphrase } });
  press(paperWords.open.action);
}

describe("papers with the key", () => {
  test("with the key out of memory nothing is shown before the print is in the log", async () => {
    keyMemory.goTo(null);
    await show("kitchen-by-tray");
    expect(preview()).toBeNull();
    typePassphrase();
    await waitFor(() => expect(preview()).not.toBeNull(), { timeout: 20_000 });
    expect(await prints()).toEqual([{ paper: "kitchen-by-tray", reprint: false }]);
    // what the button does then is in the log already
    press(paperWords.print);
    await waitFor(() => expect(window.print).toHaveBeenCalledTimes(1));
    expect(await prints()).toHaveLength(1);
  }, 30_000);

  test("when that cannot be written down the key stays closed", async () => {
    keyMemory.goTo(null);
    await show("kitchen-by-tray");
    vi.spyOn(lead.store, "append").mockRejectedValue(new Error("no room"));
    typePassphrase();
    await waitFor(() => expect(screen.getByRole("alert").textContent).toContain("no room"), { timeout: 20_000 });
    expect(preview()).toBeNull();
    expect(keyMemory.held(now)).toBeNull();
  }, 30_000);

  test("right after the lock a paper is printed once; then it goes off the screen and asks for the passphrase", async () => {
    await show("kitchen-by-tray");
    expect(preview()).not.toBeNull();
    press(paperWords.print);
    await waitFor(() => expect(window.print).toHaveBeenCalledTimes(1));
    expect(await prints()).toEqual([{ paper: "kitchen-by-tray", reprint: false }]);
    fireEvent(window, new Event("afterprint"));
    await screen.findByRole("heading", { name: paperWords.open.heading });
    expect(preview()).toBeNull();
    cleanup();
    await show("kitchen-by-tray");
    expect(preview()).toBeNull();
    expect(screen.getByText(paperWords.open.again)).toBeTruthy();
    typePassphrase();
    await waitFor(() => expect(preview()).not.toBeNull(), { timeout: 20_000 });
    expect((await prints()).map(({ reprint }) => reprint)).toEqual([false, true]);
  }, 30_000);

  test("the browser's own print is in the log too", async () => {
    await show("sealed-page");
    fireEvent(window, new Event("beforeprint"));
    await waitFor(async () => expect(await prints()).toEqual([{ paper: "sealed-page", reprint: false }]));
  });
});
