import type { KitchenProperty } from "../model/kitchen.ts";
import type { Plan, Ranking } from "../model/plan.ts";
import { ranking as words } from "../words/en/organizer-ranking.ts";

/** Changes of a plan's ranking, as functions from one plan to the next. */

export const changeRanking = (plan: Plan, change: Partial<Ranking>): Plan => ({
  ...plan,
  ranking: { ...plan.ranking, ...change },
});

/** Takes over a property of the kitchen's list, with ends made of its word where it has one. */
export function withKitchenProperty(plan: Plan, { name, adjective, definition }: KitchenProperty): Plan {
  const ends = adjective.trim() === "" ? {} : words.ends(adjective.trim());
  return changeRanking(plan, { name, definition, ...ends });
}

/** The predicted order as the plan has it now: products that are gone left out, new ones at the end. */
export function predictedOf({ products, ranking: { predicted } }: Plan): string[] {
  if (predicted.length === 0) return [];
  const ids = products.map(({ id }) => id);
  return [...predicted.filter((id) => ids.includes(id)), ...ids.filter((id) => !predicted.includes(id))];
}

/** An order is predicted, to begin with that of the plan; or none is. */
export const withPrediction = (plan: Plan, wanted: boolean): Plan =>
  changeRanking(plan, { predicted: wanted ? plan.products.map(({ id }) => id) : [] });

/** Moves a product of the predicted order toward the least (-1) or the most (1). */
export function movePredicted(plan: Plan, id: string, by: -1 | 1): Plan {
  const predicted = predictedOf(plan);
  const at = predicted.indexOf(id);
  const to = at + by;
  if (at < 0 || to < 0 || to >= predicted.length) return plan;
  predicted.splice(at, 1);
  predicted.splice(to, 0, id);
  return changeRanking(plan, { predicted });
}
