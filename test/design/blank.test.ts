import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { lowerTail, upperTail } from "../../src/analysis/binomial.ts";
import { describe as say } from "../../src/analysis/describe.ts";
import { blankOf } from "../../src/design/blank.ts";
import { drawRaw } from "../../src/design/raw-draw.ts";
import { openParts } from "../../src/design/readiness.ts";
import { playStudy, rehearse } from "../../src/design/rehearsal.ts";
import { forRehearsal } from "../../src/design/rehearsal-plan.ts";
import { newId } from "../../src/model/id.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { Rehearsal } from "../../src/model/rehearsal.ts";
import { changeProduct } from "../../src/organizer/plan-edit.ts";
import { blankWords } from "../../src/words/en/organizer-blank.ts";
import { report } from "../../src/words/en/report.ts";
import { choicePlans, linePlan, rankingPlan, readyPlan } from "./scenario.ts";

const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
const blank = (plan: Plan, titles: string[] = []) => blankOf({ study, plan }, titles, newId, blankWords.plan);
const words = { declarationsComplete: true, cautionsRead: readyPlan().cautionsRead };

describe("the blank study of a plan", () => {
  test.each([...choicePlans(), ["line scale", linePlan()] as const, ["ranking", rankingPlan()] as const])(
    "%s: one food under every letter, in the same waves; nothing is open but the lead's own words",
    (_, plan) => {
      const made = blank(plan);
      const foods = made.products.map(({ preparation }) => preparation);
      expect(new Set(foods).size).toBe(1);
      expect(new Set(made.products.map(({ name }) => name)).size).toBe(plan.products.length);
      expect([made.blank, made.goal, made.stopping.rule]).toEqual([true, "difference", "fixed"]);
      for (const { batches } of made.waves) expect(new Set(Object.values(batches).map(String)).size).toBe(1);
      expect(made.waves.map(({ people, starts }) => [people, starts])).toEqual(
        plan.waves.map(({ people, starts }) => [people, starts]),
      );
      expect(openParts({ ...made, ...words })).toEqual([]);
      expect(made.declarationsComplete).toBe(false);
    },
  );
  test("names the plan it came from, says in its title that it is one, and has a title of its own", () => {
    const made = blank(readyPlan());
    expect([made.title, made.copiedFrom]).toEqual(["Blank: Steam first?", { study, title: "Steam first?" }]);
    expect(blank(readyPlan(), [made.title]).title).toBe("Blank: Steam first? (copy)");
  });
  test("one food has one process: the lock gives out no raw pieces, and cooks no batch twice", () => {
    const raw = { drawn: "drawn", unit: "pieces", divided: false, perBatch: 1 } as const;
    const made = blank(readyPlan({ raw }));
    expect(drawRaw(readyPlan({ raw }), "ab")).not.toBeNull();
    expect(drawRaw(made, "ab")).toBeNull();
  });
  test("where one product is known it is the food: the constant reference, the A", () => {
    const [, steamed] = readyPlan().products;
    const reference = { kind: "constant" as const, product: steamed?.id ?? null };
    const made = blank(readyPlan({ method: "duo-trio", reference }));
    expect(made.products.map(({ name }) => name)).toEqual(["new (as A)", "new"]);
    expect(made.products[0]?.preparation).toBe(steamed?.preparation);
  });
  test("an allergen that only the other product has goes with it; warm-up and cleanser stay declared", () => {
    const plan = readyPlan();
    const [current, steamed] = plan.products;
    const declarations = plan.declarations.map((each) =>
      each.of === steamed?.id ? { ...each, contains: [...each.contains, "fish" as const] } : each,
    );
    const made = blank({ ...plan, declarations });
    expect(made.declarations.flatMap(({ contains }) => contains)).not.toContain("fish");
    expect(made.declarations.map(({ of }) => of)).toEqual([
      ...made.products.map(({ id }) => id),
      ...["warm-up", "cleanser"],
    ]);
    expect(current?.name).toBe(made.products[0]?.name);
  });
  test("a plan that has one product yet, or none, gets as many stand-ins as its method needs", () => {
    const one = readyPlan({ products: readyPlan().products.slice(0, 1) });
    expect(blank(one).products.map(({ name }) => name)).toEqual(["current", "current (as B)"]);
    expect(blank(readyPlan({ products: [] })).products).toEqual([]);
  });
  test("one food stays one: another preparation is that of all, and a plan that has two cannot be locked", () => {
    const made = { ...blank(readyPlan()), ...words };
    const [first] = made.products;
    const changed = changeProduct(made, first?.id ?? "", { preparation: "Steam only." });
    expect(changed.products.map(({ preparation }) => preparation)).toEqual(["Steam only.", "Steam only."]);
    const two = made.products.map((product, at) => (at === 0 ? { ...product, preparation: "Steam only." } : product));
    expect(openParts({ ...made, products: two }).map(({ what }) => what)).toEqual(["blank-preparations"]);
  });
});

/** Plays one blank study in a world where so much gives cups away. */
const played = (plan: Plan, effect: number) =>
  analyse(playStudy(forRehearsal({ ...plan, blank: true }), { effect, deviation: 8 }, "a", "1"), "1");
const plans: [string, Plan, number][] = [
  ...choicePlans().map(([name, plan]): [string, Plan, number] => [name, plan, 1]),
  ["line scale", linePlan(), 60],
  ["ranking", rankingPlan(), 9],
];

describe("the report of a blank study speaks of the study", () => {
  test.each(plans)(
    "%s: of chance, or of what gave cups away; never of a product, its liking or likeness",
    (_, plan, all) => {
      for (const effect of [0, all]) {
        const result = played(plan, effect);
        const said = say(result, report);
        expect(said.test).toMatch(/blank study$/);
        const top = [said.verdict, said.size, said.agreed, ...said.caveats].join(" ");
        for (const { name } of plan.products) expect(top).not.toContain(`“${name}”`);
        expect(top).not.toMatch(/prefer|liking|alike|juic|can tell|tell apart/i);
        if (result.outcome === "not-reached") expect(said.verdict).toBe(report.blank.chance);
        if (result.outcome === "reached") expect(said.verdict).toBe(report.blank.found);
      }
    },
  );
  test("24 triangles: 12 right are chance, 13 are not (critical number at alpha 0.05 of published tables)", () => {
    const record = playStudy(forRehearsal(readyPlan({ blank: true })), { effect: 1, deviation: 8 }, "a", "1");
    const verdictOf = (right: number, isBlank: boolean): string => {
      const judgments = record.judgments.map((each, at) => (at < right ? each : { ...each, choice: wrongOf(each) }));
      return say(analyse({ ...record, plan: { ...record.plan, blank: isBlank }, judgments }, "1"), report).verdict;
    };
    const wrongOf = ({ tray, choice }: { tray: number; choice: string }): string =>
      record.opened.key.trays[tray - 1]?.samples.find(({ code }) => code !== choice)?.code ?? "";
    expect(verdictOf(12, true)).toBe(report.blank.chance);
    expect(verdictOf(13, true)).toBe(report.blank.found);
    expect(verdictOf(2, true)).toBe(report.blank.below);
    expect(verdictOf(13, false)).toContain("13 of 24");
  });
});

test("a blank study that is rehearsed has but one world, and cries wolf as often as the exact test of the plan", () => {
  const going = rehearse(
    { plan: { ...readyPlan(), blank: true }, effect: 0.9, deviation: 12, plays: 60, seed: "blank" },
    "0",
  );
  let done: Rehearsal | null = null;
  while (done === null) {
    const step = going.next();
    if (step.done) done = step.value;
  }
  // 24 triangles need 13: P(X >= 13) = 0.02844, in whole numbers
  for (const { yes, plays, effect, expected } of [done.rightly, done.wrongly]) {
    expect(effect).toBe(0);
    expect(expected).toBeCloseTo(0.028441128095468803, 15);
    expect(upperTail(yes, plays, 0.028441128095468803)).toBeGreaterThan(5e-7);
    expect(lowerTail(yes, plays, 0.028441128095468803)).toBeGreaterThan(5e-7);
  }
});
