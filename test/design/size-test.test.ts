import { describe, expect, test, vi } from "vitest";
import { findableBy, saw, sizeOf } from "../../src/design/panel-size.ts";
import { emptyPlan } from "../../src/design/readiness.ts";
import { differenceTest, likenessTest, sideShare, sizeTest } from "../../src/design/size-test.ts";
import { problemOf } from "../problem-of.ts";
import { linePlan, preferencePlan, readyPlan } from "./scenario.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

describe("likeness by a triangle, R 4.2.2 (qbinom, pbinom)", () => {
  // people, limit, beta, most right, chance of a yes where nobody can tell, and where the limit can
  test.each([
    [24, 0.3, 0.05, 8, 0.594466074433736, 0.0389908052303506],
    [30, 0.3, 0.05, 11, 0.723864365309638, 0.0497188508682445],
    [60, 0.3, 0.05, 25, 0.931984821641119, 0.0463792570089152],
    [36, 0.2, 0.05, 11, 0.43762796330886, 0.0368857237478792],
    [60, 0.3, 0.1, 26, 0.960307595709085, 0.0774669645419335],
    [12, 0.3, 0.05, 3, 0.393074678092207, 0.0457991377282208],
  ])("%d people, limit %d, beta %d: at most %d right", (people, limit, beta, most, alike, different) => {
    const likeness = likenessTest("triangle", limit, beta);
    expect(likeness.criticalNumber(people)).toBe(most);
    expect(likeness.chance(people, likeness.soughtAt)).toBeCloseTo(alike, 12);
    expect(likeness.chance(people, likeness.falseAt)).toBeCloseTo(different, 12);
  });

  test("six people cannot show that fewer than 1 % can tell: no count is low enough, and the chance is none", () => {
    const likeness = likenessTest("triangle", 0.01, 0.05);
    expect(likeness.criticalNumber(6)).toBeNull();
    expect(likeness.chance(6, 0)).toBe(0);
  });

  test.each([
    [0.3, 0.05, 0.8, 39],
    [0.2, 0.05, 0.8, 86],
    [0.4, 0.05, 0.8, 25],
    [0.3, 0.05, 0.9, 54],
    [0.3, 0.1, 0.8, 28],
  ])("limit %d, beta %d, chance %d: %d people at first", (limit, beta, chance, people) => {
    expect(sizeOf(likenessTest("triangle", limit, beta), chance)?.people).toBe(people);
  });
});

describe("a preference, two-sided at 0.05, R 4.2.2 (binom.test, pbinom)", () => {
  test.each([
    [24, 0.3, 18, 0.210627228692428],
    [60, 0.3, 39, 0.55903428716326],
    [60, 0.4, 39, 0.838182139391731],
    [100, 0.3, 61, 0.827585100934113],
  ])("%d people, a lead of %d: %d on one side", (people, lead, needed, chance) => {
    const preference = differenceTest("paired-preference", 0.05, lead);
    expect(preference.criticalNumber(people)).toBe(needed);
    expect(preference.chance(people, preference.soughtAt)).toBeCloseTo(chance, 12);
  });

  test.each([
    [0.3, 90, 97, 55],
    [0.4, 49, 54, 32],
    [0.5, 30, 35, 21],
    [0.6, 20, 23, 15],
  ])("a lead of %d is found 80 times of 100 by %d, and by %d or more", (lead, people, stable, needed) => {
    const size = sizeOf(differenceTest("paired-preference", 0.05, lead), 0.8);
    expect(size).toMatchObject({ people, peopleStable: stable, criticalNumber: needed });
  });

  test("a lead of 0.3 is 65 to 35; what is found is a lead, no share who tell, since nobody is right", () => {
    expect(sideShare(0.3)).toBe(0.65);
    expect(findableBy(differenceTest("paired-preference", 0.05, 0), 49)).toMatchObject({
      discriminatorShare: null,
      criticalNumber: 32,
    });
    // 49 are the first who find a lead of 0.4 with 0.8
    expect(findableBy(differenceTest("paired-preference", 0.05, 0), 49)?.effect).toBeLessThanOrEqual(0.4);
    expect(findableBy(differenceTest("paired-preference", 0.05, 0), 48)?.effect).toBeGreaterThan(0.4);
  });
});

describe("which test a plan is held against", () => {
  test("the goal of a triangle decides; a preference has no goal of likeness, and a line scale has no such test", () => {
    const found = (plan = readyPlan()) => sizeTest(plan)?.criticalNumber(24);
    expect(found()).toBe(13);
    expect(found(readyPlan({ goal: "similarity" }))).toBe(8);
    expect(found(preferencePlan())).toBe(18);
    expect(found(preferencePlan({ goal: "similarity" }))).toBe(18);
    expect(sizeTest(linePlan())).toBeNull();
  });

  test("the teeth of likeness never call alike more often than beta what differs by the limit", () => {
    const test = sizeTest({ ...emptyPlan(), goal: "similarity" });
    if (!test) throw new Error("a triangle has a test");
    for (const point of saw(test, 6, 90)) expect(point.chanceAtCritical).toBeLessThanOrEqual(0.05);
  });

  test("a method without an analysis is refused by name", () => {
    expect(problemOf(() => differenceTest("ranking", 0.05, 0.3)).code).toBe("analysis/method-not-yet");
    expect(problemOf(() => likenessTest("ranking", 0.3, 0.05).criticalNumber(24)).code).toBe("analysis/method-not-yet");
  });
});
