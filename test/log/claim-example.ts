import { type Attachment, type Claim, emptyClaim, type Measure, type Prediction } from "../../src/model/claim.ts";

/** A claim of the invented Quillmere Kitchen: steamed first, the meatballs are juicier because less water is lost. */
export const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";
export const otherStudy = "c3d8a3df-0c6a-4b4a-9d1e-4e4b7b2e8f21";
export const own = "10000000-0000-4000-8000-000000000001";
export const rival = "10000000-0000-4000-8000-000000000002";
export const juiciness = "20000000-0000-4000-8000-000000000001";
export const cookLoss = "20000000-0000-4000-8000-000000000002";

export const attachmentOf = (changes: Partial<Attachment> = {}): Attachment => ({
  id: "30000000-0000-4000-8000-000000000001",
  study,
  question: null,
  effect: "pair",
  first: null,
  second: null,
  turned: false,
  ...changes,
});

export const measureOf = (changes: Partial<Measure> = {}): Measure => ({
  id: juiciness,
  kind: "intensity",
  about: "products",
  name: "Juiciness",
  predictions: { [own]: "higher", [rival]: "none" },
  attached: [attachmentOf()],
  typed: null,
  weighed: null,
  ...changes,
});

export const claimOf = (changes: Partial<Claim> = {}): Claim => ({
  ...emptyClaim(() => own),
  title: "Steam first is juicier",
  words: "Steaming first makes the meatballs juicier, because less water is lost.",
  heldBy: "Teo Marchetti",
  expected: "Juicier, by little.",
  expectedOn: "2026-05-03",
  first: "current",
  second: "new",
  explanations: [
    { id: own, name: "Less water is lost", words: "Gentle heat squeezes out less." },
    { id: rival, name: "They only look moister", words: "The surface stays pale and shiny." },
  ],
  measures: [measureOf()],
  ...changes,
});

/** The claim with these predictions for juiciness. */
export const predicting = (predictions: Record<string, Prediction>, changes: Partial<Measure> = {}): Claim =>
  claimOf({ measures: [measureOf({ predictions, ...changes })] });
