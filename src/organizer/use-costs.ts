import { useEffect, useState } from "preact/hooks";
import { alternativesTo } from "../design/advice.ts";
import { chanceOf, type Need, needOf, planWith } from "../design/cost.ts";
import { seeksLikeness } from "../design/size-test.ts";
import type { Plan } from "../model/plan.ts";
import type { Advised } from "../model/plan-question.ts";

/** One way to find out what the plan asks, as a plan of its own, and the people it needs; null while that is counted. */
export type Way = { plan: Plan; need: Need | null };
export type Costs = { chance: number | null; own: Way; others: Way[] };

/** What the numbers of people follow from: nothing else of a plan makes them be counted anew. */
const sizeKey = (plan: Plan): string => {
  const { method, goal, sides, alpha, similarity, dPrimeSought, discriminatorShareSought, repeats } = plan;
  const { scaleSought, comparisons, noPreference, scale } = plan;
  return JSON.stringify([
    ...[method, goal, sides, alpha, similarity, dPrimeSought, discriminatorShareSought, repeats, scaleSought],
    ...[comparisons, noPreference, plan.perTray, plan.products.length, scale.attributes.length],
  ]);
};

/**
 * The plan beside at most three other ways to find the same. Some methods take half a second to be counted, so each has
 * a turn of its own and the page goes on in between.
 */
export function useCosts(plan: Plan): Costs {
  const [needs, setNeeds] = useState<ReadonlyMap<string, Need>>(new Map());
  const goal: Advised["goal"] = seeksLikeness(plan) ? "similarity" : "difference";
  const plans = [plan, ...alternativesTo({ ...plan, goal }).map((other) => planWith(plan, other))];
  const keys = plans.map(sizeKey);
  const missing = keys.findIndex((key) => !needs.has(key));
  useEffect(() => {
    const [next, key] = [plans[missing], keys[missing]];
    if (next === undefined || key === undefined) return;
    const turn = setTimeout(() => setNeeds((before) => new Map(before).set(key, needOf(next))), 0);
    return () => clearTimeout(turn);
  }, [keys[missing], missing]);
  const [own, ...others] = plans.map((each, at): Way => ({ plan: each, need: needs.get(keys[at] ?? "") ?? null }));
  return { chance: chanceOf(plan), own: own ?? { plan, need: null }, others };
}
