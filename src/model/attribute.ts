import * as z from "zod/mini";
import { id, line, paragraph } from "./schema.ts";

/** What a tablet is told of a property, apart from the plan: the plan's own schema is nothing that a tablet has to load. */

export const cautions = ["hygiene", "choking", "undercooked", "alcohol"] as const;
export type Caution = (typeof cautions)[number];

/**
 * When a property is judged: at the first bite, so many seconds or chews after it, or just before swallowing (or
 * spitting). Ratings of different moments are different properties and are never pooled.
 */
export const moment = z.discriminatedUnion("at", [
  z.strictObject({ at: z.literal("first-bite") }),
  z.strictObject({ at: z.literal("after"), seconds: z.number().check(z.int(), z.minimum(1), z.maximum(120)) }),
  z.strictObject({ at: z.literal("chews"), chews: z.number().check(z.int(), z.minimum(1), z.maximum(60)) }),
  z.strictObject({ at: z.literal("before-swallowing") }),
]);
export type Moment = z.infer<typeof moment>;

/** One step's words; short enough to stand in a box beside others. */
const label = line.check(z.maxLength(60));

/**
 * How a property is judged. line: a mark between two end words. steps: one of a few labeled steps, low to high; only the
 * first and the last label must say something. `liking`: the steps say how much somebody likes it. just-right: from too
 * little over just right in the middle to too much. A step is kept as a place on the scale, 0 for the first to 1 for
 * the last (`model/steps.ts`).
 */
export const scaleForm = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("line") }),
  z.strictObject({
    kind: z.literal("steps"),
    labels: z.array(label).check(z.minLength(2), z.maxLength(11)),
    liking: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal("just-right"),
    /** Three or five: the middle one is "just right". */
    labels: z.union([z.array(label).check(z.length(3)), z.array(label).check(z.length(5))]),
  }),
]);
export type ScaleForm = z.infer<typeof scaleForm>;

/** A property at one moment, as a tablet asks for it. */
export const askedAttribute = z.strictObject({
  id,
  /** As the report names it: "Juiciness". */
  name: line,
  /**
   * As the question uses it: "How juicy is sample 482?" Just right and liking ask for a noun: "How do you find the
   * juiciness of sample 482?"; empty where the sample as a whole is liked.
   */
  adjective: line,
  definition: paragraph,
  form: z._default(scaleForm, { kind: "line" }),
  /** End words of a line, on one and the same property; the low end stands at the left. Steps have labels instead. */
  lowAnchor: line,
  highAnchor: line,
  moment,
});
export type AskedAttribute = z.infer<typeof askedAttribute>;

/** How many further moments a property may have. */
export const mostFurther = 4;

/**
 * A property judged on a scale, as a kitchen knows it. `moment` is the one that the question is about; at each of
 * `further` the same is asked of the same chew, as a question with an id of its own.
 */
export const knownAttribute = z.strictObject({
  ...askedAttribute.shape,
  further: z._default(z.array(z.strictObject({ id, moment })).check(z.maxLength(mostFurther)), []),
});

/** A property of a plan. */
export const attribute = z.strictObject({
  ...knownAttribute.shape,
  /** Does it share the risk alpha with the others of the family (Holm)? The first one always does. */
  inFamily: z._default(z.boolean(), false),
});
export type Attribute = z.infer<typeof attribute>;

/** Lengths of the line that a plan may lock, in millimeters. Under 100 the finger is too coarse (4 mm are 4 points). */
export const lineLengths = { least: 100, usual: 120, long: 150, most: 200 } as const;
