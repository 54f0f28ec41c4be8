import type { Page } from "playwright-core";
import { medianOf } from "./pair.ts";

/**
 * How fast a page's script runs here. "Four times slower" says nothing without it: a slow machine slowed down four
 * times is no tablet that anybody has. The two chores and their unit are those that browsers' own audits use, so that
 * their marks can be used too: about 1000 is a phone of the middle class, 264 one of the lowest (from memory).
 */
const middle = 1000;
const lowest = 264;
export type Class = "low" | "mid";

const attempts = 5;

/** The index of a page, median of a few attempts. Rough: it moves with whatever else the machine does. */
export async function cpuIndexOf(page: Page): Promise<number> {
  const found: number[] = [];
  for (let attempt = 0; attempt < attempts; attempt++) found.push(await page.evaluate(chores));
  return Math.round(medianOf(found));
}

/** By how much to slow a page down so that it runs as on a device of the class; never below 1. */
export const slowdown = (index: number, wanted: Class): number =>
  Math.max(1, index / (wanted === "low" ? lowest : middle));

/** Slows the page's script and layout down; 1 is full speed. Returns the way to set it. */
export async function throttleOf(page: Page): Promise<(rate: number) => Promise<void>> {
  const session = await page.context().newCDPSession(page);
  return async (rate) => {
    await session.send("Emulation.setCPUThrottlingRate", { rate });
  };
}

/** Chromium's version and the index, in a browser of its own; null when there is no Chromium. */
export async function runIndex(): Promise<{ version: string; index: number } | null> {
  // the hands look for Chromium as they are loaded
  const hands = await import("../e2e/machine.ts").catch(() => null);
  if (!hands) return null;
  const { folder, remove } = hands.scratch("bench-index");
  const machine = new hands.Machine(folder, hands.tablet);
  try {
    const context = await machine.start();
    const page = await context.newPage();
    const { product } = await (await context.newCDPSession(page)).send("Browser.getVersion");
    return { version: product.replace(/^.*\//, ""), index: await cpuIndexOf(page) };
  } catch {
    return null; // CLOCHE_CHROMIUM names something that does not start
  } finally {
    await machine.close();
    remove();
  }
}

/**
 * Runs in the page: a chore that makes garbage (a string of 10,000 letters, letter by letter) and one that makes none
 * (100,000 numbers from one list to another), each for a quarter of a second. Returns the mean of both, in tens of
 * times a second.
 */
function chores(): number {
  const forMs = 250;
  const timesASecond = (chore: () => number): number => {
    const start = performance.now();
    let times = 0;
    let elapsed = 0;
    while (elapsed < forMs) {
      for (let again = 0; again < 10; again++) chore();
      times += 10;
      elapsed = performance.now() - start;
    }
    return (times * 1000) / elapsed;
  };
  const spell = (): number => {
    let letters = "";
    for (let at = 0; at < 10_000; at++) letters += "c";
    return letters.length;
  };
  const [one, other] = [Array.from({ length: 100_000 }, (_, at) => at), Array.from({ length: 100_000 }, (_, at) => at)];
  let forth = false;
  const carry = (): number => {
    forth = !forth;
    const [from, to] = forth ? [one, other] : [other, one];
    for (let at = 0; at < from.length; at++) to[at] = from[at] as number;
    return to.length;
  };
  return (timesASecond(spell) + timesASecond(carry)) / 2 / 10;
}
