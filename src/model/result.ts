import * as z from "zod/mini";
import { methods } from "./plan.ts";
import { departure } from "./record.ts";
import { count, hash, id, instant, line, paragraph } from "./schema.ts";

/**
 * An estimate with its uncertainty. `estimate` or `high` is null where it has no finite value (d-prime when every
 * answer is right); `kind` says which bounds mean something: "two-sided", "lower" (only `low` is a bound), or "none":
 * an estimate alone, both bounds null, because some people answered more than once and pooled answers bound nothing.
 */
export const interval = z.strictObject({
  estimate: z.nullable(z.number()),
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  confidence: z.number(),
  kind: z.enum(["two-sided", "lower", "none"]),
});
export type Interval = z.infer<typeof interval>;

/**
 * reached / not-reached: by the rule locked beforehand. far-below-chance: fewer right than the lower 2.5 % tail of
 * guessing allows, so labels or wording are in doubt. too-few: under 6 judgments, or from 2 to 5 people; numbers only,
 * no verdict. withheld: the opened key does not match its seal, so that nobody can say which answers were right.
 */
export const outcomes = ["reached", "not-reached", "far-below-chance", "too-few", "withheld"] as const;

/** The statistics of one choice test, from the two counts alone. Design page, section 9. */
export const choiceStatistics = z.strictObject({
  method: z.enum(methods),
  goal: z.enum(["difference"]),
  sides: z.enum(["one", "two"]),
  alpha: z.number(),
  judgments: count,
  /** How many different people gave the answers; one for each answer where nothing else is known. */
  people: count,
  correct: count,
  guessProbability: z.number(),
  expectedByGuessing: z.number(),
  /** Least right answers that reach alpha; null when even all right would not. */
  criticalNumber: z.nullable(count),
  /** How likely a guessing panel reaches the critical number: the alpha really spent. */
  chanceAtCritical: z.nullable(z.number()),
  pValue: z.number(),
  outcome: z.enum(outcomes),
  correctShare: interval,
  discriminatorShare: interval,
  /** Both ends of what the answers allow, two-sided at 1 - 2 alpha: it leaves 0 out if and only if p <= alpha. */
  discriminatorShareRange: interval,
  dPrime: interval,
  /** 100 panels that only guess: how many of them fall on each count (index = number right). */
  guessingPanels: z.array(count),
  power: z.nullable(z.strictObject({ discriminatorShare: z.number(), people: count, power: z.number() })),
});
export type ChoiceStatistics = z.infer<typeof choiceStatistics>;

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
]);
export type Caveat = z.infer<typeof caveat>;

/** Right answers by order served and by place of the odd sample: a check, not a second chance. */
const orderCount = z.strictObject({ order: line, judgments: count, correct: count });

/** The whole result of a study: what the report draws, the terminal prints, the archive carries. */
export const result = z.strictObject({
  v: z.literal(1),
  app: line,
  /** Null for answers that came without a study (CSV, counts). */
  study: z.nullable(
    z.strictObject({
      id,
      title: line,
      objective: paragraph,
      ifYes: paragraph,
      ifNo: paragraph,
      products: z.array(z.strictObject({ name: line, preparation: paragraph, batches: z.array(line) })),
      lockedAt: instant,
      closedAt: z.nullable(instant),
      revealedAt: instant,
      commitment: hash,
      keyMatches: z.boolean(),
      seed: line,
      planned: count,
      guessesTicked: count,
      guessesTickedRight: count,
    }),
  ),
  ...choiceStatistics.shape,
  orders: z.array(orderCount),
  oddPositions: z.array(z.strictObject({ position: count, judgments: count, correct: count })),
  caveats: z.array(caveat),
  departures: z.array(departure),
});
export type Result = z.infer<typeof result>;
