import { familyOf, rightShareOf } from "../analysis/method.ts";
import { productsPower } from "../analysis/scale-power.ts";
import { rulePower } from "../analysis/stopped-choice.ts";
import { stoppingRule } from "../analysis/stopping-rule.ts";
import { shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import type { World } from "./invented-panel.ts";
import { ordersOf } from "./method.ts";
import { sizeTest } from "./size-test.ts";

/**
 * The chance of a yes that the plan's exact test has in an invented world, to hold a rehearsal against.
 *
 * Returns  null where no exact number says it: several questions that share a risk, several trays a person (people who
 *          tell do so on all of theirs), kinds of trays that do not fall on equal numbers of people, rankings, moments or
 *          incomplete blocks. Of a line scale it leaves out that marks cannot leave the line
 */
export function expectedYes(plan: Plan, { effect, deviation }: World): number | null {
  if (plan.repeats > 1) return null;
  const family = familyOf(plan.method, plan.sides);
  if (family === "scale") return expectedOfScale(plan, { effect, deviation });
  const test = sizeTest(plan);
  if (test === null || (shapeOf(plan.method).property && plan.properties.length > 1)) return null;
  if (family === "kinds" && plan.people % ordersOf(plan).length !== 0) return null;
  const rule = stoppingRule(plan);
  if (rule) return rulePower({ ...rule, sought: rightShareOf(plan.method, effect) });
  return test.chance(plan.people, effect);
}

function expectedOfScale({ alpha, products, people, perTray }: Plan, world: World): number | null {
  if (perTray !== null) return null;
  if (world.effect === 0) return alpha;
  const { effect: difference, deviation } = world;
  return productsPower({ alpha, products: products.length, difference, deviation }, people);
}
