import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { plannable } from "../../src/model/method.ts";
import { demoWords } from "../../src/words/en/demo.ts";
import { reader } from "../../src/words/en/reader.ts";
import { report } from "../../src/words/en/report.ts";
import { csvOf, wineRows } from "../analysis/score-rows.ts";
import { axe } from "./axe.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";

// A reader's browser on the three families of results: every state at three widths, on paper, as files, and a file of
// answers from elsewhere.

const { folder, remove } = scratch("families");
const desk = new Machine(join(folder, "lead"), laptop);
const office = new Machine(join(folder, "reader"), laptop);
let server: ServerProcess;
let page: Page;
/** Address of each opened study, by a word of its title. */
const addresses = new Map<string, string>();

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  const api = await ApiLead.enroll(server);
  const lead = new LeadHands(await (await desk.start()).newPage());
  await lead.setUp(`${server.origin}/organizer/#setup=${await api.leadCode("Odalys Brandt")}`, "Odalys Brandt");
  await lead.button(demoWords.offer.load).click();
  await lead.page.locator("table.studies th a").nth(3).waitFor({ timeout: 60_000 });
  const { code } = (await api.post("/api/codes", { role: "reader", study: null, name: "" })) as { code: string };
  page = await (await office.start()).newPage();
  await page.goto(`${server.origin}/report/`);
  await page.getByLabel(reader.enroll.code).fill(code);
  await page.getByLabel(reader.enroll.name).fill("Priya Lindqvist");
  await page.getByRole("button", { name: reader.enroll.submit }).click();
  await page.locator(".studies a").nth(2).waitFor();
  for (const link of await page.locator(".studies a").all()) {
    const word = /tell|prefer|juicy(?=\?)/.exec((await link.textContent()) ?? "")?.[0] ?? "";
    addresses.set(word, `${server.origin}/report/${await link.getAttribute("href")}`);
  }
}, 180_000);
afterAll(async () => {
  await desk.close();
  await office.close();
  await server.end("SIGTERM");
  remove();
});

async function open(word: string): Promise<void> {
  await page.goto(addresses.get(word) ?? "");
  await page.locator("h1.verdict").waitFor();
}

/** What axe finds at the widest and the narrowest, and how far the page scrolls sideways at each width. */
async function looked(name: string): Promise<string[]> {
  const found: string[] = [];
  for (const width of [390, 810, 1280]) {
    await page.setViewportSize({ width, height: 844 });
    await page.waitForFunction((wide) => window.innerWidth === wide, width);
    const here = width === 810 ? [] : await axe(page);
    found.push(...here.map((violation) => `${name} at ${width}: ${violation}`));
    const sideways = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    if (sideways > 1) found.push(`${name} at ${width}: scrolls ${sideways} px sideways`);
  }
  return found;
}

describe.each(["tell", "prefer", "juicy"])("the result of “%s”", (word) => {
  test("axe finds nothing with every detail open, from 390 to 1280 px", { timeout: 600_000 }, async () => {
    await open(word);
    for (const summary of await page.locator("summary").all()) await summary.click();
    expect(await looked(word)).toEqual([]);
  });

  test.each(["A4", "Letter"] as const)(
    "on %s: heads repeat, tables stay whole, every page has its foot",
    async (format) => {
      await page.setViewportSize(laptop);
      await open(word);
      const file = join(folder, `${word}-${format}.pdf`);
      writeFileSync(file, await page.pdf({ format, printBackground: false }));
      const pages = execFileSync("pdftotext", ["-layout", file, "-"]).toString().split("\f").slice(0, -1);
      for (const [at, text] of pages.entries()) {
        expect(text).toMatch(new RegExp(`page ${at + 1} of ${pages.length} · commitment`));
        // a page that goes on with the trays of the key names its columns again
        if (/^ *\d+-\d +[A-C]{2,3} /m.test(text)) expect(text).toContain(reader.details.samples);
      }
      const [first = ""] = pages;
      expect(first).toContain("an invented kitchen");
      if (word !== "juicy") return;
      const pairs = pages.find((text) => text.includes("Differences in")) ?? "";
      for (const cell of ["11.9", "13.3", "p, adjusted (Tukey)"]) expect(pairs).toContain(cell);
    },
  );

  test("its pictures are saved as SVG and PNG, for a page and for a screen", async () => {
    await open(word);
    for (const [button, size] of [
      [reader.exports.png, null],
      [reader.exports.screenPng, [1920, 1080]],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: button, exact: true }).click(),
      ]);
      const bytes = readFileSync(await download.path());
      expect(download.suggestedFilename()).toMatch(/^demo-.*\.png$/);
      // PNG: signature, then width and height in the first chunk
      expect(bytes.subarray(1, 4).toString("latin1")).toBe("PNG");
      if (size) expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)]).toEqual(size);
      // white paper alone compresses to less
      expect(bytes.length).toBeGreaterThan(10_000);
    }
  });
});

describe("answers from elsewhere", () => {
  const start = async (): Promise<void> => {
    await page.setViewportSize(laptop);
    await page.goto(`${server.origin}/report/?elsewhere`);
    await page.getByRole("heading", { name: reader.elsewhere.heading }).waitFor();
  };
  const choose = (text: string) =>
    page
      .getByLabel(reader.elsewhere.file)
      .setInputFiles({ name: "wine.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  const compute = () => page.getByRole("button", { name: reader.elsewhere.submit }).click();

  test("axe finds nothing on the form of each method, with an error, and on a result", {
    timeout: 600_000,
  }, async () => {
    await start();
    const found: string[] = [];
    for (const method of plannable.map((each) => report.methods[each])) {
      await page.getByRole("radio", { name: method, exact: true }).check();
      found.push(...(await looked(method)));
    }
    await compute();
    await page.getByText(reader.elsewhere.missingFile).waitFor();
    found.push(...(await looked("error")));
    await page.getByRole("radio", { name: report.methods["line-scale"], exact: true }).check();
    await choose(csvOf(wineRows));
    await compute();
    await page.locator("h1.verdict").waitFor();
    found.push(...(await looked("result")));
    expect(found).toEqual([]);
  });

  test("with the network away after the page came, by keyboard alone: a result, and not one request", async () => {
    await start();
    await choose(csvOf(wineRows));
    const asked: string[] = [];
    page.on("request", (request) => void (request.url().startsWith("http") && asked.push(request.url())));
    await page.context().setOffline(true);
    await page.getByRole("radio", { name: report.methods.triangle, exact: true }).focus();
    const steps = plannable.indexOf("line-scale") - plannable.indexOf("triangle");
    for (let step = 0; step < steps; step++) await page.keyboard.press("ArrowDown");
    await page.getByText(reader.elsewhere.columns.scale).waitFor();
    await page.keyboard.press("Enter");
    await page.locator("h1.verdict").waitFor();
    await page.waitForFunction(() => document.activeElement?.tagName === "H1");
    await page.context().setOffline(false);
    expect(asked).toEqual([]);
    expect(await page.locator("main").textContent()).toContain("67.3");
  });
});
