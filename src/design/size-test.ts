import { criticalNumber, lowerTail, mostWithin, upperTail } from "../analysis/binomial.ts";
import { mostJudgments } from "../analysis/check.ts";
import { choiceMethod, discriminatorShareAt, dPrimeOf, familyOf, rightShareOf } from "../analysis/method.ts";
import { twoAfcDPrime, twoAfcRight } from "../analysis/thurstone.ts";
import { twoSidedCriticalNumber } from "../analysis/two-sided.ts";
import { asKinds, type Method, shapeOf } from "../model/method.ts";
import type { Plan, Sides } from "../model/plan.ts";
import { chancesAlong, criticalCounts } from "./count-walk.ts";
import { kindsTest } from "./kinds-size.ts";

/**
 * The exact test that a number of people is held against. An effect is what is true of the products, 0 to `most`: the
 * share who tell, or of two that nobody calls right the lead of one side over the other (see `sideShare`), or, where
 * there is neither, the distance d-prime.
 */
export type SizeTest = {
  unit: "share" | "lead" | "d-prime";
  most: number;
  /**
   * The count that decides: least right; least on the larger side of a pair; for likeness the most right; of same-different
   * and A-not-A, where it hangs on how many are told in all, the least unlike ones told if half of all are. Null
   * where no count would do.
   */
  criticalNumber: (people: number) => number | null;
  /** Chance of a yes at an effect. Exact: absolute error below 1e-12. */
  chance: (people: number, effect: number) => number;
  /** The effect at which a yes would be false, and the one at which the plan wants a yes. */
  falseAt: number;
  soughtAt: number;
  /** An effect as d-prime; null where no finite distance gives it. */
  dPrime: (effect: number) => number | null;
  /** For the search: all chances from one number of people to another (index 0 is `from`), to 1e-10 and fast. */
  chances: (effect: number, from: number, to: number) => Float64Array;
  /** No fewer people than this have a chance of `power` at the effect. */
  begin: (effect: number, power: number) => number;
  /** How much farther the teeth are looked at once `people` reach it. */
  lookAhead: (people: number) => number;
  rule: "first-n-exact-binomial" | "first-n-exact-fisher";
};

/** Sides of a paired difference, one if left out; and how many answers each person gives, one if left out. */
export type SizeOptions = { sides?: Sides; repeats?: number };

/** Share of those who choose that prefers the one, when the one leads the other by `lead`: 0.3 is 65 to 35. */
export const sideShare = (lead: number): number => (1 + lead) / 2;

/** The lead that goes with a distance: how far one side is above the other in `twoAfcRight`. */
export const leadAt = (dPrime: number): number => 2 * twoAfcRight(dPrime) - 1;

/**
 * A difference test of any method that people are counted for.
 *
 * Takes    method; alpha: above 0, at most 0.5; sought: see `soughtAt`; options. With several answers a person the test
 *          of a method where somebody is right pools them, and its chances count people times answers: they hold only
 *          if people do not differ in how well they tell, else a yes is likelier or less likely by an amount nobody
 *          knows beforehand. Tests of pairs and kinds then compare people: theirs are the chances of one answer each,
 *          on the safe side where further answers say anything
 * Throws   Problem "analysis/unknown-method", "analysis/method-not-yet"; what it returns throws those of the tails
 */
export function differenceTest(method: Method, alpha: number, sought: number, options: SizeOptions = {}): SizeTest {
  const { sides = "one", repeats = 1 } = options;
  const family = familyOf(method, sides);
  if (family === "kinds") return kindsTest(asKinds(method), alpha, sought);
  return family === "pair" ? pairTest(alpha, sought) : choiceTest(method, alpha, sought, repeats);
}

/** What all tests of one count share. */
const counted = {
  begin: () => 1,
  // the teeth shrink as panels grow: none that is deeper follows
  lookAhead: (people: number) => people + 100,
  rule: "first-n-exact-binomial",
} as const;

function choiceTest(method: Method, alpha: number, sought: number, repeats: number): SizeTest {
  const { guessProbability } = choiceMethod(method);
  const counts = countsOf(guessProbability, alpha, (n) => criticalNumber(n, guessProbability, alpha));
  return {
    ...counted,
    unit: "share",
    most: 1,
    falseAt: 0,
    soughtAt: sought,
    lookAhead: (people) => Math.min(counted.lookAhead(people), Math.floor(mostJudgments / repeats) - people),
    criticalNumber: (people) => counts.at(people * repeats),
    chance: (people, share) => {
      const needed = counts.at(people * repeats);
      return needed === null ? 0 : upperTail(needed, people * repeats, rightShareOf(method, share));
    },
    dPrime: (share) => dPrimeOf(method, share),
    chances: (share, from, to) => {
      const all = chancesAlong(counts.upTo(to * repeats), rightShareOf(method, share));
      return Float64Array.from({ length: to - from + 1 }, (_, at) => all[(from + at) * repeats] ?? 0);
    },
  };
}

/** Two-sided: a yes is enough votes for either. */
function pairTest(alpha: number, sought: number): SizeTest {
  const counts = countsOf(0.5, alpha / 2, (n) => twoSidedCriticalNumber(n, alpha));
  return {
    ...counted,
    unit: "lead",
    most: 1,
    falseAt: 0,
    soughtAt: sought,
    criticalNumber: counts.at,
    chance: (people, lead) => {
      const needed = counts.at(people);
      const share = sideShare(lead);
      return needed === null ? 0 : upperTail(needed, people, share) + lowerTail(people - needed, people, share);
    },
    dPrime: (lead) => twoAfcDPrime(sideShare(lead)),
    chances: (lead, from, to) => {
      const needed = counts.upTo(to);
      const [one, other] = [chancesAlong(needed, sideShare(lead)), chancesAlong(needed, sideShare(-lead))];
      return one.map((chance, people) => chance + (other[people] ?? 0)).slice(from);
    },
  };
}

/**
 * A test of likeness: so few right that a panel in which `limit` can tell would seldom have as few.
 *
 * Takes    method: a choice method's name; limit: share who can tell, between 0 and 1; beta: risk of calling alike what
 *          differs that much. People are the unit, whatever their number of answers
 * Returns  a test whose yes is wanted where nobody can tell
 * Throws   as `differenceTest`
 * Example  likenessTest("triangle", 0.3, 0.05).criticalNumber(24) // 8
 */
export function likenessTest(method: Method, limit: number, beta: number): SizeTest {
  const right = rightShareOf(method, limit);
  const wrongOf = (n: number, most: number | null) => (most === null ? null : n - most);
  // at most so many right are at least so many wrong
  const counts = countsOf(1 - right, beta, (n) => wrongOf(n, mostWithin(n, right, beta)));
  const most = (people: number) => wrongOf(people, counts.at(people));
  return {
    ...counted,
    unit: "share",
    most: 1,
    falseAt: limit,
    soughtAt: 0,
    criticalNumber: most,
    chance: (people, share) => {
      const count = most(people);
      return count === null ? 0 : lowerTail(count, people, rightShareOf(method, share));
    },
    dPrime: (share) => dPrimeOf(method, share),
    chances: (share, from, to) => chancesAlong(counts.upTo(to), 1 - rightShareOf(method, share)).slice(from),
  };
}

/** Panels beyond this are not walked along; single ones still have their exact number. */
const farthest = 1 << 15;

/** Critical numbers by number of answers, computed as far as they were asked for. */
function countsOf(p: number, risk: number, exact: (n: number) => number | null) {
  let counts: Uint32Array = new Uint32Array();
  const upTo = (n: number): Uint32Array => {
    exact(0); // refuses a risk that is none
    if (n >= counts.length) counts = criticalCounts(p, risk, Math.max(n, 2 * counts.length, 512), exact);
    return counts.subarray(0, n + 1);
  };
  const at = (n: number): number | null => {
    if (!Number.isInteger(n) || n < 0 || n > farthest) return exact(n);
    const needed = upTo(n)[n] ?? n + 1;
    return needed > n ? null : needed;
  };
  return { upTo, at };
}

type Sizing = Pick<
  Plan,
  "method" | "goal" | "alpha" | "similarity" | "discriminatorShareSought" | "dPrimeSought" | "sides" | "repeats"
>;

/** The distance that a plan of same-different or A-not-A is held against until it names its own. */
export const usualDPrime = 1;

/** Does the plan set out to show likeness? Only a method where somebody can be right has such a goal. */
export const seeksLikeness = ({ method, goal, sides }: Pick<Plan, "method" | "goal" | "sides">): boolean =>
  goal === "similarity" && shapeOf(method).similarity && familyOf(method, sides) === "choice";

/**
 * The test of a plan; null for the line scale and for chewed portions, whose size is a matter of how wide their intervals
 * are, and for a ranking, whose power hangs on how far apart all of its products are. A d-prime that the plan names, as its limit or as what it seeks, comes before the share.
 */
export function sizeTest(plan: Sizing): SizeTest | null {
  const { method, alpha, similarity, sides, repeats } = plan;
  const family = familyOf(method, sides);
  if (family === "scale" || family === "rank" || family === "portions") return null;
  if (!seeksLikeness(plan)) return differenceTest(method, alpha, effectSought(plan), { sides, repeats });
  const { dPrime, limit, beta } = similarity;
  return likenessTest(method, dPrime === null ? limit : discriminatorShareAt(method, dPrime), beta);
}

/** What a plan seeks, in the unit of its test. */
function effectSought({ method, sides, discriminatorShareSought, dPrimeSought }: Sizing): number {
  const family = familyOf(method, sides);
  if (family === "kinds") return dPrimeSought ?? usualDPrime;
  if (dPrimeSought === null) return discriminatorShareSought;
  if (method === "paired-preference") return discriminatorShareSought; // nobody is right: it has no distance
  return family === "pair" ? leadAt(dPrimeSought) : discriminatorShareAt(method, dPrimeSought);
}
