import { afterAll, describe, expect, test, vi } from "vitest";
import * as z from "zod/mini";
import { writeStudyFile } from "../../src/archive/study-file.ts";
import { result as resultSchema, type ScaleResult } from "../../src/model/result.ts";
import { read } from "../../src/model/schema.ts";
import { reference } from "../analysis/reference.ts";
import { csvOf, fishRows, fishScores, wineRows, wineScores } from "../analysis/score-rows.ts";
import { juicinessMarks, votes } from "../analysis/study-records.ts";
import { lineEvents, preferenceEvents } from "../archive/method-events.ts";
import { studyEvents, studyFileOf } from "../archive/scenario.ts";
import { linePlan, preferencePlan, readyPlan } from "../design/scenario.ts";
import { folder, inProcess } from "./terminal.ts";

vi.setConfig({ testTimeout: 60_000 });
const files = folder();
afterAll(() => files.remove());

const preference = ["count", "--method", "paired-preference"];
const words = (text: string) => text.split(" ");

async function scaleOf(name: string, csv: string): Promise<ScaleResult> {
  const { code, out, err } = await inProcess("result", files.put(name, csv), "--method", "line-scale", "--json");
  expect([code, err]).toEqual([0, ""]);
  const result = read(resultSchema, JSON.parse(out));
  if (result.family !== "scale") throw new Error("no scale result");
  return result;
}

describe("paired preference", () => {
  const cell = z.nullable(z.number());
  const published = reference(
    "two-sided-critical-published",
    z.object({
      rows: z.array(z.tuple([z.number(), cell, cell, cell, cell, cell, cell, cell, cell])).check(z.minLength(21)),
    }),
  );
  test("count: the smaller count may be what Triola's Table A-7 prints at 5 %, every row; seen", async () => {
    for (const [n, , , at5] of published.rows) {
      const { out } = await inProcess(...preference, "--first", String(n), "--second", "0", "--json");
      const { criticalNumber } = JSON.parse(out);
      expect(criticalNumber === null ? null : n - criticalNumber).toBe(at5);
    }
  });
  test("31, 19 and 10 for neither: p = 0.119, 62 % (47 to 75); split evenly 0.155; the kitchen's invented study", async () => {
    const { out } = await inProcess(...preference, ...words("--first 31 --second 19 --none 10 --json"));
    const result = read(resultSchema, JSON.parse(out));
    expect(result).toMatchObject({ sides: "two", noPreference: "dropped", counts: { none: 10 }, judgments: 50 });
    expect(JSON.parse(out).pValue).toBeCloseTo(0.119, 3);
    const { estimate, low, high } = JSON.parse(out).firstShare;
    expect([estimate, low, high].map((share: number) => Math.round(share * 100))).toEqual([62, 47, 75]);
    const split = await inProcess(...preference, ...words("--first 31 --second 19 --none 10 --none-rule split --json"));
    expect(JSON.parse(split.out).pValue).toBeCloseTo(0.155, 3);
    const three = await inProcess(...preference, ...words("--first 31 --second 19 --none 10 --none-rule report"));
    expect(three.out).toContain("Of everybody asked, 52\u00a0%");
  });
  test("result of single answers gives what their counts give, with the products by name", async () => {
    const choices = [...new Array(31).fill("new"), ...new Array(19).fill("current"), ...new Array(10).fill("none")];
    const csv = `panelist,repeat,choice\n${choices.map((choice, at) => `p${at + 1},1,${choice}\n`).join("")}`;
    const file = files.put("choices.csv", csv);
    const { out } = await inProcess("result", file, ...words("--method paired-preference --json"));
    const counted = await inProcess(...preference, ...words("--first 31 --second 19 --none 10 --json"));
    expect(JSON.parse(out)).toEqual({ ...JSON.parse(counted.out), products: ["new", "current"] });
    const text = await inProcess("result", file, ...words("--method paired-preference --none split"));
    expect(text.out).toContain("between “new” and “current”: 36 to 24, with “no preference” split evenly");
  });
});

describe("line scale", () => {
  test("six fish samples, four assessors, three repeats: F 19.964 on 5 and 15; ISO 8586 Annex C scores, seen in copies", async () => {
    const [attribute] = (await scaleOf("fish.csv", csvOf(fishRows))).attributes;
    expect(attribute?.blocks).toMatchObject({ numeratorDf: 5, denominatorDf: 15 });
    expect(attribute?.blocks?.fValue).toBeCloseTo(fishScores.computed.F_sample_over_interaction, 9);
    expect(attribute?.means.map(({ estimate }) => (estimate ?? 0).toFixed(1)).slice(0, 2)).toEqual(["7.5", "6.2"]);
  });
  test("wine scores of Randall 1989: F 25.138 on 3 and 24, means, least difference 8.992; R 4.2.2", async () => {
    const { outcome, attributes } = await scaleOf("wine.csv", csvOf(wineRows));
    const [attribute] = attributes;
    expect(attribute?.blocks).toMatchObject({ numeratorDf: 3, denominatorDf: 24 });
    expect(attribute?.blocks?.fValue).toBeCloseTo(wineScores.computed.F_random_treatment_over_interaction, 8);
    for (const { product, estimate } of attribute?.means ?? []) {
      expect(estimate).toBeCloseTo(wineScores.computed.means[product] ?? 0, 10);
    }
    const [first] = attribute?.contrasts ?? [];
    expect(((first?.high ?? 0) - (first?.low ?? 0)) / 2).toBeCloseTo(8.992, 3);
    expect([outcome, attribute?.attribute]).toEqual(["reached", "bitterness"]);
  });
  test("the kitchen's invented marks: F(2, 22) = 10.5, p = 0.0006; as text with means and differences", async () => {
    const lines = juicinessMarks.flatMap((row, at) =>
      row.map((value, product) => `P${at + 1},${["current", "new", "rested"][product]},${value},Juiciness,10 s\n`),
    );
    const file = files.put("juicy.csv", `panelist,product,value,attribute,moment\n${lines.join("")}`);
    const { code, out, err } = await inProcess("result", file, "--method", "line-scale");
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain("F(2, 22) is 10.47, p\u00a0=\u00a00.0006");
    expect(out).toMatch(/“new” less “current”\s+11\.9\s+5\.3 to 18\.5/);
    expect(out).toMatch(/“rested” less “new”\s+1\.4\s+−5\.2 to 8\.1/);
    expect(out).toMatch(/current\s+12\s+46\.4/);
  });
  test.each<[string, string, RegExp]>([
    ["nobody answered for one product", "A,x,5\nB,x,6\nA,y,\nB,y,\n", /There is no verdict: nobody marked “y”/],
    ["one panelist", "A,x,5\nA,y,7\n", /There is no verdict: fewer than two people/],
    ["one product", "A,x,5\nB,x,7\n", /There is no verdict: there is one product only/],
    ["all equal", "A,x,5\nA,y,5\nB,x,5\nB,y,5\n", /There is no verdict: every mark of a person is equal/],
    ["no answer at all", "A,x,\nA,y,\n", /No mark was counted/],
  ])("%s: a sentence, and exit code 0", async (_, rows, sentence) => {
    const { code, out } = await inProcess(
      "result",
      files.put("odd.csv", `panelist,product,value\n${rows}`),
      "--method",
      "line-scale",
    );
    expect(code).toBe(0);
    expect(out).toMatch(sentence);
  });
});

describe("a ranking in a file", () => {
  // twelve orders of current, new, rested, held of the invented scenario; 1 = least juicy
  const ranks = "1342 2341 4231 2431 2341 1234 2413 1234 1423 2341 1342 1342".split(" ");
  const products = ["current", "new", "rested", "held"];
  const csv = ranks.flatMap((own, at) => products.map((product, place) => `p${at + 1},${product},${own[place]}`));
  const put = () => files.put("ranks.csv", `panelist,product,rank\n${csv.join("\n")}\n`);
  const ranked = (...more: string[]) => inProcess("result", put(), "--method", "ranking", ...more);

  test("Friedman 12.1 on 3 and p = 0.007 by chi-square, as the scenario has it", async () => {
    const { code, out, err } = await ranked("--json");
    expect([code, err]).toEqual([0, ""]);
    const result = read(resultSchema, JSON.parse(out));
    if (result.family !== "rank") throw new Error("no ranking");
    expect(result.friedman?.chiSquare).toBeCloseTo(12.1, 12);
    expect(result.friedman?.pValueChiSquare.toFixed(3)).toBe("0.007");
  });
  test("in words: rank sums and pairs; with the order that was expected, Page's L", async () => {
    const { out } = await ranked();
    expect(out).toMatch(/Rank sums\n.*current +20 .*rested +39 /s);
    expect(out).toMatch(/Pair by pair\n {2}Two rank sums count as different where they lie 17 or more apart\./);
    expect((await ranked("--predicted", "current, held, new, rested")).out).toContain("Page\u2019s L is 334");
  });
  test.each([
    [["--predicted", "current, new"], /must name each of the products once: current, new, rested, held/],
    [["--confidence", "0.9"], /--confidence is “0\.9”.*--alpha/],
    [["--goal", "similarity"], /--goal is “similarity”/],
  ])("%j is refused", async (more, sentence) => {
    const { code, out, err } = await ranked(...more);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });
});

describe("exported studies", () => {
  const put = (name: string, events: string[]) => files.put(name, writeStudyFile(studyFileOf(events)));
  const resultOf = async (file: string, ...more: string[]) => {
    const { code, out, err } = await inProcess("result", file, ...more, "--json");
    expect([code, err]).toEqual([0, ""]);
    return read(resultSchema, JSON.parse(out));
  };
  test("a line scale, from the log to F(2, 22) = 10.5 by the opened key", async () => {
    const result = await resultOf(put("line.json", lineEvents(linePlan(), juicinessMarks)));
    if (result.family !== "scale") throw new Error("no scale result");
    expect(result).toMatchObject({ outcome: "reached", people: 12, judgments: 36, study: { keyMatches: true } });
    expect(result.attributes[0]?.blocks?.fValue).toBeCloseTo(10.5, 1);
    expect(result.attributes[0]?.contrasts[0]?.difference).toBeCloseTo(11.9, 1);
  });
  test("a line scale with a question that nobody could judge: no answer, and told as a departure", async () => {
    const rows = juicinessMarks.map((row, at) => (at === 0 ? [null, ...row.slice(1)] : row));
    const { departures, judgments } = await resultOf(put("gap.json", lineEvents(linePlan(), rows)));
    expect(judgments).toBe(35);
    expect(departures).toEqual([{ what: "not-judged", tray: 1, questions: 1 }]);
  });
  test("a preference, with all three counts and the rule that was locked; another rule cannot be asked for", async () => {
    const file = put("pair.json", preferenceEvents(preferencePlan(), votes(4, 17, 3)));
    const result = await resultOf(file, ...words("--method paired-preference --none drop --alpha 0.05"));
    expect(result).toMatchObject({ counts: { first: 4, second: 17, none: 3 }, noPreference: "dropped", judgments: 21 });
    const { code, err } = await inProcess("result", file, "--none", "split");
    expect(code).toBe(2);
    expect(err).toMatch(/--none is “split”.*locked drop/);
  });
  test("a likeness goal is that of the plan", async () => {
    const plan = readyPlan({ goal: "similarity", similarity: { limit: 0.4, dPrime: null, beta: 0.05 } });
    // trays 1 to 8 are right in a triangle of the plan's 24: limit 40 % allows 9 (table of exact fractions)
    const texts = studyEvents({ right: 8, plan });
    const result = await resultOf(put("alike.json", texts), ...words("--goal similarity --limit 0.4"));
    expect(result).toMatchObject({ goal: "similarity", criticalNumber: 9, correct: 8, outcome: "within-limit" });
    const { err } = await inProcess("result", files.at("alike.json"), "--limit", "0.5");
    expect(err).toMatch(/--limit is “0\.5”.*locked 0\.4/);
  });
});

describe("likeness within a limit", () => {
  const likeness = ["count", "--method", "triangle", ...words("--goal similarity --limit 0.3 --beta 0.05")];
  test("60 triangles, limit 30 %: 25 show it, 26 do not; exact fractions computed outside", async () => {
    const met = await inProcess(...likeness, ...words("--correct 25 --of 60 --json"));
    const missed = await inProcess(...likeness, ...words("--correct 26 --of 60 --json"));
    const [one, other] = [JSON.parse(met.out), JSON.parse(missed.out)];
    expect([one.outcome, one.criticalNumber, other.outcome]).toEqual(["within-limit", 25, "not-within-limit"]);
    expect(one.pValue).toBeCloseTo(0.04637925700891498, 13);
    expect(one.discriminatorShare).toMatchObject({ low: null, kind: "upper", confidence: 0.95 });
  });
  test("as text: the limit, the confidence, and no word that they are alike when it is missed", async () => {
    const { out } = await inProcess(...likeness, ...words("--correct 26 --of 60"));
    expect(out).toContain("More than 30\u00a0% of people like these may be able to tell");
    expect(out).not.toMatch(/the same|no difference|identical/i);
  });
  test("people who answered several times: their mean share who tell is held against the limit, and it is told", async () => {
    const rows = [1, 0, 1, 0, 1, 0, 0, 1].flatMap((right, person) => [
      `P${person},1,${right}`,
      `P${person},2,0`,
      `P${person},3,0`,
    ]);
    const file = files.put("thrice.csv", ["panelist,repeat,correct", ...rows, ""].join("\n"));
    const { code, out } = await inProcess(
      "result",
      file,
      ...words("--method triangle --goal similarity --limit 0.3 --json"),
    );
    expect(code).toBe(0);
    const found = JSON.parse(out);
    expect(found).toMatchObject({ people: 8, judgments: 24, correct: 4, criticalNumber: null });
    expect(found.caveats.map(({ what }: { what: string }) => what)).toContain("likeness-by-spread");
  });
});

describe("a caller's mistake: one sentence on standard error, nothing on standard output, exit code 2", () => {
  const triangle = ["count", "--method", "triangle", "--correct", "1", "--of", "6"];
  const pair = [...preference, "--first", "3", "--second", "4"];
  const file = () => files.put("fine.csv", "panelist,choice\n1,new\n2,current\n3,none\n");
  test.each<[string, () => string[], RegExp]>([
    ["a limit without its goal", () => [...triangle, "--limit", "0.3"], /--limit is “0\.3”.*--goal similarity/],
    ["likeness without a limit", () => [...triangle, "--goal", "similarity"], /needs --limit/],
    ["a limit of 1", () => [...triangle, ...words("--goal similarity --limit 1")], /--limit is “1”.*between 0 and 1/],
    ["a beta of 0", () => [...triangle, ...words("--goal similarity --limit 0.3 --beta 0")], /--beta is “0”/],
    ["another goal", () => [...triangle, "--goal", "liking"], /--goal is “liking”.*difference or similarity/],
    ["votes for a triangle", () => [...triangle, "--first", "3"], /--first is “3”.*left out for triangle/],
    [
      "right answers for a preference",
      () => [...pair, "--correct", "3"],
      /--correct is “3”.*left out for paired-preference/,
    ],
    ["likeness of a preference", () => [...pair, "--goal", "similarity"], /--goal is “similarity”.*no other goal/],
    ["one side", () => [...pair, "--sides", "one"], /--sides is “one”.*two, as paired-preference/],
    ["a confidence of its own", () => [...pair, "--confidence", "0.9"], /--confidence.*go with --alpha/],
    [
      "a rule nobody knows",
      () => [...pair, ...words("--none 2 --none-rule toss")],
      /--none-rule is “toss”.*drop, split or report/,
    ],
    ["a missing count", () => [...preference, "--first", "3"], /needs --second/],
    [
      "more votes than a result holds",
      () => [...preference, ...words("--first 60000 --second 50000")],
      /--second is “50000”.*from 0 to 40000/,
    ],
    ["counts of a line scale", () => ["count", "--method", "line-scale"], /--method is “line-scale”.*cloche result/],
    [
      "a rule for a scale",
      () => ["result", file(), ...words("--method line-scale --none drop")],
      /--none is “drop”.*left out for line-scale/,
    ],
    ["a rule for a triangle", () => ["result", file(), ...words("--method triangle --none drop")], /--none is “drop”/],
    [
      "a bad rule for a file",
      () => ["result", file(), ...words("--method paired-preference --none 10")],
      /--none is “10”.*drop, split or report/,
    ],
  ])("%s", async (_, argv, sentence) => {
    const { code, out, err } = await inProcess(...argv());
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
  test.each<[string, string, string, RegExp]>([
    [
      "a third product",
      "paired-preference",
      "panelist,choice\n1,new\n2,current\n3,held\n",
      /bad\.csv, line 4, column “choice”: “held”/,
    ],
    [
      "a person twice",
      "paired-preference",
      "panelist,choice\n1,new\n1,current\n",
      /bad\.csv, line 3: panelist “1”, repeat 1 stands on line 2/,
    ],
    ["an empty choice", "paired-preference", "panelist,choice\n1,\n", /bad\.csv, line 2, column “choice”/],
    [
      "a decimal comma",
      "line-scale",
      'panelist,product,value\n1,new,"5,4"\n',
      /bad\.csv, line 2, column “value”: “5,4”.*decimal point/,
    ],
    ["a value twice", "line-scale", "panelist,product,value\n1,new,5\n1,new,6\n", /bad\.csv, line 3: .*line 2/],
    ["no column value", "line-scale", "panelist,product\n1,new\n", /bad\.csv, line 1: the column “value” is missing/],
  ])("a CSV with %s", async (_, method, text, sentence) => {
    const { code, out, err } = await inProcess("result", files.put("bad.csv", text), "--method", method);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
});
