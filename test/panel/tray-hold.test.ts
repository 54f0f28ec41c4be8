import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { anyTrayHeld, holdTray } from "../../src/panel/tray-hold.ts";
import { study } from "./tablet.ts";

afterEach(() => vi.unstubAllGlobals());

describe("without locks (plain http) windows ask each other", () => {
  beforeEach(() => vi.stubGlobal("navigator", {}));

  test("a tray is held by one window, others stay free, and it is free again after letting go", async () => {
    expect(await anyTrayHeld()).toBe(false);
    const release = await holdTray(study, 17);
    expect(release).not.toBeNull();
    expect(await holdTray(study, 17)).toBeNull();
    expect(await anyTrayHeld()).toBe(true);
    const other = await holdTray(study, 1); // the first digit of 17 is not tray 17
    expect(other).not.toBeNull();
    release?.();
    other?.();
    expect(await anyTrayHeld()).toBe(false);
    (await holdTray(study, 17))?.();
  });
});

describe("with locks", () => {
  test("a refused lock is a tray open elsewhere; a granted one lasts until it is let go", async () => {
    const asked: string[] = [];
    let ended = false;
    const request = (name: string, _options: unknown, work: () => Promise<void>): Promise<void> => {
      asked.push(name);
      if (asked.length > 1) return Promise.reject(new DOMException("waited too long", "TimeoutError"));
      return work().then(() => {
        ended = true;
      });
    };
    vi.stubGlobal("navigator", { locks: { request, query: async () => ({ held: asked.map((name) => ({ name })) }) } });
    const release = await holdTray(study, 17);
    expect(await holdTray(study, 17)).toBeNull();
    expect(asked[0]).toContain(`${study} 17`);
    expect(await anyTrayHeld()).toBe(true);
    expect(ended).toBe(false);
    release?.();
    await vi.waitFor(() => expect(ended).toBe(true));
  });
});
