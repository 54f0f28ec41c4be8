import { afterAll, describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyse } from "../../src/analysis/analyse.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { openParts } from "../../src/design/readiness.ts";
import { type PortionsResult, result as resultSchema } from "../../src/model/result.ts";
import { chewResult } from "../../src/model/result-chew.ts";
import { read } from "../../src/model/schema.ts";
import { answersText, dictionaryText } from "../../src/report/answer-file.ts";
import type { Opened } from "../../src/report/opened-study.ts";
import { report } from "../../src/words/en/report.ts";
import { scenarioGains } from "../analysis/chew-example.ts";
import { massByR } from "../analysis/mass-reference.ts";
import { reference, relativeError } from "../analysis/reference.ts";
import { folder, inProcess } from "../cli/terminal.ts";
import { chewPlan, inert } from "../design/scenario.ts";
import { chewStudy, gaining, grams, pairOfProducts, type Told, type Which } from "./chew-study.ts";

/** Chewed and weighed portions the whole way: plan, lock, tablet, balance, close, reveal, result, report, file, terminal. */

const files = folder();
afterAll(files.remove);

const ofScenario = ({ person, product, repeat }: Which): Told =>
  gaining(scenarioGains[person]?.[product * 3 + repeat] ?? 0);
const near = (found: readonly (number | null | undefined)[], truth: readonly number[]) => {
  expect(found.length).toBe(truth.length);
  found.forEach((value, at) => {
    expect(relativeError(value ?? Number.NaN, truth[at] ?? 0)).toBeLessThan(1e-9);
  });
};
const resultOf = ({ result }: Opened): PortionsResult => {
  if (result.family !== "portions") throw new Error("no portions");
  return result;
};
const differenceOf = (opened: Opened) => resultOf(opened).masses.differences[0];

describe("the scenario's eight people, three portions of each of two products, against R's t.test (mass-by-r)", () => {
  const plan = pairOfProducts();
  const opened = chewStudy(plan, ofScenario);
  const result = resultOf(opened);

  test("nothing of the plan is open, every portion counts, and nothing went off the plan", () => {
    expect(openParts(plan)).toEqual([]);
    expect([opened.record.departures, opened.record.notAnswered, opened.missing]).toEqual([[], [], 0]);
    expect([result.people, result.judgments, result.masses.unit]).toEqual([8, 48, "panelist"]);
    expect(read(resultSchema, result)).toEqual(result);
  });
  test("difference in percentage points, its interval, t, p and ratio, from events to result", () => {
    const found = differenceOf(opened);
    const { estimate, low, high } = found?.percentagePoints ?? {};
    const { standardError, df, tValue, pValue } = found?.test ?? {};
    near([estimate, low, high, standardError, df, tValue, pValue], massByR.chew.difference);
    near([found?.ratio.estimate, found?.ratio.low, found?.ratio.high], massByR.chew.ratio);
    expect(result.outcome).toBe("reached");
  });
  test("the report says points and both ends, presumes nothing, and never speaks of juice as found", () => {
    const said = describeResult(result, report);
    expect(said.verdict.replace(/\u00a0/g, " ")).toMatch(
      /portions of “new” gained 2\.9 percentage points less than those of “current” \(1\.4 to 4\.5, 95 % interval\)/,
    );
    expect(said.caveats.join(" ")).toContain("neither a larger nor a smaller gain shows that a product is juicier");
    expect(said.departures).toEqual([report.noDepartures]);
  });
  test("the file of the study gives the terminal the same result, to the last digit", async () => {
    const path = files.put("answers.csv", answersText(opened, true));
    const options = ["--method", "chew-and-weigh", "--seconds", "15", "--matters", "3", "--balance", "0.001"];
    const { code, out } = await inProcess("result", path, ...options, "--json");
    expect(code).toBe(0);
    const again = read(chewResult, JSON.parse(out));
    const panelists = result.masses.panelists.map((each) => ({ ...each, panelist: each.panelist.replace(" ", "-") }));
    expect(again).toEqual({ ...result.masses, panelists });
  });
  test("every column of the file is described", () => {
    const described = JSON.parse(dictionaryText(opened, false, "answers.csv", "2026-05-04T08:00:00.000Z"));
    const shape = z.looseObject({
      schema: z.looseObject({ fields: z.array(z.looseObject({ name: z.string(), description: z.string() })) }),
    });
    const [resource] = z.parse(z.looseObject({ resources: z.array(shape) }), described).resources;
    const fields = resource?.schema.fields ?? [];
    expect(fields.length).toBe(answersText(opened, false).split("\r\n")[0]?.split(",").length);
    expect(fields.filter(({ description }) => description === "")).toEqual([]);
  });
});

test("gains below 0: ten people's paired values (sleep-paired-t, Student 1908 as R has it) come out as published", () => {
  const { rows, computed } = reference(
    "sleep-paired-t",
    z.object({
      rows: z.array(z.tuple([z.number(), z.number(), z.number()])),
      computed: z.object({
        meanDifference: z.number(),
        t: z.number(),
        p: z.number(),
        ci95: z.tuple([z.number(), z.number()]),
      }),
    }),
  );
  const plan = pairOfProducts({ people: 10, repeats: 1 });
  const opened = chewStudy({ ...plan, serving: { ...plan.serving, portionGrams: 100 } }, ({ person, product }) =>
    gaining(rows[person]?.[product === 0 ? 1 : 2] ?? 0, 100),
  );
  const { percentagePoints, test: found } = differenceOf(opened) ?? {};
  // there the second drug comes off the first, here the first product off the second
  expect(percentagePoints?.estimate).toBeCloseTo(-computed.meanDifference, 9);
  expect(percentagePoints?.low).toBeCloseTo(-computed.ci95[1], 9);
  expect(percentagePoints?.high).toBeCloseTo(-computed.ci95[0], 9);
  expect(found?.tValue).toBeCloseTo(-computed.t, 7);
  expect(found?.pValue).toBeCloseTo(computed.p, 9);
});

test("one person: portions are the unit, and the verdict is of that person (R's Welch t.test, mass-by-r)", () => {
  const opened = chewStudy(pairOfProducts({ people: 1 }), ofScenario);
  const found = differenceOf(opened);
  const { estimate, low, high } = found?.percentagePoints ?? {};
  const { standardError, df, tValue, pValue } = found?.test ?? {};
  near([estimate, low, high, standardError, df, tValue, pValue], massByR.chew.firstPersonAlone);
  const said = describeResult(opened.result, report);
  expect(said.verdict).toMatch(/^With this person /);
  expect(said.caveats.join(" ")).toContain("all of this is said of that person alone");
});

test("an inert portion is shown and not compared, and the rest stays as it was", () => {
  const plan = { ...pairOfProducts(), products: chewPlan().products, declarations: chewPlan().declarations };
  const waves = plan.waves.map((wave) => ({ ...wave, batches: { ...wave.batches, [inert]: ["S1"] } }));
  const opened = chewStudy({ ...plan, waves, chew: { ...plan.chew, control: inert } }, (which) =>
    which.product === 2 ? gaining(6.2) : ofScenario(which),
  );
  const result = resultOf(opened);
  expect([result.products, result.masses.control, result.judgments]).toEqual([["current", "new"], "silicone ball", 48]);
  near([differenceOf(opened)?.percentagePoints.estimate], massByR.chew.difference.slice(0, 1));
  expect(describeResult(result, report).size).toMatch(/control “silicone ball” gained 6\.2/);
});

describe("what went wrong between mouth and balance is told, and what cannot be weighed is left out", () => {
  const at = (which: Which, person: number, product: number, repeat: number): boolean =>
    which.person === person && which.product === product && which.repeat === repeat;
  const opened = chewStudy(
    pairOfProducts(),
    (which) => {
      const told = ofScenario(which);
      if (at(which, 0, 0, 0)) return { ...told, whole: false };
      if (at(which, 1, 0, 0)) return { ...told, after: "" };
      if (at(which, 2, 0, 0)) return { ...told, after: "9.000" };
      if (at(which, 3, 0, 0)) return { ...told, portion: "5.600", after: grams(12.31 + 10 + 5.6 * 1.265) };
      if (at(which, 4, 0, 0)) return { ...told, seconds: null };
      return told;
    },
    (write, portions) => {
      const twice = portions.find((which) => at(which, 5, 0, 0));
      const place = { tray: twice?.tray ?? 0, code: twice?.code ?? "" };
      const entry = { rinse: "", balanceStep: "", waitedSeconds: null, after: [], note: "" };
      // entered by somebody who did not know of the first reading
      write({ ...place, stage: "cup", grams: "12.500", ...entry });
      write({ ...place, code: "999", stage: "cup", grams: "12.000", ...entry });
    },
  );
  const { departures, portions, weighings } = opened.record;

  test("each is one departure, with tray and code", () => {
    const left = departures.flatMap((each) =>
      each.what === "portions-left-out" ? [[each.why, each.portions.length]] : [],
    );
    expect(left).toEqual([
      ["swallowed", 1],
      ["not-weighed", 1],
      ["contradicted", 1],
      ["impossible", 1],
    ]);
    expect(departures.map(({ what }) => what).filter((what) => what !== "portions-left-out")).toEqual([
      "not-reached",
      "weighed-not-chewed",
      "portion-off-mass",
      "weighings-off-plan",
    ]);
    expect([portions.length, weighings.length]).toEqual([47, 48]);
  });
  test("43 of 48 portions count, and the report has a sentence for each departure", () => {
    const result = resultOf(opened);
    expect(result.judgments).toBe(43);
    expect(result.masses.panelists.filter(({ portions: own }) => own === 2)).toHaveLength(5);
    const said = describeResult(result, report);
    expect(said.departures.join(" ")).toMatch(/not all of it was spat out.*0\.6 g heavier than planned/);
    expect(said.caveats.join(" ")).toContain("from 2 to 3 portions");
  });
  test("the file leaves the closed cup of those out where it counts, and keeps it beside; it gives the same result", async () => {
    const path = files.put("incidents.csv", answersText(opened, true));
    const options = ["--method", "chew-and-weigh", "--seconds", "15", "--matters", "3", "--balance", "0.001"];
    const { out } = await inProcess("result", path, ...options, "--json");
    const again = read(chewResult, JSON.parse(out));
    expect(again.differences).toEqual(resultOf(opened).masses.differences);
    expect(answersText(opened, true)).toContain("swallowed");
  });
});

test("a key that is not the sealed one: numbers, and no verdict", () => {
  const opened = chewStudy(pairOfProducts(), ofScenario);
  const said = describeResult(analyse({ ...opened.record, keyMatches: false }, "test"), report);
  expect(said.verdict).toMatch(/^No verdict: /);
  expect(said.meaning).toBe("");
});

test("five people: numbers and no verdict", () => {
  const opened = chewStudy(pairOfProducts({ people: 5 }), ofScenario);
  expect(resultOf(opened).outcome).toBe("too-few");
  expect(describeResult(opened.result, report).verdict).toMatch(/^There are too few people for a verdict: 5/);
});

test("closed cups that waited longer than planned are told with their number, and count; one that waited just so long is not late", () => {
  const waits = [120, 121, 300];
  const opened = chewStudy(pairOfProducts(), (which) => {
    const waited = which.product === 0 && which.repeat === 0 ? waits[which.person] : undefined;
    return waited === undefined ? ofScenario(which) : { ...ofScenario(which), waited };
  });
  const late = opened.record.departures.find(({ what }) => what === "portions-weighed-late");
  expect(late).toMatchObject({ within: 120, longest: 300 });
  expect(late?.what === "portions-weighed-late" ? late.portions : []).toHaveLength(2);
  expect(resultOf(opened).judgments).toBe(48);
  expect(describeResult(resultOf(opened), report).departures.join(" ")).toMatch(
    /2 closed cups were entered more than 120 s after.*the longest after 300 s\. They count\./,
  );
});
