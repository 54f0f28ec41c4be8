import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test, vi } from "vitest";
import type * as methodModule from "../../src/model/method.ts";

/**
 * A made-up further method: four cups, one of them of the product that is expected to have more; which one is it? It is
 * given its entries and nothing else, and has to work from plan to file. Whatever else a method needed would fail here.
 */
const madeUp = "one-of-four";

vi.mock("../../src/model/method.ts", async (original) => {
  const real = await original<typeof methodModule>();
  const shape = { ...real.methodShapes["three-alternative"] };
  const methodShapes: Record<string, methodModule.MethodShape> = { ...real.methodShapes, [madeUp]: shape };
  return {
    ...real,
    methods: [...real.methods, madeUp],
    methodShapes,
    plannable: Object.keys(methodShapes),
    shapeOf: (method: string) => methodShapes[method],
    asksProperty: (method: string) => methodShapes[method]?.property ?? false,
    sidesFor: (method: string, sides: "one" | "two") =>
      methodShapes[method]?.sides === "either" ? sides : methodShapes[method]?.sides,
  };
});

const { choiceEntry, choiceMethods } = await import("../../src/analysis/method.ts");
const { rightPlaces } = await import("../../src/analysis/right-answer.ts");
const { designMethods } = await import("../../src/design/method.ts");
const { choiceBallots } = await import("../../src/words/en/panel-choice.ts");
const { report } = await import("../../src/words/en/report.ts");
const { analyse, resultOfRows } = await import("../../src/analysis/analyse.ts");
const { describe: describeResult } = await import("../../src/analysis/describe.ts");
const { normalDensity, normalLower } = await import("../../src/analysis/normal.ts");
const { openParts } = await import("../../src/design/readiness.ts");
const { blindPacketOf } = await import("../../src/design/packet.ts");
const { seeded } = await import("../../src/design/random.ts");
const { makeTrays } = await import("../../src/design/trays.ts");
const { sizeTest } = await import("../../src/design/size-test.ts");
const { sizeOf } = await import("../../src/design/panel-size.ts");
const { readEvent } = await import("../../src/log/facts.ts");
const { foldStudy } = await import("../../src/log/fold.ts");
const { recordOf } = await import("../../src/log/record.ts");
const { blindPacket } = await import("../../src/model/packet.ts");
const { plan: planSchema } = await import("../../src/model/plan.ts");
const { result: resultSchema } = await import("../../src/model/result.ts");
const { read } = await import("../../src/model/schema.ts");
const { commitmentOf } = await import("../../src/seal/commitment.ts");
const { readAnswers } = await import("../../src/archive/answer-rows.ts");
const { answersText } = await import("../../src/report/answer-file.ts");
const { lead, study, tablet, writer } = await import("../archive/scenario.ts");
const { juicier, readyPlan } = await import("../design/scenario.ts");

/** Integral over the whole line by small steps: good to ten digits for these curves. */
const overTheLine = (values: (z: number) => number): number => {
  let sum = 0;
  for (let z = -12; z <= 20; z += 0.01) sum += values(z) * 0.01;
  return sum;
};

beforeAll(() => {
  Object.assign(designMethods, {
    [madeUp]: {
      orders: ({ stronger: s, weaker: w }: { stronger: string; weaker: string }) =>
        [0, 1, 2, 3].map((place) => [w, w, w, w].map((cup, at) => (at === place ? s : cup)).join("")),
      wording: "one-of-four-1",
    },
  });
  Object.assign(choiceMethods, {
    [madeUp]: choiceEntry(4, {
      guess: 1 / 4,
      right: (d) => overTheLine((z) => normalDensity(z - d) * normalLower(z) ** 3),
      wrong: (d) => 1 - overTheLine((z) => normalDensity(z - d) * normalLower(z) ** 3),
      slope: (d) => overTheLine((z) => (z - d) * normalDensity(z - d) * normalLower(z) ** 3),
    }),
  });
  Object.assign(rightPlaces, {
    [madeUp]: ({ letters, expected }: { letters: string; expected: string | null }) =>
      expected === null ? null : letters.indexOf(expected) + 1 || null,
  });
  Object.assign(choiceBallots, {
    "one-of-four-1": { ask: (word: string) => `Which of the four is ${word}?`, how: "", unsure: "", cannotTell: "" },
  });
  Object.assign(report.methods, { [madeUp]: "One of four" });
});

const plan = () => read(planSchema, { ...readyPlan({ properties: [juicier] }), method: madeUp });
const screen = { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" };

/** The first `right` trays are answered right, the others wrong. */
function record(right: number) {
  const locked = plan();
  const { blind, key, seats } = makeTrays(locked, study, { seed: "5eed", codes: seeded("codes", "test") });
  const opened = { key, salt: "ab".repeat(32) };
  const commitment = commitmentOf(opened);
  const packet = read(blindPacket, blindPacketOf(locked, study, blind, commitment));
  const kdf = { rounds: 600_000, salt: "00".repeat(16) };
  const sealed = { v: 1 as const, study, commitment, kdf, iv: "00".repeat(12), ciphertext: "" };
  const { texts, write } = writer();
  write(lead, "study-locked", { plan: locked, packet, sealed, seats, app: "test" });
  for (const { tray, samples } of key.trays.slice(0, locked.people)) {
    const choice = samples.find(({ product }) => (product === juicier.expected) === tray <= right)?.code ?? "";
    const answer = { question: 1, choice, guess: false, elapsedMs: 9000, screen, salt: "5a".repeat(32) };
    write(tablet, "answer-kept", { tray, ...answer });
  }
  const heads = { [lead]: 1, [tablet]: texts.length - 1 };
  write(lead, "study-closed", { heads, knownUnsent: 0, note: "" });
  write(lead, "key-revealed", { heads: { ...heads, [lead]: 2 }, opened });
  const facts = texts.map((text) => {
    const event = readEvent(text);
    if (!event.ok || !event.fact) throw new Error(`not a fact: ${text}`);
    return event.fact;
  });
  return recordOf(foldStudy(facts), { keyMatches: true });
}

describe("a made-up ninth choice method, given its entries alone", () => {
  test("is planned: nothing is missing, and it has a size", () => {
    expect(openParts(plan())).toEqual([]);
    const test = sizeTest(plan());
    // 24 people, chance 1/4, 5 %: 11 right (exact binomial upper tail 0.0213 at 11, 0.0547 at 10; base R's pbinom)
    expect(test?.criticalNumber(24)).toBe(11);
    expect(sizeOf(test ?? raise(), 0.8)?.people).toBeGreaterThan(6);
  });

  test("is dealt, answered, marked, computed and said", () => {
    const found = record(14);
    const result = read(resultSchema, analyse(found, "test"));
    expect(result).toMatchObject({ family: "choice", method: madeUp, correct: 14, judgments: 24, outcome: "reached" });
    if (result.family !== "choice") return raise();
    expect(result.orders.map(({ order, judgments }) => [order, judgments])).toEqual([
      ["AAAB", 6],
      ["AABA", 6],
      ["ABAA", 6],
      ["BAAA", 6],
    ]);
    // the distance gives the share back, by the integral above
    const distance = result.dPrime.estimate ?? raise();
    expect(overTheLine((z) => normalDensity(z - distance) * normalLower(z) ** 3)).toBeCloseTo(14 / 24, 8);
    const said = describeResult(result, report);
    expect(said.verdict).toContain("14 of 24");
    expect([said.verdict, said.size, ...said.rows.map(({ value }) => value)].join(" ")).not.toMatch(/undefined|NaN/);
  });

  test("goes out as a file and comes back from one with the same counts", () => {
    const found = record(9);
    const result = analyse(found, "test");
    const text = answersText({ record: found, result } as never, true);
    const { answers } = readAnswers(text, "answers.csv");
    const again = resultOfRows({ goal: "difference", method: madeUp as never, alpha: 0.05 }, answers, "test");
    expect([again.correct, again.judgments, again.pValue]).toEqual([9, 24, "pValue" in result ? result.pValue : null]);
  });
});

function raise(): never {
  throw new Error("there is one");
}

/** Where a method may be named. A file more is a place more that everybody who adds a method has to find. */
const mayName = [
  "src/analysis/method.ts",
  "src/analysis/right-answer.ts",
  "src/design/advice.ts",
  "src/design/method.ts",
  "src/model/method.ts",
  "src/words/en/organizer-choice.ts",
  "src/words/en/organizer-method.ts",
  "src/words/en/reader-details.ts",
  "src/words/en/report-choice.ts",
  "src/words/en/report.ts",
];

test.each(["three-alternative", "tetrad"])(
  "%s is named in the files that DEVELOPERS.md lists, and in no other",
  (method) => {
    const named = new RegExp(`["'\`]${method}["'\`]|^\\s*${method}:`, "m");
    const files = readdirSync("src", { recursive: true, encoding: "utf8" })
      .filter((file) => /\.tsx?$/.test(file) && !file.startsWith("demo/"))
      .map((file) => join("src", file));
    const found = files.filter((file) => named.test(readFileSync(file, "utf8"))).sort();
    expect(found.filter((file) => !mayName.includes(file))).toEqual([]);
  },
);
