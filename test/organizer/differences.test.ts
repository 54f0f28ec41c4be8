import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Plan } from "../../src/model/plan.ts";
import { kitchenDifferences, planDifferences } from "../../src/organizer/differences.ts";
import { mostSteps, noHistory, recorded, sealed, stepBack, stepForward } from "../../src/organizer/history.ts";
import { kitchenOf } from "../design/kitchen.ts";
import { askedPlan, choicePlans, juicier, linePlan, rankingPlan, readyPlan } from "../design/scenario.ts";

const rows = (one: Plan, other: Plan): string[] =>
  planDifferences(one, other).map(({ label, mine, theirs }) => `${label}: ${mine} | ${theirs}`);
const withWave = (plan: Plan, change: Partial<Plan["waves"][number]>): Plan => ({
  ...plan,
  waves: plan.waves.map((wave, at) => (at === 0 ? { ...wave, ...change } : wave)),
});

describe("in what two versions of a plan differ", () => {
  const plan = readyPlan();
  const [current, steamed] = plan.products;
  if (!current || !steamed) throw new Error("two products");

  test("numbers, shares, texts and choices, in plain words", () => {
    const other = readyPlan({ people: 30, alpha: 0.01, looks: null, method: "tetrad", ifNo: "Stay." });
    expect(rows(plan, other)).toEqual([
      "if no: Ask about cost only. | Stay.",
      "method: Triangle | Tetrad",
      "risk of being fooled by chance: 5\u00a0% | 1\u00a0%",
      "people: 24 | 30",
      "look of the samples: they look alike | nothing",
    ]);
  });
  test("the planner's questions as they were asked, the time on the day; the advice follows from the answers", () => {
    const other = readyPlan({
      asked: { ...plan.asked, want: "liking", products: "two" },
      pace: { ...plan.pace, windowTo: 15 },
    });
    expect(rows(plan, other)).toEqual([
      "what is to be found out: nothing | Which one is liked better",
      "how many are compared: nothing | Two products",
      "best until (minutes): nothing | 15",
    ]);
    const taken = planDifferences(plan, other).reduce((into, each) => each.take(into), plan);
    expect(taken.advised?.method).toBe("paired-preference");
  });
  test("products by name, batches by wave and product, allergens by what they are of", () => {
    const other = withWave(plan, { starts: "11:30", batches: { ...plan.waves[0]?.batches, [steamed.id]: ["N9"] } });
    const declarations = other.declarations.map((each) =>
      each.of === "warm-up" ? { ...each, contains: ["fish" as const] } : each,
    );
    const products = [current, { ...steamed, preparation: "Steam only." }];
    expect(rows(plan, { ...other, products, declarations })).toEqual([
      `new, preparation: ${steamed.preparation} | Steam only.`,
      "wave 1, begins at: 11:15 | 11:30",
      "wave 1, batches of new: N1 and N2 | N9",
      "allergens of the warm-up sample, contains: egg and milk (including lactose) | fish",
    ]);
  });
  test("how a property is judged, as the lead chose it", () => {
    const line = linePlan();
    const [juicy] = line.scale.attributes;
    if (!juicy) throw new Error("one property");
    const judged = (form: typeof juicy.form): Plan => ({
      ...line,
      scale: { ...line.scale, attributes: [{ ...juicy, form }] },
    });
    const steps = judged({ kind: "steps", labels: ["dislike", "", "like"], liking: true });
    expect(rows(line, steps)).toEqual([
      "Juiciness, form of the scale: a mark on a line | 3 steps of liking: dislike / (no words) / like",
    ]);
    const right = judged({ kind: "just-right", labels: ["too little", "just right", "too much"] });
    expect(rows(right, judged({ kind: "steps", labels: ["low", "high"], liking: false }))).toEqual([
      "Juiciness, form of the scale: just right, 3 steps: too little / just right / too much | 2 steps: low / high",
    ]);
  });
  test("what only one of them has, and its way over: a product with all that was said of it goes", () => {
    const line = linePlan();
    const two = { ...line, products: line.products.slice(0, 2) };
    const [first] = planDifferences(line, two);
    expect([first?.label, first?.mine, first?.theirs]).toEqual(["new, rested", "is there", "is not there"]);
    const taken = first?.take(line);
    expect(taken?.products).toEqual(two.products);
    expect(JSON.stringify(taken)).not.toContain(line.products[2]?.id);
    const [back] = planDifferences(two, line);
    expect(back?.take(two).products).toEqual(line.products);
  });
  test("another food is taken over without the word that its declaration is whole", () => {
    const other = { ...plan, serving: { ...plan.serving, cleanser: "Milk" } };
    const [row] = planDifferences(plan, other);
    expect(row?.take(plan)).toEqual({ ...other, declarationsComplete: false });
    const [text] = planDifferences(plan, readyPlan({ objective: "?" }));
    expect(text?.take(plan).declarationsComplete).toBe(true);
  });
  test("taken over one by one, in any order, all of them make the other version", () => {
    const plans = [
      ...choicePlans().map(([, each]) => each),
      linePlan(),
      rankingPlan(),
      askedPlan(),
      readyPlan({ properties: [juicier] }),
    ];
    const any = fc.constantFrom(...plans);
    fc.assert(
      fc.property(
        any,
        any,
        fc.string(),
        fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
        (a, b, ifYes, by) => {
          const other = { ...b, ifYes };
          const differs = planDifferences(a, other);
          const shuffled = differs.map((each) => ({ each, by: by.next().value })).sort((x, y) => x.by - y.by);
          const taken = shuffled.reduce((into, { each }) => each.take(into), a);
          const left = planDifferences(taken, other).filter(({ key }) => key !== "declarationsComplete");
          // what hung on a product that went may have gone with it
          const settled = left.reduce((into, each) => each.take(into), taken);
          expect(planDifferences({ ...settled, declarationsComplete: true }, other)).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });
  test("of the kitchen's defaults, its properties too", () => {
    const one = kitchenOf();
    const serving = { ...one.serving, pauseSeconds: 60 };
    const properties = one.properties.map((each, at) => (at === 0 ? { ...each, definition: "Juice." } : each));
    const differs = kitchenDifferences(one, { ...one, serving, properties });
    expect(differs.map(({ label }) => label)).toEqual(["pause (seconds)", "Juiciness, what it means"]);
    expect(differs.reduce((into, each) => each.take(into), one)).toEqual({ ...one, serving, properties });
  });
});

describe("the history of a page", () => {
  const plan = (people: number, objective = "") => readyPlan({ people, objective });
  const grow = (steps: Plan[], leaving = false) =>
    steps
      .slice(1)
      .reduce(
        (history, after, at) =>
          recorded(leaving ? sealed(history) : history, steps[at] ?? after, after, planDifferences),
        noHistory<Plan>(),
      );

  test("typing into one field is one step, until the field is left", () => {
    const typed = grow([plan(24), plan(24, "C"), plan(24, "Ca"), plan(24, "Can")]);
    expect(typed.past.map(({ text }) => text)).toEqual(["question: nothing \u2192 Can"]);
    const more = recorded(sealed(typed), plan(24, "Can"), plan(24, "Can they"), planDifferences);
    expect(more.past.map(({ text }) => text)).toEqual([
      "question: nothing \u2192 Can",
      "question: Can \u2192 Can they",
    ]);
    expect(grow([plan(24), plan(3), plan(24)]).past).toEqual([]);
  });
  test("other fields are other steps, with what changed along; a removal is called what was said of it", () => {
    const history = grow([plan(24), plan(30), { ...plan(30), method: "tetrad", looks: "masked" }]);
    expect(history.past.map(({ text }) => text)).toEqual([
      "people: 24 \u2192 30",
      "method: Triangle \u2192 Tetrad, and 1\u00a0more",
    ]);
    const removed = recorded(history, plan(30), plan(24), planDifferences, "Removed wave 2.");
    expect(removed.past.at(-1)?.text).toBe("Removed wave 2");
  });
  test("back through all of it and forward again; a new change ends the way forward", () => {
    const steps = Array.from({ length: 60 }, (_each, at) => ({ ...plan(24 + at), spares: at % 2 }));
    let history = grow(steps, true);
    expect(history.past).toHaveLength(59);
    let at = steps.at(-1);
    for (let back = stepBack(history); back; back = stepBack(history)) [at, history] = [back.step.before, back.history];
    expect(at).toEqual(steps[0]);
    for (let on = stepForward(history); on; on = stepForward(history)) [at, history] = [on.step.after, on.history];
    expect(at).toEqual(steps.at(-1));
    const back = stepBack(history);
    if (!back) throw new Error("there is one");
    expect(recorded(back.history, back.step.before, plan(99), planDifferences).future).toEqual([]);
  });
  test("a very long one forgets its oldest steps only", () => {
    const steps = Array.from({ length: mostSteps + 10 }, (_each, at) => ({ ...plan(24 + at), spares: at % 2 }));
    const { past } = grow(steps, true);
    expect([past.length, past.at(-1)?.after]).toEqual([mostSteps, steps.at(-1)]);
    expect(mostSteps).toBeGreaterThanOrEqual(50);
  });
});
