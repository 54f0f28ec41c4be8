import fc from "fast-check";
import { expect, test } from "vitest";
import { countedOf, foldPortions, type Weighings } from "../../src/log/portions.ts";
import type { Body, Fact } from "../../src/model/event.ts";
import type { BlindTray } from "../../src/model/packet.ts";
import { lead, tabletA, tabletB, Writer } from "./example.ts";

/** Portions by tray and code, as they are weighed: what counts does not hang on when a reading arrived. */

const trays: BlindTray[] = [
  { tray: 1, wave: 1, spare: false, codes: ["482", "715"] },
  { tray: 2, wave: 1, spare: true, codes: ["264"] },
];

const weighed = (change: Partial<Body<"portion-weighed">>): Body<"portion-weighed"> => ({
  ...{ tray: 1, code: "482", stage: "cup", grams: "12.31", rinse: "", balanceStep: "0.01" },
  ...{ waitedSeconds: null, after: [], note: "" },
  ...change,
});
const fold = (facts: readonly Fact[]): Weighings => foldPortions(facts, trays, null);
const cupOf = (facts: readonly Fact[]) => fold(facts).portions[0]?.cup.map(({ grams }) => grams);

test("every portion of the plan is there, weighed or not, in the order of trays and places", () => {
  const log = new Writer();
  const { portions } = fold([log.write(lead, "portion-weighed", weighed({ code: "715", grams: "12.0" }))]);
  expect(portions.map(({ tray, code, place, spare }) => [tray, code, place, spare])).toEqual([
    [1, "482", 1, false],
    [1, "715", 2, false],
    [2, "264", 1, true],
  ]);
  // as typed: a zero at the end says how finely was read
  expect(portions.map(({ cup }) => countedOf(cup)?.grams ?? null)).toEqual([null, "12.0", null]);
});

test("a later entry that names the earlier one takes its place", () => {
  const log = new Writer();
  const first = log.write(lead, "portion-weighed", weighed({}));
  const second = log.write(tabletA, "portion-weighed", weighed({ grams: "12.13", after: [first.id] }));
  expect(cupOf([first, second])).toEqual(["12.13"]);
});

test("two entries that do not know of each other contradict: none counts until one names both", () => {
  const log = new Writer();
  const first = log.write(lead, "portion-weighed", weighed({}));
  const second = log.write(tabletA, "portion-weighed", weighed({ grams: "12.13" }));
  expect(cupOf([first, second])).toEqual(["12.31", "12.13"]);
  expect(countedOf(fold([first, second]).portions[0]?.cup ?? [])).toBeNull();
  const ruled = log.write(lead, "portion-weighed", weighed({ grams: "12.13", after: [first.id, second.id] }));
  expect(cupOf([first, second, ruled])).toEqual(["12.13"]);
});

test("an entry that is taken back leaves what it followed, and what followed it stays", () => {
  const log = new Writer();
  const first = log.write(lead, "portion-weighed", weighed({}));
  const second = log.write(lead, "portion-weighed", weighed({ grams: "1.23", after: [first.id] }));
  const back = log.write(lead, "entry-voided", { target: second.id, note: "" });
  expect(cupOf([first, second, back])).toEqual(["12.31"]);
  expect(fold([first, second, back]).voided).toBe(1);
  const third = log.write(lead, "portion-weighed", weighed({ grams: "12.32", after: [second.id] }));
  expect(cupOf([first, second, back, third])).toEqual(["12.32"]);
});

test("a reading of a code that the tray does not carry is told apart and counts nowhere", () => {
  const log = new Writer();
  const stray = log.write(lead, "portion-weighed", weighed({ tray: 2, code: "482" }));
  const { offPlan, portions } = fold([stray]);
  expect(offPlan.map(({ tray, code }) => [tray, code])).toEqual([[2, "482"]]);
  expect(portions.every(({ cup }) => cup.length === 0)).toBe(true);
});

test("what is weighed or taken back after the reveal changes nothing", () => {
  const log = new Writer();
  const first = log.write(lead, "portion-weighed", weighed({}));
  const heads = { [lead]: log.head(lead) };
  const late = log.write(lead, "portion-weighed", weighed({ grams: "13.00", after: [first.id] }));
  const back = log.write(lead, "entry-voided", { target: first.id, note: "" });
  const { portions } = foldPortions([first, late, back], trays, heads);
  expect(portions[0]?.cup.map(({ grams }) => grams)).toEqual(["12.31"]);
});

/** Three devices that enter, correct and take back at random, each knowing some of what the others wrote. */
const steps = fc.array(
  fc.record({
    device: fc.constantFrom(lead, tabletA, tabletB),
    stage: fc.constantFrom("cup" as const, "portion" as const, "after" as const),
    code: fc.constantFrom("482", "715"),
    grams: fc.integer({ min: 1, max: 9999 }),
    knows: fc.infiniteStream(fc.boolean()),
    voids: fc.boolean(),
  }),
  { minLength: 1, maxLength: 12 },
);

test("entries delivered in every order and twice over fold to the same portions", () => {
  fc.assert(
    fc.property(steps, fc.infiniteStream(fc.integer({ min: 0, max: 1_000_000 })), (list, dice) => {
      const log = new Writer();
      const facts: Fact[] = [];
      for (const { device, stage, code, grams, knows, voids } of list) {
        const same = facts.filter(
          (fact) => fact.kind === "portion-weighed" && fact.body.stage === stage && fact.body.code === code,
        );
        const after = same.filter(() => knows.next().value).map(({ id }) => id);
        const [target] = same;
        if (voids && target) facts.push(log.write(device, "entry-voided", { target: target.id, note: "" }));
        else
          facts.push(
            log.write(device, "portion-weighed", weighed({ stage, code, grams: (grams / 100).toFixed(2), after })),
          );
      }
      const order = facts.map((fact) => ({ fact, at: dice.next().value })).sort((a, b) => a.at - b.at);
      const shuffled = order.map(({ fact }) => fact);
      expect(fold([...shuffled, ...facts])).toEqual(fold(facts));
    }),
    { numRuns: 40 },
  );
});

test("whatever was entered: a reading counts or is contradicted, unless all of its stage was taken back", () => {
  fc.assert(
    fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 8 }), (voids) => {
      const log = new Writer();
      const facts: Fact[] = [];
      for (const [at, voided] of voids.entries()) {
        const known = facts.filter(({ kind }) => kind === "portion-weighed").map(({ id }) => id);
        const entry = log.write(lead, "portion-weighed", weighed({ grams: `${at + 1}.00`, after: known }));
        facts.push(entry);
        if (voided) facts.push(log.write(lead, "entry-voided", { target: entry.id, note: "" }));
      }
      // each knew all before it: the last one that was not taken back counts
      const last = voids.lastIndexOf(false);
      expect(cupOf(facts)).toEqual(last < 0 ? [] : [`${last + 1}.00`]);
    }),
    { numRuns: 25 },
  );
});
