import type { ScaleForm } from "../model/attribute.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { Comparisons } from "../model/plan.ts";
import type { AttributeResult, ScaleStatistics, ServedTerm } from "../model/result-scale.ts";
import { judgedAsFamily, riskOfComparisons } from "./attribute-family.ts";
import { outcomeUnder } from "./block-result.ts";
import type { BlockRow } from "./block-table.ts";
import { requireAlpha, requireCount } from "./check.ts";
import { type ChewCurve, curveResult } from "./chew-curve.ts";
import { comparisonSet } from "./comparisons.ts";
import { analyzed, leadingTest } from "./mixed-lead.ts";
import type { ServedRow } from "./mixed-terms.ts";
import { mean } from "./moments.ts";
import { panelChecks } from "./panel-checks.ts";
import { stepsFields, withoutMeans } from "./steps.ts";

/** What was judged: in a study with its moment and end words, elsewhere by the words of the file. */
export type ScaleAttribute = Pick<
  AttributeResult,
  "attribute" | "moment" | "momentText" | "lowAnchor" | "highAnchor" | "inFamily"
> & {
  /** None: a line. */
  form?: ScaleForm;
};

/** One value, or the word that there is none. */
export type ScaleValue = {
  /** Which of the attributes, from 0. */
  attribute: number;
  panelist: string;
  product: string;
  /** In points of the line, or the number of a step; null: no answer. */
  value: number | null;
  /** Place served, from 1; null where nobody wrote it down. */
  place: number | null;
  /** Of the day or site, and of the cook of this product; empty where nobody wrote them down. */
  session: string;
  batch: string;
  /** What was chewed: values of one chew belong together over its moments. */
  chew: string;
};

export type ScaleInput = {
  /** Risk of seeing a difference that is not there, above 0 and at most 0.5. */
  alpha: number;
  /** In the order of the plan: the later one of a pair is compared with the earlier. */
  products: readonly { id: string; name: string }[];
  /** The first is the one the question is about. */
  attributes: readonly ScaleAttribute[];
  values: readonly ScaleValue[];
  /** Attributes that are one property at several moments. */
  curves: readonly ChewCurve[];
  scale: ScaleStatistics["scale"];
  /** Which differences are judged. */
  comparisons: Comparisons;
  /** What the plan varies beside the products: terms of the mixed model where marks can tell them. */
  terms: readonly ServedTerm[];
  /** Incomplete blocks: how many of the products each panelist was to get; null: all of them. */
  perTray: number | null;
  /** False: the numbers stand, and nobody can say what they are of. */
  keyMatches: boolean;
};

/**
 * The statistics of a line scale: for each attribute a block analysis, panelists as blocks and repeats averaged, and a mixed
 * model, which leads where marks are unbalanced (see `analyzed`).
 *
 * Returns  what became of each attribute is its `outcome`, never an error; no answer is no value, neither 0 nor the
 *          middle. The outcome of the whole is that of the first attribute's leading F test at alpha, after Holm where a
 *          family shares it; with fewer than 6 people, or no test, there is no verdict. Intervals at 1 - alpha, as the test is
 * Throws   Problem "analysis/risk-out-of-range", "analysis/not-a-count" (more values than a result may hold),
 *          "analysis/unknown-product", "analysis/out-of-range"
 */
export function scaleStatistics(input: ScaleInput): ScaleStatistics {
  const { alpha, products, scale, values } = input;
  requireAlpha(alpha);
  requireCount("values", values.length);
  const given = values.filter(({ value }) => value !== null);
  const tested = input.attributes.map((attribute, at) => attributeResult(input, attribute, at));
  const attributes = judgedAsFamily(tested, { alpha, products: products.length });
  return {
    family: "scale",
    method: "line-scale",
    goal: "difference",
    sides: "two",
    alpha,
    confidence: 1 - alpha,
    products: products.map(({ name }) => name),
    scale,
    perTray: input.perTray,
    people: new Set(given.map(({ panelist }) => panelist)).size,
    judgments: given.length,
    outcome: outcomeOf(input, attributes[0]),
    attributes,
    curves: input.curves.map((curve) => curveResult(input, curve)),
  };
}

function outcomeOf({ alpha, keyMatches }: ScaleInput, first: AttributeResult | undefined): ScaleStatistics["outcome"] {
  if (!keyMatches) return "withheld";
  const test = first && leadingTest(first);
  if (!test || first.people < leastForVerdict) return "too-few";
  return (first.pValueAdjusted ?? test.pValue) <= alpha ? "reached" : "not-reached";
}

function attributeResult(input: ScaleInput, attribute: ScaleAttribute, at: number): AttributeResult {
  const { products, alpha, keyMatches } = input;
  const values = input.values.filter((value) => value.attribute === at);
  const rows = values.flatMap(({ value, panelist, product, place, session, batch }): ServedRow[] =>
    value === null ? [] : [{ panelist, product, value, place, session, batch }],
  );
  const ids = products.map(({ id }) => id);
  const nameOf = new Map(products.map(({ id, name }) => [id, name]));
  const named = (id: string) => nameOf.get(id) ?? id;
  const set = comparisonSet(input.comparisons, ids);
  const together = riskOfComparisons(attribute, input.attributes, alpha);
  const { found, result: led } = analyzed(rows, ids, {
    set,
    confidence: 1 - alpha,
    together,
    asked: input.terms,
    named,
  });
  const silent = [...new Set(values.map(({ panelist }) => panelist))].filter(
    (panelist) => !found.panelists.some((other) => other.panelist === panelist),
  );
  const result: AttributeResult = {
    ...attribute,
    pValueAdjusted: null,
    ...stepsFields(input, at, found.panelists),
    outcome: outcomeUnder(keyMatches, found.outcome),
    people: found.people,
    judgments: rows.length,
    repeats: mostRepeats(rows),
    ...led,
    adjustment: set.adjustment,
    panelists: [
      ...found.panelists.map(({ panelist, values }) => ({ panelist, values: [...values] })),
      ...silent.map((panelist) => ({ panelist, values: ids.map(() => null) })),
    ],
    incomplete: [...found.incomplete, ...silent.map((panelist) => ({ panelist, missing: ids }))]
      .map(({ panelist, missing }) => ({
        panelist,
        missing: missing.filter(wasServed(input, values, panelist)).map(named),
      }))
      .filter(({ missing }) => missing.length > 0),
    positions: positionsOf(values),
    checks: panelChecks(rows, ids),
  };
  return attribute.form?.kind === "just-right" ? withoutMeans(result) : result;
}

/** In incomplete blocks a product that a panelist was never to get is none that is missing. */
const wasServed =
  ({ perTray }: ScaleInput, values: readonly ScaleValue[], panelist: string) =>
  (product: string): boolean =>
    perTray === null || values.some((value) => value.panelist === panelist && value.product === product);

/** Most values of one panelist and product; 0 without values. */
function mostRepeats(rows: readonly BlockRow[]): number {
  const counts = new Map<string, number>();
  for (const { panelist, product } of rows) {
    const cell = JSON.stringify([panelist, product]);
    counts.set(cell, (counts.get(cell) ?? 0) + 1);
  }
  return Math.max(0, ...counts.values());
}

/** Mean of the values by place served. */
function positionsOf(values: readonly ScaleValue[]): AttributeResult["positions"] {
  const places = [...new Set(values.flatMap(({ place }) => (place === null ? [] : [place])))].sort((a, b) => a - b);
  return places.flatMap((position) => {
    const own = values.flatMap(({ place, value }) => (place === position && value !== null ? [value] : []));
    return own.length === 0 ? [] : [{ position, judgments: own.length, mean: mean(own) }];
  });
}
