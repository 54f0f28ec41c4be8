import { expect, test } from "vitest";
import {
  chewFlags,
  planThroughput,
  pointsOfASecond,
  pointsOfBalance,
  throughputOf,
} from "../../src/design/chew-time.ts";
import { openParts } from "../../src/design/readiness.ts";
import { chewPlan, inert } from "./scenario.ts";

test("a second of sloppiness: at a gain of 25 % in 15 s, 1.7 points (linear rise, worked by hand)", () => {
  expect(pointsOfASecond(25, 15)).toBeCloseTo(1.7, 1);
});

test("two steps of a balance over the portion, in points: 0.1 g of 5 g are 4, 0.01 g are 0.4 (worked by hand)", () => {
  expect(pointsOfBalance(0.1, 5)).toBeCloseTo(4, 12);
  expect(pointsOfBalance(0.01, 5)).toBeCloseTo(0.4, 12);
});

// worked by hand: 20 s a weighing
test("six cups within 120 s may come at once; of twelve people the second six begin 120 s later", () => {
  // rounds every 150 s: 2 × 150 + 90 to the last cups, and 6 × 20 to weigh them: 510 s
  expect(throughputOf({ people: 6, portions: 3, portionSeconds: 90, pauseSeconds: 60, withinSeconds: 120 })).toEqual({
    portionSeconds: 90,
    atOnce: 6,
    apart: 0,
    minutes: 9,
  });
  // the balance needs 12 × 20 = 240 s a round: 120 + 2 × 240 + 90 + 120 = 810 s
  expect(throughputOf({ people: 12, portions: 3, portionSeconds: 90, pauseSeconds: 60, withinSeconds: 120 })).toEqual({
    portionSeconds: 90,
    atOnce: 6,
    apart: 120,
    minutes: 14,
  });
});

test("a plan of six people a wave and nine portions each: 15 + 30 + 10 + 15 + 20 s a portion", () => {
  // 8 × max(90 + 60, 120) + 90 + 120 = 1410 s
  expect(planThroughput(chewPlan())).toEqual({ portionSeconds: 90, atOnce: 6, apart: 0, minutes: 24 });
});

test("flags: a coarse balance, a second that weighs as much as a quarter of what is sought, many portions", () => {
  const plan = chewPlan({ repeats: 1 });
  const flags = (change: Partial<typeof plan.chew>, repeats = 1) =>
    chewFlags({ ...plan, repeats, chew: { ...plan.chew, ...change } }).map(({ what }) => what);
  expect(flags({ matters: 8 })).toEqual([]);
  expect(flags({ matters: 8, balanceStep: "0.1" })).toEqual(["coarse-balance"]);
  expect(flags({ matters: 3 })).toEqual(["second"]);
  expect(flags({ matters: null, balanceStep: "0.1" }, 3)).toEqual(["many-portions"]);
});

test("a plan is not ready without a balance, a portion, two products beside the control, or trays enough of one person", () => {
  const plan = chewPlan();
  const { chew, serving, products } = plan;
  const open = (change: Partial<typeof plan>) => openParts({ ...plan, ...change }).map(({ what }) => what);
  expect(open({})).toEqual([]);
  expect(open({ chew: { ...chew, balanceStep: "" } })).toEqual(["balance-step"]);
  expect(open({ chew: { ...chew, balanceStep: "0.00" } })).toEqual(["balance-step"]);
  expect(open({ chew: { ...chew, toleranceGrams: 5 } })).toEqual(["tolerance"]);
  expect(open({ serving: { ...serving, portionGrams: null } })).toEqual(["portion"]);
  expect(open({ chew: { ...chew, control: "no product" } })).toEqual(["control"]);
  expect(open({ products: products.filter(({ id }, at) => id === inert || at === 0) })).toEqual(["beside-control"]);
  const one = { people: 1, waves: plan.waves.slice(0, 1).map((wave) => ({ ...wave, people: 1 })) };
  expect(open(one)).toEqual([]);
  expect(open({ ...one, repeats: 2 })).toEqual(["one-chewer"]);
});
