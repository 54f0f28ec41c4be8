import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, test } from "vitest";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { LeadHands } from "../e2e/lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "../e2e/machine.ts";
import { everyPlanState, everyTabletState } from "../e2e/states.ts";
import { TabletHands } from "../e2e/tablet.ts";

// Question: how does every screen and paper look? `npm run pictures` renews the pictures of README.md, which stand in
// this folder; with CLOCHE_PICTURES=FOLDER every state, size and paper goes there, to be looked at.
const everything = process.env.CLOCHE_PICTURES;
const here = import.meta.dirname;
const forReadme: Record<string, string> = {
  "lead plan people": "plan",
  "tablet question with a choice": "tablet",
  "lead day": "day",
  report: "report",
};
const phone = { width: 390, height: 844 };
const upright = { width: 810, height: 1080 };
const { folder, remove } = scratch("pictures");
const machines: Machine[] = [];
let server: ServerProcess;

afterAll(async () => {
  for (const each of machines) await each.close();
  await server?.end("SIGTERM");
  remove();
});

async function open(name: string, viewport: Machine["viewport"]): Promise<Page> {
  const machine = new Machine(join(folder, name), viewport);
  machines.push(machine);
  return (await machine.start()).newPage();
}

async function take(name: string, page: Page): Promise<void> {
  const own = page.viewportSize() ?? laptop;
  const wanted = forReadme[name];
  if (wanted) await page.screenshot({ path: join(here, `${wanted}.png`) });
  if (!everything) return;
  mkdirSync(everything, { recursive: true });
  const file = name.replaceAll(" ", "-");
  const sizes = name.startsWith("tablet") ? { flat: tablet, upright } : { laptop, phone };
  for (const [size, viewport] of Object.entries(sizes)) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: join(everything, `${file}.${size}.png`), fullPage: !name.startsWith("tablet") });
  }
  await page.setViewportSize(own);
  if (name.includes("paper ") || name === "report") await print(page, join(everything, file));
}

/** The page as paper: a PDF by the browser, and each of its pages as a picture. */
async function print(page: Page, path: string): Promise<void> {
  writeFileSync(`${path}.pdf`, await page.pdf({ preferCSSPageSize: true, printBackground: false }));
  execFileSync("pdftoppm", ["-r", "60", "-png", `${path}.pdf`, path]);
}

test("pictures of every screen", async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  const lead = new LeadHands(await open("lead", laptop));
  await lead.setUp(server.setupAddress(), "Odalys Brandt");
  const { passphrase, sheet } = await everyPlanState(lead, take);
  const codes = (tray: number) => sheet.find((row) => row.tray === tray)?.cups.map((cup) => cup.code) ?? [];
  const odd = (tray: number) => {
    const cups = sheet.find((row) => row.tray === tray)?.cups ?? [];
    const letters = cups.map((cup) => cup.letter);
    return cups.find(({ letter }) => letters.filter((l) => l === letter).length === 1)?.code ?? "";
  };
  const hands = new TabletHands(await open("tablet", tablet));
  await hands.page.goto(`${server.origin}/panel/`);
  await take("tablet enrollment", hands.page);
  await hands.enroll(server.origin, await lead.tabletCode("Booth 1"), "Booth 1");
  await take("lead tablets", lead.page);
  await everyTabletState(hands, codes, take);
  for (let tray = 5; tray <= 24; tray++) {
    await hands.answer(tray, codes(tray), tray <= 17 ? odd(tray) : (codes(tray).find((c) => c !== odd(tray)) ?? ""));
    if (tray === 12) {
      await lead.answered(9, 24);
      await take("lead day", lead.page);
      for (const step of ["void", "spare", "settle", "close", "open"]) {
        await lead.go(step);
        await lead.page.locator("h1").waitFor();
        await take(`lead ${step}`, lead.page);
      }
    }
  }
  await lead.answered(21, 24);
  await lead.close();
  await lead.openKey(passphrase);
  await lead.page.getByText(lockWords.open.done).waitFor();
  await lead.page.getByRole("link", { name: lockWords.open.report }).click();
  await lead.page.getByRole("img").first().waitFor();
  await take("report", lead.page);
});
