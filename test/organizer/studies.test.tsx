// @vitest-environment happy-dom
import "fake-indexeddb/auto";
import { cleanup, fireEvent, screen, waitFor, within } from "@testing-library/preact";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { writePlanFile } from "../../src/archive/plan-file.ts";
import { knownFacts } from "../../src/device/pull.ts";
import { foldStudy } from "../../src/log/fold.ts";
import { kitchenStream } from "../../src/model/event.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Lead } from "../../src/organizer/app-context.ts";
import { readStudies } from "../../src/organizer/facts.ts";
import { studyAddress } from "../../src/organizer/route.ts";
import { Studies } from "../../src/organizer/studies.tsx";
import { Study } from "../../src/organizer/study.tsx";
import { found, type Known, knownStudies } from "../../src/organizer/study-find.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { studiesWords as words } from "../../src/words/en/organizer-studies.ts";
import { planFileWords } from "../../src/words/en/plan-file.ts";
import { kitchenOf } from "../design/kitchen.ts";
import { linePlan, preferencePlan, readyPlan } from "../design/scenario.ts";
import { tabletA, Writer } from "../log/example.ts";
import { asLead, device, newLead } from "./lead-page.tsx";

describe("finding studies", () => {
  const known = (id: string, plan: Plan, more: Partial<Known> = {}): Known => ({
    ...{ id, plan, stage: "draft", answered: 0, planned: 0, begun: null, last: null },
    ...more,
  });
  const steam = known("steam", readyPlan());
  const diners = known("diners", preferencePlan(), { stage: "revealed" });
  const salt = known("salt", readyPlan({ title: "Less salt in the purée", objective: "Do canteens notice?" }));
  const all = [steam, diners, salt];
  const ids = (words: string, stage: Known["stage"] | null = null): string[] =>
    found(all, { words, stage }).map(({ id }) => id);

  test.each([
    ["", ["steam", "diners", "salt"]],
    ["  ", ["steam", "diners", "salt"]],
    ["STEAM", ["steam", "diners"]],
    ["steam diners", ["diners"]],
    ["puree", ["salt"]],
    ["PURÉE salt", ["salt"]],
    ["canteen", ["salt"]],
    ["current", ["steam", "diners", "salt"]],
    ["vinegar", []],
  ])("%j in title, question or products", (typed, expected) => {
    expect(ids(typed)).toEqual(expected);
  });

  test("by where they stand, alone and with words", () => {
    expect(ids("", "revealed")).toEqual(["diners"]);
    expect(ids("salt", "revealed")).toEqual([]);
  });

  test("a study at each stage, with its counts, latest change first", () => {
    const log = new Writer();
    const locked = foldStudy([log.lock()]);
    const collecting = foldStudy([...locked.facts.values(), ...log.ballot(tabletA, 1, "482")]);
    const rows = knownStudies([
      { id: "b", state: locked },
      { id: "a", state: collecting },
    ]);
    expect(rows.map(({ id, stage, answered }) => [id, stage, answered])).toEqual([
      ["a", "collecting", 1],
      ["b", "locked", 0],
    ]);
    expect(rows.every(({ begun, last }) => begun !== null && last !== null && begun <= last)).toBe(true);
  });
});

describe("the page of studies", () => {
  let lead: Lead;
  beforeEach(async () => {
    lead = await newLead();
  });
  afterEach(async () => {
    cleanup();
    window.location.hash = "";
    await lead.store.close();
  });
  const ids = [1, 2, 3].map((at) => `b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e1${at}`);
  async function drafts(...plans: Plan[]): Promise<void> {
    for (const [at, plan] of plans.entries()) {
      const stream = { kind: "study" as const, id: ids[at] ?? "" };
      const time = `2026-05-03T1${at}:00:00.000Z`;
      await lead.store.append(device, time, { stream, kind: "draft-saved", body: { base: null, merged: [], plan } });
    }
  }
  const links = (): string[] =>
    within(screen.getByRole("table"))
      .getAllByRole("link")
      .map((link) => link.textContent ?? "");
  /** The plan of the study that the page went to. */
  async function planGoneTo(): Promise<Plan | undefined> {
    await waitFor(() => expect(window.location.hash).toMatch(/^#\/study\//));
    const id = window.location.hash.split("/")[2] ?? "";
    return foldStudy(await knownFacts(lead.store, { kind: "study", id })).draft?.plan;
  }

  test("without a study it says what belongs here, why there is none, and the next action first", async () => {
    asLead(lead, <Studies />);
    await screen.findByRole("heading", { name: words.emptyHeading, level: 1 });
    expect(screen.getByText(words.empty)).toBeTruthy();
    expect(screen.getAllByRole("button")[0]?.textContent).toBe(words.begin);
    expect(screen.queryByLabelText(words.find.words)).toBeNull();
  });

  test("a study that is begun does what the kitchen usually does", async () => {
    const body = { base: null, merged: [], kitchen: kitchenOf() };
    await lead.store.append(device, lead.now(), { stream: kitchenStream, kind: "kitchen-saved", body });
    asLead(lead, <Studies />);
    fireEvent.click(await screen.findByRole("button", { name: words.begin }));
    const plan = await planGoneTo();
    expect([plan?.serving, plan?.place, plan?.alpha]).toEqual([kitchenOf().serving, kitchenOf().place, 0.01]);
  });

  test("finds by words and by state, says how many, and shows all again", async () => {
    await drafts(readyPlan(), preferencePlan(), linePlan());
    asLead(lead, <Studies />);
    await screen.findByLabelText(words.find.words);
    const titles = [linePlan().title, preferencePlan().title, readyPlan().title];
    expect(links()).toEqual(titles);
    const status = screen.getByRole("status");
    expect(status.textContent).toBe(words.find.shown(3, 3));
    fireEvent.input(screen.getByLabelText(words.find.words), { target: { value: "preferred" } });
    expect(links()).toEqual([preferencePlan().title]);
    expect(status.textContent).toBe(words.find.shown(1, 3));
    fireEvent.input(screen.getByLabelText(words.find.words), { target: { value: "vinegar" } });
    expect(status.textContent).toBe(words.find.none);
    fireEvent.click(screen.getByRole("button", { name: words.find.clear }));
    expect(links()).toEqual(titles);
    const options = within(screen.getByLabelText(words.find.state)).getAllByRole("option");
    // only states that a study is in can be chosen
    expect(options.map(({ textContent }) => textContent)).toEqual([
      words.find.all,
      words.find.count(words.find.states.draft, 3),
    ]);
  });

  test("a copy is a draft of its own, and says which study it came from", async () => {
    await drafts(readyPlan(), readyPlan({ title: "Steam first? (copy)" }));
    asLead(lead, <Studies />);
    const row = (await screen.findByRole("link", { name: readyPlan().title })).closest("tr") ?? document.body;
    const button = within(row).getByRole("button");
    expect(button.textContent).toBe(`${words.copy}${words.copyOf(readyPlan().title)}`);
    fireEvent.click(button);
    const plan = await planGoneTo();
    expect(plan?.title).toBe("Steam first? (copy 2)");
    expect(plan?.copiedFrom).toEqual({ study: ids[0], title: readyPlan().title });
    expect(await readStudies(lead.store)).toHaveLength(3);
    cleanup();
    const id = window.location.hash.split("/")[2] ?? "";
    asLead(lead, <Study route={{ page: "study", id }} />);
    const link = await screen.findByRole("link", { name: readyPlan().title });
    expect(link.getAttribute("href")).toBe(studyAddress(ids[0] ?? ""));
    expect(link.closest("p")?.textContent).toContain(words.copiedFrom);
  });

  test("a copy of the demo is a study like any other", async () => {
    await drafts(readyPlan({ invented: true, title: "Demo: Steam first?" }));
    asLead(lead, <Studies />);
    const row = (await screen.findByRole("link", { name: "Demo: Steam first?" })).closest("tr") ?? document.body;
    fireEvent.click(within(row).getByRole("button"));
    const plan = await planGoneTo();
    expect([plan?.title, plan?.invented, plan?.copiedFrom?.title]).toEqual([
      "Steam first? (copy)",
      false,
      "Demo: Steam first?",
    ]);
  });

  test("a file that holds no plan is refused with its field and begins nothing; corrected, it begins a study", async () => {
    asLead(lead, <Studies />);
    const input = await screen.findByLabelText<HTMLInputElement>(planFileWords.begin, { selector: "input" });
    const text = writePlanFile(readyPlan(), { id: ids[0] ?? "", title: "Steam first?" });
    const choose = (said: string): void => {
      Object.defineProperty(input, "files", { configurable: true, value: [new File([said], "plan.json")] });
      fireEvent.change(input);
    };
    choose(text.replace('"people": 24', '"people": "many"'));
    expect((await screen.findByRole("alert")).textContent).toContain("plan.json: \u201cpeople\u201d");
    expect(await readStudies(lead.store)).toEqual([]);
    choose(text);
    const plan = await planGoneTo();
    expect([plan?.title, plan?.people, plan?.declarationsComplete]).toEqual(["Steam first?", 24, false]);
    // this kitchen has no such study: its title stands there, and no link that leads nowhere
    cleanup();
    asLead(lead, <Study route={{ page: "study", id: window.location.hash.split("/")[2] ?? "" }} />);
    const from = await screen.findByText(new RegExp(words.copiedFrom));
    expect([from.textContent, from.querySelector("a")]).toEqual([`${words.copiedFrom} Steam first?`, null]);
  });

  test("a study of the demo says in the list that it is invented", async () => {
    await drafts(readyPlan({ invented: true, title: "" }));
    asLead(lead, <Studies />);
    const row = (await screen.findByRole("link", { name: organizer.untitled })).closest("tr");
    expect(row?.textContent).toContain(words.invented);
  });
});
