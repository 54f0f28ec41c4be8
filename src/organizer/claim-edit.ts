import { questionsFor } from "../analysis/finding.ts";
import { canonicalText } from "../model/canonical.ts";
import {
  type Attachment,
  type Claim,
  type Explanation,
  leastExplanations,
  type Measure,
  mostExplanations,
  mostMeasures,
  type Prediction,
  predictions,
} from "../model/claim.ts";
import type { Plan } from "../model/plan.ts";
import { type ClaimField, claimFields } from "../words/en/organizer-claims.ts";

/** Changes of a claim, as functions from one version to the next. Ids are given, never made here. */

export function withExplanation(claim: Claim, id: string): Claim {
  if (claim.explanations.length >= mostExplanations) return claim;
  return { ...claim, explanations: [...claim.explanations, { id, name: "", words: "" }] };
}

export const changeExplanation = (claim: Claim, id: string, change: Partial<Explanation>): Claim => ({
  ...claim,
  explanations: claim.explanations.map((each) => (each.id === id ? { ...each, ...change } : each)),
});

/** Takes a rival away with what it predicts; two explanations stay. */
export function withoutExplanation(claim: Claim, id: string): Claim {
  if (claim.explanations.length <= leastExplanations) return claim;
  return {
    ...claim,
    explanations: claim.explanations.filter((each) => each.id !== id),
    measures: claim.measures.map((measure) => {
      const { [id]: _gone, ...left } = measure.predictions;
      return { ...measure, predictions: left };
    }),
  };
}

export function withMeasure(claim: Claim, id: string): Claim {
  if (claim.measures.length >= mostMeasures) return claim;
  const empty: Measure = {
    ...{
      id,
      kind: "intensity",
      about: "products",
      name: "",
      predictions: {},
      attached: [],
      typed: null,
      weighed: null,
    },
  };
  return { ...claim, measures: [...claim.measures, empty] };
}

export const changeMeasure = (claim: Claim, id: string, change: Partial<Measure>): Claim => ({
  ...claim,
  measures: claim.measures.map((each) => (each.id === id ? { ...each, ...change } : each)),
});

export const withoutMeasure = (claim: Claim, id: string): Claim => ({
  ...claim,
  measures: claim.measures.filter((each) => each.id !== id),
});

/** What a measure of this kind can be predicted to do. */
export const predictionsFor = ({ kind }: Pick<Measure, "kind">): readonly Prediction[] =>
  predictions.filter((each) =>
    each === "silent" || each === "none" ? true : kind === "noticed" ? each === "differs" : each !== "differs",
  );

/**
 * The same with another kind: predictions that it cannot have say nothing, and studies stay attached only where they
 * measure such a thing; of a study whose plan is not known here nobody can say, so it stays.
 */
export function withKind(measure: Measure, kind: Measure["kind"], planOf: (study: string) => Plan | null): Measure {
  const possible = predictionsFor({ kind });
  const kept = Object.entries(measure.predictions).filter(([, prediction]) => possible.includes(prediction));
  return {
    ...measure,
    kind,
    about: kind === "intensity" ? measure.about : "products",
    predictions: Object.fromEntries(kept),
    attached: measure.attached.filter(({ study }) => {
      const plan = planOf(study);
      return plan === null || questionsFor(plan, kind).length > 0;
    }),
    typed: kind === "mass" ? measure.typed : null,
    weighed: kind === "mass" ? measure.weighed : null,
  };
}

/** May a study of this plan be attached to this measure? */
export const fits = (plan: Plan, { kind, about }: Pick<Measure, "kind" | "about">): boolean =>
  !plan.blank && questionsFor(plan, kind).length > 0 && (about === "products" || isTwoFactors(plan));

export const isTwoFactors = (plan: Plan): boolean =>
  plan.method === "line-scale" && plan.comparisons.kind === "two-factors";

/** A study as it is attached at first: its own question, and its first two products or the effect that is asked for. */
export function attachmentFor(
  id: string,
  study: string,
  plan: Plan,
  measure: Pick<Measure, "kind" | "about">,
): Attachment {
  const effect = measure.about === "interaction" ? "interaction" : isTwoFactors(plan) ? "first-factor" : "pair";
  const question = questionsFor(plan, measure.kind)[0]?.id ?? null;
  return { id, study, question, effect, first: null, second: null, turned: false };
}

export const withAttached = (claim: Claim, measure: string, attachment: Attachment): Claim => ({
  ...claim,
  measures: claim.measures.map((each) =>
    each.id === measure ? { ...each, attached: [...each.attached, attachment] } : each,
  ),
});

export const attachedStudies = (claim: Claim): string[] => [
  ...new Set(claim.measures.flatMap(({ attached }) => attached.map(({ study }) => study))),
];

/** In what two versions differ, in the order of the page. */
export const differences = (one: Claim, other: Claim): ClaimField[] =>
  claimFields.filter((field) => canonicalText(one[field]) !== canonicalText(other[field]));

/** Names of the two that are compared, with words for one that has none yet. */
export const namesOf = ({ first, second }: Claim, unnamed: { first: string; second: string }) => ({
  first: first.trim() || unnamed.first,
  second: second.trim() || unnamed.second,
});
