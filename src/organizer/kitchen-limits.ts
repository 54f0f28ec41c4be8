import { canonicalText } from "../model/canonical.ts";
import type { Kitchen } from "../model/kitchen.ts";
import type { Plan } from "../model/plan.ts";
import {
  type CookingLimit,
  isCooking,
  isHolding,
  type LimitTable,
  limitTables,
  type OutLimit,
  type SafetyLimit,
} from "../model/safety-limit.ts";

/** Changes of the limits, in the kitchen's table and in a plan, as functions from one version to the next. */

export const mostLimits = 60;

const begun: Record<SafetyLimit["kind"], SafetyLimit> = {
  cooking: { kind: "cooking", food: "", celsius: 74, heldSeconds: 0, restMinutes: 0, source: "", checked: "" },
  "hot-holding": { kind: "hot-holding", celsius: 63, source: "", checked: "" },
  "cold-holding": { kind: "cold-holding", celsius: 4, source: "", checked: "" },
  out: { kind: "out", from: "either", minutes: 60, airAtMost: null, foodAtMost: null, source: "", checked: "" },
};

/** A new row of a kind, below the others of it; nothing happens once the table is full. */
export function withLimit(kitchen: Kitchen, kind: SafetyLimit["kind"]): Kitchen {
  if (kitchen.limits.length >= mostLimits) return kitchen;
  return { ...kitchen, limits: kitchen.limits.toSpliced(placeOf(kitchen.limits, kind), 0, begun[kind]) };
}

/** Where a new row of a kind goes: kinds stand together, in their own order. */
export function placeOf(limits: readonly SafetyLimit[], kind: SafetyLimit["kind"]): number {
  const kinds = Object.keys(begun);
  return limits.filter((limit) => kinds.indexOf(limit.kind) <= kinds.indexOf(kind)).length;
}

/** Fields of a row. A change names only fields that its kind has. */
export type LimitChange = Partial<Omit<CookingLimit, "kind"> & Omit<OutLimit, "kind">>;

/** Changes a row. What is another row was not checked yet. */
export const changeLimit = (kitchen: Kitchen, at: number, change: LimitChange): Kitchen => ({
  ...kitchen,
  limits: kitchen.limits.map((limit, place) =>
    place === at ? ({ ...limit, checked: "", ...change } as SafetyLimit) : limit,
  ),
});

export const withoutLimit = (kitchen: Kitchen, at: number): Kitchen => ({
  ...kitchen,
  limits: kitchen.limits.filter((_limit, place) => place !== at),
});

/** Somebody looked up every row, on that day. */
export const allChecked = (kitchen: Kitchen, day: string): Kitchen => ({
  ...kitchen,
  limits: kitchen.limits.map((limit) => ({ ...limit, checked: day })),
});

export const withTable = (kitchen: Kitchen, table: LimitTable): Kitchen => ({
  ...kitchen,
  limits: [...limitTables[table]],
});

/** Rows of cooking, by food: those of one food are alternatives. */
export function byFood(limits: readonly SafetyLimit[]): CookingLimit[][] {
  const foods = new Map<string, CookingLimit[]>();
  for (const limit of limits.filter(isCooking)) {
    const food = limit.food.trim().toLowerCase();
    foods.set(food, [...(foods.get(food) ?? []), limit]);
  }
  return [...foods.values()];
}

const same = (one: readonly SafetyLimit[], other: readonly SafetyLimit[]): boolean =>
  canonicalText(one.map(canonicalText).sort()) === canonicalText(other.map(canonicalText).sort());
const foodOf = ([row]: readonly CookingLimit[]): string => row?.food.trim().toLowerCase() ?? "";

/** What a plan can choose of: the kitchen's foods as they are now, and those that only the plan still has. */
export function offeredFoods(plan: Plan, table: readonly SafetyLimit[]): CookingLimit[][] {
  const now = byFood(table);
  const known = new Set(now.map(foodOf));
  return [...now, ...byFood(plan.limits).filter((rows) => !known.has(foodOf(rows)))];
}

export const holdsTo = (plan: Plan, rows: readonly CookingLimit[]): boolean =>
  byFood(plan.limits).some((mine) => foodOf(mine) === foodOf(rows));

/** Says whether a food's limits of cooking apply. With them the plan takes the limits of holding, if it has none. */
export function applyFood(
  plan: Plan,
  rows: readonly CookingLimit[],
  applies: boolean,
  table: readonly SafetyLimit[],
): Plan {
  const others = plan.limits.filter((limit) => isHolding(limit) || limit.food.trim().toLowerCase() !== foodOf(rows));
  const holding = others.some(isHolding) ? [] : table.filter(isHolding);
  const cooking = [...others.filter(isCooking), ...(applies ? rows : [])];
  return {
    ...plan,
    uncooked: plan.uncooked && !applies,
    limits: [...cooking, ...others.filter(isHolding), ...(applies ? holding : [])],
  };
}

/** Says, or takes back, that nothing has to be cooked through; saying it drops the limits of cooking. */
export const withUncooked = (plan: Plan, uncooked: boolean): Plan => ({
  ...plan,
  uncooked,
  limits: uncooked ? plan.limits.filter(isHolding) : plan.limits,
});

/** The plan's limits as the kitchen's table has them now: the foods it chose, and all of holding. */
export function takeTable(plan: Plan, table: readonly SafetyLimit[]): Plan {
  const chosen = new Set(byFood(plan.limits).map(foodOf));
  const now = byFood(table);
  const gone = byFood(plan.limits).filter((rows) => !now.some((other) => foodOf(other) === foodOf(rows)));
  const cooking = [...now.filter((rows) => chosen.has(foodOf(rows))), ...gone].flat();
  return { ...plan, limits: [...cooking, ...table.filter(isHolding)] };
}

/** Would the plan's limits be others if it took over the table now? */
export const differsFromTable = (plan: Plan, table: readonly SafetyLimit[]): boolean =>
  !same(plan.limits, takeTable(plan, table).limits);
