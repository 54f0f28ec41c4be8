import type { Locator, Page } from "playwright-core";
import { throttleOf } from "../cpu-index.ts";
import { forget, type Noticed, whole } from "./probe.ts";

/** Milliseconds that pass before each tap: nobody taps while the screen before is still being written. */
const pauseMs = 200;

export type Tap = {
  /** From the finger leaving the glass until the record is durable. */
  ms: number;
  /** The screen said that it is kept before it was. */
  early: boolean;
};

/** A finger on a page that is slowed down for the tap alone; what leads up to it is not measured. */
export class Finger {
  readonly #page: Page;
  readonly #rate: number;
  readonly #throttle: (rate: number) => Promise<void>;

  private constructor(page: Page, rate: number, throttle: (rate: number) => Promise<void>) {
    this.#page = page;
    this.#rate = rate;
    this.#throttle = throttle;
  }

  static async on(page: Page, rate: number): Promise<Finger> {
    return new Finger(page, rate, await throttleOf(page));
  }

  /** Taps a button once and waits until its record is durable and the screen says so. */
  async tap(button: Locator): Promise<Tap> {
    const box = await button.boundingBox();
    if (!box) throw new Error("the button is not on the screen");
    await this.#page.waitForTimeout(pauseMs);
    await this.#page.evaluate(forget);
    await this.#throttle(this.#rate);
    await this.#page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2);
    const noticed = await (await this.#page.waitForFunction(whole)).jsonValue();
    await this.#throttle(1);
    return tapOf(noticed);
  }
}

function tapOf(noticed: Noticed | null): Tap {
  const { tap, durable, said } = noticed ?? { tap: null, durable: null, said: null };
  if (tap === null || durable === null || said === null) throw new Error("the tap was not noticed whole");
  return { ms: durable - tap, early: said < durable };
}
