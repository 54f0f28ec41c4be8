// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, beforeEach, expect, test } from "vitest";
import { foldStudy } from "../../src/log/fold.ts";
import type { Plan } from "../../src/model/plan.ts";
import { type Lead, LeadContext } from "../../src/organizer/app-context.ts";
import { LockPage } from "../../src/organizer/lock-page.tsx";
import { LockedPage } from "../../src/organizer/what-is-fixed.tsx";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { readyPlan } from "../design/scenario.ts";
import { device, newLead, now, stream, study } from "./lead-page.tsx";

let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

async function show(plan: Plan): Promise<void> {
  const draft = await lead.store.append(device, now, {
    stream,
    kind: "draft-saved",
    body: { base: null, merged: [], plan },
  });
  render(
    <LeadContext.Provider value={lead}>
      <LockPage id={study} state={foldStudy([draft])} fetching={{ at: now, thrown: null }} />
    </LeadContext.Provider>,
  );
}
const action = () => screen.queryByRole("button", { name: lockWords.lock.action });

test("before the lock it says what a window that closes too early costs, and the way on", async () => {
  await show(readyPlan());
  expect(action()).not.toBeNull();
  expect(screen.getByText(lockWords.lock.crash(dayWords.actions.copy))).toBeTruthy();
});

test("a plan for five people cannot be locked, and the point leads to its field", async () => {
  const plan = readyPlan({ people: 5 });
  await show({ ...plan, waves: plan.waves.map((wave, at) => ({ ...wave, people: 3 - at })) });
  expect(action()).toBeNull();
  const [link, ...others] = screen.getAllByRole("link", { name: /no verdict/ });
  expect(link?.getAttribute("href")).toBe(`#/study/${study}/field/people-people`);
  expect(others).toEqual([]);
});

test("a last cup that would be cold may be locked, with its minutes and what to change said beside it", async () => {
  const plan = readyPlan();
  await show({ ...plan, pace: { ...plan.pace, windowFrom: 4, windowTo: 10 } });
  expect(action()).not.toBeNull();
  // 4 min, eleven further trays of 20 s, three times 60 s: 10.67 min
  expect(screen.getByText(/10\.7 minutes after the heat, and you allow 10\..*waves of 10 at most/)).toBeTruthy();
});

test("one page says all that is fixed, safety and consent with it, what can still happen, and the way to a changed plan", async () => {
  await show(readyPlan());
  const { still } = lockWords.lock;
  const page = document.body.textContent ?? "";
  for (const line of still.events(false)) expect(page).toContain(line);
  expect(page).toContain(still.changed(dayWords.actions.copy));
  expect(page).toContain("74\u00a0\u00b0C at the core");
  expect(page).toContain("You taste: meatballs.");
  expect(page).toContain("Odalys Brandt, kitchen office");
});

test("once it is locked the same page stands without the word to type, and its button begins a study that names this one", async () => {
  render(
    <LeadContext.Provider value={lead}>
      <LockedPage id={study} plan={readyPlan()} />
    </LeadContext.Provider>,
  );
  expect(action()).toBeNull();
  fireEvent.click(screen.getByRole("button", { name: dayWords.actions.copy }));
  await waitFor(() => expect(window.location.hash).toMatch(/^#\/study\//));
  const begun = window.location.hash.split("/").at(-1) ?? "";
  const facts = await lead.store.ownFacts({ kind: "study", id: begun });
  const [draft] = facts.filter((fact) => fact.kind === "draft-saved");
  expect(draft?.body.plan.copiedFrom).toEqual({ study, title: readyPlan().title });
});
