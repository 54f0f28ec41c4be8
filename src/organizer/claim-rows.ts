import { type Judged, type Judgment, judgeAll, judgePrediction } from "../analysis/claim-rules.ts";
import { type Finding, typedFindingOf, weighedFindingOf } from "../analysis/finding.ts";
import { findingOf } from "../analysis/finding-of.ts";
import { type AtHand, type ClaimVersion, stoodBefore } from "../log/claim.ts";
import {
  type Attachment,
  type Claim,
  type Explanation,
  type Measure,
  type Prediction,
  predictionOf,
} from "../model/claim.ts";
import type { ClaimStudy } from "./claim-results.ts";

/** One explanation beside one finding. */
export type Cell = {
  explanation: Explanation;
  at: number;
  prediction: Prediction;
  judged: Judged;
  /** Was it said, or changed, after the result was known? Then `stood` is what was said before; empty: nothing was. */
  after: boolean;
  stood: Prediction[];
  /** What counts for the explanation: by what stood before, where that was changed. */
  counts: Judgment;
};

/** One thing with one source of results, or with none yet. `waits`: why there is no finding. */
export type Row = {
  key: string;
  measure: Measure;
  attachment: Attachment | null;
  study: ClaimStudy | null;
  finding: Finding | null;
  waits: "nothing" | "not-weighed" | NonNullable<ClaimStudy["waits"]> | null;
  cells: Cell[];
};

type Given = {
  claim: Claim;
  versions: ReadonlyMap<string, ClaimVersion>;
  /** The version at hand, with the studies whose keys are open here. */
  now: AtHand;
  studies: ReadonlyMap<string, ClaimStudy>;
};

/** Prediction beside finding: each thing that is measured, with each of its studies, in the order of the page. */
export function rowsOf(given: Given): Row[] {
  return given.claim.measures.flatMap((measure): Row[] => {
    const rows = measure.attached.map((attachment) => ofStudy(given, measure, attachment));
    if (measure.typed !== null) {
      const finding = typedFindingOf(measure.typed);
      rows.push({ ...bare(measure, "typed"), finding, cells: cellsOf(given, measure, finding, null) });
    }
    if (measure.weighed !== null) {
      const finding = weighedFindingOf(measure.weighed);
      const waits = finding === null ? ("not-weighed" as const) : null;
      rows.push({ ...bare(measure, "weighed"), waits, finding, cells: cellsOf(given, measure, finding, null) });
    }
    return rows.length > 0 ? rows : [{ ...bare(measure, "none"), cells: cellsOf(given, measure, null, null) }];
  });
}

const bare = (measure: Measure, what: "typed" | "weighed" | "none"): Omit<Row, "cells"> => ({
  ...{ key: `${measure.id} ${what}`, measure, attachment: null, study: null, finding: null },
  waits: what === "none" ? "nothing" : null,
});

function ofStudy(given: Given, measure: Measure, attachment: Attachment): Row {
  const study = given.studies.get(attachment.study) ?? null;
  const finding = study?.result ? findingOf(study.result, study.plan, attachment, measure.kind) : null;
  return {
    key: attachment.id,
    measure,
    attachment,
    study,
    finding,
    waits: finding ? null : (study?.waits ?? "not-here"),
    cells: cellsOf(given, measure, finding, attachment.study),
  };
}

function cellsOf(
  { claim, versions, now }: Given,
  measure: Measure,
  finding: Finding | null,
  study: string | null,
): Cell[] {
  const before = finding === null ? null : stoodBefore(versions, now, { measure: measure.id, study });
  return claim.explanations.map((explanation, at) => {
    const prediction = predictionOf(measure, explanation.id);
    const judged = judgePrediction(prediction, finding);
    const stood = [...new Set((before ?? []).map((version) => version[explanation.id] ?? "silent"))];
    const after = before !== null && !stood.includes(prediction) && (prediction !== "silent" || stood.length > 0);
    const counts = after ? judgeAll(stood.map((each) => judgePrediction(each, finding).judgment)) : judged.judgment;
    return { explanation, at, prediction, judged, after, stood, counts };
  });
}

/** What all rows leave of one explanation. */
export type Standing = {
  explanation: Explanation;
  at: number;
  judgment: Judgment;
  /** Names of the things whose findings contradict it, and how many results it stands against. */
  by: string[];
  results: number;
};

/** Explanation by explanation, in their order: nothing is added up, and one contradiction is enough. */
export const standingsOf = (claim: Claim, rows: readonly Row[]): Standing[] =>
  claim.explanations.map((explanation, at) => {
    const own = rows.map(({ measure, cells }) => ({ measure, counts: cells[at]?.counts ?? "not-tested" }));
    const against = own.filter(({ counts }) => counts === "contradicted").map(({ measure }) => measure.name.trim());
    return {
      explanation,
      at,
      judgment: judgeAll(own.map(({ counts }) => counts)),
      by: [...new Set(against)],
      results: own.filter(({ counts }) => counts !== "not-tested").length,
    };
  });
