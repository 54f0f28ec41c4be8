import type { Attachment, Claim, Measure, Prediction } from "../model/claim.ts";
import type { Act } from "./acts.ts";
import { minutesOf } from "./acts.ts";
import { current, steamed } from "./kitchen.ts";
import { demoLedger } from "./ledger.ts";

/**
 * The claim behind the demo's studies: steamed first, the meatballs are juicier because less water is lost. Its rivals
 * predict something else for some of what was tasted and weighed. Written down before the first key was opened.
 */
const id = (what: number): string => `c1a7e55e-0d1e-4b3a-9c52-7a1f0e6d3c${String(what).padStart(2, "0")}`;
const [water, looks, heat, bite] = [id(1), id(2), id(3), id(4)];

/** Ids of the studies by the names that they have in the demo ("Q4"). */
export type StudyIds = (name: string) => string;

const attached = (place: number, study: string, question: string | null): Attachment => ({
  ...{ id: id(place), study, question, effect: "pair", first: current.id, second: steamed.id, turned: false },
});

type Predicted = Record<"water" | "looks" | "heat" | "bite", Prediction>;

function measure(
  place: number,
  parts: Omit<Measure, "id" | "predictions" | "about" | "typed" | "weighed"> & { predicted: Predicted },
) {
  const { predicted, ...rest } = parts;
  const predictions = {
    [water]: predicted.water,
    [looks]: predicted.looks,
    [heat]: predicted.heat,
    [bite]: predicted.bite,
  };
  return { id: id(place), predictions, about: "products" as const, typed: null, weighed: null, ...rest };
}

const juicierBy: Predicted = { water: "higher", looks: "none", heat: "none", bite: "higher" };

function measuresOf(study: StudyIds, questions: { juicier: string; juiciness: string }): Measure[] {
  return [
    measure(10, {
      kind: "mass",
      name: "Loss of mass, from raw to held",
      predicted: { water: "lower", looks: "silent", heat: "silent", bite: "silent" },
      attached: [],
    }),
    measure(11, {
      kind: "intensity",
      name: "Juiciness, out of sight and at one temperature",
      predicted: juicierBy,
      attached: [attached(21, study("Q4"), questions.juicier), attached(22, study("Q7"), questions.juiciness)],
    }),
    measure(12, {
      kind: "preference",
      name: "What diners like better",
      predicted: { water: "silent", looks: "none", heat: "none", bite: "silent" },
      attached: [attached(23, study("Q6"), null)],
    }),
    {
      ...measure(13, {
        kind: "intensity",
        name: "Juiciness, hot and lukewarm",
        predicted: { water: "none", looks: "silent", heat: "higher", bite: "none" },
        attached: [],
      }),
      about: "interaction",
    },
  ];
}

/** The claim as it was written before anything was tasted. */
export const demoClaim = (study: StudyIds, questions: { juicier: string; juiciness: string }): Claim => ({
  title: "Demo: Steam first keeps the juice in",
  invented: true,
  words: "Steaming first makes the meatballs juicier, because less water is lost in cooking.",
  heldBy: "the cook and the product developer",
  expected: "Juicier by 10 points of the line or more, and at least 4 points less cook loss.",
  expectedOn: "2026-05-12",
  first: current.name,
  second: steamed.name,
  explanations: [
    {
      id: water,
      name: "Less water is lost",
      words: "Gentle heat squeezes less water out of the meat, and what stays in is felt as juice.",
    },
    {
      id: looks,
      name: "They only look moister",
      words: "Steamed meatballs are pale and shiny. People expect juice and believe that they feel it.",
    },
    {
      id: heat,
      name: "They are served hotter",
      words: "Steamed meatballs come to the table hotter, and hot fat runs.",
    },
    {
      id: bite,
      name: "Their bite is softer",
      words: "Without a crust they fall apart sooner and give their juice at once, however much of it there is.",
    },
  ],
  measures: measuresOf(study, questions),
});

/**
 * Two versions: the expectations on the first morning, and the weighings written down when the last of the attached studies
 * was open. `last`: the day of that, from 0.
 */
export function claimActs(claim: Claim, known: string[], newEventId: () => string, last: number): Act[] {
  const [first, second] = [newEventId(), newEventId()];
  const measures = claim.measures.map((each) => (each.kind === "mass" ? { ...each, weighed: demoLedger } : each));
  return [
    {
      id: first,
      by: "lead",
      at: minutesOf("8:05"),
      kind: "claim-saved",
      body: { base: null, merged: [], claim, known: [] },
    },
    {
      id: second,
      by: "lead",
      at: minutesOf("17:20") + last * 24 * 60,
      kind: "claim-saved",
      body: { base: first, merged: [], claim: { ...claim, measures }, known },
    },
  ];
}
