import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { scaleForm } from "../../src/model/attribute.ts";
import { placeOfStep, stepAt } from "../../src/model/steps.ts";

describe("steps as places on a scale", () => {
  test("a step and its place say the same, for every number of steps, also through JSON", () => {
    for (let of = 2; of <= 11; of += 1) {
      for (let step = 1; step <= of; step += 1) {
        const place: number = JSON.parse(JSON.stringify(placeOfStep(step, of)));
        expect(stepAt(of, place)).toBe(step);
      }
    }
  });

  test("what lies between two steps or outside of them is no step", () => {
    for (const place of [0.3, 0.2500001, -0.25, 1.25, Number.NaN]) expect(stepAt(5, place)).toBeNull();
    // the middle of nine is none of eight
    expect(stepAt(9, 0.5)).toBe(5);
    expect(stepAt(8, 0.5)).toBeNull();
  });

  test.each([
    ["one step", { kind: "steps", labels: ["only"], liking: false }],
    ["twelve steps", { kind: "steps", labels: Array(12).fill("x"), liking: false }],
    ["just right without a middle", { kind: "just-right", labels: ["a", "b", "c", "d"] }],
    ["just right of one", { kind: "just-right", labels: ["just right"] }],
    ["a length of its own", { kind: "line", labels: [] }],
  ])("no form of a scale: %s", (_what, form) => {
    expect(z.safeParse(scaleForm, form).success).toBe(false);
  });

  test.each([
    { kind: "line" },
    { kind: "steps", labels: ["low", "high"], liking: false },
    { kind: "steps", labels: Array(11).fill("x"), liking: true },
    { kind: "just-right", labels: ["too dry", "just right", "too wet"] },
    { kind: "just-right", labels: ["a", "b", "just right", "d", "e"] },
  ])("a form of a scale: %j", (form) => {
    expect(z.parse(scaleForm, form)).toEqual(form);
  });
});
