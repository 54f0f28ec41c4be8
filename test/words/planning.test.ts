import { expect, test } from "vitest";
import { emptyPlan, openParts } from "../../src/design/readiness.ts";
import { openPartSentence } from "../../src/words/en/planning.ts";

test("each thing an empty plan lacks has a sentence of its own", () => {
  const sentences = openParts(emptyPlan()).map(openPartSentence);
  expect(new Set(sentences).size).toBe(sentences.length);
  for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
});

test.each([
  [{ part: "samples", what: "product-name", product: 1, name: " " }, "Name the second product."],
  [
    { part: "samples", what: "product-preparation", product: 0, name: "current" },
    "Write how “current” is prepared, up to the cup.",
  ],
  [
    { part: "samples", what: "products", count: 3, least: 2, most: 2 },
    "This method compares two products; the plan has 3.",
  ],
  [
    { part: "samples", what: "products", count: 7, least: 2, most: 6 },
    "This method compares two to six products in a sitting; the plan has 7.",
  ],
  [
    { part: "people", what: "too-few-people", people: 5, least: 6 },
    "5 people give no verdict, whatever they answer. Plan at least 6.",
  ],
  [
    { part: "people", what: "too-few-people", people: 1, least: 6 },
    "One person gives no verdict in this plan. Plan at least 6 people; or, to show a difference where one answer is right, at least 6 trays for that person.",
  ],
  [
    { part: "people", what: "no-critical-number", people: 1, risk: 0.001 },
    "With the answers of one person no outcome would count at a risk of 0.1\u00a0%. Plan more trays, or allow a higher risk.",
  ],
  [
    { part: "method", what: "blank-norm", none: 21, of: 20 },
    "In the earlier study, 21 of 20 had no preference: that cannot be. Correct the two numbers, or leave the study out.",
  ],
  [{ part: "serving", what: "batch", wave: 1, product: 1, name: "new" }, "Name a batch of “new” for wave 2."],
  [
    { part: "safety", what: "declaration", of: "cleanser", product: null, name: "" },
    "Declare the allergens of the cleanser.",
  ],
  [
    { part: "safety", what: "declaration", of: "an id", product: 1, name: "cleanser" },
    "Declare the allergens of “cleanser”.",
  ],
  [
    { part: "safety", what: "declaration", of: "an id", product: 1, name: "" },
    "Declare the allergens of the second product.",
  ],
] as const)("%j", (open, sentence) => {
  expect(openPartSentence(open)).toBe(sentence);
});
