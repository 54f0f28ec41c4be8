import type { Plan } from "./plan.ts";

/** Food that is raw or undercooked by design, as the plan says of itself. */
export const isUndercooked = ({ cautionsApplying }: Pick<Plan, "cautionsApplying">): boolean =>
  cautionsApplying.includes("undercooked");

/**
 * Who allows food of this plan to stay below its limits of cooking: named at lock for food that is undercooked by design;
 * null where nobody may. There is no such exception for holding.
 */
export function allowedBelow(plan: Pick<Plan, "cautionsApplying" | "responsible">): string | null {
  const name = plan.responsible.trim();
  return isUndercooked(plan) && name !== "" ? name : null;
}
