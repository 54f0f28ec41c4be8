import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { copyOfPlan, emptyKitchen, planOfKitchen } from "../../src/design/begin.ts";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import { kitchen as kitchenSchema } from "../../src/model/kitchen.ts";
import { plan as planSchema } from "../../src/model/plan.ts";
import { kitchenOf, tenderness } from "./kitchen.ts";
import { linePlan, rankingPlan, readyPlan } from "./scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
/** Ids that can be told from all others. */
function ids(): () => string {
  let made = 0;
  return () => {
    made += 1;
    return `99999999-9999-4999-8999-${String(made).padStart(12, "0")}`;
  };
}
const idsIn = (value: unknown): string[] =>
  JSON.stringify(value).match(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g) ?? [];

describe("a new plan", () => {
  test("in a kitchen that said nothing is an empty plan", () => {
    expect(z.safeParse(kitchenSchema, emptyKitchen()).success).toBe(true);
    expect(planOfKitchen(emptyKitchen(), ids())).toEqual(emptyPlan());
  });

  test("does what the kitchen usually does, and begins with the properties marked for it, under ids of its own", () => {
    const kitchen = kitchenOf();
    const plan = planOfKitchen(kitchen, ids());
    expect(z.safeParse(planSchema, plan).success).toBe(true);
    expect(plan.serving).toEqual(kitchen.serving);
    expect([plan.palette, plan.place, plan.alpha, plan.panelType, plan.standsFor]).toEqual([
      "dim",
      "Quillmere Kitchen, window bench",
      0.01,
      "trained",
      "staff of the four canteens",
    ]);
    expect(plan.avoidCodes).toEqual(["112", "404"]);
    expect(plan.cautionsApplying).toEqual(["hygiene", "choking", "undercooked"]);
    expect(plan.scale.attributes.map(({ name }) => name)).toEqual(["Juiciness"]);
    expect(idsIn(plan).every((id) => id.startsWith("99999999"))).toBe(true);
    expect(kitchen.properties).toContainEqual(tenderness);
  });

  test("no word is given on the kitchen's behalf", () => {
    const plan = planOfKitchen(kitchenOf(), ids());
    expect([plan.declarationsComplete, plan.cautionsRead, plan.looks, plan.serverKnowsKey]).toEqual([
      false,
      [],
      null,
      null,
    ]);
    expect(openParts(plan).map(({ what }) => what)).toContain("declarations-complete");
  });
});

describe("a copied plan", () => {
  test.each([
    ["triangle", readyPlan()],
    ["line scale", linePlan()],
    ["ranking", rankingPlan()],
  ])("%s: the same but for its ids, its title and the words given for that day's food", (_method, plan) => {
    const copy = copyOfPlan({ study, plan }, [plan.title], ids());
    expect(z.safeParse(planSchema, copy).success).toBe(true);
    expect(copy.title).toBe(`${plan.title} (copy)`);
    expect(copy.copiedFrom).toEqual({ study, title: plan.title });
    expect([copy.declarationsComplete, copy.cautionsRead]).toEqual([false, []]);
    // every id but that of the study it names is a new one
    expect(idsIn({ ...copy, copiedFrom: null }).filter((id) => !id.startsWith("99999999"))).toEqual([]);
    // and with the new ids read as places, the two plans say the same
    const anonymous = (from: typeof plan) => {
      const places = new Map<string, number>();
      const kept = { ...from, title: "", copiedFrom: null, declarationsComplete: false, cautionsRead: [] };
      return JSON.stringify(kept).replaceAll(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => {
        if (!places.has(id)) places.set(id, places.size);
        return `id ${places.get(id)}`;
      });
    };
    expect(anonymous(copy)).toBe(anonymous(plan));
    // ready again once the words for the new food are given
    expect(openParts({ ...copy, declarationsComplete: true, cautionsRead: plan.cautionsRead })).toEqual([]);
  });

  test("of the demo is no demo", () => {
    expect(copyOfPlan({ study, plan: readyPlan({ invented: true }) }, [], ids()).invented).toBe(false);
  });

  test.each([
    ["Steam first?", [], "Steam first? (copy)"],
    ["Steam first? (copy)", ["Steam first?", "Steam first? (copy)"], "Steam first? (copy 2)"],
    ["Steam first?", ["Steam first? (copy)", "Steam first? (copy 2)"], "Steam first? (copy 3)"],
    ["  ", [], ""],
  ])("titled %j beside %j is called %j", (title, titles, called) => {
    expect(copyOfPlan({ study, plan: readyPlan({ title }) }, titles, ids()).title).toBe(called);
  });

  test("with the longest title there is keeps the word that it is a copy", () => {
    const { title } = copyOfPlan({ study, plan: readyPlan({ title: "x".repeat(300) }) }, [], ids());
    expect([title.length, title.endsWith(" (copy)")]).toEqual([300, true]);
  });
});
