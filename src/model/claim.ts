import * as z from "zod/mini";
import { ledger } from "./ledger.ts";
import { id, line, paragraph } from "./schema.ts";

/**
 * A claim: a question larger than one test. It holds its rival explanations, what each of them predicts for everything
 * that can be measured, and which studies measure it. All directions are those of the second product against the first.
 */

/** mass: weighed. intensity: how strongly something is perceived. preference: what people like better. noticed: whether any difference is noticed at all. */
export const measureKinds = ["mass", "intensity", "preference", "noticed"] as const;
export type MeasureKind = (typeof measureKinds)[number];

/**
 * What an explanation predicts: the second product has more, has less, differs (where there is no direction), or does
 * not differ. silent: it says nothing about this.
 */
export const predictions = ["higher", "lower", "differs", "none", "silent"] as const;
export type Prediction = (typeof predictions)[number];

const explanation = z.strictObject({ id, name: line, words: paragraph });
export type Explanation = z.infer<typeof explanation>;

/**
 * What of a study is looked at: two of its products; or, of a plan with two factors, what one factor does or whether the
 * one depends on the other.
 */
export const effects = ["pair", "first-factor", "second-factor", "interaction"] as const;
export type Effect = (typeof effects)[number];

const attachment = z.strictObject({
  id,
  study: id,
  /** The property or attribute that is meant, by its id; null: the one that the study's question is about. */
  question: z.nullable(id),
  effect: z.enum(effects),
  /** The study's products that are the claim's first and second; null: the plan's own first and second. */
  first: z.nullable(id),
  second: z.nullable(id),
  /** Of an effect of factors: its direction read the other way round. */
  turned: z.boolean(),
});
export type Attachment = z.infer<typeof attachment>;

/** A difference that was worked out elsewhere, second less first; it counts as shown only with an interval without 0. */
const typedFinding = z.strictObject({
  difference: z.nullable(z.number()),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  /** "percentage points of the raw mass". */
  unit: line,
  /** Smallest difference that matters, in the same unit; null where none was named. */
  matters: z.nullable(z.number().check(z.gt(0))),
  /** Where it comes from: "ledger of 12 May, four batches each, Welch". */
  source: paragraph,
});
export type TypedFinding = z.infer<typeof typedFinding>;

/** products: the difference between the two. interaction: whether that difference depends on a second factor. */
export const measureAbouts = ["products", "interaction"] as const;

const measure = z.strictObject({
  id,
  kind: z.enum(measureKinds),
  about: z.enum(measureAbouts),
  name: line,
  /** By explanation; one that is not listed says nothing. */
  predictions: z.record(id, z.enum(predictions)),
  attached: z.array(attachment).check(z.maxLength(12)),
  /** Of a mass only: typed by hand, not computed here. */
  typed: z.nullable(typedFinding),
  /** Of a mass only: batches of the first and the second as they were weighed; its product names are the claim's. */
  weighed: z._default(z.nullable(ledger), null),
});
export type Measure = z.infer<typeof measure>;

export const leastExplanations = 2;
export const mostExplanations = 6;
export const mostMeasures = 20;

export const claim = z.strictObject({
  title: line,
  /** Part of the demo: nobody claimed anything. */
  invented: z._default(z.boolean(), false),
  /** The claim in the lead's words. */
  words: paragraph,
  heldBy: line,
  /** What the team expected beforehand, and the day on which that was written down: "2026-05-12", or empty. */
  expected: paragraph,
  expectedOn: z.string().check(z.regex(/^(\d{4}-\d\d-\d\d)?$/, "a day like 2026-05-12")),
  /** The two that are compared, as the kitchen calls them. */
  first: line,
  second: line,
  /** The claim's own comes first. */
  explanations: z.array(explanation).check(z.minLength(leastExplanations), z.maxLength(mostExplanations)),
  measures: z.array(measure).check(z.maxLength(mostMeasures)),
});
export type Claim = z.infer<typeof claim>;

/** A claim of which nothing is said yet: its own explanation and one rival. `newId` names them. */
export const emptyClaim = (newId: () => string): Claim => ({
  ...{ title: "", invented: false, words: "", heldBy: "", expected: "", expectedOn: "", first: "", second: "" },
  explanations: [newId(), newId()].map((each) => ({ id: each, name: "", words: "" })),
  measures: [],
});

export const predictionOf = (measure: Pick<Measure, "predictions">, explanation: string): Prediction =>
  measure.predictions[explanation] ?? "silent";
