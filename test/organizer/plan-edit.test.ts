import { describe, expect, test } from "vitest";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import {
  changeDeclaration,
  declareAllergen,
  fieldOf,
  readBatches,
  readCodes,
  withoutProduct,
  withWave,
} from "../../src/organizer/plan-edit.ts";
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

  test("a changed declaration takes back the word that all are complete", () => {
    const plan = readyPlan();
    expect(plan.declarationsComplete).toBe(true);
    const changed = changeDeclaration(plan, "cleanser", (before) => declareAllergen(before, "sesame", "contains"));
    expect(changed.declarationsComplete).toBe(false);
    expect(changed.declarations.find(({ of }) => of === "cleanser")?.contains).toEqual(["gluten-cereals", "sesame"]);
  });

  test("an allergen is contained or may be contained, never both", () => {
    const before = { of: "carrier", contains: [], mayContain: [], other: "" };
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

test("every open part of an empty and of a half-written plan leads to a field of its own", () => {
  const ready = readyPlan();
  const half = readyPlan({
    products: ready.products.map((product) => ({ ...product, name: "", preparation: "" })),
    waves: ready.waves.map((wave) => ({ ...wave, people: 1, batches: {} })),
    looks: "masked",
    declarations: [],
    serving: { ...ready.serving, warmUpWhat: "" },
    cautionsRead: [],
    declarationsComplete: false,
  });
  for (const plan of [emptyPlan(), half]) {
    const open = openParts(plan);
    expect(open.length).toBeGreaterThan(5);
    for (const each of open) expect(fieldOf(each, plan)).toMatch(/^[a-z]/);
  }
});
