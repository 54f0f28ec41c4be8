import type { AttributeResult, LeftOut, MixedModel, ServedTerm } from "../../model/result-scale.ts";
import type { Unit } from "../../model/result-steps.ts";
import { points, shortNumber, statistic, wholeNumber } from "../number.ts";
import { listed, pIs } from "./phrases.ts";

/** Why marks are not balanced: `some` people marked some of the products alone; `repeats` are not equally many. */
export type Uneven = { some: boolean; repeats: boolean };
/** Which analysis of one property leads, and what a sentence on it is made from. */
export type LeadFacts = Pick<AttributeResult, "leads" | "mixed" | "noMixed" | "blocks"> & { uneven: Uneven };
/** `decimals` suit the scale. */
export type MixedFacts = LeadFacts & { mixed: MixedModel; alpha: number; decimals: number; unit: Unit };

const termNames: Record<ServedTerm, string> = {
  session: "the session",
  position: "the place on the tray",
  batch: "the batch",
};

const whys: Record<LeftOut["why"], string> = {
  "one-level": "all marks have the same one",
  unknown: "it is not known for every mark",
  "few-batches": "of some product there are fewer than three, so that what is said holds for those batches",
  confounded: "the marks cannot tell it from the other terms",
  "one-mark-each": "every batch has one mark only",
  "too-few": "there are too few marks for it",
};

/** Why there is no fit though the classical test has one. */
const noFit: Record<NonNullable<AttributeResult["noMixed"]>, string> = {
  "no-marks": "there are no marks",
  "level-missing": "a product has no mark",
  "one-level": "there is one panelist only, or one level of another term, and its spread cannot be told",
  "one-row-each": "every panelist made one mark only, so that people and chance are one",
  disconnected: "the marks do not tell its terms apart",
  "too-few": "there are too few marks for its terms",
  "all-equal": "beside the other spreads nothing is left of the marks to tell chance by",
  "no-numbers": "the search ended without numbers",
};

const vanishedText =
  "A spread that came out as 0 is taken as known, so that the degrees of freedom differ from those of the classical test.";

/** What a difference is called: by the model it is an estimate over all that was marked. */
export const differenceOf = (mixed: boolean): string =>
  mixed ? "difference by the mixed model" : "mean difference within panelists";

/** What the mixed model takes from marks that the classical test leaves. */
const taken = ({ some, repeats }: Uneven): string[] => [
  ...(some
    ? [
        "what people who marked some of the products say about the level of the others counts too, which the classical test leaves out",
      ]
    : []),
  ...(repeats ? ["every mark counts by itself, where the classical test averages a person’s repeats first"] : []),
];
const leftOutText = ({ leftOut }: MixedModel): string[] =>
  leftOut.map(({ term, why }) => `Left out of it is ${termNames[term]}: ${whys[why]}.`);

/** Why this analysis leads; empty where marks are balanced. */
export function leadText({ leads, mixed, noMixed, blocks, uneven }: LeadFacts): string {
  if (!blocks || blocks.balanced) return "";
  if (leads === "mixed" && mixed) {
    const fixed = mixed.terms.map(({ term }) => termNames[term]);
    const reasons = [
      ...taken(uneven),
      ...(fixed.length > 0 ? [`${listed(fixed)} ${fixed.length === 1 ? "is a term" : "are terms"} of it`] : []),
      ...(mixed.batches === null ? [] : ["batches count as drawn from many"]),
      ...(mixed.vanished ? ["a spread that came out as 0 is taken as known"] : []),
    ];
    return [
      `Not everybody marked everything as often, so a mixed model leads, with people as drawn from many. Its result can differ from that of the classical test, since ${reasons.join("; ")}.`,
      ...leftOutText(mixed),
    ].join(" ");
  }
  return noMixed === null
    ? ""
    : `Not everybody marked everything as often, and a mixed model could not be fitted: ${noFit[noMixed]}. So the classical test leads, which compares products within people alone${uneven.repeats ? ", with each person’s repeats averaged first" : ""}.`;
}

/** The mixed model in the details: how it was fitted, what came out, and why it leads or does not. */
export function mixedText(f: MixedFacts): string[] {
  const { mixed, leads, blocks, uneven } = f;
  return [
    `Mixed model of the same marks, panelists drawn from many (restricted maximum likelihood, degrees of freedom after Satterthwaite): F(${mixed.numeratorDf}, ${shortNumber(mixed.denominatorDf)}) is ${statistic(mixed.fValue)}, ${pIs(mixed.pValue, f.alpha)}. Standard deviations: ${listed(spreads(f))}.`,
    termsText(mixed),
    mixed.vanished ? vanishedText : "",
    leads === "mixed"
      ? `It leads, since not everybody marked everything as often: ${taken(uneven).join("; ")}.`
      : blocks?.balanced
        ? "No mark is missing, so the classical test leads: the design balances what people, places and sessions add."
        : "",
  ].filter((sentence) => sentence !== "");
}

function spreads({ mixed: { variances }, decimals, unit }: MixedFacts): string[] {
  const { panelist, panelistProduct, batch, residual } = variances;
  const deviation = (variance: number) => `${points(Math.sqrt(variance), decimals)} ${unit}`;
  return [
    `between panelists ${deviation(panelist)}`,
    ...(panelistProduct === null ? [] : [`of a panelist with a product ${deviation(panelistProduct)}`]),
    ...(batch === null ? [] : [`between batches of a product ${deviation(batch)}`]),
    `of what is left ${deviation(residual)}`,
  ];
}

function termsText(mixed: MixedModel): string {
  const { terms, batches } = mixed;
  const fixed = terms.map(({ term }) => termNames[term]);
  const sentences = [
    fixed.length > 0 ? `Beside products it holds ${listed(fixed)}.` : "",
    batches === null
      ? ""
      : `Batches are drawn from many within their product, at least ${wholeNumber(batches)} of each: products are judged against how batches differ, and few batches leave few degrees of freedom.`,
    ...leftOutText(mixed),
  ];
  return sentences.filter((sentence) => sentence !== "").join(" ");
}

/** The model as the report of what was done names it. */
export function modelText(terms: readonly ServedTerm[]): string {
  const fixed = ["products", ...terms.flatMap((term) => (term === "batch" ? [] : [termNames[term]]))];
  const drawn = terms.includes("batch") ? ", and batches within their product," : "";
  return `Not everybody marked everything as often: mixed model by restricted maximum likelihood (degrees of freedom after Satterthwaite); fixed: ${listed(fixed)}; panelists and, with repeats, panelists by products${drawn} drawn from many.`;
}
