import { expect, test } from "vitest";
import { chewRefusalOf } from "../../src/analysis/chew-portion.ts";
import { portionRefusalOf } from "../../src/model/portion-check.ts";

/**
 * By hand: a reading is off by half a step at the most. Cup and closed cup of a balance of 0.05 g together 0.05 g, with
 * rinse water 0.075 g; where only the digits tell the step, 0.01 g and 0.015 g.
 */
// common practice, no source: a closed cup is weighed without the tare that an empty one may have had
test("an empty cup of nothing is refused, before anything else of it is asked", () => {
  const planned = { grams: 5, toleranceGrams: 0.3, balanceStep: "0.01" };
  const refusal = (cup: string) => portionRefusalOf({ cup, portion: "5.00", after: "", rinse: "" }, planned);
  expect(["0", "0.00", "0.01"].map((cup) => refusal(cup)?.what)).toEqual(["no-cup", "no-cup", undefined]);
});

test.each([
  { step: "0.05", cup: "12.40", after: "12.35", rinse: "", cannot: false },
  { step: "0.05", cup: "12.45", after: "12.35", rinse: "", cannot: true },
  { step: "0.05", cup: "12.40", after: "22.35", rinse: "10.00", cannot: false },
  { step: "0.05", cup: "12.40", after: "22.30", rinse: "10.00", cannot: true },
  { step: "", cup: "12.40", after: "12.39", rinse: "", cannot: false },
  { step: "", cup: "12.41", after: "12.39", rinse: "", cannot: true },
  { step: "", cup: "12.40", after: "22.39", rinse: "10.00", cannot: false },
])("the page of the study and the terminal refuse the same: $cup g before, $after g after, step “$step”", (each) => {
  const { step, cup, after, rinse, cannot } = each;
  const planned = { grams: 5, toleranceGrams: 0.3, balanceStep: step };
  const readings = { gramsIn: "5.00", gramsOut: after, cup, rinse };
  const row = { panelist: "p", product: "a", repeat: "1", readings, gainPercent: null, seconds: null };
  expect(portionRefusalOf({ cup, portion: "5.00", after, rinse }, planned)?.what === "cup-above-after").toBe(cannot);
  expect(chewRefusalOf(row, step)?.what === "cup-above-out").toBe(cannot);
});
