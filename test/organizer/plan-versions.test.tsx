// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { knownFacts } from "../../src/device/pull.ts";
import { foldStudy, type StudyState } from "../../src/log/fold.ts";
import type { Fact } from "../../src/model/event.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { useStudy } from "../../src/organizer/facts.ts";
import { LockPage } from "../../src/organizer/lock-page.tsx";
import { PlanPage } from "../../src/organizer/plan-page.tsx";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { versionWords as words } from "../../src/words/en/organizer-versions.ts";
import { undoWords } from "../../src/words/en/undo.ts";
import { readyPlan } from "../design/scenario.ts";
import { asLead, device, newLead, now, stream, study } from "./lead-page.tsx";

const phone = "bbbbbbbb-bbbb-4bbb-8bbb-bbbbbbbbbbbb";
let lead: Lead;
beforeEach(async () => {
  lead = await newLead();
});
afterEach(async () => {
  cleanup();
  await lead.store.close();
});

const state = async (): Promise<StudyState> => foldStudy(await knownFacts(lead.store, stream));
const kept = async (): Promise<Plan | undefined> => (await state()).draft?.plan;
async function saved(by: string, plan: Plan, base: string | null = null): Promise<Fact> {
  return lead.store.append(by, now, { stream, kind: "draft-saved", body: { base, merged: [], plan } });
}
function ThePage({ of: Of }: { of: typeof PlanPage | typeof LockPage }) {
  const known = useStudy(lead.store, study);
  return known ? <Of id={study} state={known} fetching={{ at: now, thrown: null }} field={null} /> : null;
}
const open = (): void => void asLead(lead, <ThePage of={PlanPage} />);
const button = (name: string | RegExp) => screen.findByRole("button", { name });
const press = async (name: string | RegExp) => fireEvent.click(await button(name));

describe("two leads who changed one plan without knowing of each other", () => {
  const mine = readyPlan({ objective: "Do they taste it?", ifNo: "Stay with the old oven." });
  const theirs = readyPlan({ objective: "Do the canteens taste it?", people: 30 });
  beforeEach(async () => {
    const first = await saved(device, readyPlan());
    await saved(device, mine, first.id);
    await saved(phone, theirs, first.id);
  });

  test("which stands, who wrote it, and field by field what differs", async () => {
    open();
    await screen.findByText("You see the version that was written last: by tablet bbbb", { exact: false });
    const list = screen.getAllByRole("list").find((each) => each.className === "differences") ?? document.body;
    const said = within(list)
      .getAllByRole("listitem")
      .map((row) => [...row.querySelectorAll(".label, dd")].map((each) => each.textContent).join(" | "));
    expect(said).toEqual([
      "question | Do the canteens taste it? | Do they taste it?",
      "if no | Ask about cost only. | Stay with the old oven.",
      "people | 30 | 24",
    ]);
  });

  test("a single text is taken over, and the rest stays; then one version stands, with all three in the log", async () => {
    open();
    await press(/^take this over ?: if no/);
    await waitFor(async () => expect((await kept())?.ifNo).toBe(mine.ifNo));
    expect(screen.queryByText("if no")).toBeNull();
    // taking over is a change like any other
    expect(await button(/^Undo: if no/)).toBeTruthy();
    await press(words.keep);
    await waitFor(async () => expect((await state()).otherDrafts).toEqual([]));
    expect(await kept()).toEqual({ ...theirs, ifNo: mine.ifNo });
    await waitFor(() => expect(screen.queryByText(words.heading(2))).toBeNull());
    expect((await state()).facts.size).toBe(5);
  });

  test("the whole other version is taken", async () => {
    open();
    await press(new RegExp(`^${words.takeAll}`));
    await waitFor(async () => expect(await kept()).toEqual(mine));
    expect((await state()).otherDrafts).toEqual([]);
  });

  test("typing settles nothing: both stay", async () => {
    open();
    await press(new RegExp(`^${planWords.change}.*${planWords.parts.question}`));
    const field = await screen.findByLabelText(planWords.question.title);
    fireEvent.input(field, { target: { value: "Steam, then?" } });
    fireEvent.focusOut(field);
    await waitFor(async () => expect((await kept())?.title).toBe("Steam, then?"));
    expect((await state()).otherDrafts.map(({ plan }) => plan.ifNo)).toEqual([mine.ifNo]);
  });

  test("neither is locked before somebody says which one counts", async () => {
    asLead(lead, <ThePage of={LockPage} />);
    await screen.findByText(words.lock, { exact: false });
    expect(screen.queryByRole("button", { name: lockWords.lock.action })).toBeNull();
  });
});

test("in whatever order the versions come, every device has the same one, and no text is lost", async () => {
  const first = await saved(device, readyPlan());
  const a = await saved(device, readyPlan({ ifYes: "a" }), first.id);
  const b = await saved(phone, readyPlan({ ifNo: "b" }), first.id);
  const both = { base: b.id, merged: [a.id], plan: readyPlan({ ifYes: "a", ifNo: "b" }) };
  const settled = await lead.store.append(phone, now, { stream, kind: "draft-saved", body: both });
  const late = await saved(device, readyPlan({ ifYes: "a, later" }), a.id);
  const orders = [
    [first, a, b, settled, late],
    [late, settled, b, a, first],
    [settled, late, first, b, a],
    [b, late, a, settled, first, late],
  ];
  for (const facts of orders) {
    const { draft, otherDrafts } = foldStudy(facts);
    expect([draft, ...otherDrafts].map((each) => each?.plan.ifYes)).toEqual(["a, later", "a"]);
    expect(otherDrafts[0]?.plan.ifNo).toBe("b");
  }
  // an event of an older app names no others, and settles none
  const older = { ...settled, body: { base: b.id, plan: both.plan } } as unknown as Fact;
  expect(foldStudy([first, a, b, older]).otherDrafts).toHaveLength(1);
});

describe("taking back", () => {
  beforeEach(async () => void (await saved(device, readyPlan({ objective: "" }))));
  const people = () => screen.findByLabelText<HTMLInputElement>(planWords.people.people);

  test("change after change by Ctrl+Z, and forward again; what is taken back is kept and told", async () => {
    open();
    await press(new RegExp(`^${planWords.change}.*${planWords.parts.people}`));
    const field = await people();
    fireEvent.input(field, { target: { value: "30" } });
    fireEvent.focusOut(field);
    await button("Undo: people: 24 \u2192 30");
    const spares = await screen.findByLabelText(planWords.people.spares);
    fireEvent.input(spares, { target: { value: "5" } });
    fireEvent.focusOut(spares);
    await button("Undo: spare trays: 3 \u2192 5");
    // in a field that is typed into, the keys are the browser's own
    fireEvent.keyDown(await people(), { key: "z", ctrlKey: true });
    await button("Undo: spare trays: 3 \u2192 5");
    fireEvent.keyDown(document.body, { key: "z", ctrlKey: true });
    await screen.findByText(undoWords.undone("spare trays: 3 \u2192 5"));
    fireEvent.keyDown(document.body, { key: "z", metaKey: true });
    await waitFor(async () => expect([(await kept())?.people, (await kept())?.spares]).toEqual([24, 3]));
    expect((await people()).value).toBe("24");
    fireEvent.keyDown(document.body, { key: "Z", ctrlKey: true, shiftKey: true });
    await waitFor(async () => expect((await kept())?.people).toBe(30));
    await press("Redo: spare trays: 3 \u2192 5");
    await waitFor(async () => expect((await kept())?.spares).toBe(5));
    expect(screen.queryByRole("button", { name: /^Redo/ })).toBeNull();
    expect((await state()).otherDrafts).toEqual([]);
  });

  test("a version from elsewhere is not taken back by accident", async () => {
    open();
    await press(new RegExp(`^${planWords.change}.*${planWords.parts.people}`));
    const field = await people();
    fireEvent.input(field, { target: { value: "30" } });
    fireEvent.focusOut(field);
    await waitFor(async () => expect((await kept())?.people).toBe(30));
    await saved(phone, readyPlan({ people: 36 }), (await state()).draft?.event ?? null);
    await waitFor(async () => expect((await people()).value).toBe("36"));
    expect(screen.queryByRole("button", { name: /^Undo/ })).toBeNull();
  });
});
