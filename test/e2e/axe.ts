import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect } from "vitest";

/**
 * What axe finds on a page, as "rule at selectors".
 *
 * The page is looked at in place: the usual way opens a blank page for each look, to merge frames, and there are none.
 * That takes two thirds of the time, and dozens of screens are looked at.
 */
export async function axe(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ resultTypes: ["violations"] })
    .analyze();
  return violations.map(({ id, nodes }) => `${id} at ${nodes.map(({ target }) => target).join(" and ")}`);
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
