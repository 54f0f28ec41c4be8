import { expect, test } from "vitest";
import { repeatsOf } from "../../src/archive/answer-columns.ts";
import { answersCsv } from "../../src/archive/answers-csv.ts";
import { readTable } from "../../src/archive/csv.ts";
import { kindsCsv } from "../../src/archive/kinds-csv.ts";
import { blindPacketOf } from "../../src/design/packet.ts";
import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import { choicePlans } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";
import { study } from "./scenario.ts";

test("a spare of the first session is the first repeat of its person, whatever its number", () => {
  const repeats = repeatsOf([
    { seat: 2, tray: 14, wave: 2 },
    { seat: 2, tray: 25, wave: 1 },
    { seat: 3, tray: 3, wave: 1 },
    { seat: 3, tray: 15, wave: 2 },
    // two questions of one tray
    { seat: 3, tray: 15, wave: 2 },
  ]);
  expect(Object.fromEntries(repeats)).toEqual({ 25: 1, 14: 2, 3: 1, 15: 2 });
});

const codes = (count: number) => Array.from({ length: count }, (_, at) => `code_${at + 1}`);
test.each([
  ["duo-trio, balanced", 2, true],
  ["three-alternative", 3, false],
  ["tetrad", 4, false],
  ["same-different", 2, false],
  ["A-not-A", 1, true],
])("the file of a study that nobody answered has the columns of its method: %s", (name, samples, reference) => {
  const plan = choicePlans().find(([known]) => known === name)?.[1];
  if (!plan) throw new Error("there is one");
  const { blind } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const record = { plan, packet: blindPacketOf(plan, study, blind, "0".repeat(64)) };
  const kinds = plan.method === "same-different" || plan.method === "a-not-a";
  const text = kinds ? kindsCsv(record, []) : answersCsv(record, []);
  const columns = text.trimEnd().split(",");
  expect(columns.filter((column) => column.startsWith("code_"))).toEqual(codes(samples));
  expect(columns.includes("reference_product")).toBe(reference);
  // and whoever opens it is told that it holds nothing
  expect(problemOf(() => readTable(text, "answers.csv")).code).toBe("csv/no-rows");
});

test("a file says which answers came from paper, where one did, and says nothing of it elsewhere", () => {
  const plan = choicePlans().find(([known]) => known === "duo-trio, balanced")?.[1];
  if (!plan) throw new Error("there is one");
  const { blind } = makeTrays(plan, study, { seed: "5eed", codes: seeded("codes", "test") });
  const record = { plan, packet: blindPacketOf(plan, study, blind, "0".repeat(64)) };
  const answer = (tray: number, paper: boolean) => ({
    ...{ tray, seat: tray, wave: 1, device: study, question: 1, choice: "482", guess: false, paper },
    ...{ order: "AB", samples: [], reference: null, oddPosition: 1, correct: true },
  });
  const { header, rows } = tableOf(answersCsv(record, [answer(1, false), answer(2, true)]));
  expect(rows.map((row) => row[header.indexOf("source")])).toEqual(["tablet", "paper"]);
  expect(tableOf(answersCsv(record, [answer(1, false)])).header).not.toContain("source");
});

/** The cells of a file without quotes. */
function tableOf(text: string): { header: string[]; rows: string[][] } {
  const [header = [], ...rows] = text
    .trimEnd()
    .split(/\r?\n/)
    .map((line) => line.split(","));
  return { header, rows };
}
