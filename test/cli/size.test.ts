import { describe, expect, test, vi } from "vitest";
import * as z from "zod/mini";
import { reference } from "../analysis/reference.ts";
import { inProcess } from "./terminal.ts";

vi.setConfig({ testTimeout: 60_000 });
const words = (text: string) => text.split(" ");

async function sized(options: string) {
  const { code, out, err } = await inProcess("size", ...words(options), "--json");
  expect([code, err]).toEqual([0, ""]);
  return JSON.parse(out);
}
const sizes = z.object({
  rows: z
    .array(z.tuple([z.number(), z.number(), z.number(), z.nullable(z.number()), z.number(), z.number()]))
    .check(z.minLength(100)),
});

describe("how many people: tables recalled from memory, columns recomputed in Python beside them", () => {
  test.each([
    ["triangle", "triangle-panel-sizes", "triangle, tetrad, three-alternative (ISO 4120 Table A.3)"],
    ["duo-trio", "duo-trio-panel-sizes", "duo-trio, paired difference (ISO 10399 Table A.3)"],
  ])("%s: first n and stable n of every tenth cell", async (method, name) => {
    const cells = reference(name, sizes).rows.filter((_, at) => at % 10 === 0);
    for (const [pd, alpha, beta, , firstN, stableN] of cells) {
      const found = await sized(`--method ${method} --pd ${pd} --alpha ${alpha} --beta ${beta}`);
      expect([found.people, found.peopleStable]).toEqual([firstN, stableN]);
      expect(found.power).toBeGreaterThanOrEqual(1 - beta);
      expect(found.rule).toBe("first-n-exact-binomial");
    }
  });
  test("pairs on two sides (ISO 5495 Table A.5): a lead of 2 share − 1", async () => {
    const cells = reference("two-sided-panel-sizes", sizes).rows.filter((_, at) => at % 10 === 0);
    for (const [share, alpha, beta, , firstN, stableN] of cells) {
      const pd = Number((2 * share - 1).toFixed(10));
      for (const method of ["paired-preference", "paired-difference --sides two"]) {
        const found = await sized(`--method ${method} --pd ${pd} --alpha ${alpha} --beta ${beta}`);
        expect([found.people, found.peopleStable]).toEqual([firstN, stableN]);
      }
    }
  });
});

// computed when the invented scenario was thought up, with exact tails of another program
describe("the scenario's two tables of sizes at 80 % power and alpha 0.05", () => {
  test.each([
    ["triangle", [220, 57, 23]],
    ["duo-trio", [241, 65, 28]],
    ["tetrad", [65, 20, 9]],
    ["paired-difference", [26, 13, 8]],
    ["three-alternative", [22, 9, 5]],
  ])("%s at d-prime 1, 1.5 and 2: from these people on it stays so", async (method, people) => {
    const found = await Promise.all([1, 1.5, 2].map((dPrime) => sized(`--method ${method} --dprime ${dPrime}`)));
    expect(found.map(({ peopleStable }) => peopleStable)).toEqual(people);
  });
  test.each([
    ["triangle", [3.1, 2.9, 2.7, 2.0, 1.8], [6, 7, 8, 13, 18]],
    ["duo-trio", [3.2, 3.5, 2.9, 2.1, 1.8], [7, 9, 10, 17, 24]],
    ["tetrad", [2.1, 1.9, 1.8, 1.4, 1.2], [6, 7, 8, 13, 18]],
    ["paired-difference", [1.8, 2.0, 1.6, 1.0, 0.8], [7, 9, 10, 17, 24]],
  ])("%s: what 8, 10, 12, 24 and 36 people find, and the count they need", async (method, distances, counts) => {
    const found = await Promise.all(
      [8, 10, 12, 24, 36].map((people) => sized(`--method ${method} --people ${people}`)),
    );
    expect(found.map(({ effect }) => Number(effect.dPrime.toFixed(1)))).toEqual(distances);
    expect(found.map(({ criticalNumber }) => criticalNumber)).toEqual(counts);
  });
});

test("24 triangles find a share of 30 % with power 0.55, and 40 with 0.82; sums of exact fractions in Python", async () => {
  expect(await sized("--method triangle --pd 0.3 --people 24")).toMatchObject({ asked: "power", criticalNumber: 13 });
  expect((await sized("--method triangle --pd 0.3 --people 24")).power).toBeCloseTo(0.550475132488567, 12);
});

test("likeness: 60 triangles within 30 % show it with power 0.932 when nobody can tell, at most 25 right; exact fractions computed outside", async () => {
  const found = await sized("--method triangle --goal similarity --limit 0.3 --people 60");
  expect(found).toMatchObject({ goal: "similarity", criticalNumber: 25, alpha: 0.2, beta: 0.05 });
  expect(found.power).toBeCloseTo(0.931984821641119, 12);
  const enough = await sized("--method triangle --goal similarity --limit 0.3 --alpha 0.1");
  expect(enough.people).toBeLessThanOrEqual(60);
  expect(enough.power).toBeGreaterThanOrEqual(0.9);
});

describe("as text", () => {
  const textOf = async (options: string) => (await inProcess("size", ...words(options))).out;
  test("how many, from where on it stays so, and what decides", async () => {
    const out = await textOf("--method triangle --pd 0.3");
    expect(out).toContain("40 people");
    expect(out).toContain("from 42 people on");
    expect(out).toContain("At least 19 of 40 must be right");
  });
  test("what ten people can find", async () => {
    expect(await textOf("--method triangle --people 10")).toMatch(
      /10 people find .*d′\u00a02\.(8[5-9]|9[0-4]).*80\u00a0% of the time/,
    );
  });
  test("too few people for anything, and too small an effect for any panel", async () => {
    expect(await textOf("--method triangle --people 2")).toMatch(/2 people can find nothing/);
    expect(await textOf("--method triangle --pd 0.001")).toMatch(/More than 5000 people/);
  });
  test("kinds: the people, and what is assumed of them", async () => {
    const out = await textOf("--method a-not-a --dprime 2");
    expect(out).toMatch(/For d′\u00a02\.00: \d+ people/);
    expect(out).toContain("lean to neither answer");
  });
});

describe("a caller's mistake: one sentence on standard error, nothing on standard output, exit code 2", () => {
  test.each<[string, string, RegExp]>([
    ["nothing sought", "--method triangle", /needs --pd/],
    ["a distance that kinds need", "--method same-different", /needs --dprime/],
    ["a share of kinds", "--method a-not-a --pd 0.3", /--pd is “0\.3”.*--dprime says/],
    ["a distance of a preference", "--method paired-preference --dprime 1", /--dprime is “1”.*--pd says/],
    ["two effects", "--method triangle --pd 0.3 --dprime 1", /--pd is “0\.3”.*one of the two/],
    ["a share of 2", "--method triangle --pd 2", /--pd is “2”.*above 0 and at most 1/],
    ["a risk of 1", "--method triangle --pd 0.3 --beta 1", /--beta is “1”.*between 0 and 1/],
    ["an alpha of 0.6", "--method triangle --pd 0.3 --alpha 0.6", /--alpha is “0\.6”.*at most 0\.5/],
    ["an effect beside a limit", "--method triangle --goal similarity --limit 0.3 --pd 0.3", /--pd is “0\.3”.*--limit/],
    ["likeness without its limit", "--method triangle --goal similarity", /needs --limit/],
    ["likeness of a preference", "--method paired-preference --goal similarity --limit 0.3", /no other goal/],
    [
      "repeats of a preference",
      "--method paired-preference --pd 0.3 --repeats 2",
      /--repeats is “2”.*people are compared/,
    ],
    ["more people than are planned", "--method triangle --people 9000", /--people is “9000”.*from 1 to 5000/],
    ["gains of chewed portions by a share", "--method chew-and-weigh --pd 0.3", /--pd.*percentage points/],
    ["a ranking, whose power hangs on all of its products", "--method ranking --pd 0.3", /“ranking”.*how far apart/],
    ["an unknown option", "--method triangle --power 0.8", /no option “--power”/],
  ])("%s", async (_, options, sentence) => {
    const { code, out, err } = await inProcess("size", ...words(options));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
});
