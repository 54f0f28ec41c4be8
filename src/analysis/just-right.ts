import type { Interval } from "../model/interval.ts";
import { aboveZero, requireCount, requireRisk } from "./check.ts";
import { mean, squaresAboutMean } from "./moments.ts";
import { exactInterval } from "./share-interval.ts";
import { studentQuantile, studentTwoSided } from "./student.ts";

/** One answer on a scale whose middle is "just about right", with what the same person said of liking, if anything. */
export type JustRightRow = {
  panelist: string;
  product: string;
  /** From 1; the middle one is just right, those before it are too little, those after it too much. */
  step: number;
  /** On any scale where more is liked more; null: no answer. */
  liking: number | null;
};

/** By how much those on one side liked the product less than those to whom it was just right. */
export type LikingDrop = {
  /** Who said so and gave a liking; and as many of those to whom it was just right. */
  people: number;
  peopleRight: number;
  /** So few people of all chose this side that the drop is that of a handful. */
  tooFew: boolean;
  meanSide: number | null;
  meanRight: number | null;
  /** Mean of just right less mean of the side; null where either has no liking. */
  drop: number | null;
  /** Null with fewer than two people on either side, without any spread, or with several answers of one person. */
  test: { low: number; high: number; df: number; pValue: number } | null;
};

export type JustRight = {
  product: string;
  judgments: number;
  /** Answers of each step, in order. */
  counts: number[];
  shares: Record<"little" | "right" | "much", Interval>;
  drops: Record<"little" | "much", LikingDrop>;
};

/** A side that fewer of the answers chose than this share is too few to say (common practice, no source). */
export const leastShareOfSide = 0.2;

type Side = "little" | "right" | "much";

/**
 * Shares of too little, just right and too much, and the drop of liking on either side, product by product.
 *
 * Takes    rows: answers; steps: 3 or 5; products: in the order of the plan, one without answers included; confidence:
 *          of every interval
 * Returns  exact intervals of shares, and Welch's of drops, each between different people of one product. Where somebody
 *          answered twice for a product, estimates alone: pooled answers of one person bound nothing
 * Throws   Problem "analysis/not-a-count" (a step that the scale lacks, too many answers), "analysis/not-a-share"
 * Source   B. L. Welch 1947 for the drop (from memory); checked against t.test and binom.test of R
 */
export function justRight(
  rows: readonly JustRightRow[],
  products: readonly string[],
  steps: 3 | 5,
  confidence: number,
): JustRight[] {
  requireCount("answers", rows.length);
  requireRisk("confidence", confidence);
  for (const { step } of rows) requireCount("step", step, 1, steps);
  const middle = (steps + 1) / 2;
  const sideOf = ({ step }: JustRightRow): Side => (step === middle ? "right" : step < middle ? "little" : "much");
  return products.map((product) => {
    const own = rows.filter((row) => row.product === product);
    const alone = new Set(own.map(({ panelist }) => panelist)).size === own.length;
    const on = (side: Side) => own.filter((row) => sideOf(row) === side);
    const share = (side: Side) => shareOf(on(side).length, own.length, alone, confidence);
    const drop = (side: Side): LikingDrop => ({
      ...dropOf(likings(on(side)), likings(on("right")), alone, confidence),
      tooFew: on(side).length < leastShareOfSide * own.length,
    });
    return {
      product,
      judgments: own.length,
      counts: Array.from({ length: steps }, (_, at) => own.filter(({ step }) => step === at + 1).length),
      shares: { little: share("little"), right: share("right"), much: share("much") },
      drops: { little: drop("little"), much: drop("much") },
    };
  });
}

const likings = (rows: readonly JustRightRow[]): number[] =>
  rows.flatMap(({ liking }) => (liking === null ? [] : [liking]));

function shareOf(count: number, of: number, alone: boolean, confidence: number): Interval {
  const estimate = of === 0 ? null : count / of;
  if (of === 0 || !alone) return { estimate, low: null, high: null, confidence, kind: "none" };
  return { estimate, ...exactInterval(count, of, confidence), confidence, kind: "two-sided" };
}

function dropOf(
  side: readonly number[],
  right: readonly number[],
  alone: boolean,
  confidence: number,
): Omit<LikingDrop, "tooFew"> {
  const meanSide = side.length === 0 ? null : mean(side);
  const meanRight = right.length === 0 ? null : mean(right);
  const drop = meanSide === null || meanRight === null ? null : meanRight - meanSide;
  return {
    people: side.length,
    peopleRight: right.length,
    meanSide,
    meanRight,
    drop,
    test: drop === null || !alone ? null : welch(drop, side, right, confidence),
  };
}

function welch(
  difference: number,
  side: readonly number[],
  right: readonly number[],
  confidence: number,
): LikingDrop["test"] {
  if (side.length < 2 || right.length < 2) return null;
  const [one, other] = [varianceOfMean(side), varianceOfMean(right)];
  // likings that are all equal show no spread, which is not to be sold as certainty
  if (one + other === 0) return null;
  const df = (one + other) ** 2 / (one ** 2 / (side.length - 1) + other ** 2 / (right.length - 1));
  const error = Math.sqrt(one + other);
  const reach = -studentQuantile((1 - confidence) / 2, df) * error;
  const pValue = aboveZero(studentTwoSided(difference / error, df));
  return { low: difference - reach, high: difference + reach, df, pValue };
}

const varianceOfMean = (values: readonly number[]): number =>
  squaresAboutMean(values) / (values.length - 1) / values.length;
