import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Attribute } from "../../src/model/attribute.ts";
import type { BlindPacket } from "../../src/model/packet.ts";
import type { Plan } from "../../src/model/plan.ts";
import { ballotLeaves, heightMm, isWide, roomMm } from "../../src/organizer/ballot-pages.ts";
import { rowsByBatch, rowsByTray } from "../../src/organizer/kitchen.ts";
import { barPlace, labelSheets, overrun, sheetMm, usualGrid } from "../../src/organizer/labels.ts";
import { linePlan, preferencePlan, readyPlan } from "../design/scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const plan = readyPlan({ serving: { ...readyPlan().serving, portionGrams: 12 } });
const { blind, key } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
const lock = { plan, packet: blindPacketOf(plan, study, blind, "0".repeat(64)) };

describe("kitchen sheets", () => {
  test("six products by tray: each letter once on each tray, every code and batch as the key says", () => {
    const more = ["held 40 min", "with broth", "with broth, rested"].map((name, at) => ({
      id: `11111111-2222-4333-8444-55555555552${at}`,
      name,
      preparation: "As new, then more.",
    }));
    const three = linePlan();
    const six = {
      ...three,
      products: [...three.products, ...more],
      waves: three.waves.map((wave) => ({
        ...wave,
        batches: { ...wave.batches, ...Object.fromEntries(more.map(({ id }, at) => [id, [`M${at}`]])) },
      })),
    };
    const made = makeTrays(six, study, { seed: "5eed", codes: seeded("codes", "test") });
    const packet = blindPacketOf(six, study, made.blind, "0".repeat(64));
    for (const { tray, cups } of rowsByTray(made.key, { plan: six, packet })) {
      const keyed = made.key.trays.find((each) => each.tray === tray);
      expect([...cups.map(({ letter }) => letter)].sort().join("")).toBe("ABCDEF");
      expect(cups.map(({ code, batch }) => `${code} ${batch}`)).toEqual(
        keyed?.samples.map(({ code, batch }) => `${code} ${batch}`),
      );
    }
  });

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
    const sheets = labelSheets(lock.packet.trays, usualGrid.a4, 1);
    expect(sheets.map((sheet) => sheet.filter((cell) => cell !== null).length)).toEqual([21, 21, 21, 18]);
    expect(sheets.every((sheet) => sheet.length === 21)).toBe(true);
  });

  test("a begun sheet leaves the used cells empty and loses no label", () => {
    const sheets = labelSheets(lock.packet.trays, usualGrid.a4, 4);
    expect(sheets[0]?.slice(0, 3)).toEqual([null, null, null]);
    expect(sheets[0]?.[3]).toEqual({ tray: 1, place: 1, code: lock.packet.trays[0]?.codes[0] });
    expect(sheets.flat().filter((cell) => cell !== null).length).toBe(81);
  });
});

describe("label sheets of other makes", () => {
  // arithmetic on the sheet's measures: 210 by 297 mm, 8.5 by 11 inches
  test.each([
    ["a4", usualGrid.a4],
    ["letter", usualGrid.letter],
  ] as const)("the usual sheet fits %s to both edges alike, with room for the bar above", (size, grid) => {
    const { columns, rows, widthMm, heightMm, columnGapMm, rowGapMm, leftMm, topMm } = grid;
    const right = sheetMm[size].width - leftMm - columns * widthMm - (columns - 1) * columnGapMm;
    const under = sheetMm[size].height - topMm - rows * heightMm - (rows - 1) * rowGapMm;
    expect([right, under]).toEqual([expect.closeTo(leftMm, 6), expect.closeTo(topMm, 6)]);
    expect(overrun(grid, size)).toBeNull();
    expect(barPlace(grid, size)).toBe("top");
  });

  test("labels that run over the edge are told by how much: 4 by 63.5 with gaps of 2.5 from 7.25 is 268.75 mm", () => {
    expect(overrun({ ...usualGrid.a4, columns: 4 }, "a4")).toEqual({ way: "right", reach: 268.75, room: 210 });
    expect(overrun({ ...usualGrid.a4, rows: 8 }, "a4")).toMatchObject({ way: "down", room: 297 });
    expect(overrun({ ...usualGrid.a4, rightwardMm: 0.1 }, "a4")).toBeNull();
  });

  test("the bar goes under the labels where it has no room above, and nowhere where there is none at all", () => {
    const low = { ...usualGrid.a4, topMm: 2, rows: 7 };
    expect(barPlace(low, "a4")).toBe("bottom");
    expect(barPlace({ ...low, heightMm: 42 }, "a4")).toBeNull();
  });
});

describe("leaves of the backup ballots", () => {
  const packetOf = (of: Plan) => {
    const trays = makeTrays(of, study, { seed: "5eed", codes: seeded("codes", "test") });
    return blindPacketOf(of, study, trays.blind, "0".repeat(64));
  };
  const [juicy] = linePlan().scale.attributes;
  if (!juicy) throw new Error("the scenario judges juiciness");
  const second = { ...juicy, id: "11111111-2222-4333-8444-555555555511", name: "Chewiness", adjective: "chewy" };
  const long = {
    ...juicy,
    highAnchor: "as juicy as the juiciest meatball that you have ever had in your life ".repeat(3),
  };
  const line = (attributes: Attribute[], lengthMm = 120) => packetOf(linePlan({ scale: { lengthMm, attributes } }));

  test("a choice takes one leaf for each tray, spares too", () => {
    expect(ballotLeaves(packetOf(preferencePlan()), "a4", [300, 600]).map(({ tray, of }) => [tray.tray, of])).toEqual(
      Array.from({ length: 27 }, (_, at) => [at + 1, 1]),
    );
  });

  test.each<[string, BlindPacket]>([
    ["one property", line([juicy])],
    ["two properties", line([juicy, second])],
    ["end words over many lines", line([long, second])],
    ["a line too long for an upright sheet", line([juicy, second], 200)],
  ])("%s: each sample of each tray with each property once, in the order of the tablet", (_, packet) => {
    for (const size of ["a4", "letter"] as const) {
      const leaves = ballotLeaves(packet, size, [300, 600]);
      for (const tray of packet.trays) {
        const mine = leaves.filter((leaf) => leaf.tray.tray === tray.tray);
        expect(mine.map(({ at, of }) => [at, of])).toEqual(mine.map((_leaf, at) => [at + 1, mine.length]));
        const asked = mine.flatMap(({ lines }) => lines.map(({ code, attribute }) => `${code} ${attribute.id}`));
        expect(asked).toEqual(
          tray.codes.flatMap((code) => (packet.line?.attributes ?? []).map(({ id }) => `${code} ${id}`)),
        );
        for (const { lines, at } of mine) {
          const used = lines.reduce((sum, { attribute }) => sum + heightMm(attribute), 0);
          if (lines.length > 1)
            expect(used).toBeLessThanOrEqual(roomMm(size, isWide(packet), at === 1 ? [300, 600] : []));
        }
      }
    }
  });

  test("what is asked of a sample stays on one leaf, and no leaf is turned in the middle of a chew", () => {
    const moments = [{ at: "first-bite" }, { at: "after", seconds: 10 }, { at: "before-swallowing" }] as const;
    const chew = moments.map((moment, at) => ({ ...juicy, id: second.id.replace(/.$/, String(at)), moment }));
    for (const packet of [line([juicy, second]), line(chew)]) {
      for (const size of ["a4", "letter"] as const) {
        const mine = ballotLeaves(packet, size, [300, 600]).filter(({ tray }) => tray.tray === 1);
        for (const code of packet.trays[0]?.codes ?? []) {
          const on = mine.filter(({ lines }) => lines.some((one) => one.code === code));
          expect(on.length, `${code} on ${size}`).toBe(1);
        }
      }
    }
  });

  test("small print that takes the whole leaf leaves the questions to the next ones, and none is lost", () => {
    const [first, ...others] = ballotLeaves(line([juicy]), "a4", [5000]).filter(({ tray }) => tray.tray === 1);
    expect(first?.lines).toEqual([]);
    expect(others.flatMap(({ lines }) => lines).length).toBe(3);
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
