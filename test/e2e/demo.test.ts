import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { demoPassphrase } from "../../src/demo/chance.ts";
import { demoWords } from "../../src/words/en/demo.ts";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { paperWords } from "../../src/words/en/organizer-papers.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { axe } from "./axe.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { TabletHands } from "./tablet.ts";

// One click on an empty start page, then a walk through what is there: from the list over the days to the reports, and
// with the waiting study to a tablet.

const { folder, remove } = scratch("demo");
const desk = new Machine(join(folder, "lead"), laptop);
const booth = new Machine(join(folder, "tablet"), tablet);
let server: ServerProcess;
let lead: LeadHands;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = new LeadHands(await (await desk.start()).newPage());
  await lead.setUp(server.setupAddress(), "Odalys Brandt");
});
afterAll(async () => {
  await desk.close();
  await booth.close();
  await server.end("SIGTERM");
  remove();
});

const links = () => lead.page.locator("table.studies th a");

test("one click loads it and leads to the list of studies, each marked as invented", async () => {
  await lead.button(demoWords.offer.load).waitFor();
  expect(await axe(lead.page)).toEqual([]);
  await lead.button(demoWords.offer.load).click();
  await links().nth(11).waitFor({ timeout: 120_000 });
  // newest first by what was written last: masses were put beside one study two days after its tasting
  expect(await links().allInnerTexts()).toEqual([
    "Demo: With or without the rest, alike enough?",
    "Demo: Steam first, how well is it liked?",
    "Demo: Steam first, what do chewed portions gain?",
    "Demo: Steam first, in which order?",
    "Demo: Steam first, juicy to the end?",
    "Demo: Steam first, how juicy?",
    "Demo: Steam first, the juicier of three",
    "Demo: Steam first, is it juicier?",
    "Demo: Steam first, four cups",
    "Demo: Steam first, is it told from what we know?",
    "Demo: Steam first, which do diners prefer?",
    "Demo: Steam first, can our staff tell?",
  ]);
  expect(await lead.page.locator("table.studies tbody tr", { hasText: "invented" }).count()).toBe(12);
  expect(await lead.button(demoWords.offer.load).count()).toBe(0);
  expect(await axe(lead.page)).toEqual([]);
});

test.each([
  ["can our staff tell?", /14 of 24/],
  ["which do diners prefer?", /31/],
  ["how juicy?", /11\.9/],
  ["is it told from what we know?", /22 of 36/],
  ["four cups", /10 of 18/],
  ["is it juicier?", /18 of 24/],
  ["the juicier of three", /13 of 24/],
  ["juicy to the end?", /14\.2/],
  ["in which order?", /12\.10/],
  ["how well is it liked?", /0\.60/],
  ["what do chewed portions gain?", /2\.9 percentage points/],
])("“%s”: from its day to its report, which has the number and says that it is invented", async (title, number) => {
  await lead.page.goto(`${server.origin}/organizer/#/`);
  await links().filter({ hasText: title }).click();
  await lead.page.getByText(demoWords.invented).waitFor();
  await lead.page.getByRole("link", { name: dayWords.actions.report }).click();
  await lead.page.getByRole("img").first().waitFor();
  const text = (await lead.page.locator("main").textContent()) ?? "";
  expect(text).toMatch(number);
  expect(text).toMatch(/invented/i);
});

test("the claim behind them: two rivals are contradicted, two explanations are left; axe finds nothing on either page", async () => {
  await lead.page.goto(`${server.origin}/organizer/#/claims`);
  await lead.page.getByRole("link", { name: /Steam first keeps the juice in/ }).waitFor();
  expect(await axe(lead.page)).toEqual([]);
  await lead.page.getByRole("link", { name: /Steam first keeps the juice in/ }).click();
  const standings = lead.page.locator(".standings dt");
  await expect
    .poll(async () => (await standings.allInnerTexts()).map((text) => /contradicted by/.test(text)))
    .toEqual([false, true, true, false]);
  const text = (await lead.page.locator("main").textContent()) ?? "";
  expect(text).toMatch(/18\s?of\s?24 for new/);
  expect(text).toMatch(/invented/i);
  for (const summary of await lead.page.locator("details.declared > summary").all()) await summary.click();
  expect(await axe(lead.page)).toEqual([]);
  await lead.page.setViewportSize({ width: 390, height: 844 });
  expect(await lead.page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThan(2);
  await lead.page.setViewportSize(laptop);
});

test("the reader's list marks them as invented too", async () => {
  await lead.page.goto(`${server.origin}/report/`);
  await lead.page.locator("ul.studies li", { hasText: "invented" }).nth(10).waitFor();
  expect(await lead.page.locator("ul.studies li").count()).toBe(11);
  expect(await axe(lead.page)).toEqual([]);
});

test("the study that waits: its passphrase is shown and opens its kitchen sheet, and a tablet has those codes", async () => {
  await lead.page.goto(`${server.origin}/organizer/#/`);
  await links().filter({ hasText: "alike enough?" }).click();
  await lead.page.getByText(demoPassphrase()).waitFor();
  lead.choose(lead.page.url().split("/study/")[1] ?? "");
  const code = await lead.tabletCode("Booth 1");
  await lead.go("papers/kitchen-by-tray");
  await lead.field("open-passphrase").fill(demoPassphrase());
  await lead.button(paperWords.open.action).click();
  const [first] = await lead.kitchenSheet();
  const hands = new TabletHands(await (await booth.start()).newPage());
  await hands.enroll(server.origin, code, "Booth 1");
  await hands.openTray(1);
  await hands.agree();
  await hands.button(words.clearance.clear).click();
  await hands.button(words.rules.go).click();
  const codes = hands.page.getByRole("button", { name: new RegExp([...(first?.cups[0]?.code ?? "-")].join(" ")) });
  await codes.waitFor();
  expect(first?.cups).toHaveLength(3);
});
