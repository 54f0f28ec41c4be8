import { emptyPlan } from "../design/readiness.ts";
import { type Plannable, shapeOf } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";

/** What portions that are chewed and weighed begin with: common practice, no source. Seconds and tolerance stand in `usualChew`. */
const usual = { portionGrams: 5, pauseSeconds: 60, repeats: 3 } as const;

const isChewed = (method: Plannable): boolean => shapeOf(method).answer === "portions";

/**
 * A plan that comes to chewed portions gets their figures where it still has those of an empty plan: what the kitchen or the
 * lead said stays. One that leaves them, all as they were set, gets those of an empty plan again: three trays of a method
 * that nobody planned repeats for would be a surprise.
 *
 * Takes    plan: with its new method; before: the method it had
 */
export function withUsualPortions(plan: Plan, before: Plannable): Plan {
  if (isChewed(plan.method) === isChewed(before)) return plan;
  const { serving, repeats } = plan;
  const empty = emptyPlan();
  const begun = {
    portionGrams: empty.serving.portionGrams,
    pauseSeconds: empty.serving.pauseSeconds,
    repeats: empty.repeats,
  };
  const now = { portionGrams: serving.portionGrams, pauseSeconds: serving.pauseSeconds, repeats };
  const { repeats: trays, ...served } = isChewed(plan.method) ? over(now, begun, usual) : back(now, begun);
  return { ...plan, repeats: trays, serving: { ...serving, ...served } };
}

type Figures = { portionGrams: number | null; pauseSeconds: number; repeats: number };

const over = (now: Figures, begun: Figures, set: Figures): Figures => ({
  portionGrams: now.portionGrams === begun.portionGrams ? set.portionGrams : now.portionGrams,
  pauseSeconds: now.pauseSeconds === begun.pauseSeconds ? set.pauseSeconds : now.pauseSeconds,
  repeats: now.repeats === begun.repeats ? set.repeats : now.repeats,
});

const back = (now: Figures, begun: Figures): Figures =>
  now.portionGrams === usual.portionGrams && now.pauseSeconds === usual.pauseSeconds && now.repeats === usual.repeats
    ? begun
    : now;
