import type { Attribute } from "../model/attribute.ts";
import type { Kitchen } from "../model/kitchen.ts";
import type { Comparisons, Plan } from "../model/plan.ts";
import { isHolding, usualLimits } from "../model/safety-limit.ts";
import { advisedOf } from "./advice.ts";
import { emptyPlan } from "./readiness.ts";

/** How plans begin: empty, with what the kitchen usually does, or as a copy of another. Ids are given, never made here. */

/** A kitchen of which nobody has said anything: the same starting points as an empty plan has. */
export function emptyKitchen(): Kitchen {
  const { serving, palette, place, cautionsApplying, avoidCodes, alpha, panelType, standsFor, contact } = emptyPlan();
  const usual = { serving, palette, place, cautionsApplying, avoidCodes, alpha, panelType, standsFor, contact };
  return { ...usual, limits: usualLimits(), properties: [] };
}

/** The most properties that a plan takes. */
const mostProperties = 12;

/**
 * A new plan that does what this kitchen usually does. What the kitchen did not say stays as in an empty plan; no word
 * is given on its behalf: declarations, cautions read and questions of the day stay open. Of its limits those of holding
 * apply to all food; which limit of cooking does is asked.
 *
 * Takes    kitchen; newId gives a fresh id at each call
 */
export function planOfKitchen(kitchen: Kitchen, newId: () => string): Plan {
  const { properties, limits, ...usual } = kitchen;
  const empty = emptyPlan();
  const attributes = properties
    .filter(({ starts }) => starts)
    .slice(0, mostProperties)
    .map(({ starts: _starts, ...attribute }) => withNewIds({ ...attribute, inFamily: false }, newId));
  return { ...empty, ...usual, limits: limits.filter(isHolding), scale: { ...empty.scale, attributes } };
}

/**
 * A new plan like one that is there, locked or not: the same question, waves and people, under ids of its own. A new
 * day has other food on the table, so the words given for the old one are taken back: that the declarations are
 * complete, and that the cautions were read. It says which study it came from, and is nobody's invention any more.
 *
 * Takes    from: the study and its plan, and what it is called where that is not the title; titles: those in use, so
 *          that the copy gets one of its own
 */
export function copyOfPlan(
  from: { study: string; plan: Plan; called?: string },
  titles: readonly string[],
  newId: () => string,
): Plan {
  const { plan } = from;
  const ids = new Map(plan.products.map(({ id }) => [id, newId()]));
  const idOf = (id: string): string => ids.get(id) ?? id;
  return {
    ...plan,
    title: titleOfCopy(from.called ?? plan.title, titles),
    invented: false,
    copiedFrom: { study: from.study, title: plan.title },
    products: plan.products.map((product) => ({ ...product, id: idOf(product.id) })),
    reference: { ...plan.reference, product: plan.reference.product && idOf(plan.reference.product) },
    comparisons: withIds(plan.comparisons, idOf),
    chew: { ...plan.chew, control: plan.chew.control && idOf(plan.chew.control) },
    properties: plan.properties.map((property) => ({
      ...property,
      id: newId(),
      expected: property.expected && idOf(property.expected),
    })),
    ranking: { ...plan.ranking, predicted: plan.ranking.predicted.map(idOf) },
    scale: { ...plan.scale, attributes: plan.scale.attributes.map((attribute) => withNewIds(attribute, newId)) },
    waves: plan.waves.map((wave) => ({
      ...wave,
      id: newId(),
      batches: Object.fromEntries(Object.entries(wave.batches).map(([product, names]) => [idOf(product), names])),
    })),
    declarations: plan.declarations.map((declaration) => ({ ...declaration, of: idOf(declaration.of) })),
    declarationsComplete: false,
    cautionsRead: [],
    advised: advisedOf(plan),
  };
}

/**
 * A new plan from one that a file holds: as a copy of it, under its own title where no other study has that.
 *
 * Takes    from: what the file says, and the study that it was written from (null where it names none); titles: in use
 */
export function planOfFile(
  from: { study: { id: string; title: string } | null; plan: Plan },
  titles: readonly string[],
  newId: () => string,
): Plan {
  const { plan, study } = from;
  const copy = copyOfPlan({ study: study?.id ?? "", plan }, titles, newId);
  const taken = titles.some((title) => title.trim() === plan.title.trim());
  return {
    ...copy,
    title: taken ? copy.title : plan.title,
    copiedFrom: study && { study: study.id, title: study.title },
  };
}

/** A property under ids of its own, for itself and for each of its moments. */
export const withNewIds = (attribute: Attribute, newId: () => string): Attribute => ({
  ...attribute,
  id: newId(),
  further: attribute.further.map(({ moment }) => ({ id: newId(), moment })),
});

/** The comparisons of a plan with its products under other ids. */
function withIds(comparisons: Comparisons, idOf: (id: string) => string): Comparisons {
  switch (comparisons.kind) {
    case "all-pairs":
      return comparisons;
    case "reference":
      return { ...comparisons, product: comparisons.product && idOf(comparisons.product) };
    case "planned":
      return {
        ...comparisons,
        pairs: comparisons.pairs.map(({ first, second }) => ({
          first: first && idOf(first),
          second: second && idOf(second),
        })),
      };
    case "two-factors":
      return { ...comparisons, cells: comparisons.cells.map((cell) => ({ ...cell, product: idOf(cell.product) })) };
  }
}

const longestTitle = 300;

/** "Steam first? (copy)", or with the first number that no study has yet; an empty title stays empty. */
function titleOfCopy(title: string, titles: readonly string[]): string {
  const base = title.trim().replace(/ \(copy(?: \d+)?\)$/, "");
  if (base === "") return "";
  const taken = new Set(titles.map((each) => each.trim()));
  for (let number = 1; ; number += 1) {
    const end = number === 1 ? " (copy)" : ` (copy ${number})`;
    const copy = `${base.slice(0, longestTitle - end.length)}${end}`;
    if (!taken.has(copy)) return copy;
  }
}
