import * as z from "zod/mini";
import { goals, methods, moment, noPreferenceRules, panelTypes } from "./plan.ts";
import { departure } from "./record.ts";
import { count, hash, id, instant, line, paragraph } from "./schema.ts";

/**
 * An estimate with its uncertainty. `estimate` or `high` is null where it has no finite value (d-prime when every
 * answer is right), or where there is nothing to estimate from; `kind` says which bounds mean something: "two-sided",
 * "lower" (only `low` is a bound), "upper" (only `high` is one), or "none": an estimate alone, both bounds null, because
 * some people answered more than once and pooled answers bound nothing.
 */
export const interval = z.strictObject({
  estimate: z.nullable(z.number()),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  confidence: z.number(),
  kind: z.enum(["two-sided", "lower", "upper", "none"]),
});
export type Interval = z.infer<typeof interval>;

/**
 * reached / not-reached: by the rule locked beforehand. within-limit / not-within-limit: the same for
 * a similarity goal. far-below-chance: fewer right than the lower 2.5 % tail of
 * guessing allows, so labels or wording are in doubt. too-few: under 6 judgments, or from 2 to 5 people; numbers only,
 * no verdict. withheld: the opened key does not match its seal, so that nobody can say which answers were right.
 */
export const outcomes = [
  "reached",
  "not-reached",
  "far-below-chance",
  "within-limit",
  "not-within-limit",
  "too-few",
  "withheld",
] as const;

/** The statistics of one choice test, from the two counts alone. Design page, section 9. */
export const choiceStatistics = z.strictObject({
  family: z.literal("choice"),
  method: z.enum(methods),
  goal: z.enum(goals),
  sides: z.enum(["one", "two"]),
  alpha: z.number(),
  judgments: count,
  /** How many different people gave the answers; one for each answer where nothing else is known. */
  people: count,
  correct: count,
  guessProbability: z.number(),
  expectedByGuessing: z.number(),
  /** Similarity goal: the limit, as a share who can tell and as the share right that goes with it, and its risk. */
  limit: z.nullable(z.strictObject({ discriminatorShare: z.number(), correctShare: z.number(), beta: z.number() })),
  /**
   * Difference: least right answers that reach alpha; null when even all right would not. Similarity: most right answers
   * that still show it at beta; null when even none would not.
   */
  criticalNumber: z.nullable(count),
  /**
   * How likely a guessing panel reaches the critical number: the alpha really spent. Similarity: how likely a panel at
   * the limit stays at or under it: the beta really spent.
   */
  chanceAtCritical: z.nullable(z.number()),
  /** Under guessing; for a similarity goal under a panel at the limit: how likely so few right, or fewer, would be. */
  pValue: z.number(),
  outcome: z.enum(outcomes),
  correctShare: interval,
  discriminatorShare: interval,
  /**
   * Both ends of what the answers allow, two-sided at 1 - 2 alpha: it leaves 0 out if and only if p <= alpha.
   * Similarity: at 1 - 2 beta, and it lies under the limit if and only if p <= beta.
   */
  discriminatorShareRange: interval,
  dPrime: interval,
  /**
   * 100 panels that only guess: how many of them fall on each count (index = number right). Similarity: 100 panels of
   * which the limit's share can tell.
   */
  guessingPanels: z.array(count),
  /** Chance that the plan reaches its critical number. Similarity: when nobody can tell, and the share is 0. */
  power: z.nullable(z.strictObject({ discriminatorShare: z.number(), people: count, power: z.number() })),
});
export type ChoiceStatistics = z.infer<typeof choiceStatistics>;

/**
 * The statistics of one paired preference, from three counts alone: who preferred the first product, the second, and
 * neither. `judgments` are the answers that the rule for "no preference" leaves to the test; with an odd number to
 * split, the one left over is left out.
 */
export const preferenceStatistics = z.strictObject({
  family: z.literal("preference"),
  method: z.literal("paired-preference"),
  goal: z.literal("difference"),
  sides: z.literal("two"),
  alpha: z.number(),
  noPreference: z.enum(noPreferenceRules),
  /** As answered, always all three. `products` name them, first and second in the order of the plan or of the file. */
  products: z.tuple([line, line]),
  counts: z.strictObject({ first: count, second: count, none: count }),
  people: count,
  /** What the test counts, after the rule. */
  judgments: count,
  tested: z.strictObject({ first: count, second: count }),
  guessProbability: z.number(),
  expectedByGuessing: z.number(),
  /** Least votes for either product that reach alpha; null when even all would not. */
  criticalNumber: z.nullable(count),
  chanceAtCritical: z.nullable(z.number()),
  pValue: z.number(),
  outcome: z.enum(outcomes),
  /** Of those counted by the test: share that prefers the first, the second. Two-sided at 1 - alpha, as the test is. */
  firstShare: interval,
  secondShare: interval,
  /** Of everybody asked: the three shares. */
  ofAll: z.strictObject({ first: interval, second: interval, none: interval }),
  /** 100 panels without a preference: how many of them fall on each count for the first product. */
  guessingPanels: z.array(count),
  /** Chance that the plan finds this share among those with a preference, in either direction. */
  power: z.nullable(z.strictObject({ share: z.number(), people: count, power: z.number() })),
});
export type PreferenceStatistics = z.infer<typeof preferenceStatistics>;

/**
 * What became of one attribute. ok: tested; fewer than 6 people give numbers and the result no verdict. The others say
 * why there is no test: too-few (as many effects as values: nothing left to judge chance by), one-panelist, one-product, product-missing (nobody marked it), all-equal (no
 * variation left once panelists and products are taken out), disconnected (no chain of shared panelists joins the
 * products), no-marks. withheld: the key does not match its seal; the numbers stand in doubt.
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

/** `difference` is `first` less `second`; `first` is the product that stands later in the plan. Points of the scale. */
const contrast = z.strictObject({
  first: line,
  second: line,
  difference: z.number(),
  standardError: z.number(),
  df: z.number(),
  /** Unadjusted, at the result's confidence. */
  low: z.number(),
  high: z.number(),
  pValue: z.number(),
  /** Holm, over all pairs of this attribute. */
  pValueAdjusted: z.number(),
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

export const attributeResult = z.strictObject({
  attribute: line,
  /** Null for values from elsewhere, whose moment is `momentText`. */
  moment: z.nullable(moment),
  momentText: line,
  lowAnchor: line,
  highAnchor: line,
  outcome: z.enum(scaleOutcomes),
  /** Panelists with a value for two products or more: those that say something about differences. */
  people: count,
  judgments: count,
  /** Repeats a panelist and product, the most there are; the error term is then panelist by product. */
  repeats: count,
  /** Classical test of products with panelists as blocks; null where there is none. Balanced: no cell is missing. */
  blocks: z.nullable(z.strictObject({ ...testOf.shape, balanced: z.boolean() })),
  terms: z.array(z.strictObject({ term: z.enum(["product", "panelist"]), ...testOf.shape })),
  /** Null where they cannot be estimated. A panelist variance that came out below zero is 0. */
  variances: z.strictObject({
    panelist: z.nullable(z.number()),
    panelistProduct: z.nullable(z.number()),
    residual: z.nullable(z.number()),
  }),
  means: z.array(meanOf),
  contrasts: z.array(contrast),
  panelists: z.array(panelistValues),
  /** Panelists with a value missing, and for which products. */
  incomplete: z.array(z.strictObject({ panelist: line, missing: z.array(line) })),
  /** Mean by place served, as a check; empty without a study. */
  positions: z.array(z.strictObject({ position: count, judgments: count, mean: z.number() })),
});
export type AttributeResult = z.infer<typeof attributeResult>;

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
  people: count,
  judgments: count,
  outcome: z.enum(outcomes),
  attributes: z.array(attributeResult),
});
export type ScaleStatistics = z.infer<typeof scaleStatistics>;

/** What a reader must not take from the result, as facts; the report words them. */
export const caveat = z.discriminatedUnion("what", [
  z.strictObject({ what: z.literal("nature-unknown") }),
  z.strictObject({ what: z.literal("likeness-not-shown") }),
  z.strictObject({ what: z.literal("this-panel-only"), standsFor: line }),
  z.strictObject({ what: z.literal("guessing-model") }),
  /** Some people gave several answers: the test of a difference holds, and there are no bounds. */
  z.strictObject({ what: z.literal("repeats-pooled"), people: count, judgments: count }),
  z.strictObject({ what: z.literal("one-person"), judgments: count }),
  z.strictObject({ what: z.literal("few-batches"), product: line, batches: count }),
  z.strictObject({ what: z.literal("looks-differ") }),
  z.strictObject({ what: z.literal("server-knew") }),
  z.strictObject({ what: z.literal("below-plan"), planned: count, answered: count }),
  z.strictObject({ what: z.literal("orders-uneven"), fewest: count, most: count }),
  z.strictObject({ what: z.literal("key-mismatch") }),
  z.strictObject({ what: z.literal("plan-could-not-find"), discriminatorShare: z.number(), power: z.number() }),
  /** Fewer people took part than planned; of a method that asks for no number right. */
  z.strictObject({ what: z.literal("people-below-plan"), planned: count, answered: count }),
  /** One person, one answer: these trays are further ones of a seat that counts with another tray. */
  z.strictObject({ what: z.literal("person-once"), trays: z.array(count) }),
  /** Similarity: a plan that would show it less often than not even if nobody could tell. */
  z.strictObject({ what: z.literal("plan-could-not-show"), discriminatorShare: z.number(), power: z.number() }),
  /** Similarity: what "within the limit" does not say. */
  z.strictObject({ what: z.literal("limit-not-nothing"), discriminatorShare: z.number() }),
  /** Preference: what it does not say; and of whom it speaks. */
  z.strictObject({ what: z.literal("preference-plan-could-not-find"), share: z.number(), power: z.number() }),
  z.strictObject({ what: z.literal("preference-not-size") }),
  z.strictObject({ what: z.literal("panel-not-customers"), panelType: z.enum(panelTypes), standsFor: line }),
  z.strictObject({ what: z.literal("none-frequent"), none: count, of: count }),
  z.strictObject({ what: z.literal("none-split"), none: count, leftOut: count }),
  /** Line scale. */
  z.strictObject({ what: z.literal("position-left-out") }),
  z.strictObject({ what: z.literal("further-attributes"), attributes: count }),
  z.strictObject({ what: z.literal("incomplete-panelists"), attribute: line, panelists: z.array(line) }),
  z.strictObject({ what: z.literal("widest-difference"), attribute: line, points: z.number() }),
  z.strictObject({ what: z.literal("device-kinds-mixed"), pointers: z.array(line) }),
  z.strictObject({ what: z.literal("lengths-mixed"), lengthsMm: z.array(z.number()) }),
]);
export type Caveat = z.infer<typeof caveat>;

/**
 * Answers by order served: a check, not a second chance. `correct`: right answers of a choice test, or in a preference
 * those for the sample served first; null for a scale.
 */
const orderCount = z.strictObject({ order: line, judgments: count, correct: z.nullable(count) });

/** What is said of the study itself. */
const resultStudy = z.strictObject({
  id,
  title: line,
  /** The demo's: nobody tasted anything, and the report says so first. */
  invented: z._default(z.boolean(), false),
  objective: paragraph,
  ifYes: paragraph,
  ifNo: paragraph,
  standsFor: line,
  panelType: z.enum(panelTypes),
  products: z.array(z.strictObject({ name: line, preparation: paragraph, batches: z.array(line) })),
  lockedAt: instant,
  closedAt: z.nullable(instant),
  revealedAt: instant,
  commitment: hash,
  keyMatches: z.boolean(),
  seed: line,
  planned: count,
});

/** What every result has: what the report draws, the terminal prints, the archive carries. */
const common = {
  v: z.literal(1),
  app: line,
  /** Null for answers that came without a study (CSV, counts). */
  study: z.nullable(resultStudy),
  orders: z.array(orderCount),
  caveats: z.array(caveat),
  departures: z.array(departure),
};

export const choiceResult = z.strictObject({
  ...common,
  ...choiceStatistics.shape,
  oddPositions: z.array(z.strictObject({ position: count, judgments: count, correct: count })),
  /** "This was a guess": how many ticked it, and how many of those were right. Null without a study. */
  guesses: z.nullable(z.strictObject({ ticked: count, right: count })),
});
const preferenceResult = z.strictObject({ ...common, ...preferenceStatistics.shape });
const scaleResult = z.strictObject({ ...common, ...scaleStatistics.shape });

export const result = z.discriminatedUnion("family", [choiceResult, preferenceResult, scaleResult]);
export type ChoiceResult = z.infer<typeof choiceResult>;
export type PreferenceResult = z.infer<typeof preferenceResult>;
export type ScaleResult = z.infer<typeof scaleResult>;
export type Result = z.infer<typeof result>;
