import { describe, expect, test } from "vitest";
import { pairedTest, portionTestOf } from "../../src/analysis/portion-power.ts";
import { pairPower } from "../../src/analysis/scale-power.ts";
import { differenceFoundBy, scalePeople } from "../../src/design/scale-size.ts";
import { chewPlan } from "../design/scenario.ts";
import byR from "../reference/paired-size-by-r/values.json" with { type: "json" };

// R 4.2.2, power.t.test(type = "paired", strict = TRUE): test/reference/paired-size-by-r
describe("people for a difference of gains, R 4.2.2", () => {
  test.each(byR.people)("how many: %o", ({ difference, deviation, alpha, power, people }) => {
    expect(scalePeople(pairedTest({ alpha, comparisons: 1, difference, deviation }), power)?.people).toBe(people);
  });
  test.each(byR.power)("how often so many find it: %o", ({ people, difference, deviation, alpha, power }) => {
    expect(pairPower(pairedTest({ alpha, comparisons: 1, difference, deviation }), people)).toBeCloseTo(power, 10);
  });
  test.each(byR.difference)("what so many find: %o", ({ people, deviation, alpha, power, difference }) => {
    const test = pairedTest({ alpha, comparisons: 1, difference: 1, deviation });
    expect(differenceFoundBy(test, people, power)).toBeCloseTo(difference, 7);
  });
  // two products against the first at 5 % are each held to 2.5 %
  test("an even share of the risk", () => {
    const shared = pairedTest({ alpha: 0.05, comparisons: 2, difference: 2, deviation: 2.5 });
    expect(scalePeople(shared)?.people).toBe(byR.people[3]?.people);
  });
});

describe("of a plan", () => {
  const plan = chewPlan();
  const scatter = { deviation: 2.5, from: "a guess" };
  test("the control is not among the compared; nothing without both figures, or for one person", () => {
    const chew = { ...plan.chew, matters: 2, scatter };
    expect(portionTestOf({ ...plan, chew })?.sharing).toBe(plan.products.length - 2);
    expect(portionTestOf({ ...plan, chew: { ...chew, control: null } })?.sharing).toBe(plan.products.length - 1);
    expect(portionTestOf({ ...plan, chew: { ...chew, matters: null } })).toBeNull();
    expect(portionTestOf({ ...plan, chew: { ...chew, scatter: null } })).toBeNull();
    expect(portionTestOf({ ...plan, chew, people: 1 })).toBeNull();
    expect(portionTestOf({ ...plan, chew, products: plan.products.slice(0, 2) })).toBeNull();
  });
});
