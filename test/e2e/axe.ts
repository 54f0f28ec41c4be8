import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

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
