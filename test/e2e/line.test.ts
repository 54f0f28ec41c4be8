import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import preact from "@preact/preset-vite";
import type { CDPSession, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import type { LineMark } from "../../src/ui/line-mark.ts";
import { panelLine } from "../../src/words/en/panel-line.ts";
import { axe } from "./axe.ts";
import { Machine, scratch, tablet } from "./machine.ts";

// The line in a real browser: what pointers, touch and the accessibility tree make of it.
const { folder, remove } = scratch("line");
const machine = new Machine(join(folder, "profile"), tablet);
const lengthPx = 624;
let server: Server;
let page: Page;
let cdp: CDPSession;

beforeAll(async () => {
  await build({
    configFile: false,
    plugins: [preact()],
    logLevel: "warn",
    build: {
      outDir: join(folder, "page"),
      target: "es2022",
      lib: {
        entry: join(import.meta.dirname, "line-page.tsx"),
        formats: ["es"],
        fileName: "page",
        cssFileName: "page",
      },
    },
  });
  const files: Record<string, [string, string]> = {
    "/page.js": ["text/javascript", readFileSync(join(folder, "page/page.js"), "utf8")],
    "/page.css": ["text/css", readFileSync(join(folder, "page/page.css"), "utf8")],
  };
  const shell =
    '<!doctype html><html lang="en"><title>line</title><meta name="viewport" content="width=device-width">' +
    '<link rel="stylesheet" href="/page.css"><body></body><script type="module" src="/page.js"></script></html>';
  server = createServer((request, response) => {
    const [type, text] = files[request.url ?? ""] ?? ["text/html", shell];
    response.writeHead(200, { "content-type": type }).end(text);
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  page = await (await machine.start()).newPage();
  cdp = await page.context().newCDPSession(page);
});
beforeEach(async () => {
  await page.setViewportSize(tablet);
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/?length=${lengthPx}`);
  await page.locator(".band").waitFor();
});
afterAll(async () => {
  await machine.close();
  await new Promise((closed) => server.close(closed));
  remove();
});

const marks = (): Promise<(LineMark | null)[]> =>
  page.evaluate(() => (window as unknown as { marks: (LineMark | null)[] }).marks);
/** Where on the screen a share of the line is; beyond its ends too. */
async function place(share: number, up = 0): Promise<{ x: number; y: number }> {
  const box = await page.locator(".rule").boundingBox();
  if (!box) throw new Error("no line");
  expect(box.width).toBeCloseTo(lengthPx, 1);
  return { x: box.x + share * box.width, y: box.y - up };
}
/** A finger on the glass, by the browser's own touch events. */
const touch = (type: "touchStart" | "touchMove" | "touchEnd", ...points: { x: number; y: number }[]) =>
  cdp.send("Input.dispatchTouchEvent", { type, touchPoints: points.map((point, id) => ({ ...point, id })) });
const slider = () => page.getByRole("slider");

test("touch: a tap places the mark at the finger, 40 px above the line and 20 px beyond an end too", async () => {
  const { x, y } = await place(0.25, 40);
  await touch("touchStart", { x, y });
  expect(await page.locator(".band").getAttribute("data-state")).toBe("pressing");
  expect(await marks()).toEqual([]);
  await touch("touchEnd");
  const [first] = await marks();
  expect(first?.fraction).toBeCloseTo(0.25, 2);
  expect(first).toMatchObject({ start: "pointer", pointer: "touch", moves: 0 });
  const beyond = await place(1);
  await touch("touchStart", { x: beyond.x + 20, y: beyond.y });
  await touch("touchEnd");
  expect((await marks()).at(-1)).toMatchObject({ fraction: 1, moves: 1 });
});

test("touch: a drag sets the mark where the finger is lifted, and scrolls nothing", async () => {
  await page.evaluate(() => {
    document.body.style.height = "3000px";
    return new Promise((shown) => requestAnimationFrame(() => requestAnimationFrame(shown)));
  });
  await touch("touchStart", await place(0.2));
  for (const share of [0.3, 0.45, 0.6]) await touch("touchMove", await place(share, 30));
  const [x, top] = await page.evaluate(() => [window.scrollX, window.scrollY]);
  expect([x, top]).toEqual([0, 0]);
  await touch("touchEnd");
  expect((await marks()).map((mark) => mark?.fraction.toFixed(2))).toEqual(["0.60"]);
});

test("touch: straying 80 px upward calls it off, and so does a second finger", async () => {
  await touch("touchStart", await place(0.2));
  await touch("touchMove", await place(0.2, 48 + 90));
  await touch("touchEnd");
  await touch("touchStart", await place(0.2));
  await touch("touchStart", await place(0.2), await place(0.8));
  await touch("touchEnd");
  expect(await marks()).toEqual([]);
  expect(await page.locator(".band").getAttribute("data-state")).toBe("empty");
});

test("mouse: the value is set on release, and the release counts outside of the band too; moves write one attribute", async () => {
  const from = await place(0.1);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.evaluate(() => {
    const seen: string[] = [];
    Object.assign(window, { seen });
    new MutationObserver((records) => seen.push(...records.map((one) => `${one.type} ${one.attributeName}`))).observe(
      document,
      { attributes: true, childList: true, characterData: true, subtree: true },
    );
  });
  const to = await place(0.9, 100); // 52 px above the band: still this press
  await page.mouse.move(to.x, to.y, { steps: 20 });
  expect(await marks()).toEqual([]);
  const seen = await page.evaluate(() => (window as unknown as { seen: string[] }).seen);
  expect(new Set(seen)).toEqual(new Set(["attributes style"]));
  expect(seen.length).toBeLessThanOrEqual(20);
  await page.mouse.up();
  expect((await marks())[0]?.fraction).toBeCloseTo(0.9, 2);
  expect((await marks())[0]?.pointer).toBe("mouse");
});

test("the accessibility tree has no value before the first mark, and words for it after", async () => {
  const named = async (role: string) => {
    const { nodes } = await cdp.send("Accessibility.getFullAXTree");
    return nodes.filter((node) => node.role?.value === role && !node.ignored);
  };
  expect(await named("slider")).toEqual([]);
  const [button] = (await named("button")).map((node) => node.name?.value);
  expect(button).toBe(`How juicy is sample 482, at the first bite? ${panelLine.line.none}`);
  await page.keyboard.press("Tab");
  await page.keyboard.press("6");
  const [node] = await named("slider");
  expect(node?.name?.value).toBe("How juicy is sample 482, at the first bite?");
  expect(node?.value?.value).toBe(60);
  expect(node?.properties?.find(({ name }) => name === "focused")?.value.value).toBe(true);
  // the tree of the developer tools prints an empty text even when there is one: the attribute is read
  expect(await slider().getAttribute("aria-valuetext")).toBe(
    panelLine.line.place(6, "not at all juicy", "extremely juicy"),
  );
  await page.keyboard.press("Delete");
  expect(await named("slider")).toEqual([]);
});

test("the keyboard alone: placed, refined, and moved by the two buttons", async () => {
  for (const key of ["Tab", "ArrowRight", "PageUp", "ArrowRight", "ArrowRight", "Tab", "Tab", "Enter"])
    await page.keyboard.press(key);
  expect((await marks()).map((mark) => mark?.fraction)).toEqual([0, 0.1, 0.11, 0.12, 0.125]);
});

test("axe finds nothing, empty or marked; the band is 96 px high and reaches 24 px beyond; buttons are 72 px", async () => {
  expect(await axe(page)).toEqual([]);
  const { x, y } = await place(0.5);
  await page.mouse.click(x, y);
  await slider().waitFor();
  expect(await axe(page)).toEqual([]);
  const band = await page.locator(".band").boundingBox();
  const rule = await page.locator(".rule").boundingBox();
  expect(band?.height).toBe(96);
  expect((rule?.x ?? 0) - (band?.x ?? 0)).toBeCloseTo(24, 1);
  expect(band?.width).toBeCloseTo(lengthPx + 48, 1);
  for (const name of [panelLine.line.left, panelLine.line.right]) {
    const box = await page.getByRole("button", { name }).boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(72);
  }
});

test("the end words stand beside the line where there is room, below where there is not; the line stays as long", async () => {
  const tops = async () => {
    const boxes = [await page.locator(".band").boundingBox(), await page.locator(".ends .low").boundingBox()];
    return { band: boxes[0], low: boxes[1] };
  };
  const wide = await tops();
  expect((wide.low?.x ?? 0) + (wide.low?.width ?? 0)).toBeLessThanOrEqual(wide.band?.x ?? 0);
  await page.setViewportSize({ width: 810, height: 1080 });
  await expect
    .poll(async () => {
      const { band, low } = await tops();
      return (low?.y ?? 0) >= (band?.y ?? 0) + (band?.height ?? 0);
    })
    .toBe(true);
  await place(0); // and it is as long as it was
});
