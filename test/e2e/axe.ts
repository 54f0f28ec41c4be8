import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults, RunOptions } from "axe-core";
import type { Page } from "playwright-core";
import { expect } from "vitest";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
type Axe = { run(where: Document, options: RunOptions): Promise<AxeResults> };

/**
 * What axe finds on a page, as "rule at selectors".
 *
 * It is put into a page once and then run in place: the usual way reads all of it anew for each look and opens a blank
 * page to merge frames, of which there are none. That takes most of the time, and hundreds of screens are looked at.
 */
export async function axe(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: Axe };
    const { violations } = await axe.run(document, { resultTypes: ["violations"] });
    return violations.map(({ id, nodes }) => `${id} at ${nodes.map(({ target }) => target).join(" and ")}`);
  });
}

/** axe, no sideways scrolling, and no hue: every gray that the page paints has R = G = B. */
export async function clean(name: string, page: Page): Promise<void> {
  expect((await axe(page)).map((found) => `${name}: ${found}`)).toEqual([]);
  const sideways = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(`${name}: ${sideways}`).toBe(`${name}: 0`);
  const colors = await page.evaluate(() =>
    [...document.querySelectorAll("*")].flatMap((element) => {
      const { color, backgroundColor, borderTopColor } = getComputedStyle(element);
      return [color, backgroundColor, borderTopColor];
    }),
  );
  for (const color of new Set(colors)) expect(`${name}: ${color}`).toMatch(/: rgba?\((\d+), \1, \1[,)]/);
}
