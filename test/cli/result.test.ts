import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { writeStudyFile } from "../../src/archive/study-file.ts";
import { choiceResult as resultSchema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { studyEvents, studyFileOf, withoutEvents } from "../archive/scenario.ts";
import { cloche, folder, inProcess } from "./terminal.ts";

const files = folder();
// each test starts processes; the first may have to build
vi.setConfig({ testTimeout: 60_000, hookTimeout: 300_000 });
beforeAll(async () => {
  expect((await cloche("--version")).code).toBe(0);
});
afterAll(() => files.remove());

const count = ["count", "--method", "triangle"];
const words = (text: string) => text.split(" ");
/** As many answers as wanted, the first of them right. */
const answers = (right: number, judgments: number) =>
  `panelist,repeat,correct\n${Array.from({ length: judgments }, (_, at) => `p${at + 1},1,${at < right ? 1 : 0}\n`).join("")}`;

describe("25 of 50 in a triangle: Byer and Abrams 1953, as quoted by Hollander and Wolfe, Example 2.2", () => {
  test("count --json: 23 needed, exact p (sum over 3^50, by fractions in Python)", async () => {
    const { code, out, err } = await cloche(...count, "--correct", "25", "--of", "50", "--json");
    expect([code, err]).toEqual([0, ""]);
    const result = read(resultSchema, JSON.parse(out));
    expect(result).toMatchObject({
      method: "triangle",
      goal: "difference",
      sides: "one",
      judgments: 50,
      correct: 25,
      criticalNumber: 23,
      guessProbability: 1 / 3,
      correctShare: { estimate: 0.5, confidence: 0.95, kind: "two-sided" },
      discriminatorShare: { estimate: 0.25 },
    });
    expect(result.pValue).toBeCloseTo(0.010826684448815991, 14);
  });
  test("result of the same answers in a CSV gives the same numbers", async () => {
    const file = files.put("byer.csv", answers(25, 50));
    const fromFile = await cloche("result", file, "--method", "triangle", "--json");
    const counted = await cloche(...count, "--correct", "25", "--of", "50", "--json");
    expect(fromFile.code).toBe(0);
    expect(JSON.parse(fromFile.out)).toEqual(JSON.parse(counted.out));
  });
  test("as text: the verdict, the number needed and p", async () => {
    const { code, out } = await cloche(...count, "--correct", "25", "--of", "50");
    expect(code).toBe(0);
    expect(out).toMatch(/25 of 50 picked the odd sample/);
    expect(out).toMatch(/asks for 23/);
    expect(out).toMatch(/0\.0108/);
  });
  test("--alpha 0.01 asks for more than 25 and is not reached (exact p is above it)", async () => {
    const { out } = await inProcess(...count, "--correct", "25", "--of", "50", "--alpha", "0.01", "--json");
    const result = JSON.parse(out);
    expect(result.criticalNumber).toBeGreaterThan(25);
    expect(result.outcome).toBe("not-reached");
  });
});

describe("an exported study", () => {
  test("14 of 24: 13 needed, exact p (sum over 3^24, by fractions in Python), the key checked", async () => {
    const file = files.put("study.json", writeStudyFile(studyFileOf(studyEvents())));
    const { code, out, err } = await cloche("result", file, "--json");
    expect([code, err]).toEqual([0, ""]);
    const result = read(resultSchema, JSON.parse(out));
    expect(result).toMatchObject({ correct: 14, judgments: 24, criticalNumber: 13 });
    expect(result.study).toMatchObject({ title: "Steam first?", keyMatches: true, planned: 24 });
    expect(result.pValue).toBeCloseTo(0.010340673816870682, 14);
  });
  test("its locked risk cannot be asked for otherwise", async () => {
    const file = files.put("locked.json", writeStudyFile(studyFileOf(studyEvents())));
    const { code, out, err } = await inProcess("result", file, "--alpha", "0.2");
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/--alpha.*0\.05/);
  });
  test("a study whose key is not open yet has no result, and the sentence says what to do", async () => {
    const file = files.put("sealed.json", writeStudyFile(studyFileOf(studyEvents({ revealed: false }))));
    const { code, out, err } = await inProcess("result", file);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain("has no result yet");
  });
});

describe("an exported study that was tampered with gives its numbers, and says what is wrong", () => {
  const resultOf = async (name: string, events: string[], quarantined = 0) => {
    const file = files.put(name, writeStudyFile({ ...studyFileOf(events), quarantined }));
    const { code, out, err } = await inProcess("result", file, "--json");
    expect(code).toBe(0);
    return { result: read(resultSchema, JSON.parse(out)), err };
  };
  test("the end of a tablet's chain cut off", async () => {
    const cut = withoutEvents(studyEvents(), (device, seq) => device === "tablet" && seq > 69);
    const { result, err } = await resultOf("tail.json", cut);
    expect(err).toMatch(/3 records .* missing from the file/);
    expect(err).not.toMatch(/not follow/);
    expect(result.departures).toContainEqual({ what: "records-missing", records: 3 });
  });
  test("one answer cut out of the middle", async () => {
    const cut = withoutEvents(studyEvents(), (device, seq) => device === "tablet" && seq === 8);
    const { result, err } = await resultOf("middle.json", cut);
    expect(err).toMatch(/One event does not follow/);
    expect(err).toMatch(/One record .* missing from the file/);
    expect(result.departures).toContainEqual({ what: "records-missing", records: 1 });
  });
  test("another key than the one that was sealed: no verdict, and a notice", async () => {
    const other = studyEvents().map((text) =>
      text.includes('"key-revealed"') ? text.replace("ab".repeat(32), "cd".repeat(32)) : text,
    );
    const { result, err } = await resultOf("key.json", other);
    expect(result).toMatchObject({ outcome: "withheld", study: { keyMatches: false } });
    expect(err).toContain("does not match the seal");
    const { out } = await inProcess("result", files.at("key.json"));
    expect(out).toContain("No verdict");
    expect(out).not.toMatch(/could tell “|calls for\.”/);
  });
  test("what the server kept aside stands in the result as it does on the page", async () => {
    const { result } = await resultOf("aside.json", studyEvents(), 2);
    expect(result.departures).toEqual([{ what: "quarantined", events: 2 }]);
  });
});

describe("people who answered more than once", () => {
  const repeated = (people: number, repeats: number, right: number) =>
    `panelist,repeat,correct\n${Array.from(
      { length: people * repeats },
      (_, at) => `p${Math.floor(at / repeats) + 1},${(at % repeats) + 1},${at < right ? 1 : 0}\n`,
    ).join("")}`;
  test("12 people twice: an exact p without bounds, each person's own count, and how people differ", async () => {
    const file = files.put("twice.csv", repeated(12, 2, 14));
    const { code, out, err } = await inProcess("result", file, "--method", "triangle");
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("0.0103");
    expect(out).toContain("estimate only");
    expect(out).not.toMatch(/people like these|or more,|at least \d/);
  });
  test("9 of 9 by one person: worded about that person, no notice", async () => {
    const file = files.put("one.csv", repeated(1, 9, 9));
    const { out, err } = await inProcess("result", file, "--method", "triangle");
    expect(err).toBe("");
    expect(out).toContain("This person could tell");
  });
});

test("goal, sides and risk may be named as they are computed", async () => {
  const plain = await inProcess(...count, "--correct", "14", "--of", "24", "--json");
  const named = await inProcess(
    ...count,
    "--correct",
    "14",
    "--of",
    "24",
    ...words("--goal difference --sides one --alpha 0.05 --json"),
  );
  expect([named.code, named.out]).toEqual([0, plain.out]);
  const file = files.put("named.csv", answers(14, 24));
  const fromFile = await inProcess("result", file, ...words("--method triangle --goal difference --sides one --json"));
  expect([fromFile.code, fromFile.out]).toEqual([0, plain.out]);
});

describe("a caller's mistake: one sentence on standard error, nothing on standard output, exit code 2", () => {
  test.each<[string, string, RegExp]>([
    ["a bad value", "panelist,repeat,correct\n1,1,1\n2,1,yes\n", /bad\.csv, line 3, column “correct”: “yes”/],
    ["a missing column", "panelist,right\n1,1\n", /bad\.csv, line 1: the column “correct” is missing/],
    ["an open quote", 'panelist,correct\n"1,1\n', /bad\.csv, line 2: /],
    ["a row twice", "panelist,correct\n1,1\n1,0\n", /bad\.csv, line 3: .*line 2/],
    ["no rows", "panelist,correct\n", /bad\.csv has a header but no answers/],
  ])("a CSV with %s", async (_, text, sentence) => {
    const { code, out, err } = await inProcess("result", files.put("bad.csv", text), "--method", "triangle");
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
  test.each<[string, string[], RegExp]>([
    ["an unknown command", ["cont"], /no command “cont”/],
    ["an unknown option", [...count, "--wrong", "1"], /no option “--wrong”/],
    ["a missing option", count, /needs --of/],
    ["more right than answers", [...count, "--correct", "51", "--of", "50"], /--correct is “51”.*from 0 to 50/],
    ["no whole number", [...count, "--correct", "2.5", "--of", "50"], /--correct is “2\.5”/],
    ["a negative number", [...count, "--correct", "-1", "--of", "50"], /--correct is “-1”/],
    ["a risk of 5", [...count, "--correct", "1", "--of", "5", "--alpha", "5"], /--alpha is “5”/],
    [
      "a risk over one half",
      [...count, "--correct", "1", "--of", "5", "--alpha", "0.6"],
      /--alpha is “0\.6”.* at most 0\.5/,
    ],
    [
      "two sides",
      [...count, "--correct", "1", "--of", "5", "--sides", "two"],
      /--sides is “two”.*one, as triangle has it/,
    ],
    ["an option without its value", [...count, "--correct", "--of", "5"], /--correct/],
    ["a method nobody knows", ["count", "--method", "nose", "--correct", "1", "--of", "2"], /no method “nose”/],
    [
      "a method that is not a count",
      ["count", "--method", "chew-and-weigh", "--correct", "1", "--of", "2"],
      /not computed for the method “chew-and-weigh”.*cloche result/,
    ],
    [
      "counts of a ranking",
      ["count", "--method", "ranking", "--correct", "1", "--of", "2"],
      /“ranking”.*cloche result/,
    ],
    ["a file that is not there", ["result", "/nowhere/a.csv", "--method", "triangle"], /no file \/nowhere\/a\.csv/],
    ["no file named", ["result", "--method", "triangle"], /needs FILE/],
    ["one word too many", ["result", "a.csv", "b.csv", "--method", "triangle"], /“b\.csv”/],
  ])("%s", async (_, argv, sentence) => {
    const { code, out, err } = await inProcess(...argv);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
});

test("a bad CSV and a bad option end the process itself with code 2, and nothing on standard output", async () => {
  const bad = files.put("bad.csv", "panelist,repeat,correct\n1,1,1\n2,1,yes\n");
  const csv = await cloche("result", bad, "--method", "triangle");
  expect([csv.code, csv.out]).toEqual([2, ""]);
  expect(csv.err).toContain("bad.csv, line 3, column “correct”: “yes” must be 1 (right) or 0 (wrong).");
  const option = await cloche(...count, "--wrong", "1");
  expect([option.code, option.out]).toEqual([2, ""]);
  expect(option.err).toContain("no option “--wrong”");
});

test("columns that are not read are named on standard error; the result stands alone on standard output", async () => {
  const file = files.put("extra.csv", "booth,panelist,correct\na,1,1\nb,2,0\n");
  const { code, out, err } = await inProcess("result", file, "--method", "triangle", "--json");
  expect(code).toBe(0);
  expect(JSON.parse(out).judgments).toBe(2);
  expect(err).toContain("“booth”");
});

test.each([
  ["--help"],
  ["-h"],
  ...["count", "result", "trays", "size"].flatMap((command) => [
    [command, "--help"],
    [command, "-h"],
  ]),
])("%s %s: help on standard output, exit code 0", async (...argv) => {
  const { code, out, err } = await inProcess(...argv);
  expect([code, err]).toEqual([0, ""]);
  expect(out).toMatch(/^cloche/);
});

test("cloche start -h: help, and no server", async () => {
  const { code, out, err } = await cloche("start", "-h");
  expect([code, err]).toEqual([0, ""]);
  expect(out).toMatch(/^cloche start/);
});

test("help lists no command that is not there", async () => {
  const { out } = await inProcess("--help");
  const listed = [...out.matchAll(/^ {2}cloche ([a-z]+)/gm)].map(([, command]) => command ?? "");
  expect(listed).toEqual(["start", "demo", "trays", "rehearse", "result", "count", "size"]);
});
