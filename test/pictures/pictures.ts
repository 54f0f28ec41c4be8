import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { afterAll, test } from "vitest";
import { trianglePlan } from "../../src/demo/plans-choice.ts";
import { linePlan } from "../../src/demo/plans-marks.ts";
import type { Plan } from "../../src/model/plan.ts";
import { demoWords } from "../../src/words/en/demo.ts";
import { dayWords } from "../../src/words/en/organizer-day.ts";
import { lockWords } from "../../src/words/en/organizer-lock.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { studiesWords } from "../../src/words/en/organizer-studies.ts";
import { LeadHands } from "../e2e/lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "../e2e/machine.ts";
import { everyPlanState, everyTabletState } from "../e2e/states.ts";
import { ApiLead } from "../e2e/study-by-api.ts";
import { TabletHands } from "../e2e/tablet.ts";

// Question: how does it look? `npm run pictures` renews the pictures of README.md, which stand in this folder, from the
// demo; with CLOCHE_PICTURES=FOLDER every state, size and paper goes there as well, to be looked at.
const everything = process.env.CLOCHE_PICTURES;
const here = import.meta.dirname;
const phone = { width: 390, height: 844 };
const upright = { width: 810, height: 1080 };
const { folder, remove } = scratch("pictures");
const machines: Machine[] = [];
const servers: ServerProcess[] = [];

afterAll(async () => {
  for (const each of machines) await each.close();
  for (const each of servers) await each.end("SIGTERM");
  remove();
}, 60_000);

async function serve(name: string): Promise<ServerProcess> {
  const server = new ServerProcess(await freePort(), join(folder, name));
  servers.push(server);
  await server.start();
  return server;
}

async function open(name: string, viewport: Machine["viewport"]): Promise<Page> {
  const machine = new Machine(join(folder, name), viewport);
  machines.push(machine);
  return (await machine.start()).newPage();
}

async function take(name: string, page: Page): Promise<void> {
  if (!everything) return;
  const own = page.viewportSize() ?? laptop;
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

/** A picture of README.md: the window as it stands, or the page from its top to the end of something on it. */
async function keep(name: string, page: Page, last?: Locator): Promise<void> {
  const path = join(here, `${name}.png`);
  if (!last) return void (await page.screenshot({ path }));
  await page.evaluate(() => window.scrollTo(0, 0));
  const box = await last.boundingBox();
  const { width } = page.viewportSize() ?? laptop;
  const clip = { x: 0, y: 0, width, height: Math.ceil((box?.y ?? 0) + (box?.height ?? 0) + 8) };
  await page.screenshot({ path, fullPage: true, clip });
}

/** The first sheet of a paper as it leaves the printer, small. */
async function keepSheet(name: string, page: Page): Promise<void> {
  const pdf = join(folder, `${name}.pdf`);
  writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true, printBackground: false }));
  execFileSync("pdftoppm", ["-r", "72", "-png", "-singlefile", "-f", "1", "-l", "1", pdf, join(here, name)]);
}

/** Where each study of the demo is, by a part of its title. */
async function openStudy(lead: LeadHands, title: string): Promise<void> {
  await lead.page.goto(`${new URL(lead.page.url()).origin}/organizer/#/`);
  const link = lead.page.locator("table.studies th a").filter({ hasText: title });
  await link.click();
  await lead.page.getByText(demoWords.invented).waitFor();
  lead.choose(lead.page.url().split("/study/")[1] ?? "");
}

const reports = {
  "report-triangle": "can our staff tell?",
  "report-preference": "prefer?",
  "report-line": "how juicy?",
};

/** What the demo shows, from the list of its studies to its reports. */
async function ofTheDemo(lead: LeadHands): Promise<void> {
  const { page } = lead;
  await lead.button(demoWords.offer.load).click();
  await page.locator("table.studies th a").nth(9).waitFor();
  await keep("studies", page);
  await openStudy(lead, "can our staff tell?");
  await keep("day", page, page.locator("section", { hasText: "Wave 2" }).last());
  await lead.go("papers/tray-cards");
  await page.locator(".desk").waitFor();
  await keepSheet("cards", page);
  for (const [name, title] of Object.entries(reports)) {
    await openStudy(lead, title);
    await page.getByRole("link", { name: dayWords.actions.report }).click();
    await page.getByRole("img").first().waitFor();
    await keep(name, page, page.getByRole("img").first());
  }
}

/** The plan of a copy: how many people, with the chance of finding it; and what is asked on the line. */
async function ofPlans(lead: LeadHands, server: ServerProcess): Promise<void> {
  const { page } = lead;
  for (const [name, title, part, from] of [
    ["plan", "can our staff tell?", "people", "part-people"],
    ["plan-line", "how juicy?", "method", "scale-length"],
  ] as const) {
    await page.goto(`${server.origin}/organizer/#/`);
    const row = page.locator("table.studies tbody tr", { has: page.locator("th a", { hasText: title }) }).last();
    await row.getByRole("button", { name: new RegExp(`^${studiesWords.copy}`) }).click();
    const toggle = page.getByRole("button", { name: new RegExp(`^${planWords.change}.*${planWords.parts[part]}$`) });
    await toggle.click();
    await lead.field(from).evaluate((element) => element.scrollIntoView({ block: "start" }));
    await keep(name, page);
  }
}

/** The tablet: a triangle with a choice made, a line with a mark on it. Nobody waits between samples here. */
async function ofTablets(triangle: ApiLead, line: ApiLead, server: ServerProcess): Promise<void> {
  const unhurried = (plan: Plan): Plan => ({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
  const codes = ({ trays }: ApiLead) => trays.blind.find(({ tray }) => tray === 1)?.codes ?? [];
  await triangle.lock(unhurried(trianglePlan()));
  const first = new TabletHands(await open("tablet 1", tablet));
  await first.enroll(server.origin, await triangle.tabletCode("Booth 1"), "Booth 1");
  await first.taste(1, codes(triangle));
  await first.pick(codes(triangle)[1] ?? "");
  await keep("tablet", first.page);
  await line.lock(unhurried(linePlan()));
  const second = new TabletHands(await open("tablet 2", tablet));
  await second.enroll(server.origin, await line.tabletCode("Booth 2"), "Booth 2");
  await second.measure(445);
  await second.leaveCheck();
  await second.compare(1);
  await second.bite(codes(line)[0] ?? "");
  await second.markAt(0.62);
  await keep("tablet-line", second.page);
}

test("pictures of README.md", async () => {
  const server = await serve("demo");
  const api = await ApiLead.enroll(server);
  const other = await ApiLead.enroll(server, await api.leadCode("Office"));
  const lead = new LeadHands(await open("lead of the demo", laptop));
  await lead.setUp(`${server.origin}/organizer/#setup=${await api.leadCode("Laptop")}`, "Odalys Brandt");
  await ofTheDemo(lead);
  await ofPlans(lead, server);
  await ofTablets(api, other, server);
});

if (everything) test("pictures of every screen", everyScreen);

async function everyScreen(): Promise<void> {
  const server = await serve("every");
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
}
