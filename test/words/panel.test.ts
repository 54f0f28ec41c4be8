import { expect, test } from "vitest";
import { allergenNames } from "../../src/words/en/allergens.ts";
import { allergenShort } from "../../src/words/en/organizer-safety.ts";
import { panel } from "../../src/words/en/panel.ts";
import { panelRules } from "../../src/words/en/panel-rules.ts";

test("what the lead typed to rinse with stands as typed at the end of a sentence, with one period", () => {
  const rules = panelRules;
  const { tasting } = panel;
  expect(rules.rinse("Water and plain crackers")).toBe("Clear your palate now: Water and plain crackers.");
  expect(rules.rinse(" warm water. ")).toBe("Clear your palate now: warm water.");
  expect(rules.rinse(" ")).toBe("Clear your palate now.");
  expect(tasting.resting("warm water")).toBe("Rest a moment and clear your palate: warm water.");
});

test("an allergen has one name on tablets and papers, and a shorter one in a sentence", () => {
  expect(panel.clearance.allergens).toBe(allergenNames);
  expect(["gluten-cereals", "milk", "molluscs"].map((a) => allergenShort(a as keyof typeof allergenNames))).toEqual([
    "cereals with gluten",
    "milk",
    "mollusks",
  ]);
});
