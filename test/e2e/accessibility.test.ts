import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { trayLabel } from "../../src/model/tray.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { axe } from "./axe.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { everyPlanState, everyTabletState } from "./states.ts";
import { TabletHands } from "./tablet.ts";

const { folder, remove } = scratch("accessibility");
const leadMachine = new Machine(join(folder, "lead"), laptop);
const tabletMachine = new Machine(join(folder, "tablet"), tablet);
let server: ServerProcess;
const violations: string[] = [];
let visited = 0;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
});
afterAll(async () => {
  await leadMachine.close();
  await tabletMachine.close();
  await server.end("SIGTERM");
  remove();
});

/** axe, and no sideways scrolling. */
async function look(name: string, page: Page): Promise<void> {
  visited += 1;
  violations.push(...(await axe(page)).map((found) => `${name}: ${found}`));
  const sideways = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  if (sideways > 1) violations.push(`${name}: scrolls ${sideways} px sideways`);
}

/** The lead, and what opens the key: handed from one test to the next, since a study goes one way only. */
let lead: LeadHands;
let opens = "";

test("axe finds nothing on any screen of lead and tablet up to the close, and nothing scrolls sideways", {
  timeout: 600_000,
}, async () => {
  lead = new LeadHands(await (await leadMachine.start()).newPage());
  await lead.page.goto(server.setupAddress());
  await lead.page.locator("h1").waitFor();
  await look("lead set-up", lead.page);
  await lead.setUp(server.setupAddress(), "Odalys Brandt");
  const { passphrase, sheet } = await everyPlanState(lead, look);
  opens = passphrase;
  const codes = (tray: number) => sheet.find((row) => row.tray === tray)?.cups.map((cup) => cup.code) ?? [];

  const hands = new TabletHands(await (await tabletMachine.start()).newPage());
  await hands.page.goto(`${server.origin}/panel/`);
  await hands.page.getByLabel(panelEnroll.code).waitFor();
  await look("tablet enrollment", hands.page);
  await hands.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
  await look("lead tablets", lead.page);
  await everyTabletState(hands, codes, look);

  await lead.answered(1, 24);
  await look("lead day", lead.page);
  await lead.page.setViewportSize({ width: 390, height: 844 });
  await look("lead day on a phone", lead.page);
  for (const step of ["void", "spare", "settle", "admit", "close", "open"]) {
    await lead.go(step);
    await lead.page.locator("h1").waitFor();
    await look(`lead ${step} on a phone`, lead.page);
  }
  await lead.page.setViewportSize(laptop);
  expect(violations).toEqual([]);
  expect(visited).toBeGreaterThan(40);
});

test("a whole tray can be answered with the keyboard alone", async () => {
  const page = tabletMachinePage();
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  /** Tabs until the control with this name has the focus. */
  const tabTo = async (name: RegExp) => {
    for (let tabs = 0; tabs < 40; tabs++) {
      await press("Tab");
      const focused = await page.evaluate(() => {
        const element = document.activeElement as HTMLInputElement | null;
        return element?.closest("label")?.textContent || element?.textContent || "";
      });
      if (name.test(focused)) return;
    }
    throw new Error(`no control ${name} can be reached`);
  };
  await page.reload();
  await page.getByRole("heading", { name: words.rest.title }).waitFor();
  await press(...trayLabel(5).replace("-", ""), "Enter");
  await page.getByRole("heading", { name: words.consent.title }).waitFor();
  await tabTo(new RegExp(words.consent.agree));
  await press("Enter");
  await page.getByRole("heading", { name: words.clearance.title }).waitFor();
  await tabTo(new RegExp(words.clearance.clear));
  await press("Enter");
  await page.getByRole("heading", { name: words.rules.title }).waitFor();
  await tabTo(new RegExp(words.rules.go));
  await press("Enter");
  await page.getByRole("heading", { name: words.tasting.title }).waitFor();
  for (let place = 0; place < 3; place++) {
    await tabTo(new RegExp(words.tasting.next));
    await press("Enter");
  }
  await page.getByRole("radio").first().waitFor({ state: "attached" });
  await tabTo(/\d/);
  await press("ArrowRight");
  await tabTo(new RegExp(words.question.keep));
  await press("Enter");
  await page.getByRole("heading", { name: words.remark.title }).waitFor();
  await tabTo(new RegExp(words.remark.go));
  await press("Enter");
  await page.getByRole("heading", { name: words.thanks.title }).waitFor();
});

test("axe finds nothing on the opened report either", { timeout: 600_000 }, async () => {
  await lead.close();
  await lead.openKey(opens);
  await lead.page.getByText(lockWords.open.done).waitFor();
  await lead.page.getByRole("link", { name: lockWords.open.report }).click();
  await lead.page.locator("h1").waitFor();
  await lead.page.getByRole("img").first().waitFor();
  await look("report", lead.page);
  await lead.page.setViewportSize({ width: 390, height: 844 });
  await look("report on a phone", lead.page);

  expect(violations).toEqual([]);
});

const tabletMachinePage = (): Page => pageOf(tabletMachine);
function pageOf(machine: Machine): Page {
  const page = machine.page();
  if (!page) throw new Error("the first test has not opened this page");
  return page;
}
