import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import * as z from "zod/mini";
import { writeStudyFile } from "../../src/archive/study-file.ts";
import { result as resultSchema } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { reference, relativeError } from "../analysis/reference.ts";
import { studyFileOf } from "../archive/scenario.ts";
import { type Told, told } from "../demo/written.ts";
import byR from "../reference/demo-by-r/values.json" with { type: "json" };
import { folder, inProcess } from "./terminal.ts";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
const files = folder();
afterAll(() => files.remove());

const words = (text: string) => text.split(" ");

async function said(...argv: string[]) {
  const { code, out, err } = await inProcess(...argv, "--json");
  expect([code, err]).toEqual([0, ""]);
  return read(resultSchema, JSON.parse(out));
}
const counted = (method: string, options: string) => said("count", "--method", method, ...words(options));
const fromCsv = (method: string, csv: string, ...more: string[]) =>
  said("result", files.put("answers.csv", csv), "--method", method, ...more);

/** Rows of a CSV, each person with as many answers as told. */
const rowsOf = (header: string, people: readonly (readonly string[])[]) =>
  `${header}\n${people.flatMap((own, at) => own.map((cells, repeat) => `p${at + 1},${repeat + 1},${cells}\n`)).join("")}`;
const perPerson = [3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0];
const threeEach = rowsOf(
  "panelist,repeat,correct",
  perPerson.map((right) => [0, 1, 2].map((at) => (at < right ? "1" : "0"))),
);

describe("count: where one answer is right", () => {
  const cell = z.nullable(z.number());
  const published = reference(
    "duo-trio-critical-published",
    z.object({
      misprints: z.array(z.object({ n: z.number() })),
      rows: z.array(z.tuple([z.number(), cell, cell, cell, cell, cell])).check(z.minLength(20)),
    }),
  );
  test("duo-trio and paired difference need what GOST ISO 10399-2015 Table A.1 prints at 5 %; seen in a copy", async () => {
    const misprinted = new Set(published.misprints.map(({ n }) => n));
    const rows = published.rows.filter(([n]) => !misprinted.has(n));
    for (const [n, , , at5] of rows) {
      for (const method of ["duo-trio", "paired-difference"]) {
        expect(await counted(method, `--correct 0 --of ${n}`)).toMatchObject({ criticalNumber: at5 });
      }
    }
  });
  test.each([
    ["tetrad", "--correct 10 --of 18", byR.tetrad.pValue, 1 / 3],
    ["paired-difference", "--correct 18 --of 24", byR.pairedDifference.pValue, 1 / 2],
    ["three-alternative", "--correct 13 --of 24", byR.threeAlternative.pValue, 1 / 3],
    ["duo-trio", "--correct 22 --of 36 --repeats 3", byR.duoTrio.pValue, 1 / 2],
  ])("%s %s: p by R's pbinom", async (method, options, pValue, guessProbability) => {
    const result = await counted(method, options);
    expect(result).toMatchObject({ family: "choice", method, sides: "one", guessProbability });
    expect(relativeError("pValue" in result ? result.pValue : Number.NaN, pValue)).toBeLessThan(1e-12);
  });
  test("repeats and people say the same thing, and take the bounds away: people differ", async () => {
    const repeats = await counted("duo-trio", "--correct 22 --of 36 --repeats 3");
    expect(repeats).toMatchObject({ people: 12, discriminatorShare: { kind: "none", low: null } });
    expect(await counted("duo-trio", "--correct 22 --of 36 --people 12")).toEqual(repeats);
    expect(await counted("duo-trio", "--correct 22 --of 36 --people 12 --repeats 3")).toEqual(repeats);
  });
  test("a limit as a distance is the share that goes with it: d-prime 1 in a triangle is 0.127 (scipy, from memory)", async () => {
    const result = await counted("triangle", "--correct 20 --of 60 --goal similarity --dprime-limit 1");
    expect(result).toMatchObject({ goal: "similarity", limit: { dPrime: 1, fixedAs: "d-prime" } });
    if (result.family !== "choice") throw new Error("no choice result");
    expect(result.limit?.discriminatorShare).toBeCloseTo(0.127, 3);
  });
});

describe("count: where either may be chosen, and where kinds are told", () => {
  test("a two-sided paired difference is a pair: 18 of 24 needed (Triola's Table A-7 allows 6 on the other side; seen)", async () => {
    expect(await counted("paired-difference", "--sides two --first 18 --second 6")).toMatchObject({
      family: "pair",
      method: "paired-difference",
      sides: "two",
      criticalNumber: 18,
      outcome: "reached",
      dPrime: { kind: "two-sided" },
    });
  });
  test("same-different and A-not-A: every case of R's fisher.test, one-sided", async () => {
    const rows = reference(
      "kinds-by-r",
      z.object({
        rows: z
          .array(z.object({ method: z.string(), counts: z.array(z.number()), alpha: z.number(), p: z.number() }))
          .check(z.minLength(20)),
      }),
    ).rows.filter(({ counts }) => counts[1] !== 0 && counts[3] !== 0);
    expect(rows.length).toBeGreaterThan(15);
    for (const { method, counts, alpha, p } of rows) {
      const [unlikeTold, unlike, likeTold, like] = counts;
      const options = `--told-unlike ${unlikeTold} --unlike ${unlike} --told-like ${likeTold} --like ${like}`;
      const result = await counted(method, `${options} --alpha ${alpha}`);
      if (result.family !== "kinds") throw new Error("no kinds result");
      expect(relativeError(result.pValue, p)).toBeLessThan(1e-11);
    }
  });
});

describe("result of a CSV", () => {
  test("duo-trio, three answers each: pooled p, chi-square of people 16.4 on 11, p 0.13 (R); the fit beside it", async () => {
    const result = await fromCsv("duo-trio", threeEach);
    if (result.family !== "choice") throw new Error("no choice result");
    expect(result).toMatchObject({ correct: 22, judgments: 36, people: 12, criticalNumber: 24 });
    expect(relativeError(result.pValue, byR.duoTrio.pValue)).toBeLessThan(1e-12);
    expect(result.spread?.df).toBe(11);
    expect(result.spread?.chiSquare).toBeCloseTo(byR.duoTrio.chiSquare, 10);
    expect(result.spread?.pValue).toBeCloseTo(byR.duoTrio.spreadP, 10);
    expect(result.panelists.map(({ correct }) => correct)).toEqual(perPerson);
    expect(result.betaBinomial?.mean.estimate).toBeCloseTo(22 / 36, 1);
    expect(result.betaBinomial?.overdispersion.low).toBeGreaterThanOrEqual(0);
    expect(result.chanceCorrected).not.toBeNull();
  });
  test("likeness from several answers each: a bound by the spread between people, no number right", async () => {
    const result = await fromCsv("duo-trio", threeEach, ...words("--goal similarity --limit 0.5"));
    expect(result).toMatchObject({ goal: "similarity", criticalNumber: null, people: 12 });
    expect(result.caveats).toContainEqual({ what: "likeness-by-spread", people: 12, judgments: 36 });
  });
  test("a two-sided paired difference, two answers each: people's own leads are tested", async () => {
    // leads 2, 2, 2, 2, 2, 2, 0, -2: of 2^7 ways to change signs 8 give so large a sum on one side, by hand
    const own = [...Array(6).fill(["new", "new"]), ["new", "current"], ["current", "current"]];
    const result = await fromCsv("paired-difference", rowsOf("panelist,repeat,choice", own), "--sides", "two");
    if (result.family !== "pair") throw new Error("no pair result");
    expect(result).toMatchObject({ method: "paired-difference", byPerson: { first: 6, second: 1, tied: 1 } });
    expect(result.pValue).toBeCloseTo((2 * 8) / 2 ** 7, 14);
  });
  test.each([
    ["same-different", "same", "different"],
    ["a-not-a", "A", "not A"],
  ])("%s gives what its four counts give", async (method, like, unlike) => {
    const rows = [
      ...Array(14).fill([`${unlike},${unlike}`]),
      ...Array(6).fill([`${unlike},${like}`]),
      ...Array(6).fill([`${like},${unlike}`]),
      ...Array(14).fill([`${like},${like}`]),
    ];
    const result = await fromCsv(method, rowsOf("panelist,repeat,served,answer", rows));
    const counts = await counted(method, "--told-unlike 14 --unlike 20 --told-like 6 --like 20");
    expect(result).toEqual(counts);
  });
});

describe("result of an exported study", () => {
  let studies: Told[];
  beforeAll(async () => {
    studies = await told();
  });
  const exported = (method: string, repeats: number) => {
    const study = studies.find(({ state, revealed }) => {
      const plan = state.lock?.body.plan;
      return revealed && plan?.method === method && plan.repeats === repeats;
    });
    if (!study) throw new Error(`the demo has no ${method}`);
    return files.put(
      `${method}.json`,
      writeStudyFile({ ...studyFileOf(study.acts.map(({ text }) => text)), study: study.id }),
    );
  };
  test.each([
    ["duo-trio", 3, { correct: 22, judgments: 36, people: 12, criticalNumber: 24, outcome: "not-reached" }],
    ["tetrad", 1, { correct: 10, judgments: 18, criticalNumber: 10, outcome: "reached" }],
    ["paired-difference", 1, { correct: 18, judgments: 24, criticalNumber: 17, outcome: "reached" }],
    ["three-alternative", 1, { correct: 13, judgments: 24, criticalNumber: 13, outcome: "reached" }],
  ])("the invented %s: as the scenario has it", async (method, repeats, expected) => {
    const file = exported(method, repeats);
    expect(await said("result", file, ...words(`--method ${method} --sides one --confidence 0.95`))).toMatchObject(
      expected,
    );
    const other = await inProcess("result", file, "--sides", "two");
    expect([other.code, other.out]).toEqual([2, ""]);
    expect(other.err).toContain(`one, as ${method} has it`);
  });
  test("what the plan locked cannot be asked for otherwise", async () => {
    const file = exported("tetrad", 1);
    for (const options of ["--confidence 0.9", "--dprime-limit 1", "--alpha 0.1"]) {
      expect((await inProcess("result", file, ...words(options))).code).toBe(2);
    }
  });
});

describe("a caller's mistake: one sentence on standard error, nothing on standard output, exit code 2", () => {
  const triangle = "count --method triangle --correct 1 --of 6";
  const kinds = "count --method same-different --told-unlike 1 --unlike 2 --told-like 1";
  test.each<[string, string, RegExp]>([
    ["a third way to be sided", "count --method paired-difference --sides both", /--sides is “both”.*one or two/],
    [
      "right answers of a two-sided pair",
      "count --method paired-difference --sides two --correct 3 --of 4",
      /--correct is “3”.*left out for paired-difference with two sides/,
    ],
    [
      "votes of a one-sided pair",
      "count --method paired-difference --first 3 --second 4",
      /--first is “3”.*left out for paired-difference with one side/,
    ],
    [
      "“none” of a paired difference",
      "count --method paired-difference --sides two --first 3 --second 4 --none 1",
      /--none is “1”/,
    ],
    [
      "both limits",
      `${triangle} --goal similarity --limit 0.3 --dprime-limit 1`,
      /--limit is “0\.3”.*one limit is enough/,
    ],
    ["a distance of 0", `${triangle} --goal similarity --dprime-limit 0`, /--dprime-limit is “0”.*above 0/],
    [
      "a distance that is as good as certainty",
      "count --method tetrad --correct 1 --of 6 --goal similarity --dprime-limit 11",
      /--dprime-limit is “11”/,
    ],
    ["repeats that do not fit", `${triangle} --repeats 4`, /--repeats is “4”.*divides the 6 answers/],
    ["people that do not fit the repeats", `${triangle} --people 5 --repeats 2`, /--people is “5”.*3, as --repeats/],
    [
      "pooled likeness",
      `${triangle} --goal similarity --limit 0.3 --people 3`,
      /--people is “3”.*cloche result reads it/,
    ],
    ["people of kinds", `${kinds} --like 3 --people 2`, /--people is “2”.*cloche result reads it/],
    ["a missing count of kinds", kinds, /needs --like/],
    [
      "more told than served",
      "count --method a-not-a --told-unlike 3 --unlike 2 --told-like 1 --like 3",
      /--told-unlike is “3”.*from 0 to 2/,
    ],
    ["likeness of kinds", `${kinds} --like 3 --goal similarity --limit 0.3`, /--goal is “similarity”.*no other goal/],
    ["another goal", `${triangle} --goal liking`, /--goal is “liking”.*difference or similarity/],
  ])("%s", async (_, argv, sentence) => {
    const { code, out, err } = await inProcess(...words(argv));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
});
