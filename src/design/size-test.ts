import { criticalNumber, lowerTail, mostWithin } from "../analysis/binomial.ts";
import { choiceMethod, rightShareOf } from "../analysis/method.ts";
import { power } from "../analysis/power.ts";
import { twoSidedCriticalNumber, twoSidedPower } from "../analysis/two-sided.ts";
import type { Method } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";

/** The exact test that a number of people is held against, one judgment each. */
export type SizeTest = {
  /**
   * The count that decides: least right; least on the larger side of a preference; for likeness the most right. Null
   * where no count would do.
   */
  criticalNumber: (people: number) => number | null;
  /** Chance of a yes when a share of the people can tell, 0 to 1; for a preference see `sideShare`. */
  chance: (people: number, share: number) => number;
  /** The share at which a yes would be false, and the one at which the plan wants a yes. */
  falseAt: number;
  soughtAt: number;
};

/** Share of those who choose that prefers the one, when the one leads the other by `lead`: 0.3 is 65 to 35. */
export const sideShare = (lead: number): number => (1 + lead) / 2;

/**
 * A difference test: of a method where somebody is right, or of a preference, where a yes is a lead of either side.
 *
 * Takes    method: a choice method's name; alpha: above 0, at most 0.5; sought: 0 to 1, see `soughtAt`
 * Throws   Problem "analysis/unknown-method", "analysis/method-not-yet"; what it returns throws those of the tails
 * Exact    binomial tails throughout
 */
export function differenceTest(method: Method, alpha: number, sought: number): SizeTest {
  const at = { falseAt: 0, soughtAt: sought };
  if (method === "paired-preference") {
    return {
      ...at,
      criticalNumber: (people) => twoSidedCriticalNumber(people, alpha),
      chance: (people, lead) => twoSidedPower(people, alpha, sideShare(lead)),
    };
  }
  const { guessProbability } = choiceMethod(method);
  return {
    ...at,
    criticalNumber: (people) => criticalNumber(people, guessProbability, alpha),
    chance: (people, share) => power(method, people, alpha, share),
  };
}

/**
 * A test of likeness: so few right that a panel in which `limit` can tell would seldom have as few.
 *
 * Takes    method: a choice method's name; limit: share who can tell, between 0 and 1; beta: risk of calling alike what
 *          differs that much
 * Returns  a test whose yes is wanted where nobody can tell
 * Throws   as `differenceTest`
 * Example  likenessTest("triangle", 0.3, 0.05).criticalNumber(24) // 8
 */
export function likenessTest(method: Method, limit: number, beta: number): SizeTest {
  const most = (people: number) => mostWithin(people, rightShareOf(method, limit), beta);
  return {
    falseAt: limit,
    soughtAt: 0,
    criticalNumber: most,
    chance: (people, share) => {
      const count = most(people);
      return count === null ? 0 : lowerTail(count, people, rightShareOf(method, share));
    },
  };
}

type Sizing = Pick<Plan, "method" | "goal" | "alpha" | "similarity" | "discriminatorShareSought">;

/** Does the plan set out to show likeness? Only a method where somebody can be right has such a goal. */
export const seeksLikeness = ({ method, goal }: Pick<Plan, "method" | "goal">): boolean =>
  method === "triangle" && goal === "similarity";

/** The test of a plan; null for the line scale, whose size is a matter of how wide its intervals are. */
export function sizeTest(plan: Sizing): SizeTest | null {
  if (plan.method === "line-scale") return null;
  if (seeksLikeness(plan)) return likenessTest(plan.method, plan.similarity.limit, plan.similarity.beta);
  return differenceTest(plan.method, plan.alpha, plan.discriminatorShareSought);
}
