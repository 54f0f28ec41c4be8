import { describe, expect, test } from "vitest";
import type { BlindPacket } from "../../src/model/packet.ts";
import { blankEntry, blankForm, type Entry, type Form, readForm } from "../../src/panel/tools/paper-reading.ts";
import { linePacket, stepsPacket } from "./line-packet.ts";
import { packet } from "./tablet.ts";

// What must be read follows from what stands on the form; the shapes are those of the methods, no source.

const tray = { tray: 1, codes: ["301", "514", "827"] };
const formOf = (entries: Record<number, Partial<Entry>>, change: Partial<Form> = {}): Form => ({
  ...blankForm,
  cleared: true,
  entries: Object.fromEntries(Object.entries(entries).map(([at, entry]) => [at, { ...blankEntry, ...entry }])),
  ...change,
});

describe("choices", () => {
  const as = (change: Partial<BlindPacket>): BlindPacket => ({ ...packet, ...change });
  test.each([
    ["a code", as({}), { picked: "514", guess: true }, [{ question: 1, choice: "514", guess: true }]],
    ["a code of no cup", as({}), { picked: "999" }, []],
    [
      "a word",
      as({ method: "same-different", wording: "same-different-1" }),
      { picked: "different" },
      [{ question: 1, choice: "different", guess: false }],
    ],
    [
      "no preference, where it is offered",
      as({ method: "paired-preference", wording: "paired-preference-1", noPreference: true }),
      { picked: "none" },
      [{ question: 1, choice: "none", guess: false }],
    ],
    [
      "an order by the places in the boxes",
      as({ method: "ranking", wording: "ranking-1", ranking: { least: "least", most: "most", definition: "" } }),
      { places: { "301": "3", "514": "1", "827": "2" } },
      [{ question: 1, choice: "514 827 301", guess: false }],
    ],
  ])("%s", (_what, of, entry, choices) => {
    expect(readForm(formOf({ 1: entry }), of, tray).said.choices).toEqual(choices);
  });

  test("places that are no order are wrong; the same place twice, or one that is missing", () => {
    const of = as({ method: "ranking", wording: "ranking-1", ranking: { least: "l", most: "m", definition: "" } });
    for (const places of [
      { "301": "1", "514": "1", "827": "2" },
      { "301": "1", "514": "2" },
    ]) {
      expect(readForm(formOf({ 1: { places } }), of, tray).wrong).toEqual([{ at: 1, what: "order" }]);
    }
  });

  test("several questions: those left empty are named, those said to be empty are not asked about again", () => {
    const properties = ["juicier", "firmer", "saltier"].map((comparative, at) => ({
      ...{ id: `7e1f5a96-b3cc-4b9d-8f30-4c1d8e5a6b0${at}`, comparative, definition: "" },
    }));
    const of = as({ method: "paired-difference", wording: "paired-difference-1", properties });
    const read = readForm(formOf({ 1: { picked: "301" }, 3: { picked: "empty" } }), of, tray);
    expect(read.empty).toEqual([2]);
    expect(read.said.choices.map(({ question }) => question)).toEqual([1]);
  });

  test("consent was asked for and its box is empty: nothing is taken over", () => {
    const of = as({ consent: { version: "c".repeat(64), lines: [] } });
    expect(readForm(formOf({ 1: { picked: "514" } }), of, tray)).toMatchObject({
      ...{ cleared: false, wrong: [], empty: [] },
      said: { clearance: packet.allergens.version, consent: null, stopped: "not-cleared", choices: [] },
    });
    const ticked = readForm(formOf({ 1: { picked: "514" } }, { consent: true }), of, tray);
    expect(ticked.said).toMatchObject({ consent: "c".repeat(64), stopped: null, choices: [{ choice: "514" }] });
  });
});

describe("scales", () => {
  test("a line: millimeters, a reason, both, and what is no number", () => {
    const entries = {
      1: { mm: "74" },
      2: { why: "sample" as const },
      3: { mm: "7", why: "other" as const },
      4: { mm: "7.5" },
    };
    const { wrong, said, empty } = readForm(formOf(entries, { lineMm: "120" }), linePacket, tray);
    expect(wrong).toEqual([
      { at: 3, what: "both" },
      { at: 4, what: "no-millimeters" },
    ]);
    expect(said.marks.map(({ question, mm, why }) => [question, mm, why])).toEqual([
      [1, 74, null],
      [2, null, "sample"],
    ]);
    expect(empty).toEqual([5, 6, 7, 8, 9]);
  });

  test.each([
    ["59", "length-odd"],
    ["181", "length-odd"],
    ["12 cm", "length-odd"],
    ["", "length-missing"],
  ])("a line of %s for 120 mm planned: %s", (lineMm, what) => {
    expect(readForm(formOf({ 1: { mm: "50" } }, { lineMm }), linePacket, tray).wrong).toEqual([{ at: "length", what }]);
  });

  test("no stroke anywhere: the length of the lines does not matter", () => {
    const { wrong, said } = readForm(formOf({ 1: { why: "other" } }), linePacket, tray);
    expect([wrong, said.lineMm]).toEqual([[], null]);
  });

  test("steps by their number", () => {
    const { said, wrong } = readForm(formOf({ 1: { picked: "9" }, 2: { picked: "2" } }), stepsPacket, tray);
    expect(wrong).toEqual([]);
    expect(said.marks.map(({ question, step, mm }) => [question, step, mm])).toEqual([
      [1, 9, null],
      [2, 2, null],
    ]);
  });
});
