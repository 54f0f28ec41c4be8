import { beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Paper } from "../../src/model/event.ts";
import { type HeldKey, KeyMemory, keyLimitMs } from "../../src/organizer/key-memory.ts";
import { lockPlan } from "../../src/organizer/lock.ts";
import { mayShow, PrintGuard, printBody } from "../../src/organizer/print-rules.ts";
import { randomBytes } from "../../src/seal/random.ts";
import { readyPlan } from "../design/scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const other = "6a1b7d90-55aa-4f0e-9d2b-0c7d1f3e9a42";
const noon = "2026-05-03T12:00:00.000Z";
const later = (ms: number): string => new Date(Date.parse(noon) + ms).toISOString();
const printed = (...papers: Paper[]) => papers.map((paper) => ({ body: { paper, reprint: false } }));

let fresh: HeldKey;
beforeAll(async () => {
  const { opened } = await lockPlan(readyPlan(), study, "0.1.0", randomBytes);
  fresh = { study, opened, passphrase: null, fresh: true, paper: null };
});

describe("what a print is called in the log", () => {
  test("the second print of a paper with the key is a reprint, the first is not", () => {
    expect(printBody("kitchen-by-tray", printed("kitchen-by-product", "tray-cards")).reprint).toBe(false);
    expect(printBody("kitchen-by-tray", printed("kitchen-by-tray"))).toEqual({
      paper: "kitchen-by-tray",
      reprint: true,
    });
  });
  test("a paper without the key is never a reprint", () => {
    expect(printBody("tray-cards", printed("tray-cards")).reprint).toBe(false);
  });
});

describe("when a paper with the key may be on the screen", () => {
  test("right after the lock each one once, until it is printed", () => {
    expect(mayShow("sealed-page", fresh, printed("kitchen-by-tray"))).toBe(true);
    expect(mayShow("kitchen-by-tray", fresh, printed("kitchen-by-tray"))).toBe(false);
  });
  test("after the papers were left, printed or not, only when the key was opened for it", () => {
    expect(mayShow("sealed-page", null, [])).toBe(false);
    const opened: HeldKey = { ...fresh, fresh: false, paper: "sealed-page" };
    expect(mayShow("sealed-page", opened, printed("sealed-page"))).toBe(true);
    expect(mayShow("kitchen-by-tray", opened, [])).toBe(false);
  });
  test("a paper without the key always", () => {
    expect(mayShow("labels", null, printed("labels"))).toBe(true);
  });
});

describe("how long the opened key stays in the page", () => {
  let memory: KeyMemory;
  beforeEach(() => {
    memory = new KeyMemory();
  });

  test("half an hour, and no longer, whichever way the clock was set", () => {
    memory.hold(fresh, noon);
    expect(memory.held(later(keyLimitMs - 1), study)?.opened).toBe(fresh.opened);
    expect(memory.held(later(keyLimitMs), study)).toBeNull();
    expect(memory.held(noon, study)).toBeNull();
    memory.hold(fresh, noon);
    expect(memory.held(later(-keyLimitMs), study)).toBeNull();
    expect(keyLimitMs).toBe(1_800_000);
  });
  test("a passphrase that is not written down yet is not lost to time; then the half hour begins", () => {
    memory.hold({ ...fresh, passphrase: "eight words" }, noon);
    expect(memory.held(later(10 * keyLimitMs), study)?.passphrase).toBe("eight words");
    memory.dropPassphrase(later(10 * keyLimitMs));
    expect(memory.held(later(11 * keyLimitMs - 1), study)?.passphrase).toBeNull();
    expect(memory.held(later(11 * keyLimitMs), study)).toBeNull();
  });
  test("it goes when the papers are left, but never while the passphrase is on the screen", () => {
    memory.hold({ ...fresh, passphrase: "eight words" }, noon);
    expect(memory.goTo(null)).toBe("back");
    memory.dropPassphrase(noon);
    expect(memory.goTo({ study, paper: "kitchen-by-tray" })).toBe("stay");
    expect(memory.goTo({ study: other, paper: null })).toBe("drop");
    expect(memory.held(noon)).toBeNull();
  });
  test("opened for one paper, it goes when that paper was printed or left", () => {
    const opened: HeldKey = { ...fresh, fresh: false, paper: "sealed-page" };
    memory.hold(opened, noon);
    expect(memory.goTo({ study, paper: "sealed-page" })).toBe("stay");
    expect(memory.goTo({ study, paper: null })).toBe("drop");
    memory.hold(opened, noon);
    expect(memory.printed("sealed-page")).toBe("drop");
    expect(memory.held(noon)).toBeNull();
  });
  test("right after the lock a reprint takes away nothing but its own permission", () => {
    memory.hold({ ...fresh, paper: "sealed-page" }, noon);
    expect(memory.printed("sealed-page")).toBe("stay");
    expect(memory.held(noon, study)).toEqual(fresh);
  });
});

describe("no print goes unwritten", () => {
  let log: string[];
  const guard = (covered: boolean, full = false) =>
    new PrintGuard({
      covered,
      write: async () => {
        if (full) throw new Error("no room");
        log.push("written");
      },
      print: () => log.push("printed"),
    });
  beforeEach(() => {
    log = [];
  });

  test("the button writes first, then prints; the browser's word of that print adds nothing", async () => {
    const mine = guard(false);
    await mine.press();
    await mine.before();
    expect(log).toEqual(["written", "printed"]);
  });
  test("the browser's own print is written down, each time", async () => {
    const mine = guard(false);
    await mine.before();
    await mine.before();
    expect(log).toEqual(["written", "written"]);
  });
  test("a print that was written down when the key was opened is not written twice, the next one is", async () => {
    const mine = guard(true);
    await mine.press();
    expect(log).toEqual(["printed"]);
    await mine.press();
    expect(log).toEqual(["printed", "written", "printed"]);
    const menu = guard(true);
    await menu.before();
    expect(log).toHaveLength(3);
  });
  test("what cannot be written down is not printed", async () => {
    await expect(guard(false, true).press()).rejects.toThrow("no room");
    expect(log).toEqual([]);
  });
});
