import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import type { Body } from "../../src/model/event.ts";
import { newId } from "../../src/model/id.ts";
import type { Plan } from "../../src/model/plan.ts";
import { trayLabel } from "../../src/model/tray.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { choiceAnswers, choiceQuestions, panelChoice } from "../../src/words/en/panel-choice.ts";
import { rankingPlan, readyPlan } from "../design/scenario.ts";
import { clean } from "./axe.ts";
import { freePort, options, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

// Every ballot of a choice, on a tablet by touch without any network, and on a phone's width by keyboard alone.
// What must be kept follows from what is pressed; the ballots themselves are those of domain practice, no source.

const { folder, remove } = scratch("choice-ballots");
const phone = { width: 390, height: 844 };
let browser: Browser;
let server: ServerProcess;
let first: ApiLead;
let context: BrowserContext | null = null;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), folder);
  await server.start();
  first = await ApiLead.enroll(server);
  browser = await chromium.launch(options);
});
afterEach(async () => {
  await context?.close();
  context = null;
});
afterAll(async () => {
  await browser.close();
  await server.end("SIGTERM");
  remove();
});

const [current, steamed] = readyPlan().products.map(({ id }) => id);
const property = (comparative: string, definition: string): Plan["properties"][number] => ({
  id: newId(),
  name: comparative,
  comparative,
  definition,
  expected: steamed ?? null,
  inFamily: true,
});
const juicier = property("juicier", "Juice that is felt in the mouth while chewing.");
const properties = [juicier, property("firmer", ""), property("more salty", "Salt as tasted, not as smelled.")];

type Ballot = {
  method: Plan["method"];
  change?: Partial<Plan>;
  /** What a finger touches on tray 1, question by question; what must be kept for it. By place on the tray, or in words. */
  touches: (string | number)[][];
  keeps: Answer[];
  /** Keys on tray 2 once the first answer has the focus, and what must be kept for them. */
  keys: string[];
  keepsByKeys: Answer;
};
/** In words, by place on the tray, or an order of places. */
type Answer = string | number | number[];

const ballots: Ballot[] = [
  { method: "triangle", touches: [[1]], keeps: [1], keys: ["ArrowRight", "ArrowRight"], keepsByKeys: 2 },
  { method: "duo-trio", touches: [[1]], keeps: [1], keys: ["Space"], keepsByKeys: 0 },
  {
    method: "paired-difference",
    change: { properties },
    touches: [[1], [0], [1]],
    keeps: [1, 0, 1],
    keys: ["ArrowRight"],
    keepsByKeys: 1,
  },
  {
    method: "three-alternative",
    change: { properties: [juicier] },
    touches: [[2]],
    keeps: [2],
    keys: ["ArrowRight"],
    keepsByKeys: 1,
  },
  // the second and the fourth put together leave the third to the first one
  {
    method: "tetrad",
    touches: [[1, 3]],
    keeps: [2],
    keys: ["ArrowRight", "Space", "ArrowRight", "Space"],
    keepsByKeys: 3,
  },
  {
    method: "same-different",
    change: { dPrimeSought: 1.5 },
    touches: [[choiceAnswers.different]],
    keeps: ["different"],
    keys: ["Space"],
    keepsByKeys: "same",
  },
  {
    method: "a-not-a",
    change: { dPrimeSought: 1.5, reference: { kind: "constant", product: current ?? null } },
    touches: [[choiceAnswers["not-a"]]],
    keeps: ["not-a"],
    keys: ["Space"],
    keepsByKeys: "a",
  },
  // one more touch on a sample takes it out again
  {
    method: "ranking",
    touches: [[2, 0, 1, 0, 3, 0]],
    keeps: [[2, 1, 3, 0]],
    keys: ["Space", "ArrowLeft", "Space", "ArrowLeft", "Space", "ArrowLeft", "Space"],
    keepsByKeys: [0, 3, 2, 1],
  },
  {
    method: "paired-preference",
    change: { noPreference: "dropped" },
    touches: [[choiceAnswers.none]],
    keeps: ["none"],
    keys: ["Space"],
    keepsByKeys: 0,
  },
];

test.each(ballots)("$method", async ({ method, change, touches, keeps, keys, keepsByKeys }) => {
  const lead = await ApiLead.enroll(server, await first.leadCode("Odalys Brandt"));
  const begin = method === "ranking" ? rankingPlan : readyPlan;
  const plan = begin({ method, people: 4, spares: 0, ...change });
  const waves = plan.waves.map((wave) => ({ ...wave, people: 2 }));
  await lead.lock({ ...plan, waves, serving: { ...plan.serving, pauseSeconds: 0 } });
  const codes = (tray: number): string[] => lead.trays.blind.find((one) => one.tray === tray)?.codes ?? [];
  const meant = (tray: number, answer: Answer): string =>
    typeof answer === "string"
      ? answer
      : [answer]
          .flat()
          .map((place) => codes(tray)[place])
          .join(" ");

  context = await browser.newContext({ viewport: tablet, hasTouch: true, reducedMotion: "reduce" });
  const page = await context.newPage();
  const hands = new TabletHands(page);
  await hands.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
  await hands.offlineReady();

  // from a cold start on there is no network
  await context.setOffline(true);
  await page.reload();
  await hands.openTray(1);
  await hands.button(words.consent.agree).tap();
  await hands.button(words.clearance.clear).tap();
  await hands.button(words.rules.go).tap();
  // of what every ballot has in common one is looked at
  const special =
    method === "triangle" ||
    method === "tetrad" ||
    method === "duo-trio" ||
    method === "a-not-a" ||
    method === "ranking";
  if (special) await clean(`${method}: cups`, page);
  const asked = choiceQuestions(`${method}-1`, plan.properties, plan.ranking);
  await tasteByTouch(page);
  for (const [at, places] of touches.entries()) {
    await hands.heading(asked[at] ?? "").waitFor();
    await page.getByText(panelChoice.place(at + 1, touches.length)).waitFor();
    if (at === 0) await clean(`${method}: question`, page);
    await equalFields(page);
    for (const answer of places) {
      const shown = typeof answer === "number" ? [...meant(1, answer)].join(" ") : answer;
      await page
        .locator(".three .field")
        .filter({ hasText: new RegExp(`^${shown}`) })
        .tap();
    }
    await equalFields(page);
    if (special) await clean(`${method}: answered`, page);
    await hands.button(words.question.keep).tap();
    // kept is kept: a page loaded anew goes on at the next question
    if (at === 0 && touches.length > 1) {
      await hands.heading(asked[1] ?? "").waitFor();
      await page.reload();
    }
  }
  await hands.heading(words.remark.title).waitFor();
  await hands.finish();
  await hands.button(words.nextPerson).tap();

  await page.setViewportSize(phone);
  await tasteByKeys(page, 2);
  await hands.heading(asked[0] ?? "").waitFor();
  await clean(`${method}: question on a phone`, page);
  await equalFields(page);
  await tabTo(page, ".three .field, .three input");
  for (const key of keys) await page.keyboard.press(key);
  await tabTo(page, "button.next");
  await page.keyboard.press("Enter");

  const before = keeps.map((answer, at) => [1, at + 1, meant(1, answer)]);
  await expect.poll(() => kept(page)).toEqual([...before, [2, 1, meant(2, keepsByKeys)]]);
  await context.setOffline(false);
  await page.reload(); // asks the server at once
  const arrived = [...keeps.map(() => "1 answer-kept"), "2 answer-kept"];
  await expect
    .poll(async () => (await lead.ballotEvents()).filter((event) => event.endsWith("answer-kept")), { timeout: 60_000 })
    .toEqual(arrived);
});

/** Every cup in its turn, the lettered one first where there is one. */
async function tasteByTouch(page: Page): Promise<void> {
  const cups = await page.locator(".three .field").count();
  for (let place = 0; place < cups; place++) {
    await page.locator(".field.turn").nth(0).tap();
    if (place + 1 < cups) await page.locator(`.three .field:nth-child(${place + 2}).turn`).waitFor();
  }
}

async function tasteByKeys(page: Page, tray: number): Promise<void> {
  await page.getByRole("heading", { name: words.rest.title }).waitFor();
  await tabTo(page, "#tray");
  await page.keyboard.type(trayLabel(tray).replace("-", ""));
  await page.keyboard.press("Enter");
  for (const title of [words.consent.title, words.clearance.title, words.rules.title]) {
    await page.getByRole("heading", { name: title, exact: true }).waitFor();
    await tabTo(page, "button.next");
    await page.keyboard.press("Enter");
  }
  await page.locator(".three .field").first().waitFor();
  const cups = await page.locator(".three .field").count();
  for (let place = 0; place < cups; place++) {
    await page.locator(`.three .field:nth-child(${place + 1}).turn`).waitFor();
    await tabTo(page, ".field.turn");
    await page.keyboard.press("Enter");
  }
}

/** Tabs until something that the selector means has the focus. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let tabs = 0; tabs < 40; tabs++) {
    await page.keyboard.press("Tab");
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
  }
  throw new Error(`nothing like ${selector} can be reached`);
}

/** All fields of one size, so that none is first in any way but its place. */
async function equalFields(page: Page): Promise<void> {
  const sizes = await page.locator(".three .field").evaluateAll((fields) =>
    fields.map((field) => {
      const { width, height } = field.getBoundingClientRect();
      return `${width.toFixed(1)} × ${height.toFixed(1)}`;
    }),
  );
  expect(sizes.length).toBeGreaterThan(1);
  expect(new Set(sizes).size).toBe(1);
}

/** Tray, question and choice of what this tablet keeps, read past the app. */
const kept = (page: Page): Promise<[number, number, string][]> =>
  page.evaluate(
    () =>
      new Promise<[number, number, string][]>((done) => {
        const open = indexedDB.open("cloche-panel");
        open.onsuccess = () => {
          const all = open.result.transaction("events").objectStore("events").index("place").getAll();
          all.onsuccess = () => {
            open.result.close();
            const events = all.result.map(({ text }: { text: string }) => JSON.parse(text));
            done(
              events
                .filter(({ kind }) => kind === "answer-kept")
                .map(({ body }: { body: Body<"answer-kept"> }) => [body.tray, body.question, body.choice]),
            );
          };
        };
      }),
  );
