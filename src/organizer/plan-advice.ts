import { type Advice, advice, advisedOf } from "../design/advice.ts";
import type { Plan } from "../model/plan.ts";
import { type Advised, type Asked, goesBy } from "../model/plan-question.ts";
import { withMethod } from "./plan-edit.ts";

/** Answers to the planner's questions, and what a plan makes of the advice that follows from them. Pure. */

/** The plan with the advice that its answers give now. */
export const advisedAnew = (plan: Plan): Plan => ({ ...plan, advised: advisedOf(plan) });

/** The plan as an advice has it. What it does not speak of stays. */
export function takeAdvice(plan: Plan, { method, goal, sides }: Advised, reference?: Advice["reference"]): Plan {
  const taken = { ...withMethod(plan, method), goal, sides };
  return {
    ...taken,
    reference: reference === undefined ? taken.reference : { ...taken.reference, kind: reference },
    ranking: plan.asked.want === "liking" ? { ...taken.ranking, liking: true } : taken.ranking,
  };
}

/** Has nobody decided how to test yet? Then the first advice is what the plan does. */
const undecided = ({ method, goal, products }: Plan): boolean =>
  method === "triangle" && goal === "difference" && products.length === 0;

/**
 * The plan with an answer more, and the advice anew. A plan that went by the advice before goes by the new one; one
 * whose lead chose otherwise keeps what was chosen.
 */
export function answered(plan: Plan, change: Partial<Asked>): Plan {
  const after = advisedAnew({ ...plan, asked: { ...plan.asked, ...change } });
  const given = advice(after);
  const follows = plan.advised === null ? undecided(plan) : goesBy(plan, plan.advised);
  return given && follows ? takeAdvice(after, given, given.reference) : after;
}

/** Looks bear on the advice; a plan that is that far keeps its method, and the page says so. */
export const withLooks = (plan: Plan, looks: Plan["looks"]): Plan => advisedAnew({ ...plan, looks });
