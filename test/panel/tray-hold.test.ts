import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { betweenTrays, holdTray, onceNoTray } from "../../src/panel/tray-hold.ts";
import { study } from "./tablet.ts";

afterEach(() => vi.unstubAllGlobals());
const free = (): Promise<boolean> => betweenTrays(async () => undefined);

describe("without locks (plain http) windows ask each other", () => {
  beforeEach(() => vi.stubGlobal("navigator", {}));

  test("a tray is held by one window, others stay free, and it is free again after letting go", async () => {
    expect(await free()).toBe(true);
    const release = await holdTray(study, 17);
    expect(release).not.toBeNull();
    expect(await holdTray(study, 17)).toBeNull();
    expect(await free()).toBe(false);
    const other = await holdTray(study, 1); // the first digit of 17 is not tray 17
    expect(other).not.toBeNull();
    release?.();
    other?.();
    expect(await free()).toBe(true);
    (await holdTray(study, 17))?.();
  });
});

type Options = { mode?: "shared"; ifAvailable?: boolean; signal?: AbortSignal };

/** Locks as the browser grants them (W3C Web Locks, from memory): shared ones side by side, any other alone. */
class SmallLocks {
  held: { name: string; shared: boolean }[] = [];
  #changed: (() => void)[] = [];
  request = async (name: string, options: Options, work: (lock: object | null) => unknown): Promise<unknown> => {
    const shared = options.mode === "shared";
    const inTheWay = () => this.held.some((one) => one.name === name && !(shared && one.shared));
    if (inTheWay() && options.ifAvailable) return work(null);
    while (inTheWay()) {
      if (options.signal?.aborted) throw options.signal.reason;
      await new Promise<void>((next) => {
        this.#changed.push(next);
        options.signal?.addEventListener("abort", () => next());
      });
    }
    const lock = { name, shared };
    this.held.push(lock);
    try {
      return await work(lock);
    } finally {
      this.held = this.held.filter((one) => one !== lock);
      for (const next of this.#changed.splice(0)) next();
    }
  };
}

describe("with locks", () => {
  let locks: SmallLocks;
  beforeEach(() => {
    locks = new SmallLocks();
    vi.stubGlobal("navigator", { locks });
  });

  test("a refused lock is a tray open elsewhere; a granted one lasts until it is let go", async () => {
    const release = await holdTray(study, 17);
    expect(await holdTray(study, 17)).toBeNull();
    expect(locks.held.map(({ name }) => name).join()).toContain(`${study} 17`);
    release?.();
    await vi.waitFor(() => expect(locks.held).toEqual([]));
  });

  test("F3: with any tray in any hand nothing is done; with none it is, and no tray opens meanwhile", async () => {
    const [one, other] = [await holdTray(study, 17), await holdTray(study, 1)];
    const work = vi.fn();
    one?.();
    expect(await betweenTrays(work)).toBe(false);
    other?.();
    await vi.waitFor(() => expect(locks.held).toEqual([]));
    const order: string[] = [];
    let finish = (): void => {};
    const working = betweenTrays(
      () =>
        new Promise<void>((done) => {
          finish = () => {
            order.push("done");
            done();
          };
        }),
    );
    const opening = holdTray(study, 3).then((release) => {
      order.push("opened");
      return release;
    });
    finish();
    expect(await working).toBe(true);
    expect(work).not.toHaveBeenCalled();
    (await opening)?.();
    expect(order).toEqual(["done", "opened"]);
  });

  test("what must wait for this window's tray runs when it is put down, once; at once when there is none", async () => {
    const run = vi.fn();
    const release = await holdTray(study, 17);
    onceNoTray(run);
    expect(run).not.toHaveBeenCalled();
    release?.();
    release?.();
    expect(run).toHaveBeenCalledTimes(1);
    onceNoTray(run);
    expect(run).toHaveBeenCalledTimes(2);
  });
});
