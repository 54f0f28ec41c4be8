import { createServer, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { panel as words } from "../../src/words/en/panel.ts";
import { panelEnroll } from "../../src/words/en/panel-enroll.ts";
import { preferencePlan } from "../design/scenario.ts";
import { freePort, Machine, ServerProcess, scratch, tablet } from "./machine.ts";
import { ApiLead } from "./study-by-api.ts";
import { TabletHands } from "./tablet.ts";

// One tablet with two windows: enrolled by an address, and given a new version of the app.
const { folder, remove } = scratch("tabs");
const machine = new Machine(join(folder, "profile"), tablet);
let server: ServerProcess;
let lead: ApiLead;
/** Stands before the server and hands its answers on; from version 2 on the worker's script is another. */
let front: Server;
let version = 1;
let origin = "";
let first: TabletHands;

beforeAll(async () => {
  server = new ServerProcess(await freePort(), join(folder, "data"));
  await server.start();
  lead = await ApiLead.enroll(server);
  const plan = preferencePlan();
  await lead.lock({ ...plan, serving: { ...plan.serving, pauseSeconds: 0 } });
  front = createServer((asked, answer) => {
    const { method, url = "/" } = asked;
    // always the whole script: "not modified" would hide the other version
    const { "if-none-match": _tag, "if-modified-since": _since, ...headers } = asked.headers;
    const onward = request(new URL(url, server.origin), { method, headers }, (reply) => {
      const worker = url === "/panel/sw.js";
      const { "content-length": _length, ...kept } = reply.headers;
      answer.writeHead(reply.statusCode ?? 500, worker ? kept : reply.headers);
      reply.pipe(answer, { end: !worker });
      if (worker) reply.on("end", () => answer.end(`\n// version ${version}`));
    });
    asked.pipe(onward);
  });
  await new Promise<void>((listening) => front.listen(0, "127.0.0.1", listening));
  origin = `http://localhost:${(front.address() as AddressInfo).port}`;
});
afterAll(async () => {
  await machine.close();
  front.closeAllConnections();
  await new Promise((closed) => front.close(closed));
  await server.end("SIGTERM");
  remove();
});

test("an address with the code in its fragment enrolls: the code stands in the field, and leaves the address", async () => {
  first = new TabletHands(await (await machine.start()).newPage());
  const { page } = first;
  const code = await lead.tabletCode("Booth 1");
  await page.goto(`${origin}/panel/#code=${encodeURIComponent(code)}`);
  await page.getByLabel(panelEnroll.code).waitFor();
  expect(await page.getByLabel(panelEnroll.code).inputValue()).toBe(code);
  expect(page.url()).toBe(`${origin}/panel/`);
  await page.getByLabel(panelEnroll.name).fill("Booth 1");
  await first.button(panelEnroll.go).click();
  await first.heading(words.rest.title).waitFor();
  await first.offlineReady();
});

test("the fields of a preference are equal boxes, “no preference” among them", async () => {
  await first.taste(1, lead.trays.blind[0]?.codes ?? []);
  const boxes = await first.page
    .locator("label.field")
    .evaluateAll((fields) =>
      fields.map((field) => field.getBoundingClientRect()).map((at) => [at.width.toFixed(1), at.height.toFixed(1)]),
    );
  expect(boxes).toHaveLength(3);
  expect(new Set(boxes.map(String)).size).toBe(1);
  await first.page.getByText(words.question.noPreference).click();
  await first.keep();
  await first.finish();
  await first.button(words.nextPerson).click();
});

test("a new version waits while any window has a tray in hand; between trays all windows take it", async () => {
  const second = new TabletHands(await first.page.context().newPage());
  await second.page.goto(`${origin}/panel/`);
  await second.openTray(2);
  await second.heading(words.consent.title).waitFor();
  /** Marks a window; the mark is gone once the page was loaded anew. */
  const mark = (page: Page) => page.evaluate(() => void Object.assign(window, { before: true }));
  const isOld = (page: Page) => page.evaluate(() => "before" in window).catch(() => true);
  for (const { page } of [first, second]) await mark(page);

  version = 2;
  await first.page.bringToFront();
  await first.page.evaluate(() => navigator.serviceWorker.getRegistration().then((found) => found?.update()));
  await first.page.getByText(words.rest.update).waitFor();
  await first.button(words.rest.updateNow).click();
  await first.page.getByText(words.rest.updateLater).waitFor();
  expect(await isOld(first.page)).toBe(true);
  expect(await second.heading(words.consent.title).count()).toBe(1);

  await second.button(words.clearance.otherTray).click();
  await second.heading(words.rest.title).waitFor();
  await first.button(words.rest.updateNow).click();
  for (const { page } of [first, second]) await expect.poll(() => isOld(page), { timeout: 30_000 }).toBe(false);
  await first.heading(words.rest.title).waitFor();
  const waiting = await first.page.evaluate(() =>
    navigator.serviceWorker.getRegistration().then((found) => found?.waiting ?? null),
  );
  expect(waiting).toBeNull();
  await second.openTray(2);
  await second.heading(words.consent.title).waitFor();
});
