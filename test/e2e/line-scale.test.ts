import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { ScaleResult } from "../../src/model/result.ts";
import { trayLabel } from "../../src/model/tray.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { reader } from "../../src/words/en/reader.ts";
import { linePlan } from "../design/scenario.ts";
import { freePort, laptop, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

// A line scale on two tablets: one is offline for half of its trays, on the other everything is done by keyboard.

const { folder, remove } = scratch("line-scale");
const booths = { a: new Machine(join(folder, "a"), tablet), b: new Machine(join(folder, "b"), tablet) };
const desk = new Machine(join(folder, "reader"), laptop);
let server: ServerProcess;
let lead: ApiLead;
let a: TabletHands;
let b: TabletHands;
/** Made up for this test: where each panelist marks each product, in tenths, so that a digit key can place it. */
const marks = [
  [3, 5, 6],
  [4, 4, 6],
  [5, 7, 8],
  [3, 6, 5],
];

const plan = (() => {
  const planned = linePlan();
  const [juicy] = planned.scale.attributes;
  if (!juicy) throw new Error("no attribute");
  const firstBite = { ...juicy, id: juicy.id.replace(/4$/, "5"), moment: { at: "first-bite" as const } };
  return {
    ...planned,
    people: marks.length,
    spares: 0,
    serving: { ...planned.serving, pauseSeconds: 0 },
    waves: planned.waves.map((wave) => ({ ...wave, people: marks.length / 2 })),
    // one second of chewing, so that nobody has to wait ten here
    scale: { lengthMm: 120, attributes: [{ ...juicy, moment: { at: "after" as const, seconds: 1 } }, firstBite] },
  };
})();

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = await ApiLead.enroll(server);
  await lead.lock(plan);
  a = new TabletHands(await (await booths.a.start()).newPage());
  b = new TabletHands(await (await booths.b.start()).newPage());
});
afterAll(async () => {
  for (const each of [booths.a, booths.b, desk]) await each.close();
  await server.end("SIGTERM");
  remove();
});

const codesOf = (tray: number): string[] => lead.trays.blind.find((one) => one.tray === tray)?.codes ?? [];

/** The tenth at which this tray's panelist marks a sample: told by the key, which only this test knows. */
function tenthOf(tray: number, code: string): number {
  const sample = lead.trays.key.trays.find((one) => one.tray === tray)?.samples.find((one) => one.code === code);
  return marks[tray - 1]?.[plan.products.findIndex(({ id }) => id === sample?.product)] ?? 0;
}

/** A whole tray by touch: first bite, then the later moment, which gets the same place. */
async function byTouch(hands: TabletHands, tray: number): Promise<void> {
  await hands.compare(tray);
  for (const code of codesOf(tray)) {
    await hands.bite(code);
    await hands.markAndKeep(0.5);
    await hands.markAndKeep(tenthOf(tray, code) / 10);
  }
  await hands.heading(words.remark.title).waitFor();
  await hands.finish();
  await hands.button(words.nextPerson).click();
}

/** A whole tray with keys alone. */
async function byKeyboard({ page, heading }: TabletHands, tray: number): Promise<void> {
  const press = async (...keys: string[]) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const focused = () =>
    page.evaluate(() => {
      const element = document.activeElement;
      return element?.closest("label")?.textContent || element?.textContent || "";
    });
  const onTheLine = () => page.evaluate(() => document.activeElement?.closest(".band") !== null);
  const tabTo = async (name: RegExp | null) => {
    for (let tabs = 0; tabs < 30; tabs++) {
      await press("Tab");
      if (name ? name.test(await focused()) : await onTheLine()) return;
    }
    throw new Error(`no control ${name} can be reached`);
  };
  await press(...trayLabel(tray).replace("-", ""), "Enter");
  await heading(words.consent.title).waitFor();
  await tabTo(new RegExp(words.consent.agree));
  await press("Enter");
  await heading(words.clearance.title).waitFor();
  await tabTo(new RegExp(words.clearance.clear));
  await press("Enter");
  await heading(words.rules.title).waitFor();
  await tabTo(new RegExp(words.rules.go));
  await press("Enter");
  await heading(lineWords.compare.title).waitFor();
  await tabTo(new RegExp(lineWords.compare.match));
  await press("Enter");
  for (const code of codesOf(tray)) {
    await heading(lineWords.take.title).waitFor();
    await tabTo(new RegExp(words.tasting.next));
    await press("Enter");
    for (const tenth of [5, tenthOf(tray, code)]) {
      await page.locator(".scale:not([inert]) .band[data-state=empty]").waitFor();
      // nothing is marked yet, so nothing can be kept
      expect(await page.getByRole("slider").count()).toBe(0);
      await tabTo(null);
      await press(String(tenth));
      await page.getByRole("slider").waitFor();
      await tabTo(new RegExp(words.question.keep));
      await press("Enter");
    }
  }
  await heading(words.remark.title).waitFor();
  await tabTo(new RegExp(words.remark.go));
  await press("Enter");
  await heading(words.thanks.title).waitFor();
  await tabTo(new RegExp(words.nextPerson));
  await press("Enter");
  await heading(words.rest.title).waitFor();
}

test("a tablet without a card check refuses the tray in words; after it, half of the trays are answered offline", {
  timeout: 600_000,
}, async () => {
  await a.enroll(server.origin, await lead.tabletCode("Booth A"), "Booth A");
  await a.offlineReady();
  await a.openTray(1);
  await a.page.getByRole("alert").waitFor();
  expect(await lead.ballotEvents()).toEqual([]);
  // a card of 85.60 mm is 445 px long where 150 mm are 780
  await a.measure(445);
  await a.leaveCheck();
  await byTouch(a, 1);
  await server.end("SIGKILL");
  await a.page.reload();
  await byTouch(a, 2);
  expect((await a.stored()).filter((row) => row.endsWith("unsent")).length).toBeGreaterThan(6);
  await server.start();
});

test("with the keyboard alone, and never a value before the first mark", { timeout: 600_000 }, async () => {
  await b.enroll(server.origin, await lead.tabletCode("Booth B"), "Booth B");
  await b.measure(445);
  await b.leaveCheck();
  for (const tray of [3, 4]) await byKeyboard(b, tray);
  await expect
    .poll(async () => (await lead.events()).events.length, { timeout: 60_000 })
    .toBe(
      // the lock; and a tray is opened, six questions are kept, it is finished
      1 + marks.length * 8,
    );
});

test("opened, the report has every mark where it was made, and the terminal gives the same numbers from the CSV", {
  timeout: 600_000,
}, async () => {
  const { heads } = await lead.events();
  await lead.say("study-closed", { heads, knownUnsent: 0, note: "" });
  await lead.say("key-revealed", { heads: (await lead.events()).heads, opened: lead.opened });
  const { page } = await readerAt(await lead.readerCode("Priya Lindqvist"));
  await page.getByText("juic", { exact: false }).first().waitFor();
  const result = JSON.parse(readFileSync(await saved(page, reader.exports.json), "utf8")) as ScaleResult;
  const [asked] = result.attributes;
  expect(result.attributes.map(({ moment }) => moment)).toEqual([{ at: "after", seconds: 1 }, { at: "first-bite" }]);
  expect(asked?.people).toBe(marks.length);
  expect(asked?.incomplete).toEqual([]);
  for (const [at, { values }] of (asked?.panelists ?? []).entries()) {
    // a finger's tap lands within a pixel of 0.2 points
    for (const [product, value] of values.entries()) {
      expect(Math.abs((value ?? -99) - 10 * (marks[at]?.[product] ?? 0))).toBeLessThan(0.5);
    }
  }
  // by the classical formulas of two-way classification, from the values themselves
  const values = (asked?.panelists ?? []).map((one) => one.values.map((value) => value ?? Number.NaN));
  expect(asked?.blocks?.fValue).toBeCloseTo(blockF(values), 8);
  expect(asked?.blocks).toMatchObject({ numeratorDf: 2, denominatorDf: 6 });

  const csv = await saved(page, reader.exports.csv);
  const main = join(import.meta.dirname, "../../dist/rooms/cli/main.js");
  const out = execFileSync(process.execPath, [main, "result", csv, "--method", "line-scale", "--json"]).toString();
  const again = JSON.parse(out) as ScaleResult;
  expect(again.attributes.map(({ blocks }) => blocks?.fValue?.toPrecision(10))).toEqual(
    result.attributes.map(({ blocks }) => blocks?.fValue?.toPrecision(10)),
  );
});

/** F of products over panelist by product, everything there: sums of squares about the means. */
function blockF(values: number[][]): number {
  const mean = (list: number[]) => list.reduce((sum, each) => sum + each, 0) / list.length;
  const [people, products] = [values.length, values[0]?.length ?? 0];
  const grand = mean(values.flat());
  const rows = values.map(mean);
  const columns = Array.from({ length: products }, (_, product) =>
    mean(values.map((row) => row[product] ?? Number.NaN)),
  );
  const between = columns.reduce((sum, column) => sum + people * (column - grand) ** 2, 0);
  const left = values.reduce(
    (sum, row, person) =>
      sum + row.reduce((s, v, product) => s + (v - (rows[person] ?? 0) - (columns[product] ?? 0) + grand) ** 2, 0),
    0,
  );
  return between / (products - 1) / (left / ((products - 1) * (people - 1)));
}

async function readerAt(code: string) {
  const page = await (await desk.start()).newPage();
  await page.goto(`${server.origin}/report/?study=${lead.study}`);
  await page.getByLabel(reader.enroll.code).fill(code);
  await page.getByLabel(reader.enroll.name).fill("Priya Lindqvist");
  await page.getByRole("button", { name: reader.enroll.submit, exact: true }).click();
  return { page };
}

async function saved(page: Awaited<ReturnType<typeof readerAt>>["page"], button: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return path;
}
