import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeEvent } from "../../src/log/facts.ts";
import type { Paper } from "../../src/model/event.ts";
import type { EnrollReply } from "../../src/model/http.ts";
import { newEventId, newId } from "../../src/model/id.ts";
import type { Plan } from "../../src/model/plan.ts";
import { organizer } from "../../src/words/en/organizer.ts";
import { kitchenPapers } from "../../src/words/en/organizer-kitchen-papers.ts";
import { paperWords } from "../../src/words/en/organizer-papers.ts";
import { planWords } from "../../src/words/en/organizer-plan.ts";
import { chewPlan, linePlan, preferencePlan } from "../design/scenario.ts";
import { LeadHands } from "./lead.ts";
import { freePort, laptop, Machine, ServerProcess, scratch } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";

const { folder, remove } = scratch("print-papers");
const machine = new Machine(join(folder, "profile"), laptop);
let server: ServerProcess;
let api: ApiLead;
let page: Page;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  api = await ApiLead.enroll(server);
  const { code } = (await api.post("/api/codes", { role: "lead", study: null, name: "" })) as { code: string };
  page = await (await machine.start()).newPage();
  await page.goto(`${server.origin}/organizer/#setup=${code}`);
  await page.getByLabel(organizer.setup.name).fill("Odalys Brandt");
  await page.getByRole("button", { name: organizer.setup.submit, exact: true }).click();
  await page.getByRole("navigation", { name: organizer.bar.nav }).waitFor();
});
afterAll(async () => {
  await machine.close();
  await server.end("SIGTERM");
  remove();
});

/** Begins a study with a whole plan from another lead's device, and locks it on the laptop. */
async function locked(plan: Plan): Promise<string> {
  const { code } = (await api.post("/api/codes", { role: "lead", study: null, name: "" })) as { code: string };
  const me = (await api.post("/api/enroll", { code, name: "Odalys Brandt" })) as EnrollReply;
  const study = newId();
  const draft = writeEvent({
    ...{ id: newEventId(), stream: { kind: "study", id: study }, device: me.device, seq: 1, prev: null },
    ...{ at: "2026-05-03T08:00:00.000Z", kind: "draft-saved", body: { base: null, merged: [], plan } },
  });
  await api.post("/api/events", { events: [draft.text], attachments: [], status: null }, me.token);
  await page.goto(`${server.origin}/organizer/#/study/${study}`);
  await page.getByRole("button", { name: planWords.toLock }).waitFor({ timeout: 60_000 });
  await new LeadHands(page).lock(async () => {
    pdfs.set("sealed-page", await pdf("sealed-page"));
  });
  await page.getByRole("heading", { name: paperWords.heading, level: 1, exact: true }).waitFor();
  return study;
}

/** Files by paper, as they were printed last. */
const pdfs = new Map<string, string>();

async function pdf(name: string): Promise<string> {
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true, printBackground: false }));
  return file;
}

async function show(study: string, paper: Paper, size: "A4" | "Letter"): Promise<void> {
  await page.goto(`${server.origin}/organizer/#/study/${study}/papers/${paper}`);
  await page.locator(".desk .paper").first().waitFor();
  await page.getByLabel(size, { exact: true }).check();
  await page.locator(`.desk .paper.${size.toLowerCase()}`).first().waitFor();
}

const textOf = (file: string): string[] =>
  execFileSync("pdftotext", ["-layout", file, "-"]).toString().split("\f").slice(0, -1);

/** Width and height of the first page, in millimeters. */
function sizeOf(file: string): { width: number; height: number } {
  const html = execFileSync("pdftotext", ["-bbox", "-f", "1", "-l", "1", file, "-"]).toString();
  const [, width, height] = /<page width="([\d.]+)" height="([\d.]+)"/.exec(html) ?? [];
  return { width: (Number(width) * 25.4) / 72, height: (Number(height) * 25.4) / 72 };
}

const dpi = 300;
const inMm = (dots: number): number => (dots * 25.4) / dpi;

/** Dark stretches of a page that are longer than 90 mm: how long each is and how far down, one for each stroke. */
function strokes(file: string, at = 1): { lengthMm: number; downMm: number }[] {
  const name = join(folder, "page");
  execFileSync("pdftoppm", ["-r", String(dpi), "-gray", "-f", String(at), "-l", String(at), "-singlefile", file, name]);
  const raw = readFileSync(`${name}.pgm`);
  const [head = "", width = "", height = ""] =
    /^P5\s+(\d+)\s+(\d+)\s+\d+\s/.exec(raw.subarray(0, 40).toString("latin1")) ?? [];
  const found: { lengthMm: number; downMm: number }[] = [];
  for (let y = 0; y < Number(height); y++) {
    const from = head.length + y * Number(width);
    const longest = longestRun(raw.subarray(from, from + Number(width)));
    const downMm = inMm(y);
    // rows of one stroke follow each other; a stroke is as long as its longest row
    const before = found.at(-1);
    if (inMm(longest) < 90) continue;
    if (before && downMm - before.downMm < 3) before.lengthMm = Math.max(before.lengthMm, inMm(longest));
    else found.push({ lengthMm: inMm(longest), downMm });
  }
  return found;
}

function longestRun(row: Uint8Array): number {
  let longest = 0;
  let run = 0;
  for (const gray of row) {
    run = gray < 128 ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest;
}

type Line = { text: string; center: number; top: number; bottom: number };

/** Lines of text on the first page with their places, in millimeters. */
function linesOf(file: string): Line[] {
  const html = execFileSync("pdftotext", ["-bbox-layout", "-f", "1", "-l", "1", file, "-"]).toString();
  const mm = (points: string | undefined): number => (Number(points) * 25.4) / 72;
  return [
    ...html.matchAll(/<line xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([\s\S]*?)<\/line>/g),
  ].map(([, left, top, right, bottom, words = ""]) => ({
    text: [...words.matchAll(/>([^<]+)<\/word>/g)].map(([, word]) => word).join(" "),
    center: (mm(left) + mm(right)) / 2,
    top: mm(top),
    bottom: mm(bottom),
  }));
}

type Word = { page: number; text: string; left: number; right: number; top: number; bottom: number };

/** Words of all pages with their places, in millimeters. */
function wordsOf(file: string): Word[] {
  const pages = execFileSync("pdftotext", ["-bbox", file, "-"]).toString().split("<page ").slice(1);
  const mm = (points: string | undefined): number => (Number(points) * 25.4) / 72;
  const word = /<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)<\/word>/g;
  return pages.flatMap((html, page) =>
    [...html.matchAll(word)].map(([, left, top, right, bottom, text = ""]) => ({
      ...{ page, text, left: mm(left), right: mm(right), top: mm(top), bottom: mm(bottom) },
    })),
  );
}

const free = [
  "tray-cards",
  "labels",
  "check-list",
  "seating",
  "door-sign",
  "backup-ballots",
] as const satisfies readonly Paper[];
const sheet = { A4: { width: 210, height: 297 }, Letter: { width: 215.9, height: 279.4 } } as const;

// names that nothing else on a paper says
const names = ["dry oven", "steam and hot air", "steam, then rested"];
const named = linePlan();
const plan: Plan = {
  ...named,
  raw: { drawn: "drawn", unit: "pieces", divided: false, perBatch: 2 },
  // numbers that stand on papers as temperatures and lengths
  avoidCodes: ["100", "120", "200", "230"],
  products: named.products.map((product, at) => ({ ...product, name: names[at] ?? "" })),
};
const told = [...names, plan.title, ...plan.products.map(({ preparation }) => preparation), "CLOCHEKEY"];
const batches = plan.waves.flatMap((wave) => Object.values(wave.batches).flat());

describe("papers of a line scale with three products", () => {
  let study = "";
  beforeAll(async () => {
    study = await locked(plan);
  });

  test.each(free.flatMap((paper) => [[paper, "A4"] as const, [paper, "Letter"] as const]))(
    "%s on %s: the paper's size, no blank page, a bar of 100 mm, and nothing that tells a product",
    async (paper, size) => {
      await show(study, paper, size);
      const file = await pdf(`${paper}-${size}`);
      const { width, height } = sizeOf(file);
      // whole points: up to half a millimeter off
      expect([Math.min(width, height), Math.max(width, height)]).toEqual([
        expect.closeTo(sheet[size].width, 0),
        expect.closeTo(sheet[size].height, 0),
      ]);
      const pages = textOf(file);
      for (const [at, text] of pages.entries()) {
        expect(text.trim(), `page ${at + 1}`).not.toBe("");
        for (const tells of told) expect(text).not.toContain(tells);
        for (const batch of batches) expect(text).not.toMatch(new RegExp(`\\b${batch}\\b`));
      }
      const bars = strokes(file).filter(({ lengthMm }) => Math.abs(lengthMm - 100) < 0.2);
      expect(bars.length).toBeGreaterThan(0);
    },
  );

  test("names with codes and batches stand on the kitchen sheets, under a black bar, and the key on the sealed page", async () => {
    for (const paper of ["kitchen-by-product", "kitchen-by-tray"] as const) {
      await show(study, paper, "A4");
      const pages = textOf(await pdf(paper));
      for (const name of names) expect(pages.join("\n")).toContain(name);
      for (const batch of batches) expect(pages.join("\n")).toMatch(new RegExp(`\\b${batch}\\b`));
      for (const text of pages) expect(text).toContain(paperWords.blackBar);
    }
    const sealed = textOf(pdfs.get("sealed-page") ?? "").join("\n");
    expect(sealed).toContain("CLOCHEKEY1");
  });

  test("the kitchen's own papers name products and say that they stay there, and hold no code", async () => {
    await show(study, "check-list", "A4");
    const codes = (
      textOf(await pdf("codes"))
        .join("\n")
        .match(/\b\d{3}\b/g) ?? []
    ).filter((code) => code !== "100");
    expect(codes).toHaveLength(39);
    for (const paper of ["prep-list", "process-draw"] as const) {
      await show(study, paper, "A4");
      const pages = textOf(await pdf(paper));
      for (const name of names) expect(pages.join("\n")).toContain(name);
      for (const text of pages) {
        expect(text).toContain(kitchenPapers.kitchenOnly);
        for (const code of codes) expect(text).not.toMatch(new RegExp(`\\b${code}\\b`));
      }
    }
  });

  test.each(["A4", "Letter"] as const)(
    "backup ballots on %s: every line measures 120 mm, and none runs off",
    async (size) => {
      await show(study, "backup-ballots", size);
      const spilled = await page
        .locator(".leaf-body, .leaf")
        .evaluateAll((all) => all.filter((one) => one.scrollHeight > one.clientHeight + 1).length);
      expect(spilled).toBe(0);
      const file = await pdf(`ballots-${size}`);
      const lines = textOf(file).map((_, at) => strokes(file, at + 1).filter(({ lengthMm }) => lengthMm > 110));
      for (const { lengthMm } of lines.flat()) expect(Math.abs(lengthMm - 120)).toBeLessThan(0.2);
      // 13 trays of 3 samples, one property
      expect(lines.flat()).toHaveLength(39);
      expect(textOf(file).join("\n")).toContain("How juicy is sample");
    },
  );

  const grids = {
    A4: { ...{ left: 7.25, top: 15.15, width: 63.5, height: 38.1, gap: 2.5 }, rows: 7 },
    Letter: { ...{ left: 4.7625, top: 12.7, width: 66.675, height: 25.4, gap: 3.175 }, rows: 10 },
  } as const;
  test.each(["A4", "Letter"] as const)("labels on %s stand in the middle of their cells, to 0.2 mm", async (size) => {
    await show(study, "labels", size);
    const { left, top, width, height, gap, rows } = grids[size];
    const places = linesOf(await pdf(`label-places-${size}`)).filter(({ text }) => text.startsWith("tray "));
    expect(places).toHaveLength(3 * rows);
    for (const [at, { center, top: over, bottom }] of places
      .toSorted((a, b) => Math.round(a.top - b.top) || a.center - b.center)
      .entries()) {
      const column = at % 3;
      const cell = top + Math.floor(at / 3) * height;
      expect(Math.abs(center - (left + width / 2 + column * (width + gap)))).toBeLessThan(0.2);
      expect(over > cell && bottom < cell + height).toBe(true);
    }
  });

  test("a printer that is off: 1.5 mm to the right and 0.7 mm down is what moves, and labels that do not fit are refused", async () => {
    await show(study, "labels", "A4");
    const [before] = linesOf(await pdf("labels-before")).filter(({ text }) => text.startsWith("tray 1-"));
    await page.getByText(paperWords.labels.other).click();
    await page.locator("#labels-rightwardMm").fill("1.5");
    await page.locator("#labels-downwardMm").fill("0.7");
    const [after] = linesOf(await pdf("labels-after")).filter(({ text }) => text.startsWith("tray 1-"));
    expect((after?.center ?? 0) - (before?.center ?? 0)).toBeCloseTo(1.5, 1);
    // lines of text stand on whole pixels: half of one, 0.13 mm, may be lost
    expect(Math.abs((after?.top ?? 0) - (before?.top ?? 0) - 0.7)).toBeLessThan(0.14);
    await page.locator("#labels-columns").fill("4");
    await page.getByRole("alert").getByText("paper is 210").waitFor();
    expect(await page.locator(".desk .paper").count()).toBe(0);
    await page.getByRole("button", { name: paperWords.labels.usual }).click();
    await page.locator(".desk .paper").first().waitFor();
  });
});

describe("papers of a preference", () => {
  test("a ballot for each tray with its codes in serving order, then the third answer, and no title", async () => {
    const asked = preferencePlan();
    const study = await locked(asked);
    await show(study, "backup-ballots", "Letter");
    const pages = textOf(await pdf("preference-ballots"));
    // 24 trays and 3 spares, two on a sheet
    expect(pages).toHaveLength(14);
    const all = pages.join("\n");
    expect(all.match(/Which sample do you prefer\?/g)).toHaveLength(27);
    expect(all.match(/No preference/g)).toHaveLength(27);
    expect(all).not.toContain(asked.title);
  });
});

describe("papers of chewed portions", () => {
  const asked = chewPlan({ people: 6, repeats: 1, spares: 1, avoidCodes: ["100", "120", "200"] });
  const chewed = { ...asked, waves: asked.waves.slice(0, 1).map((wave) => ({ ...wave, people: 6 })) };
  let study = "";
  beforeAll(async () => {
    study = await locked(chewed);
  });

  test.each(["A4", "Letter"] as const)(
    "weighing sheet on %s: a line a cup, codes under each other, room to write, and nothing that tells a product",
    async (size) => {
      await show(study, "weighing-sheet", size);
      const file = await pdf(`weighing-${size}`);
      const text = textOf(file).join("\n");
      for (const { name, preparation } of chewed.products) {
        for (const tells of [name, preparation, chewed.title]) expect(text).not.toContain(tells);
      }
      const codes = wordsOf(file).filter(({ text }) => /^\d{3}$/.test(text) && !["100", "120"].includes(text));
      // six trays and a spare, three cups each
      expect(codes).toHaveLength(21);
      const [first] = codes;
      for (const [at, { page, left, top, bottom }] of codes.entries()) {
        expect(Math.abs(left - (first?.left ?? 0))).toBeLessThan(0.2);
        expect(top > 8 && bottom < sheet[size].height - 8).toBe(true);
        const above = codes[at - 1];
        // a hand writes in 7 mm (common practice, no source)
        if (above?.page === page) expect(top - above.top).toBeGreaterThan(7);
      }
      const heads = ["code", "empty", "alone,", "closed", "water,", "time"].map((head) =>
        wordsOf(file).find(({ text, top }) => text === head && top < (first?.top ?? 0) && top > (first?.top ?? 0) - 20),
      );
      for (const [at, head] of heads.entries()) {
        expect(head?.left ?? 0).toBeGreaterThan(at === 0 ? 8 : (heads[at - 1]?.right ?? sheet[size].width));
        expect(head?.right ?? sheet[size].width).toBeLessThan(sheet[size].width - 8);
      }
    },
  );
});
