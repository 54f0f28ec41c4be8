import type { Page } from "playwright-core";
import { reader } from "../../../src/words/en/reader.ts";
import { report } from "../../../src/words/en/report.ts";
import { throttleOf } from "../cpu-index.ts";

export type PageFigures = {
  /** Milliseconds: from asking until the worker's answer is there, and from then until the first picture is painted. */
  computedMs: number;
  pictureMs: number;
  /** The longest task of the main thread meanwhile; 0: none over 50 ms. */
  longest: number;
  nodes: number;
  pages: number;
};

type Seen = { asked: number; answered: number; painted: number; long: number[] };

/** Reads the file as a person would, on a page slowed down so many times. */
export async function readReport(page: Page, origin: string, file: string, rate: number): Promise<PageFigures> {
  await page.addInitScript(watch);
  await page.goto(`${origin}/report/?elsewhere`);
  await page.getByLabel(reader.elsewhere.file).setInputFiles(file);
  await page.getByLabel(report.methods["line-scale"], { exact: true }).check();
  await (await throttleOf(page))(rate);
  await page.getByRole("button", { name: reader.elsewhere.submit }).click();
  const handle = await page.waitForFunction(
    () => {
      const { seen } = window as unknown as { seen: Seen };
      return seen.painted > 0 ? seen : null;
    },
    undefined,
    { timeout: 120_000, polling: 200 },
  );
  const seen = (await handle.jsonValue()) as Seen;
  const nodes = await page.evaluate(() => document.querySelectorAll("*").length);
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  return {
    computedMs: seen.answered - seen.asked,
    pictureMs: seen.painted - seen.answered,
    longest: Math.max(0, ...seen.long),
    nodes,
    pages: pdf.match(/\/Type\s*\/Page[^s]/g)?.length ?? 0,
  };
}

/** Runs in the page, before its own script: notes when the job goes out, the answer comes, and a picture is painted. */
function watch(): void {
  const seen: Seen = { asked: 0, answered: 0, painted: 0, long: [] };
  Object.assign(window, { seen });
  const { postMessage } = Worker.prototype;
  Worker.prototype.postMessage = function (this: Worker, message: unknown) {
    seen.asked = performance.now();
    const own = this.onmessage;
    // before the page reads it: unpacking the message is part of what follows
    this.onmessage = (event) => {
      seen.answered = performance.now();
      own?.call(this, event);
    };
    postMessage.call(this, message);
  };
  new PerformanceObserver((list) => {
    if (seen.asked > 0) seen.long.push(...list.getEntries().map(({ duration }) => duration));
  }).observe({ type: "longtask" });
  new MutationObserver(() => {
    if (seen.painted > 0 || !document.querySelector("figure svg")) return;
    // the frame after the one that draws it
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        if (seen.painted === 0) seen.painted = performance.now();
      }),
    );
  }).observe(document, { childList: true, subtree: true });
}
