import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Body } from "../../src/model/event.ts";
import { deviceProblems } from "../../src/words/en/device-problems.ts";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelLine as lineWords } from "../../src/words/en/panel-line.ts";
import { juiciness, linePlan, stepsPlan } from "../design/scenario.ts";
import { clean } from "./axe.ts";
import { freePort, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

// One tray of a line scale by touch, without network from its middle on; the keyboard has its test in line-scale.
const { folder, remove } = scratch("line-tray");
const machine = new Machine(join(folder, "touch"), tablet);
/** 445 CSS pixels to a card of 85.60 mm: 624 to a line of 120. */
const cardPx = 445;
/** The second question comes so long after the first bite: long enough for a busy machine to be chewing still. */
const seconds = 6;
const stepsMachine = new Machine(join(folder, "steps"), tablet);
let server: ServerProcess;
let lead: ApiLead;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = await ApiLead.enroll(server);
  const plan = linePlan();
  const [late] = plan.scale.attributes;
  if (!late) throw new Error("the scenario has an attribute");
  const first = { ...late, id: juiciness.replace("7e1f", "7e10"), moment: { at: "first-bite" as const } };
  const attributes = [first, { ...late, moment: { at: "after" as const, seconds } }];
  const serving = { ...plan.serving, pauseSeconds: 0 };
  await lead.lock({ ...plan, scale: { lengthMm: 120, attributes }, serving });
});
afterAll(async () => {
  await machine.close();
  await stepsMachine.close();
  await server.end("SIGTERM");
  remove();
});

const codesOf = (tray: number): string[] => lead.trays.blind.find((one) => one.tray === tray)?.codes ?? [];

async function newTablet(machine: Machine, name: string, from = lead): Promise<TabletHands> {
  const hands = new TabletHands(await (await machine.start()).newPage());
  await hands.enroll(server.origin, await from.tabletCode(name), name);
  await hands.offlineReady();
  return hands;
}

/** Marks that a tablet keeps, read past the app. */
const marksOn = (page: Page): Promise<Body<"mark-kept">[]> =>
  page.evaluate(
    () =>
      new Promise<Body<"mark-kept">[]>((done) => {
        const open = indexedDB.open("cloche-panel");
        open.onsuccess = () => {
          const all = open.result.transaction("events").objectStore("events").index("place").getAll();
          all.onsuccess = () => {
            open.result.close();
            const events = all.result.map(({ text }: { text: string }) => JSON.parse(text));
            done(events.filter(({ kind }) => kind === "mark-kept").map(({ body }) => body));
          };
        };
      }),
  );

/** Questions of a tray that the server holds, as outlines tell them. */
async function onServer(tray: number): Promise<number[]> {
  const { events } = await lead.events();
  return events
    .map(({ text, outline }) => (outline ?? JSON.parse(text ?? "null")) as { kind: string; body: Body<"mark-kept"> })
    .filter(({ kind, body }) => kind === "mark-kept" && body.tray === tray)
    .map(({ body }) => body.question);
}

test("touch: refused until measured with a card; then a tray, offline from its middle on, its page loaded anew in a chew", async () => {
  const hands = await newTablet(machine, "Booth 1");
  const { page } = hands;
  await hands.openTray(1);
  expect(await page.getByRole("alert").textContent()).toBe(deviceProblems["tray/no-card-check"]({ lengthMm: 120 }));
  await hands.measure(cardPx);
  const shown = await page.locator(".checks .rule").boundingBox();
  expect(shown?.width).toBeCloseTo((cardPx / 85.6) * 120, 1);
  await hands.leaveCheck();

  await hands.openTray(1);
  await hands.agree();
  await hands.button(words.clearance.clear).click();
  await hands.button(words.rules.go).click();
  await hands.heading(lineWords.compare.title).waitFor();
  await clean("codes to compare", page);
  await hands.button(lineWords.compare.match).click();
  await hands.heading(lineWords.take.title).waitFor();
  await clean("whose turn it is", page);
  const [one = "", two = "", three = ""] = codesOf(1);
  await hands.bite(one);
  await page.locator(".band[data-state=empty]").waitFor();
  await clean("no mark yet", page);
  await hands.markAt(0.25);
  await clean("a mark", page);
  await hands.button(words.question.keep).click();
  // its moment came while this was looked at, so it follows at once
  await page.getByText(lineWords.mark.place(2, 2)).waitFor();
  await hands.markAndKeep(0.75);
  await expect.poll(() => onServer(1), { timeout: 60_000 }).toEqual([1, 2]);
  await page.context().setOffline(true);
  await hands.bite(two);
  await hands.markAndKeep(0);
  await hands.heading(lineWords.chew.title).waitFor();
  await page.reload();
  // the clock went with the page: another bite of the same sample
  await hands.bite(two);
  await page.locator(".now").waitFor();
  await clean("now", page);
  await hands.markAndKeep(1);
  await hands.bite(three);
  await page.getByRole("button", { name: lineWords.mark.cannot }).click();
  await page.getByLabel(lineWords.noMark.reasons.sample).check();
  await clean("no mark, and why", page);
  await hands.button(lineWords.noMark.keep).click();
  await page.getByText(lineWords.mark.place(2, 2)).waitFor();
  await hands.markAndKeep(0.5);
  await hands.finish();

  const marks = await marksOn(page);
  expect(marks.map(({ question, code }) => [question, code])).toEqual([
    [1, one],
    [2, one],
    [3, two],
    [4, two],
    [5, three],
    [6, three],
  ]);
  for (const [place, fraction] of [0.25, 0.75, 0, 1, null, 0.5].entries()) {
    const mark = marks[place]?.mark;
    if (fraction === null) expect(marks[place]).toMatchObject({ mark: null, why: "sample" });
    else expect(mark?.fraction).toBeCloseTo(fraction, 2);
  }
  expect(marks[0]?.line?.lengthMm).toBe(120);
  expect(marks[0]?.line?.lengthPx).toBeCloseTo((cardPx / 85.6) * 120, 6);
  expect(marks[0]?.screen.pointer).toBe("touch");
  for (const place of [1, 3, 5]) expect(marks[place]?.chewedSeconds).toBeGreaterThanOrEqual(seconds);
  expect(await onServer(1)).toEqual([1, 2]);
  await page.context().setOffline(false);
  await expect.poll(() => onServer(1), { timeout: 60_000 }).toEqual([1, 2, 3, 4, 5, 6]);
});

test("steps, liking and just right, without a card check: none is chosen, a touch or a digit chooses, nothing tells the products", {
  timeout: 120_000,
}, async () => {
  const other = await ApiLead.enroll(server, await lead.leadCode("Odalys Brandt"));
  const plan = stepsPlan();
  await other.lock({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
  const hands = await newTablet(stepsMachine, "Booth 3", other);
  const { page } = hands;
  const [code = ""] = other.trays.blind.find(({ tray }) => tray === 1)?.codes ?? [];
  await hands.compare(1);
  await hands.bite(code);
  // said once: all three are about that moment
  await hands.button(lineWords.chew.now).click();
  // steps of five, nine and three, and which of them is chosen
  const chosen = [4, 7, 2];
  for (const [at, of] of [5, 9, 3].entries()) {
    const steps = page.locator(".steps:not([inert]) .field");
    await page.locator(`.steps:not([inert]) .field:nth-child(${of}):last-child`).waitFor();
    expect(await steps.count()).toBe(of);
    expect(await page.locator(".steps input:checked").count()).toBe(0);
    await clean(`steps of ${of}`, page);
    const step = chosen[at] ?? 0;
    if (at === 1) {
      await page.locator(".steps input").first().focus();
      await page.keyboard.press(String(step));
    } else await steps.nth(step - 1).tap();
    await page.locator(`.steps .field.chosen:nth-child(${step})`).waitFor();
    await hands.button(words.question.keep).click();
  }
  await hands.heading(lineWords.take.title).waitFor();
  const kept = await marksOn(page);
  expect(kept.map(({ mark, line, code: of }) => [of, mark?.fraction, line])).toEqual([
    [code, 3 / 4, null],
    [code, 6 / 8, null],
    [code, 1 / 2, null],
  ]);
  const all = JSON.stringify(kept) + (await page.content());
  for (const { id, name } of plan.products) for (const told of [id, `>${name}<`]) expect(all).not.toContain(told);
});
