import { describe, expect, test } from "vitest";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { foldStudy } from "../../src/log/fold.ts";
import type { Body, Fact } from "../../src/model/event.ts";
import { portionRefusalOf } from "../../src/model/portion-check.ts";
import { checkDigit } from "../../src/model/tray.ts";
import { entryOf, lastOwn, nextTarget, type Target, weighPlanOf, weighRows } from "../../src/organizer/weigh.ts";
import { entriesFrom, weighingsFile } from "../../src/organizer/weigh-table.ts";
import { problemSentence } from "../../src/words/problem-sentence.ts";
import { lead, study, tabletA, Writer } from "../log/example.ts";
import { pairOfProducts } from "../methods/chew-study.ts";
import { problemOf } from "../problem-of.ts";

/** The weighing page: what it offers next, what it refuses, what a file brings. Products are nowhere in it. */

const plan = pairOfProducts({ people: 2, repeats: 1, spares: 1 });
const { blind, seats } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
const commitment = "ab".repeat(32);
const noSeal = { iv: "00".repeat(12), ciphertext: "", kdf: { rounds: 600_000, salt: "00".repeat(16) } };
const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };

/** A locked study, and everything that is entered in it through the page's own functions. */
class Desk {
  readonly log = new Writer();
  readonly facts: Fact[] = [
    this.log.write(lead, "study-locked", {
      ...{ plan, packet: blindPacketOf(plan, study, blind, commitment), seats, app: "test" },
      sealed: { v: 1, study, commitment, ...noSeal },
    }),
  ];
  state() {
    return foldStudy(this.facts);
  }
  rows() {
    return weighRows(this.state());
  }
  plan() {
    const found = weighPlanOf(this.state(), this.rows());
    if (!found) throw new Error("nothing is weighed here");
    return found;
  }
  write(body: Body<"portion-weighed">): void {
    this.facts.push(this.log.write(lead, "portion-weighed", body));
  }
  enter(at: Target, grams: string, rinse = "", waited: number | null = null): void {
    const row = this.rows().find(({ tray, code }) => tray === at.tray && code === at.code);
    const made = row && entryOf(row, at.stage, { grams, rinse, waited }, this.plan());
    if (!made?.body) throw new Error(JSON.stringify(made?.refusal));
    this.write(made.body);
  }
  /** As the server tells it before the reveal: the place, and no more. */
  chewed(tray: number, question: number): void {
    const chewed = { chewedSeconds: 15, whole: true, hidden: false, elapsedMs: 20_000, screen, salt: "5a".repeat(32) };
    const fact = this.log.write(tabletA, "portion-chewed", { tray, question, code: "111", ...chewed });
    this.facts.push({ ...fact, outline: true, body: { tray, question } } as Fact);
  }
}
const codesOf = (tray: number): string[] => blind.find((each) => each.tray === tray)?.codes ?? [];
const [first = "", second = ""] = codesOf(1);

describe("what is offered next", () => {
  test("cup and portion of each code, tray by tray, the spare last; then nothing until somebody has chewed", () => {
    const desk = new Desk();
    const offered: string[] = [];
    for (let at = nextTarget(desk.rows(), null); at; at = nextTarget(desk.rows(), at)) {
      offered.push(`${at.tray} ${at.code} ${at.stage}`);
      desk.enter(at, at.stage === "cup" ? "12.31" : "5.00");
    }
    const expected = [1, 2, 3].flatMap((tray) =>
      codesOf(tray).flatMap((code) => [`${tray} ${code} cup`, `${tray} ${code} portion`]),
    );
    expect(offered).toEqual(expected);
    expect(blind.map(({ tray, spare }) => [tray, spare])).toEqual([
      [1, false],
      [2, false],
      [3, true],
    ]);
  });
  test("a cup whose portion was chewed comes before everything, though others miss their first reading", () => {
    const desk = new Desk();
    desk.chewed(2, 2);
    expect(nextTarget(desk.rows(), null)).toEqual({ tray: 2, code: codesOf(2)[1], stage: "after" });
  });
  test("a contradiction is offered for ruling, and the entry names both", () => {
    const desk = new Desk();
    desk.enter({ tray: 2, code: codesOf(2)[0] ?? "", stage: "cup" }, "12.31");
    const [entry] = desk.rows().flatMap(({ cup }) => cup);
    const other = { tray: 2, code: codesOf(2)[0] ?? "", stage: "cup" as const, rinse: "", balanceStep: "", note: "" };
    desk.write({ ...other, grams: "13.00", waitedSeconds: null, after: [] });
    expect(nextTarget(desk.rows(), null)).toMatchObject({ tray: 2, stage: "cup" });
    desk.enter({ tray: 2, code: codesOf(2)[0] ?? "", stage: "cup" }, "12.31");
    const last = desk.facts.at(-1);
    expect(last?.kind === "portion-weighed" && last.body.after).toHaveLength(2);
    expect(last?.kind === "portion-weighed" && last.body.after.includes(entry?.entry ?? "")).toBe(true);
  });
});

describe("what cannot be is refused with what stands against it", () => {
  const planned = { grams: 5, toleranceGrams: 0.3 };
  const whole = { cup: "12.31", portion: "5.00", after: "28.60", rinse: "10.00" };
  test("closed cup lighter than empty cup and rinse water; by less than the readings are rounded it may be", () => {
    expect(portionRefusalOf({ ...whole, after: "22.29" }, planned)?.what).toBe("cup-above-after");
    expect(portionRefusalOf({ ...whole, after: "22.30" }, planned)).toBeNull();
  });
  test("kilograms or milligrams for grams, of a portion, of a cup beside its own and beside the others", () => {
    expect(portionRefusalOf({ ...whole, portion: "0.005" }, planned)?.what).toBe("thousandfold");
    expect(portionRefusalOf({ ...whole, portion: "5000" }, planned)?.what).toBe("thousandfold");
    expect(portionRefusalOf({ ...whole, cup: "0.012" }, planned)?.what).toBe("thousandfold");
    const only = { cup: "12310", portion: "", after: "", rinse: "" };
    expect(portionRefusalOf(only, { ...planned, otherCup: 12.3 })?.what).toBe("thousandfold");
    expect(portionRefusalOf(only, planned)).toBeNull();
  });
  test("no portion, and far more than a mouth adds: the rinse water was forgotten", () => {
    expect(portionRefusalOf({ ...whole, portion: "0.00" }, planned)?.what).toBe("no-portion");
    expect(portionRefusalOf({ ...whole, after: "52.40", rinse: "" }, planned)?.what).toBe("too-much");
  });
});

test("what was typed last can be taken back; what one file brought, in one go", () => {
  const desk = new Desk();
  desk.enter({ tray: 1, code: first, stage: "cup" }, "12.31");
  expect(lastOwn(desk.rows(), lead)).toMatchObject({ grams: "12.31", note: "" });
  expect(lastOwn(desk.rows(), tabletA)).toBeNull();
  const text = `tray,code,cup,portion\n1,${second},12.40,5.01\n2,${codesOf(2)[0]},12.20,5.02`;
  for (const body of entriesFrom(desk.rows(), desk.plan(), text, "masses.csv").bodies) desk.write(body);
  expect(lastOwn(desk.rows(), lead)).toMatchObject({
    note: "masses.csv",
    entries: expect.objectContaining({ length: 4 }),
  });
  for (const target of lastOwn(desk.rows(), lead)?.entries ?? []) {
    desk.facts.push(desk.log.write(lead, "entry-voided", { target, note: "" }));
  }
  expect(lastOwn(desk.rows(), lead)).toMatchObject({ grams: "12.31", note: "" });
});

describe("masses from a file", () => {
  const read = (desk: Desk, text: string) => entriesFrom(desk.rows(), desk.plan(), text, "masses.csv");
  test("one line a reading, or one line a portion; trays with or without their check digit; both bring the same", () => {
    const desk = new Desk();
    const long = ["cup;12.31", "portion;5.00", "after;28.60"].map(
      (rest) => `1-${checkDigit(1)};${first};${rest};10.00`,
    );
    const wide = `Tray,Code,Cup,Portion,After,Rinse\n1,${first},12.31,5.00,28.60,10.00`;
    expect(read(desk, ["tray;code;stage;grams;rinse", ...long].join("\n"))).toEqual(read(desk, wide));
    expect(read(desk, wide).bodies.map(({ stage, grams, rinse }) => [stage, grams, rinse])).toEqual([
      ["cup", "12.31", ""],
      ["portion", "5.00", ""],
      ["after", "28.60", "10.00"],
    ]);
  });
  test("what the page saves changes nothing when it is read back, and names no product", () => {
    const desk = new Desk();
    for (const body of read(desk, `tray,code,cup,portion\n1,${first},12.31,5.00`).bodies) desk.write(body);
    const saved = weighingsFile(desk.rows());
    expect(read(desk, saved)).toEqual({ bodies: [], same: 2 });
    for (const { name } of plan.products) expect(saved).not.toContain(name);
  });
  test("rinse water that a file does not name is what was planned", () => {
    const [body] = read(new Desk(), `tray,code,after\n1,${first},28.60`).bodies;
    expect(body?.rinse).toBe("10");
  });
  test.each([
    ["tray,grams\n1,5", "“code”"],
    [`tray,code,cup\n9,${first},12.31`, "line 2, column “tray”"],
    ["tray,code,cup\n1,999,12.31", "line 2, column “code”"],
    [`tray,code,cup\n1-9,${first},12.31`, "line 2, column “tray”"],
    [`tray,code,stage,grams\n1,${first},lid,12.31`, "line 2, column “stage”"],
    [`tray,code,cup\n1,${first},12.31\n1,${second},heavy`, "line 3, column “cup”"],
    [`tray,code,cup\n1,${first},12.31\n1,${first},12.31`, "stands on line 2 already"],
    [`tray,code,cup,portion,after\n1,${first},12.31,5.00,9.00`, "weighs less than the empty one"],
  ])("%j is refused with its line, whole", (text, said) => {
    expect(problemSentence(problemOf(() => read(new Desk(), text)))).toContain(said);
  });
});

describe("how long a closed cup waited", () => {
  const after = { tray: 1, code: first, stage: "after" as const };
  const waitOf = (desk: Desk) => desk.rows()[0]?.after.map(({ waitedSeconds }) => waitedSeconds);
  const weighed = (waited: number | null): Desk => {
    const desk = new Desk();
    desk.enter({ ...after, stage: "cup" }, "12.31", "", 5);
    desk.enter({ ...after, stage: "portion" }, "5.00", "", 5);
    desk.chewed(1, 1);
    desk.enter(after, "18.00", "", waited);
    return desk;
  };
  test("is kept in whole seconds that surely passed, and of the closed cup alone", () => {
    const desk = weighed(74.9);
    expect(waitOf(desk)).toEqual([74]);
    const [row] = desk.rows();
    expect([...(row?.cup ?? []), ...(row?.portion ?? [])].map(({ waitedSeconds }) => waitedSeconds)).toEqual([
      null,
      null,
    ]);
  });
  test("does not grow where the number is set right later, and is not made up where the first was not timed", () => {
    const desk = weighed(74.9);
    desk.enter(after, "18.01", "", 400);
    expect(desk.rows()[0]?.after.map(({ grams, waitedSeconds }) => [grams, waitedSeconds])).toEqual([["18.01", 74]]);
    const untimed = weighed(null);
    untimed.enter(after, "18.01", "", 400);
    expect(waitOf(untimed)).toEqual([null]);
  });
});
