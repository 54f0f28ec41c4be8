import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Body } from "../../src/model/event.ts";
import { plannable } from "../../src/model/method.ts";
import type { Plan } from "../../src/model/plan.ts";
import { rowsByBatch, rowsByTray } from "../../src/organizer/kitchen.ts";
import { labelSheets, usualGrid } from "../../src/organizer/labels.ts";
import { paperKeyText, readPaperKey } from "../../src/organizer/paper-key.ts";
import { commitmentOf } from "../../src/seal/commitment.ts";
import { linePlan, rankingPlan, readyPlan } from "../design/scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const [current, steamed] = readyPlan().products.map(({ id }) => id);

/** A study of any method, as it is locked; of the sealed key only what reading the page looks at. */
function lockedOf(plan: Plan, seed: string) {
  const { blind, key, pots } = makeTrays(plan, study, { seed, codes: seeded(seed, "codes") });
  const opened = { key, salt: "ab".repeat(32) };
  const packet = blindPacketOf(plan, study, blind, commitmentOf(opened));
  const sealed = { commitment: commitmentOf(opened) };
  return { opened, lock: { plan, packet, sealed, pots } as unknown as Body<"study-locked"> };
}

const anyPlan = fc
  .record({
    method: fc.constantFrom(...plannable),
    product: fc.constantFrom(current ?? "", steamed ?? ""),
    kind: fc.constantFrom("constant" as const, "balanced" as const),
    repeats: fc.integer({ min: 1, max: 3 }),
  })
  .map(({ method, product, kind, repeats }): Plan => {
    const property = { id: study, name: "Juiciness", comparative: "juicier", definition: "Juice.", expected: product };
    const base = { "line-scale": linePlan(), ranking: rankingPlan() }[method as string] ?? readyPlan({ repeats });
    return { ...base, method, reference: { kind, product }, properties: [{ ...property, inFamily: true }] };
  });

describe("the sealed page", () => {
  test("its text gives back the key of any method, typed in any case, on any lines", () => {
    fc.assert(
      fc.property(anyPlan, fc.stringMatching(/^[0-9a-f]{8}$/), (plan, seed) => {
        const { opened, lock } = lockedOf(plan, seed);
        const text = paperKeyText(opened, plan, lock.packet.trays);
        expect(text).toMatch(/^CLOCHEKEY[12] [0-9A-Z.: ]+$/);
        expect(readPaperKey(text.toLowerCase().replaceAll(" ", "\n"), lock)).toEqual(opened);
      }),
      { numRuns: 60 },
    );
  });

  test("that of a lock without pots, as they were made once, still gives its key back", () => {
    const plan = readyPlan();
    const { opened, lock } = lockedOf(plan, "5eed");
    const { pots: _none, ...key } = opened.key;
    const older = { ...opened, key };
    const { pots: _labels, ...rest } = lock;
    const before = { ...rest, sealed: { ...lock.sealed, commitment: commitmentOf(older) } };
    const text = paperKeyText(older, plan, lock.packet.trays);
    expect(text).not.toMatch(/ [A-Z]{2}:/);
    expect(readPaperKey(text, before)).toEqual(older);
  });

  test("a reference that is typed wrong is told, and a page without references does not open a study with them", () => {
    const plan = readyPlan({ method: "duo-trio" });
    const { opened, lock } = lockedOf(plan, "5eed");
    const text = paperKeyText(opened, plan, lock.packet.trays);
    const wrong = text.replace(/ 1:([AB])\./, (_, letter) => ` 1:${letter === "A" ? "B" : "A"}.`);
    expect(() => readPaperKey(wrong, lock)).toThrow("key/page-mistyped");
    expect(() => readPaperKey(text.replace("CLOCHEKEY2", "CLOCHEKEY1"), lock)).toThrow("key/page-unreadable");
  });
});

describe("papers of a duo-trio", () => {
  const plan = readyPlan({ method: "duo-trio", serving: { ...readyPlan().serving, portionGrams: 10 } });
  const { opened, lock } = lockedOf(plan, "5eed");

  test("each tray has its reference on both kitchen sheets, as the key says", () => {
    const batches = rowsByBatch(opened.key, lock);
    for (const { tray, reference } of rowsByTray(opened.key, lock)) {
      const keyed = opened.key.trays.find((each) => each.tray === tray);
      expect(reference?.letter).toBe(keyed?.order[0]);
      expect(reference?.batch).toBe(keyed?.reference?.batch);
      const from = batches.filter(({ references }) => references.includes(tray));
      expect(from.map(({ letter, batch }) => [letter, batch])).toEqual([[reference?.letter, reference?.batch]]);
    }
    // 24 and 3 trays of three cups of 10 g
    expect(batches.reduce((sum, { grams }) => sum + (grams ?? 0), 0)).toBe(27 * 3 * 10);
  });

  test("a label R for each tray, before its codes", () => {
    const labels = labelSheets(lock.packet.trays, usualGrid.a4, 1, "R")
      .flat()
      .filter((cell) => cell !== null);
    expect(labels.length).toBe(27 * 3);
    expect(labels.filter(({ code }) => code === "R").map(({ tray }) => tray)).toEqual(
      lock.packet.trays.map(({ tray }) => tray),
    );
  });
});
