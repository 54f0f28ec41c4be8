import { type StoppingPlan, type StoppingRule, stoppingRule } from "../../src/analysis/stopping-rule.ts";

/** A triangle with 30 people at alpha 0.05 and a look at 17, unless changed. */
export const plan = (change: Partial<StoppingPlan> = {}): StoppingPlan => ({
  method: "triangle",
  alpha: 0.05,
  people: 30,
  stopping: { rule: "looks", at: [17] },
  discriminatorShareSought: 0.4,
  dPrimeSought: null,
  ...change,
});
export function ruleOf(change: Partial<StoppingPlan> = {}): StoppingRule {
  const rule = stoppingRule(plan(change));
  if (!rule) throw new Error("the plan has a stopping rule");
  return rule;
}
export const wald = (change: Partial<StoppingPlan> = {}): StoppingRule =>
  ruleOf({ stopping: { rule: "sequential", beta: 0.1 }, ...change });

/** Ways to pick k of n. */
export const choose = (n: bigint, k: bigint): bigint => (k === 0n ? 1n : (choose(n - 1n, k - 1n) * n) / k);
