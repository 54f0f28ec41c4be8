import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { organizer } from "../../src/words/en/organizer.ts";
import { kitchenWords } from "../../src/words/en/organizer-kitchen.ts";
import { studiesWords } from "../../src/words/en/organizer-studies.ts";
import { tabletWords } from "../../src/words/en/organizer-tablets.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { axe } from "./axe.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";

const { folder, remove } = scratch("kitchen");
const machines = {
  first: new Machine(join(folder, "first"), laptop),
  second: new Machine(join(folder, "second"), { width: 390, height: 844 }),
  tablet: new Machine(join(folder, "tablet"), tablet),
};
let server: ServerProcess;
let first: LeadHands;
const violations: string[] = [];
const leadRole = tabletWords.make.roles.find(({ value }) => value === "lead")?.label ?? "";
beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  first = new LeadHands(await (await machines.first.start()).newPage());
  await first.setUp(server.setupAddress(), "Odalys Brandt");
});
afterAll(async () => {
  for (const machine of Object.values(machines)) await machine.close();
  await server.end("SIGTERM");
  remove();
});

/** axe, and no sideways scrolling, at the size of the page. */
async function look(name: string, page: Page): Promise<void> {
  violations.push(...(await axe(page)).map((found) => `${name}: ${found}`));
  const sideways = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (sideways > 1) violations.push(`${name}: scrolls ${sideways} px sideways`);
}
const go = (page: Page, place: string) => page.goto(`${server.origin}/organizer/#/${place}`);
const place = (page: Page) => page.locator("#kitchen-place");
const allSent = (page: Page) => page.locator(".bar .end", { hasText: /sent \d\d:\d\d$/ }).waitFor();

test("two leads, one of them without the network, change the kitchen's defaults: nothing is lost, and one settles it", {
  timeout: 300_000,
}, async () => {
  const { page } = first;
  await go(page, "kitchen");
  await place(page).fill("Quillmere Kitchen");
  await first.button(kitchenWords.property.add).click();
  // the focus goes to the new field with the next frame; letters typed before it would be lost
  await page.locator('[id^="property-"][id$="-name"]:focus').waitFor();
  await page.keyboard.type("Juiciness");
  await page.keyboard.press("Tab");
  await allSent(page);
  await look("kitchen", page);

  // the second lead is set up by the address that a phone would scan
  await go(page, "devices");
  await page.getByLabel(leadRole).check();
  await first.button(tabletWords.make.submit).click();
  const code = (await page.locator(".big-code").textContent()) ?? "";
  await look("a one-time code", page);
  const phone = new LeadHands(await (await machines.second.start()).newPage());
  await phone.page.goto(`${server.origin}/organizer/#setup=${code}`);
  await phone.page.getByLabel(organizer.setup.name).fill("Ilse");
  await phone.button(organizer.setup.submit).click();
  await page.getByText(tabletWords.code.used("Ilse")).waitFor();
  // the server knows the phone before the phone does; until then a new place in its address would be lost
  await phone.page.locator(".bar .end").waitFor();
  await go(phone.page, "kitchen");
  await phone.page.locator("summary", { hasText: "Juiciness" }).waitFor();
  expect(await place(phone.page).inputValue()).toBe("Quillmere Kitchen");

  await phone.page.context().setOffline(true);
  await place(phone.page).fill("tasting room");
  await phone.page.keyboard.press("Tab");
  await go(page, "kitchen");
  await place(page).fill("window bench");
  await page.keyboard.press("Tab");
  await allSent(page);
  await phone.page.context().setOffline(false);

  for (const at of [page, phone.page]) await at.getByText(kitchenWords.versions.heading(2)).waitFor();
  await look("two versions on a phone", phone.page);
  const seen = await place(page).inputValue();
  const other = seen === "window bench" ? "tasting room" : "window bench";
  expect(await place(phone.page).inputValue()).toBe(seen);
  await page.getByRole("button", { name: new RegExp(`^${kitchenWords.versions.take}`) }).click();
  for (const at of [page, phone.page]) {
    await at.getByText(kitchenWords.versions.heading(2)).waitFor({ state: "detached" });
    expect(await place(at).inputValue()).toBe(other);
  }
  expect(violations).toEqual([]);
});

test("a study begins with the defaults; the list finds it by keyboard, and copies it", {
  timeout: 300_000,
}, async () => {
  const { page } = first;
  await go(page, "");
  for (const title of ["Steam first?", "Less salt"]) {
    await first.button(studiesWords.begin).click();
    await page.locator("#question-title").fill(title);
    await page.keyboard.press("Tab");
    await go(page, "");
  }
  await page.getByRole("link", { name: "Steam first?" }).waitFor();
  await look("list of studies", page);
  await page.getByLabel(studiesWords.find.words).focus();
  await page.keyboard.type("salt");
  await page.getByText(studiesWords.find.shown(1, 2)).waitFor();
  await page.setViewportSize({ width: 390, height: 844 });
  await look("list of studies on a phone", page);
  await page.setViewportSize(laptop);
  await page.getByRole("button", { name: /^copy/ }).focus();
  await page.keyboard.press("Enter");
  await first.heading("Less salt (copy)").waitFor();
  await page.getByRole("link", { name: "Less salt", exact: true }).waitFor();
  await look("a copied plan", page);
  expect(violations).toEqual([]);
});

test("nothing that a tablet receives says anything of the kitchen's defaults", { timeout: 300_000 }, async () => {
  const received: string[] = [];
  const context = await machines.tablet.start();
  const page = await context.newPage();
  context.on("response", (response) => {
    if (response.url().includes("/api/")) void response.text().then((text) => received.push(text));
  });
  await page.goto(`${server.origin}/panel/#code=${await first.tabletCode("Booth 1")}`);
  await page.locator("#name").fill("Booth 1");
  await page.getByRole("button", { name: panelEnroll.go }).click();
  await expect.poll(() => received.some((text) => text.includes('"packet"')), { timeout: 60_000 }).toBe(true);
  expect(received.join()).not.toMatch(/bench|tasting room|Juiciness/);
});
