import type { Attribute, ScaleForm } from "./attribute.ts";

/** Steps as places on a scale: the first is 0, the last 1, so that line and steps are kept the same way. */

/** The place of a step. Takes step: from 1; of: how many there are, from 2. */
export const placeOfStep = (step: number, of: number): number => (step - 1) / (of - 1);

/** The step at a place, from 1; null where there is none at just that place. */
export function stepAt(of: number, place: number): number | null {
  const step = Math.round(place * (of - 1)) + 1;
  return step >= 1 && step <= of && placeOfStep(step, of) === place ? step : null;
}

/** The words at the two ends: a line's own, or the first and the last label of steps. */
export function endsOf({ form, lowAnchor, highAnchor }: Pick<Attribute, "form" | "lowAnchor" | "highAnchor">): {
  low: string;
  high: string;
} {
  if (form.kind === "line") return { low: lowAnchor, high: highAnchor };
  return { low: form.labels[0] ?? "", high: form.labels.at(-1) ?? "" };
}

/** Is liking asked for? */
export const asksLiking = (form: ScaleForm): boolean => form.kind === "steps" && form.liking;

/** Has any of these properties a line? Then its true length has to be known on the tablet. */
export const drawsLine = (attributes: readonly Pick<Attribute, "form">[]): boolean =>
  attributes.some(({ form }) => form.kind === "line");
