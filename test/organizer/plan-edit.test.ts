import { describe, expect, test } from "vitest";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import type { Plan } from "../../src/model/plan.ts";
import {
  changeDeclaration,
  changeProduct,
  changeServing,
  declareAllergen,
  withCarrier,
  withMethod,
  withoutProduct,
  withProduct,
} from "../../src/organizer/plan-edit.ts";
import { fieldOf, keyOf } from "../../src/organizer/plan-fields.ts";
import { changeWave, readBatches, readCodes, withWave } from "../../src/organizer/plan-waves.ts";
import { readyPlan } from "../design/scenario.ts";

describe("changes of a plan", () => {
  test("a product that is removed takes its declaration and its batches along", () => {
    const plan = readyPlan();
    const [first] = plan.products;
    if (!first) throw new Error("the scenario has products");
    const text = JSON.stringify(withoutProduct(plan, first.id));
    expect(text.includes(first.id)).toBe(false);
  });

  test("a new wave begins with the people who have no seat yet", () => {
    const plan = readyPlan({ people: 30 });
    expect(withWave(plan, "11111111-2222-4333-8444-555555555503").waves.at(-1)?.people).toBe(6);
  });

  test("a line scale goes on until everybody has answered, whatever rule was typed before", () => {
    const plan = readyPlan({ stopping: { rule: "looks", at: [12] } });
    expect(withMethod(plan, "line-scale").stopping).toEqual({ rule: "fixed" });
    expect(withMethod(plan, "tetrad").stopping).toEqual(plan.stopping);
  });

  // portion, pause and repeats: common practice, no source
  test("chewed portions bring 5 g, 60 s and three trays along, and take them away again", () => {
    const chewed = withMethod(emptyPlan(), "chew-and-weigh");
    expect([chewed.serving.portionGrams, chewed.serving.pauseSeconds, chewed.repeats]).toEqual([5, 60, 3]);
    expect([chewed.chew.seconds, chewed.chew.toleranceGrams]).toEqual([15, 0.3]);
    expect(withMethod(chewed, "triangle")).toEqual(emptyPlan());
  });

  test("what was typed before stays when the method is chewed portions, and when it no longer is", () => {
    const empty = emptyPlan();
    const typed = { ...empty, repeats: 2, serving: { ...empty.serving, portionGrams: 8, pauseSeconds: 90 } };
    const chewed = withMethod(typed, "chew-and-weigh");
    expect([chewed.serving, chewed.repeats]).toEqual([typed.serving, 2]);
    expect(withMethod(chewed, "line-scale")).toMatchObject({ repeats: 2, serving: typed.serving });
    const one = withMethod({ ...empty, serving: { ...empty.serving, portionGrams: 8 } }, "chew-and-weigh");
    expect([one.serving.portionGrams, one.serving.pauseSeconds, one.repeats]).toEqual([8, 60, 3]);
  });

  test("a changed declaration takes back the word that all are complete", () => {
    const plan = readyPlan();
    expect(plan.declarationsComplete).toBe(true);
    const changed = changeDeclaration(plan, "cleanser", (before) => declareAllergen(before, "sesame", "contains"));
    expect(changed.declarationsComplete).toBe(false);
    expect(changed.declarations.find(({ of }) => of === "cleanser")?.contains).toEqual(["gluten-cereals", "sesame"]);
  });

  test("an allergen is contained or may be contained, never both", () => {
    const before = { of: "carrier", contains: [], mayContain: [], other: "", none: false };
    const contained = declareAllergen(before, "egg", "contains");
    const perhaps = declareAllergen(contained, "egg", "mayContain");
    expect([perhaps.contains, perhaps.mayContain]).toEqual([[], ["egg"]]);
    expect(declareAllergen(perhaps, "egg", "free")).toEqual(before);
  });
});

describe("lists as people type them", () => {
  test("batches: commas between, blanks and repeats left out", () => {
    expect(readBatches(" C1, C2,, C1 ,")).toEqual(["C1", "C2"]);
  });

  test("codes: what is no code is named, the others are taken", () => {
    expect(readCodes("112, 404 40 112")).toEqual({ codes: ["112", "404"], bad: "40" });
    expect(readCodes("")).toEqual({ codes: [], bad: null });
    expect(readCodes("012").bad).toBe("012");
  });
});

/** Plans with much missing; in the last one nothing has a name, and one product is called like the cleanser. */
function openPlans(): Plan[] {
  const ready = readyPlan();
  const half = readyPlan({
    products: ready.products.map((product) => ({ ...product, name: "", preparation: "" })),
    waves: ready.waves.map((wave) => ({ ...wave, people: 1, batches: {} })),
    looks: "masked",
    declarations: [],
    serving: { ...ready.serving, warmUpWhat: "" },
    serverKnowsKey: null,
    cautionsRead: [],
    declarationsComplete: false,
  });
  const [first, second] = half.products;
  if (!first || !second) throw new Error("the scenario has two products");
  return [emptyPlan(), half, { ...half, products: [first, { ...second, name: "cleanser" }] }];
}

describe("what is open leads to its field", () => {
  test("every open part has a field and a name of its own", () => {
    for (const plan of openPlans()) {
      const open = openParts(plan);
      expect(open.length).toBeGreaterThan(5);
      for (const each of open) expect(fieldOf(each)).toMatch(/^[a-z]/);
      expect(new Set(open.map(keyOf)).size).toBe(open.length);
    }
  });

  test("without names: batches and declarations of both products, each to its own", () => {
    const [, half, named] = openPlans();
    for (const plan of [half, named]) {
      if (!plan) throw new Error("there are three plans");
      const fields = openParts(plan).map(fieldOf);
      for (const field of ["wave-0-batch-0", "wave-0-batch-1", "wave-1-batch-0", "wave-1-batch-1"])
        expect(fields).toContain(field);
      for (const { id } of plan.products) expect(fields).toContain(`declare-${id}`);
      expect(fields).toContain("declare-cleanser");
    }
  });
});

describe("another recipe takes back the word that the declarations are complete", () => {
  const plan = readyPlan();
  const [first] = plan.products;
  if (!first) throw new Error("the scenario has products");
  const carrier = changeDeclaration(plan, "carrier", (before) => before);
  const signed = (changed: Plan) => changed.declarationsComplete;

  test.each<[string, Plan]>([
    ["a preparation", changeProduct(plan, first.id, { preparation: "With an egg glaze." })],
    ["one more product", withProduct(plan, "11111111-2222-4333-8444-555555555509")],
    ["a product less", withoutProduct(plan, first.id)],
    ["the cleanser", changeServing(plan, { cleanser: "Apple" })],
    ["no warm-up", changeServing(plan, { warmUp: false })],
    ["what the warm-up is", changeServing(plan, { warmUpWhat: "Another process" })],
    ["a carrier", carrier],
    ["no carrier", withCarrier({ ...carrier, declarationsComplete: true }, { carrier: false })],
  ])("%s", (_, changed) => {
    expect(signed(plan)).toBe(true);
    expect(signed(changed)).toBe(false);
  });

  test.each<[string, Plan]>([
    ["another name", changeProduct(plan, first.id, { name: "as ever" })],
    ["the portion", changeServing(plan, { portionGrams: 14 })],
    ["a cleanser typed again as it was", changeServing(plan, { cleanser: plan.serving.cleanser })],
    ["another time for a wave", changeWave(plan, plan.waves[0]?.id ?? "", { starts: "11:30" })],
  ])("but not %s", (_, changed) => {
    expect(signed(changed)).toBe(true);
  });
});
