import * as z from "zod/mini";
import { measured } from "./measured.ts";
import { questionsField, sessionsField } from "./outcome.ts";
import { panelTypes } from "./plan.ts";
import { departure } from "./record.ts";
import { choiceStatistics } from "./result-choice.ts";
import { kindsStatistics } from "./result-kinds.ts";
import { pairStatistics } from "./result-pair.ts";
import { portionsStatistics } from "./result-portions.ts";
import { rankStatistics } from "./result-rank.ts";
import { scaleStatistics } from "./result-scale.ts";
import { units } from "./result-steps.ts";
import { count, hash, id, instant, line, paragraph } from "./schema.ts";

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
  /** A directional choice: what it says is about one property. */
  z.strictObject({ what: z.literal("one-property"), property: line }),
  /** Same-different, A-not-A: a no may be a lack of difference or of people willing to say it. */
  z.strictObject({ what: z.literal("leaning-model") }),
  /** Several answers a person of a method where people differ even if nothing does: what the test did instead. */
  z.strictObject({ what: z.literal("people-compared"), people: count, judgments: count }),
  /** Several answers a person for likeness: the spread between people is in the bound. */
  z.strictObject({ what: z.literal("likeness-by-spread"), people: count, judgments: count }),
  /** Sessions planned together differ more than chance explains. */
  z.strictObject({ what: z.literal("sessions-differ"), pValue: z.number() }),
  /** A stopping rule ended the study early: estimates then lean high. Answers after the deciding look. */
  z.strictObject({ what: z.literal("stopped-early"), judgments: count, planned: count }),
  z.strictObject({ what: z.literal("after-the-stop"), answers: count }),
  /** Questions outside of the family named at lock. */
  z.strictObject({ what: z.literal("exploratory-questions"), questions: count }),
  z.strictObject({ what: z.literal("kinds-plan-could-not-find"), dPrime: z.number(), power: z.number() }),
  /** Line scale: what the plan supposed, and the power of the test of products under it. */
  z.strictObject({
    what: z.literal("scale-plan-could-not-find"),
    points: z.number(),
    deviation: z.number(),
    power: z.number(),
    /** Of the scale that the verdict is about; null for a line. Both figures are of 100 all the same. */
    steps: z._default(z.nullable(count), null),
  }),
  /** Preference: what it does not say; and of whom it speaks. */
  z.strictObject({ what: z.literal("preference-plan-could-not-find"), share: z.number(), power: z.number() }),
  z.strictObject({ what: z.literal("preference-not-size") }),
  z.strictObject({ what: z.literal("panel-not-customers"), panelType: z.enum(panelTypes), standsFor: line }),
  z.strictObject({ what: z.literal("none-frequent"), none: count, of: count }),
  z.strictObject({ what: z.literal("none-split"), none: count, leftOut: count }),
  /** Line scale. */
  /** Balanced: everybody marked each product as often, so that the orders served even it out. */
  z.strictObject({ what: z.literal("position-left-out"), balanced: z._default(z.boolean(), true) }),
  /** Batches are drawn from many in the mixed model: its test of products, and which analysis leads. `seen`: they spread. */
  z.strictObject({
    what: z.literal("batches-drawn"),
    leads: z.enum(["blocks", "mixed"]),
    fewest: count,
    seen: z.boolean(),
    fValue: z.number(),
    numeratorDf: z.number(),
    denominatorDf: z.number(),
    pValue: z.number(),
  }),
  z.strictObject({ what: z.literal("further-attributes"), attributes: count, counting: z._default(count, 1) }),
  z.strictObject({
    what: z.literal("repeats-averaged"),
    people: count,
    judgments: count,
    /** Is there a test that takes them as one person's? */
    tested: z._default(z.boolean(), true),
  }),
  z.strictObject({ what: z.literal("trays-below-plan"), planned: count, marked: count }),
  z.strictObject({ what: z.literal("incomplete-panelists"), attribute: line, panelists: z.array(line) }),
  z.strictObject({
    what: z.literal("widest-difference"),
    attribute: line,
    points: z.number(),
    unit: z._default(z.enum(units), "points"),
  }),
  /** Means take the steps of a scale as equally far apart. */
  z.strictObject({ what: z.literal("steps-equal"), attributes: z.array(line) }),
  z.strictObject({ what: z.literal("device-kinds-mixed"), pointers: z.array(line) }),
  /** Ranking: ranks are no distances; who left a product out is left out; people who gave two products one place. */
  z.strictObject({ what: z.literal("ranks-no-distance") }),
  z.strictObject({ what: z.literal("rankings-incomplete"), panelists: z.array(line) }),
  z.strictObject({ what: z.literal("places-shared"), people: count }),
  /** The largest difference of two rank sums that is not excluded, of `most` possible ones. */
  z.strictObject({ what: z.literal("widest-rank-difference"), difference: z.number(), most: z.number() }),
  /** What an order that was shown as a whole does not say of its steps. */
  z.strictObject({ what: z.literal("order-as-a-whole") }),
  z.strictObject({ what: z.literal("lengths-mixed"), lengthsMm: z.array(z.number()) }),
]);
export type Caveat = z.infer<typeof caveat>;

/**
 * Answers by order served: a check, not a second chance. `correct`: right answers of a choice test, of a pair those for
 * the sample served first, of kinds those that were told; null for a scale.
 */
const orderCount = z.strictObject({ order: line, judgments: count, correct: z.nullable(count) });

/** What is said of the study itself. */
const resultStudy = z.strictObject({
  id,
  title: line,
  /** The demo's: nobody tasted anything, and the report says so first. */
  invented: z._default(z.boolean(), false),
  /** Every cup held one food: the report speaks of the study, and of no product. */
  blank: z._default(z.boolean(), false),
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
  /** Masses beside the answers. */
  measured: z._default(z.array(measured), []),
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
  questions: questionsField,
  sessions: sessionsField,
  /** By the place of the sample that was right to pick; of a tetrad, of the partner of the first. */
  oddPositions: z.array(z.strictObject({ position: count, judgments: count, correct: count })),
  /** "This was a guess": how many ticked it, and how many of those were right. Null without a study. */
  guesses: z.nullable(z.strictObject({ ticked: count, right: count })),
});
const pairResult = z.strictObject({
  ...common,
  ...pairStatistics.shape,
  questions: questionsField,
  sessions: sessionsField,
});
const kindsResult = z.strictObject({ ...common, ...kindsStatistics.shape });
const rankResult = z.strictObject({ ...common, ...rankStatistics.shape });
const scaleResult = z.strictObject({ ...common, ...scaleStatistics.shape });
const portionsResult = z.strictObject({ ...common, ...portionsStatistics.shape });

export const result = z.discriminatedUnion("family", [
  choiceResult,
  pairResult,
  kindsResult,
  scaleResult,
  rankResult,
  portionsResult,
]);
export type ChoiceResult = z.infer<typeof choiceResult>;
export type PairResult = z.infer<typeof pairResult>;
export type KindsResult = z.infer<typeof kindsResult>;
export type ScaleResult = z.infer<typeof scaleResult>;
export type RankResult = z.infer<typeof rankResult>;
export type PortionsResult = z.infer<typeof portionsResult>;
export type Result = z.infer<typeof result>;
