import { type Plannable, shapeOf, sidesFor } from "../../model/method.ts";
import { type Advised, goesBy } from "../../model/plan-question.ts";

/** The planner's advice in words, for the plan, the lock page and the report alike. `names`: methods as that page has them. */
type Names = Record<Plannable, string>;

/** "Paired difference, one-sided"; "Triangle, to show that a difference is too small to matter". */
export function adviceText(names: Names, { method, goal, sides }: Advised): string {
  if (goal === "similarity") return `${names[method]}, to show that a difference is too small to matter`;
  if (shapeOf(method).sides !== "either") return names[method];
  return `${names[method]}, ${sidesFor(method, sides) === "one" ? "one-sided" : "two-sided"}`;
}

/** What was advised, and whether the plan goes by it: one sentence or two. */
export function adviceRecord(names: Names, plan: Advised, advised: Advised): string {
  const said = adviceText(names, advised);
  return goesBy(plan, advised)
    ? `The planner advised: ${said}. The plan goes by it.`
    : `The planner advised: ${said}. The lead chose: ${adviceText(names, plan)}.`;
}
