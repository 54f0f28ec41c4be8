import * as z from "zod/mini";
import { moment, scaleForm } from "./attribute.ts";
import { outcomes } from "./outcome.ts";
import { distribution, justRightResult, stepRanks } from "./result-steps.ts";
import { count, line } from "./schema.ts";

/**
 * What became of one attribute. ok: tested; fewer than 6 people give numbers and the result no verdict. The others say
 * why there is no test: too-few (as many effects as values: nothing left to judge chance by), one-panelist, one-product, product-missing (nobody marked it), all-equal (no
 * variation left once panelists and products are taken out), disconnected (no chain of shared panelists joins the
 * products), no-marks, just-right (the middle of the scale is its goal: see `justRight`). withheld: the key does not match
 * its seal; the numbers stand in doubt.
 */
export const scaleOutcomes = [
  "ok",
  "too-few",
  "one-panelist",
  "one-product",
  "product-missing",
  "all-equal",
  "disconnected",
  "no-marks",
  "just-right",
  "withheld",
] as const;
export type ScaleOutcome = (typeof scaleOutcomes)[number];

const meanOf = z.strictObject({
  product: line,
  /** Marks it is the mean of; the interval is a t interval from these marks alone. */
  judgments: count,
  estimate: z.nullable(z.number()),
  standardError: z.nullable(z.number()),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  /** Standard deviation of those marks, one value a panelist. */
  deviation: z.nullable(z.number()),
  /** The mean, had everybody in the test marked every product: what the contrasts compare. Null without a test. */
  adjusted: z.nullable(z.number()),
});

/** How comparisons of one attribute were judged together; see `analysis/comparisons`. */
export const adjustments = ["none", "tukey", "dunnett", "holm"] as const;
export type Adjustment = (typeof adjustments)[number];
/** Two products; an effect of a factor over the levels of the other one; or how the one depends on the other. */
export const comparedKinds = ["pair", "first-factor", "second-factor", "interaction"] as const;
export type Compared = (typeof comparedKinds)[number];

/**
 * `difference` is `first` less `second`, in points of the scale; of a pair the product that stands later in the plan comes
 * first, of a factor its second level, of an interaction the two are the factors' names.
 */
const contrast = z.strictObject({
  compared: z._default(z.enum(comparedKinds), "pair"),
  first: line,
  second: line,
  difference: z.number(),
  standardError: z.number(),
  df: z.number(),
  /** Of this comparison alone, at the result's confidence. */
  low: z.number(),
  high: z.number(),
  pValue: z.number(),
  /** All comparisons of this attribute taken into account, and those of the others where several share the risk. */
  pValueAdjusted: z.number(),
  lowTogether: z.number(),
  highTogether: z.number(),
});

/** One panelist's values of one attribute, for the picture; repeats are averaged. Null: no answer. */
const panelistValues = z.strictObject({
  /** "seat 7" in a study, the file's own word elsewhere. */
  panelist: line,
  /** In the order of `products`. */
  values: z.array(z.nullable(z.number())),
});

const testOf = z.strictObject({
  fValue: z.number(),
  numeratorDf: z.number(),
  denominatorDf: z.number(),
  pValue: z.number(),
});

/** How one panelist used the scale: described after the reveal, for the lead; see `analysis/panel-checks`. */
const panelCheck = z.strictObject({
  panelist: line,
  range: z.nullable(z.number()),
  agreement: z.nullable(z.number()),
  repeatDeviation: z.nullable(z.number()),
  separates: z.nullable(testOf),
});

/** What a mark may hang on beside its product and its panelist. */
export const servedTerms = ["session", "position", "batch"] as const;
export type ServedTerm = (typeof servedTerms)[number];

/**
 * Why such a term is not in the model: one-level (all marks have the same one), unknown (some marks lack it), few-batches
 * (of some product fewer than batches are drawn from many), confounded (it goes hand in hand with another term),
 * one-mark-each, too-few (nothing would be left to judge chance by).
 */
export const leftOutReasons = [
  "one-level",
  "unknown",
  "few-batches",
  "confounded",
  "one-mark-each",
  "too-few",
] as const;
const leftOut = z.strictObject({ term: z.enum(servedTerms), why: z.enum(leftOutReasons) });
export type LeftOut = z.infer<typeof leftOut>;

/** Why there is no mixed model though there is a block analysis; see `analysis/mixed-model`. */
export const withoutMixed = [
  "no-marks",
  "level-missing",
  "one-level",
  "one-row-each",
  "disconnected",
  "too-few",
  "all-equal",
  "no-numbers",
] as const;

/** Restricted maximum likelihood with Satterthwaite's degrees of freedom; see `analysis/mixed-result`. */
const mixedModel = z.strictObject({
  ...testOf.shape,
  variances: z.strictObject({
    panelist: z.number(),
    /** Null without repeats. */
    panelistProduct: z.nullable(z.number()),
    /** Null where batches are no term. */
    batch: z._default(z.nullable(z.number()), null),
    residual: z.number(),
  }),
  /** Did a variance come out as 0? */
  vanished: z.boolean(),
  /** Sessions and places served, where they are terms. */
  terms: z._default(z.array(z.strictObject({ term: z.enum(["session", "position"]), ...testOf.shape })), []),
  /** What the plan varied, or the file names, and the model had to do without. */
  leftOut: z._default(z.array(leftOut), []),
  /** Batches of the product with the fewest, where batches are a term; null elsewhere. */
  batches: z._default(z.nullable(count), null),
  means: z.array(
    z.strictObject({
      product: line,
      estimate: z.number(),
      standardError: z.number(),
      df: z.number(),
      low: z.number(),
      high: z.number(),
    }),
  ),
});
export type MixedModel = z.infer<typeof mixedModel>;

export const attributeResult = z.strictObject({
  attribute: line,
  /** Null for values from elsewhere, whose moment is `momentText`. */
  moment: z.nullable(moment),
  momentText: line,
  lowAnchor: line,
  highAnchor: line,
  /** Does it share the risk with the others of the family that was named at lock? The first one always does. */
  inFamily: z._default(z.boolean(), false),
  /** p of its overall test with the family taken into account (Holm), its own in a family of one; null: exploratory, or no test. */
  pValueAdjusted: z._default(z.nullable(z.number()), null),
  /** Values are points of the line, or numbers of steps from 1. */
  form: z._default(scaleForm, { kind: "line" }),
  outcome: z.enum(scaleOutcomes),
  /** Panelists with a value for two products or more: those that say something about differences. */
  people: count,
  judgments: count,
  /** Repeats a panelist and product, the most there are; the error term is then panelist by product. */
  repeats: count,
  /** Classical test of products with panelists as blocks; null where there is none. Balanced: everybody marked each as often. */
  blocks: z.nullable(z.strictObject({ ...testOf.shape, balanced: z.boolean() })),
  /** The mixed model of the same marks; null where there is none. */
  mixed: z._default(z.nullable(mixedModel), null),
  /** Why there is none beside a block analysis; null elsewhere. */
  noMixed: z._default(z.nullable(z.enum(withoutMixed)), null),
  /**
   * Where verdict, adjusted means, contrasts and variances come from: the block analysis of balanced marks, else the mixed
   * model, if it could be fitted. Both stand here, whichever leads.
   */
  leads: z._default(z.enum(["blocks", "mixed"]), "blocks"),
  terms: z.array(z.strictObject({ term: z.enum(["product", "panelist"]), ...testOf.shape })),
  /** Of what leads. Null where they cannot be estimated. A panelist variance that came out below zero is 0. */
  variances: z.strictObject({
    panelist: z.nullable(z.number()),
    panelistProduct: z.nullable(z.number()),
    residual: z.nullable(z.number()),
  }),
  means: z.array(meanOf),
  adjustment: z.enum(adjustments),
  contrasts: z.array(contrast),
  panelists: z.array(panelistValues),
  /** Panelists with a value missing, and for which products. */
  incomplete: z.array(z.strictObject({ panelist: line, missing: z.array(line) })),
  /** Mean by place served, as a check; empty where nobody wrote places down. */
  positions: z.array(z.strictObject({ position: count, judgments: count, mean: z.number() })),
  /** In the order of `panelists`, of those with a mark. */
  checks: z._default(z.array(panelCheck), []),
  /** Of scales with steps; null for the line. */
  distribution: z._default(z.nullable(distribution), null),
  /** Of steps, beside the block analysis; null where it says nothing. */
  ranks: z._default(z.nullable(stepRanks), null),
  /** Of just-right scales. */
  justRight: z._default(z.nullable(justRightResult), null),
});
export type AttributeResult = z.infer<typeof attributeResult>;

/** One value a panelist and product, made of the marks of one chew, with panelists as blocks. */
const derivedResult = z.strictObject({
  outcome: z.enum(scaleOutcomes),
  /** Panelists with a value for two products or more. */
  people: count,
  means: z.array(meanOf),
  blocks: z.nullable(z.strictObject({ ...testOf.shape, balanced: z.boolean() })),
  adjustment: z.enum(adjustments),
  contrasts: z.array(contrast),
});
export type DerivedResult = z.infer<typeof derivedResult>;

/** One property over the chew. Its moments stay attributes of their own: nothing here pools them. */
export const curveResult = z.strictObject({
  attribute: line,
  /** Places among the attributes, from 0, in the order of the chew. */
  at: z.array(count),
  /** The last moment less the first, in points. */
  change: derivedResult,
  /** Points times seconds under the line through the marks, from the first planned second to the last; null where not every moment is a second. */
  area: z.nullable(derivedResult),
  /** Seconds that the area is over; null without one. */
  seconds: z.nullable(z.number()),
  /**
   * Product by moment against panelist by product by moment: do the curves differ in shape? Over the panelists with
   * a mark for every product at every moment; null where fewer than two have them, or nothing is left to judge by.
   */
  interaction: z.nullable(z.strictObject({ ...testOf.shape, people: count })),
});
export type CurveResult = z.infer<typeof curveResult>;

/** The statistics of a line scale. `outcome` speaks for the first attribute, the one the question is about. */
export const scaleStatistics = z.strictObject({
  family: z.literal("scale"),
  method: z.literal("line-scale"),
  goal: z.literal("difference"),
  sides: z.literal("two"),
  alpha: z.number(),
  /** Of every interval of a contrast or mean. */
  confidence: z.number(),
  products: z.array(line),
  /** Ends of the scale: 0 and 100 for the line; null for values from elsewhere. */
  scale: z.nullable(z.strictObject({ low: z.number(), high: z.number(), lengthMm: z.nullable(z.number()) })),
  /** Incomplete blocks: how many of the products each panelist was to get; null: all of them. */
  perTray: z._default(z.nullable(count), null),
  people: count,
  judgments: count,
  outcome: z.enum(outcomes),
  attributes: z.array(attributeResult),
  /** One for each property with several moments, in the order of the plan. */
  curves: z.array(curveResult),
});
export type ScaleStatistics = z.infer<typeof scaleStatistics>;
