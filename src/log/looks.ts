import type { Heads } from "../model/ballot-event.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { Plan } from "../model/plan.ts";
import { type FactOf, within } from "./fact.ts";

/** A look of the stopping rule: begun with what it saw, and done once the rule has said something. */
export type Look = { begun: FactOf<"look-begun">; done: FactOf<"look-done"> | null };

/**
 * The looks of a study, by their number.
 *
 * Takes    begun, done: in the order of their ids; close: the heads of the close, null while there is none
 * Returns  of two looks of one number, or two outcomes of one look, the one with the lower id; what the close did not
 *          see is no look any more. `others`: the looks that lost by that
 */
export function looksOf(
  begun: readonly FactOf<"look-begun">[],
  done: readonly FactOf<"look-done">[],
  close: Heads | null,
): { looks: Look[]; others: FactOf<"look-begun">[] } {
  const first = new Map<number, FactOf<"look-begun">>();
  for (const fact of begun) {
    if (within(fact, close) && !first.has(fact.body.look)) first.set(fact.body.look, fact);
  }
  const looks = [...first.values()]
    .sort((a, b) => a.body.look - b.body.look)
    .map((fact) => ({
      begun: fact,
      done: done.find((one) => one.body.look === fact.id && within(one, close)) ?? null,
    }));
  return { looks, others: begun.filter((fact) => first.get(fact.body.look) !== fact) };
}

/**
 * The least number of answers for a look of this number, from 1; null where the plan allows no such look. By Wald's
 * lines it may be asked at any number of answers that a verdict can stand on: a stop before that could say nothing.
 */
export function leastForLook({ stopping, people }: Pick<Plan, "stopping" | "people">, look: number): number | null {
  if (stopping.rule === "fixed" || look < 1) return null;
  if (stopping.rule === "sequential") return look < people ? Math.max(look, leastForVerdict) : null;
  return [...new Set(stopping.at)].sort((a, b) => a - b)[look - 1] ?? null;
}

/** Where a study with a stopping rule stands between its looks. */
export type NextLook =
  /** A look that was begun and not brought to its end. */
  | { what: "unfinished"; look: Look }
  | { what: "stopped" }
  /** It may be made now; or once so many answers are there. */
  | { what: "due"; look: number }
  | { what: "later"; look: number; from: number }
  /** No look is left, or everybody has answered: the rest is decided when the key is opened. */
  | { what: "none" };

/**
 * What comes next. A look takes at least one answer more than the one before.
 *
 * Takes    answered: how many answers count at the moment
 */
export function nextLook(plan: Pick<Plan, "stopping" | "people">, looks: readonly Look[], answered: number): NextLook {
  if (looks.some(({ done }) => done?.body.said === "stop")) return { what: "stopped" };
  const unfinished = looks.find(({ done }) => done === null);
  if (unfinished) return { what: "unfinished", look: unfinished };
  const last = looks.at(-1)?.begun.body;
  const look = (last?.look ?? 0) + 1;
  const least = leastForLook(plan, look);
  if (least === null || answered >= plan.people) return { what: "none" };
  const from = Math.max(least, (last?.answered ?? 0) + 1);
  return answered >= from ? { what: "due", look } : { what: "later", look, from };
}
