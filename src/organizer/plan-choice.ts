import { discriminatorShareAt, dPrimeOf, familyOf } from "../analysis/method.ts";
import { twoAfcDPrime } from "../analysis/thurstone.ts";
import { leadAt, usualDPrime } from "../design/size-test.ts";
import type { Plan, Property, Reference, Stopping } from "../model/plan.ts";

/** Changes of what choice methods ask, as functions from one plan to the next. Ids are given, never made here. */

export const mostQuestions = 6;
const mostLooks = 5;

export const withProperty = (plan: Plan, id: string): Plan => ({
  ...plan,
  properties: [
    ...plan.properties,
    // what was said of the first holds for most further ones: a tray is made for one stronger product
    { id, name: "", comparative: "", definition: "", expected: plan.properties[0]?.expected ?? null, inFamily: true },
  ],
});

export const changeProperty = (plan: Plan, id: string, change: Partial<Property>): Plan => ({
  ...plan,
  properties: plan.properties.map((property) => (property.id === id ? { ...property, ...change } : property)),
});

export const withoutProperty = (plan: Plan, id: string): Plan => ({
  ...plan,
  properties: plan.properties.filter((property) => property.id !== id),
});

export const withReference = (plan: Plan, change: Partial<Reference>): Plan => ({
  ...plan,
  reference: { ...plan.reference, ...change },
});

/** The product that is "A" of A-not-A comes first of the plan, so that its letter in the kitchen is A too. */
export function withKnown(plan: Plan, id: string): Plan {
  const known = plan.products.filter((product) => product.id === id);
  const others = plan.products.filter((product) => product.id !== id);
  return withReference({ ...plan, products: [...known, ...others] }, { product: id });
}

/** Another stopping rule, with numbers to begin with: one look half way; a risk beta of one in five. */
export function withStopping(plan: Plan, rule: Stopping["rule"]): Plan {
  if (rule === plan.stopping.rule) return plan;
  if (rule === "looks") return { ...plan, stopping: { rule, at: [Math.max(1, Math.round(plan.people / 2))] } };
  return { ...plan, stopping: rule === "sequential" ? { rule, beta: 0.2 } : { rule } };
}

/** Numbers of answers as typed, rising; what is none, and what is beyond the fifth, is left out. */
export const readLooks = (typed: string): number[] =>
  [
    ...new Set(
      typed
        .split(/[\s,;]+/)
        .filter((part) => /^[1-9]\d{0,4}$/.test(part))
        .map(Number),
    ),
  ]
    .sort((one, other) => one - other)
    .slice(0, mostLooks);

/** A distance as the dial has it. */
export const tenth = (distance: number): number => Math.max(0.1, Math.round(distance * 10) / 10);

/** About the same difference to be found, named as a distance. */
export function soughtAsDistance(plan: Plan): Plan {
  const { method, sides, discriminatorShareSought: share } = plan;
  const distance = familyOf(method, sides) === "pair" ? twoAfcDPrime((1 + share) / 2) : dPrimeOf(method, share);
  return { ...plan, dPrimeSought: tenth(distance ?? usualDPrime) };
}

/** The same the other way round. */
export function soughtAsShare(plan: Plan): Plan {
  const { method, sides, dPrimeSought } = plan;
  if (dPrimeSought === null) return plan;
  const share = familyOf(method, sides) === "pair" ? leadAt(dPrimeSought) : discriminatorShareAt(method, dPrimeSought);
  return { ...plan, dPrimeSought: null, discriminatorShareSought: Math.max(0.01, Math.round(share * 100) / 100) };
}
