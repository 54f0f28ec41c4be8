import type { Page } from "playwright-core";
import { panel as words } from "../../../src/words/en/panel.ts";
import { Finger, type Tap } from "./finger.ts";
import { probe } from "./probe.ts";
import { serveSkeleton } from "./skeleton-server.ts";

const codes = ["482", "715", "309"];

/** A finger on the skeleton page. */
export class Skeleton {
  readonly #page: Page;
  readonly #finger: Finger;
  readonly close: () => void;

  private constructor(page: Page, finger: Finger, close: () => void) {
    this.#page = page;
    this.#finger = finger;
    this.close = close;
  }

  /** Builds the page into a folder, serves it and opens it. `record` is what it writes at each tap. */
  static async open(page: Page, rate: number, folder: string, record: Record<string, unknown>): Promise<Skeleton> {
    const given = { record, codes, keep: words.question.keep, said: words.remark.title };
    const { origin, close } = await serveSkeleton(folder, given);
    await page.addInitScript(probe, given.said);
    await page.goto(origin);
    return new Skeleton(page, await Finger.on(page, rate), close);
  }

  toFront = (): Promise<void> => this.#page.bringToFront();

  async keep(): Promise<Tap> {
    const button = (name: string) => this.#page.getByRole("button", { name, exact: true });
    await button(codes[1] ?? "").click();
    const tap = await this.#finger.tap(button(words.question.keep));
    await button("Again").click();
    return tap;
  }
}
