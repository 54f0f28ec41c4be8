import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { rowsByBatch, rowsByTray } from "../../src/organizer/kitchen.ts";
import { labelSheets } from "../../src/organizer/labels.ts";
import { readyPlan } from "../design/scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const plan = readyPlan({ serving: { ...readyPlan().serving, portionGrams: 12 } });
const { blind, key } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
const lock = { plan, packet: blindPacketOf(plan, study, blind, "0".repeat(64)) };

describe("kitchen sheets", () => {
  test("by tray: every cup as the key says, products as letters in the order of the plan", () => {
    for (const row of rowsByTray(key, lock)) {
      const keyed = key.trays.find(({ tray }) => tray === row.tray);
      expect(row.cups.map(({ letter }) => letter).join("")).toBe(keyed?.order);
      expect(row.cups.map(({ code }) => code)).toEqual(lock.packet.trays.find(({ tray }) => tray === row.tray)?.codes);
      expect(row.cups.map(({ batch }) => batch)).toEqual(keyed?.samples.map(({ batch }) => batch));
    }
  });

  test("by product and batch: each cup of each tray stands there once, under its product, batch and wave", () => {
    const listed = rowsByBatch(key, lock).flatMap((row) =>
      row.cups.map(({ tray, place, code }) => `${row.wave} ${tray} ${place} ${code} ${row.letter} ${row.batch}`),
    );
    const expected = rowsByTray(key, lock).flatMap(({ tray, wave, cups }) =>
      cups.map(({ place, code, letter, batch }) => `${wave} ${tray} ${place} ${code} ${letter} ${batch}`),
    );
    expect(listed.length).toBe((24 + 3) * 3);
    expect([...listed].sort()).toEqual([...expected].sort());
  });

  test("by product and batch: grams are portions of 12 g", () => {
    for (const { cups, grams } of rowsByBatch(key, lock)) expect(grams).toBe(cups.length * 12);
  });
});

describe("label sheets", () => {
  test("81 cups fill three full sheets of 21 and 18 of a fourth", () => {
    const sheets = labelSheets(lock.packet.trays, "a4", 1);
    expect(sheets.map((sheet) => sheet.filter((cell) => cell !== null).length)).toEqual([21, 21, 21, 18]);
    expect(sheets.every((sheet) => sheet.length === 21)).toBe(true);
  });

  test("a begun sheet leaves the used cells empty and loses no label", () => {
    const sheets = labelSheets(lock.packet.trays, "a4", 4);
    expect(sheets[0]?.slice(0, 3)).toEqual([null, null, null]);
    expect(sheets[0]?.[3]).toEqual({ tray: 1, place: 1, code: lock.packet.trays[0]?.codes[0] });
    expect(sheets.flat().filter((cell) => cell !== null).length).toBe(81);
  });
});

describe("tables over several pages", () => {
  const css = readFileSync(join(import.meta.dirname, "../../src/organizer/papers.css"), "utf8");
  const rules = [...css.matchAll(/([^{}]+)\{([^}]*)\}/g)].map(([, selectors = "", body = ""]) => ({
    selectors: selectors.split(",").map((selector) => selector.trim()),
    body,
  }));
  const bodyOf = (selector: string) =>
    rules
      .filter(({ selectors }) => selectors.includes(selector))
      .map(({ body }) => body)
      .join();

  test("a wave may go over a page, a tray may not, and the head stands on each page", () => {
    expect(bodyOf(".by-tray")).toContain("table-layout");
    expect(bodyOf(".by-tray")).not.toContain("break-inside");
    expect(bodyOf(".by-tray tr")).toContain("break-inside: avoid");
    expect(bodyOf(".by-tray thead")).toContain("display: table-header-group");
  });
});
