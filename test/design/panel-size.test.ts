import { describe, expect, test, vi } from "vitest";
import { discriminatorShareAt } from "../../src/analysis/method.ts";
import { findableBy, panelSize, saw } from "../../src/design/panel-size.ts";
import { differenceTest } from "../../src/design/size-test.ts";
import { problemOf } from "../problem-of.ts";
import sizes from "../reference/triangle-panel-sizes/values.json" with { type: "json" };

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

type Row = [share: number, alpha: number, beta: number, recalled: number, firstN: number, stableN: number];

describe("triangle sizes, 125 cells: printed values from memory (ISO 4120 Table A.3), columns recomputed in Python", () => {
  test("first n and stable n of every cell", () => {
    const found = (sizes.rows as Row[]).map(([discriminatorShare, alpha, beta]) => {
      const size = panelSize("triangle", { alpha, discriminatorShare, power: 1 - beta });
      return [discriminatorShare, alpha, beta, size?.people, size?.peopleStable];
    });
    expect(found).toEqual(
      (sizes.rows as Row[]).map(([share, alpha, beta, , first, stable]) => [share, alpha, beta, first, stable]),
    );
  });
  test("the recalled table is the first n in 124 of 125 cells; 1181 for pd 0.1, alpha 0.05, beta 0.001 is not", () => {
    const differing = (sizes.rows as Row[]).filter(([discriminatorShare, alpha, beta, recalled]) => {
      return panelSize("triangle", { alpha, discriminatorShare, power: 1 - beta })?.people !== recalled;
    });
    expect(differing).toEqual([[0.1, 0.05, 0.001, 1181, 1178, 1200]]);
  });
});

describe("people for 80 % power at alpha 0.05, steady from there on (exact binomial, computed outside, to the person)", () => {
  test.each([
    [0.3, 42],
    [0.4, 25],
    [0.5, 16],
  ])("a share of %d: %d people", (discriminatorShare, people) => {
    expect(panelSize("triangle", { alpha: 0.05, discriminatorShare, power: 0.8 })?.peopleStable).toBe(people);
  });
  test.each([
    [1.0, 220],
    [1.5, 57],
    [2.0, 23],
  ])("d-prime %d: %d people", (dPrime, people) => {
    const discriminatorShare = discriminatorShareAt("triangle", dPrime);
    expect(panelSize("triangle", { alpha: 0.05, discriminatorShare, power: 0.8 })?.peopleStable).toBe(people);
  });
});

describe("what a small panel finds with 80 % power at alpha 0.05 (computed outside, d-prime to one decimal)", () => {
  test.each([
    [8, 3.1, 6],
    [10, 2.9, 7],
    [12, 2.7, 8],
    [24, 2.0, 13],
    [36, 1.8, 18],
  ])("%d people: d-prime %d, %d right", (people, dPrime, needed) => {
    const found = findableBy(differenceTest("triangle", 0.05, 0), people);
    expect(found?.criticalNumber).toBe(needed);
    // half a step of the printed decimal
    expect(Math.abs((found?.dPrime ?? Number.NaN) - dPrime)).toBeLessThanOrEqual(0.05);
    expect(found?.power).toBeGreaterThanOrEqual(0.8);
  });
  test("two people cannot reach 5 %, since both guess right 1 time in 9", () => {
    expect(findableBy(differenceTest("triangle", 0.05, 0), 2)).toBeNull();
  });
});

describe("the teeth", () => {
  const points = saw(differenceTest("triangle", 0.05, 0.3), 1, 80);
  test("24 people need 13 right and guessing spends 2.8 % of the 5 % (exact: sum over 3^24)", () => {
    const point = points.find(({ people }) => people === 24);
    expect(point?.criticalNumber).toBe(13);
    expect(point?.chanceAtCritical).toBeCloseTo(0.028441128095468, 12);
  });
  test("power falls where the number needed rises, and rises where it does not", () => {
    for (const [at, point] of points.entries()) {
      const before = points[at - 1];
      if (before?.criticalNumber == null || point.criticalNumber === null) continue;
      if (point.criticalNumber > before.criticalNumber) expect(point.power).toBeLessThan(before.power);
      else expect(point.power).toBeGreaterThan(before.power);
    }
  });
  test("guessing never spends more than alpha", () => {
    for (const point of points) expect(point.chanceAtCritical).toBeLessThanOrEqual(0.05);
  });
});

describe("sizes that cannot be", () => {
  test("a share so small that 5,000 people do not find it has no size", () => {
    expect(panelSize("triangle", { alpha: 0.05, discriminatorShare: 0.01, power: 0.8 })).toBeNull();
  });
  test.each([0, 1, 1.2, Number.NaN])("a power of %d is refused", (power) => {
    const call = () => panelSize("triangle", { alpha: 0.05, discriminatorShare: 0.3, power });
    expect(problemOf(call)).toEqual({ code: "analysis/not-a-share", details: { name: "power", value: String(power) } });
  });
  test("a method without an analysis is refused by name", () => {
    const call = () => panelSize("ranking", { alpha: 0.05, discriminatorShare: 0.3, power: 0.8 });
    expect(problemOf(call).code).toBe("analysis/method-not-yet");
  });
});
