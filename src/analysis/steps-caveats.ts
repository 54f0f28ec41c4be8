import type { Plan } from "../model/plan.ts";
import type { Caveat } from "../model/result.ts";
import type { ScaleStatistics } from "../model/result-scale.ts";
import { asksLiking } from "../model/steps.ts";

/** What a reader must not take from a scale with steps. */
export function caveatsOfSteps({ attributes }: ScaleStatistics): Caveat[] {
  const compared = attributes.filter(({ form, contrasts }) => form.kind === "steps" && contrasts.length > 0);
  if (compared.length === 0) return [];
  return [{ what: "steps-equal", attributes: [...new Set(compared.map(({ attribute }) => attribute))] }];
}

/** Did anybody say how much they like something? */
export const tellsLiking = ({ attributes }: ScaleStatistics): boolean =>
  attributes.some(({ form, judgments }) => asksLiking(form) && judgments > 0);

/** Liking of people who were not recruited among those who eat the food is no forecast of customers. */
export const caveatsOfLiking = (
  { panelType, standsFor }: Pick<Plan, "panelType" | "standsFor">,
  liking: boolean,
): Caveat[] => (liking && panelType !== "consumers" ? [{ what: "panel-not-customers", panelType, standsFor }] : []);
