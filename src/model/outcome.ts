import * as z from "zod/mini";
import { interval } from "./interval.ts";
import { count, line } from "./schema.ts";

/** Under this many judgments, or people unless it is one alone, there are numbers, but no verdict: a look says nothing. */
export const leastForVerdict = 6;

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

/**
 * What more than one answer a person says of how people differ. Null where nobody, or everybody of one, gave more than
 * one, or where it cannot be estimated.
 */
const spreadFit = z.strictObject({
  /** Mean of the people's own shares; and how much those differ: 0, everybody the same, to 1, all or nothing. */
  mean: interval,
  overdispersion: interval,
  /** Likelihood-ratio test of no overdispersion; one-sided, since it cannot be less than none. */
  pValue: z.number(),
});
export type SpreadFit = z.infer<typeof spreadFit>;

/** Fields of every result whose answers can be several a person. */
export const repeatsFields = {
  /** Each person's own counts; empty where everybody gave one answer, or where people are not known. */
  panelists: z.array(z.strictObject({ panelist: line, correct: count, judgments: count })),
  /** Beta-binomial of the shares of right answers (of a pair: of those for the first). */
  betaBinomial: z.nullable(spreadFit),
  /** The same with guessing built in: mean and spread of the share who can tell. Null where nobody can be right. */
  chanceCorrected: z.nullable(spreadFit),
  /** Pearson's chi-square of the people's counts against one common share. */
  spread: z.nullable(z.strictObject({ chiSquare: z.number(), df: count, pValue: z.number() })),
};

/**
 * Sessions or sites that were planned together: answers and right ones (of a pair: for the first) of each, and how
 * likely they differ as much if one share holds in all. Null where there is but one.
 */
export const sessionsField = z.nullable(
  z.strictObject({
    rows: z.array(z.strictObject({ session: line, judgments: count, correct: count })),
    pValue: z.number(),
    /** Counted out, or by the chi-square approximation. */
    exact: z.boolean(),
  }),
);

/** The property that a directional choice asked for. `expected`: the product that was to have more of it. */
export const askedProperty = z.strictObject({ name: line, comparative: line, expected: z.nullable(line) });

/** Further questions of the same trays, and the first one again: with Holm's p within the family named at lock. */
const question = z.strictObject({
  property: askedProperty,
  inFamily: z.boolean(),
  judgments: count,
  /** Right, or of a two-sided question: for the first product. */
  correct: count,
  /** Of the family: what reaches its risk beside the p-values of the others. */
  criticalNumber: z.nullable(count),
  pValue: z.number(),
  /** Both null outside of the family: the question is exploratory, and has no verdict. */
  pValueAdjusted: z.nullable(z.number()),
  share: interval,
  outcome: z.nullable(z.enum(outcomes)),
});
export type QuestionResult = z.infer<typeof question>;
/** Empty where one thing was asked. */
export const questionsField = z.array(question);
