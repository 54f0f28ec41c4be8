import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type PlanFileOptions, readPlanFile, writePlanFile } from "../../src/archive/plan-file.ts";
import { planOfFile } from "../../src/design/begin.ts";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import { newId } from "../../src/model/id.ts";
import type { Plan } from "../../src/model/plan.ts";
import { planFileWords } from "../../src/words/en/plan-file.ts";
import { askedPlan, choicePlans, linePlan, rankingPlan, readyPlan, repeated } from "../design/scenario.ts";
import { problemOf } from "../problem-of.ts";

const study = { id: "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10", title: "Steam first?" };
const anyId = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/;
const options: PlanFileOptions = { empty: emptyPlan(), newId, expected: planFileWords.expected };
const readAgain = (text: string) => readPlanFile(text, "plan.json", options);

/** A plan with each of its ids read as the place of what it names. */
function placed(plan: Plan): unknown {
  const places = new Map<string, string>();
  const place = (what: string, list: readonly { id: string }[]): void => {
    for (const [at, { id }] of list.entries()) places.set(id, `${what} ${at}`);
  };
  place("product", plan.products);
  place("property", plan.properties);
  place("wave", plan.waves);
  place("attribute", plan.scale.attributes);
  for (const [at, { further }] of plan.scale.attributes.entries()) place(`moment of ${at}:`, further);
  const walk = (value: unknown): unknown => {
    if (typeof value === "string") return places.get(value) ?? value;
    if (Array.isArray(value)) return value.map(walk);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [places.get(key) ?? key, walk(item)]));
  };
  return walk(plan);
}

const line = linePlan();
const [first = "", second = "", third = ""] = line.products.map(({ id }) => id);
const compared: Plan["comparisons"][] = [
  { kind: "all-pairs" },
  { kind: "reference", product: second },
  {
    kind: "planned",
    pairs: [
      { first, second: third },
      { first: null, second },
    ],
  },
  {
    kind: "two-factors",
    factors: [
      { name: "process", levels: ["dry", "steam"] },
      { name: "rest", levels: ["none", "8 min"] },
    ],
    cells: [
      { product: first, first: "one", second: "one" },
      { product: third, first: "two", second: "two" },
    ],
  },
];
const further = [
  { id: "aaaaaaaa-b3cc-4b9d-8f30-4c1d8e5a6b04", moment: { at: "first-bite" as const } },
  { id: "aaaaaaaa-b3cc-4b9d-8f30-4c1d8e5a6b05", moment: { at: "after" as const, seconds: 20 } },
];
const plans: Plan[] = [
  emptyPlan(),
  ...choicePlans().map(([, plan]) => plan),
  repeated(readyPlan(), "sessions"),
  rankingPlan(),
  askedPlan(),
  askedPlan({ blank: true }),
  ...compared.map((comparisons) =>
    linePlan({
      comparisons,
      scale: { lengthMm: 150, attributes: line.scale.attributes.map((each) => ({ ...each, further })) },
      scaleSought: { difference: 8, deviation: 14, seenDeviation: null, from: "a guess" },
    }),
  ),
];
/** Names that could be taken for something else in a file. */
const names = [
  "current",
  "new",
  "",
  " ",
  "warm-up",
  "cleanser",
  "#1",
  "#2",
  "__proto__",
  "constructor",
  "é \u201c",
  "id",
];
const typed = fc.oneof(fc.constantFrom(...names), fc.string({ maxLength: 20 }));
const anyPlan = fc
  .record({
    plan: fc.constantFrom(...plans),
    names: fc.array(typed, { minLength: 4, maxLength: 4 }),
    title: typed,
    objective: fc.string({ maxLength: 200 }),
    people: fc.integer({ min: 0, max: 500 }),
    alpha: fc.double({ min: 0.0001, max: 0.5, noNaN: true }),
    goal: fc.constantFrom("difference" as const, "similarity" as const),
    grams: fc.option(fc.double({ min: 0.1, max: 1000, noNaN: true })),
    avoidCodes: fc.array(fc.integer({ min: 100, max: 999 }).map(String), { maxLength: 4 }),
    server: fc.constantFrom(null, true, false),
  })
  .map(
    ({ plan, names: called, grams, server, ...rest }): Plan => ({
      ...plan,
      ...rest,
      serverKnowsKey: server,
      serving: { ...plan.serving, portionGrams: grams },
      products: plan.products.map((product, at) => ({ ...product, name: called[at] ?? "" })),
    }),
  );

describe("a plan as a file", () => {
  test("comes back as the same plan, but for its ids", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const text = writePlanFile(plan, study);
        const { plan: again, study: from } = readAgain(text);
        expect(placed(again)).toEqual(placed({ ...plan, invented: false, copiedFrom: null }));
        expect(from).toEqual(study);
        expect(text.replace(study.id, "")).not.toMatch(anyId);
      }),
      { numRuns: 150 },
    );
  });

  test("begins another study: under ids of its own, naming the old one, with the words of that day taken back", () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const begun = planOfFile(readAgain(writePlanFile(plan, study)), [], newId);
        const back = { declarationsComplete: false, cautionsRead: [], invented: false };
        expect(placed(begun)).toEqual(
          placed({ ...plan, ...back, copiedFrom: { study: study.id, title: study.title } }),
        );
      }),
      { numRuns: 50 },
    );
    const begun = planOfFile(readAgain(writePlanFile(readyPlan(), study)), [], newId);
    const ids = [...begun.products, ...begun.waves].map(({ id }) => id);
    expect(ids.filter((id) => JSON.stringify(readyPlan()).includes(id))).toEqual([]);
    expect(openParts(begun).map(({ what }) => what)).toEqual(["declarations-complete", "caution", "caution"]);
  });

  test("twice: both studies are there, and the second has a title of its own", () => {
    const file = readAgain(writePlanFile(readyPlan(), study));
    expect(planOfFile(file, [], newId).title).toBe("Steam first?");
    expect(planOfFile(file, ["Steam first?"], newId).title).toBe("Steam first? (copy)");
  });

  test("is for people: what it is first, products by name, two spaces deep, without what is as usual", () => {
    const text = writePlanFile(readyPlan(), study);
    const keys = [...text.matchAll(/^ {2}"(\w+)":/gm)].map(([, key]) => key);
    expect(keys.slice(0, 5)).toEqual(["format", "v", "study", "title", "objective"]);
    expect(text).toContain('\n      "batches": {\n        "current": [\n          "C1",\n');
    expect(text).toContain('\n      "of": "new",\n');
    for (const usual of ["ranking", "scale", "sides", "stopping", "blankNorm", "noPreference", "copiedFrom"])
      expect(keys).not.toContain(usual);
    const likeness = writePlanFile(readyPlan({ goal: "similarity" }), study);
    expect(likeness).toContain('"limit": 0.3');
    expect(writePlanFile(linePlan(), study)).toContain('"lengthMm": 120');
  });

  test("of the demo, or of a copy, is a plan like any other", () => {
    const demo = readyPlan({ invented: true, copiedFrom: { study: study.id, title: "Earlier" } });
    const { plan } = readAgain(writePlanFile(demo, study));
    expect([plan.invented, plan.copiedFrom]).toEqual([false, null]);
  });

  test("edited by hand: a product more, without an id and named in a wave, and its declaration", () => {
    const file = JSON.parse(writePlanFile(readyPlan(), study));
    file.products.push({ name: "rested" });
    file.waves[0].batches.rested = ["R1"];
    file.declarations.push({ of: "#3", contains: ["egg"] });
    file.reference = { kind: "constant", product: "rested" };
    const { plan } = readAgain(JSON.stringify(file));
    const rested = plan.products[2]?.id ?? "";
    expect(rested).toMatch(anyId);
    expect(plan.waves[0]?.batches[rested]).toEqual(["R1"]);
    expect(plan.declarations.at(-1)).toMatchObject({ of: rested, contains: ["egg"], mayContain: [] });
    expect(plan.reference.product).toBe(rested);
  });
});

describe("a file that holds no plan is refused, and the field is named", () => {
  const file = (): Record<string, never> => JSON.parse(writePlanFile(readyPlan(), study));
  const changed = (change: (file: ReturnType<typeof JSON.parse>) => void): string => {
    const value = file();
    change(value);
    return JSON.stringify(value);
  };
  test.each<[string, string, string, string]>([
    ["another format", changed((f) => (f.format = "cloche-study")), "format", "one of cloche-plan"],
    ["a later version", changed((f) => (f.v = 2)), "v", "one of 1"],
    ["a list", "[1]", "the whole document", planFileWords.expected.fields],
    ["a word for a number", changed((f) => (f.people = "many")), "people", "a value of type number"],
    ["a field that is unknown", changed((f) => (f.pepole = 3)), "the whole document", "no field named pepole"],
    [
      "batches of no product of the plan",
      changed((f) => (f.waves[1].batches.curent = ["C1"])),
      "waves.1.batches.curent",
      "one of the products, current and new",
    ],
    [
      "a product that is named like another",
      changed((f) => (f.products[1].name = "current")),
      "waves.0.batches.current",
      "one of the products, current and current",
    ],
    [
      "an allergen that is unknown",
      changed((f) => (f.declarations[0].contains = ["eggs"])),
      "declarations.0.contains.0",
      "",
    ],
  ])("%s", (_, text, where, expected) => {
    const { code, details } = problemOf(() => readAgain(text));
    expect(code).toBe("file/wrong-shape");
    expect(details).toMatchObject({ path: "plan.json", where, expected: expect.stringContaining(expected) });
  });
  test("no JSON", () => {
    expect(problemOf(() => readAgain("people: 12")).code).toBe("file/not-json");
  });
});
