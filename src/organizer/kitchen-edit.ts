import { type Attribute, type Caution, cautions } from "../model/attribute.ts";
import { canonicalText } from "../model/canonical.ts";
import type { Kitchen, KitchenProperty } from "../model/kitchen.ts";
import { type KitchenField, kitchenFields } from "../words/en/organizer-kitchen.ts";

/** Changes of the kitchen's defaults, as functions from one version to the next. Ids are given, never made here. */

export const mostProperties = 60;

export const withServing = (kitchen: Kitchen, change: Partial<Kitchen["serving"]>): Kitchen => ({
  ...kitchen,
  serving: { ...kitchen.serving, ...change },
});

export function withCaution(kitchen: Kitchen, caution: Caution, applies: boolean): Kitchen {
  const applying = cautions.filter((each) => (each === caution ? applies : kitchen.cautionsApplying.includes(each)));
  return { ...kitchen, cautionsApplying: applying };
}

/** Adds a property of which nothing is said yet; nothing happens once the list is full. */
export function withProperty(kitchen: Kitchen, id: string): Kitchen {
  if (kitchen.properties.length >= mostProperties) return kitchen;
  const empty: KitchenProperty = {
    id,
    name: "",
    adjective: "",
    definition: "",
    form: { kind: "line" },
    lowAnchor: "",
    highAnchor: "",
    moment: { at: "first-bite" },
    further: [],
    starts: false,
  };
  return { ...kitchen, properties: [...kitchen.properties, empty] };
}

export const changeProperty = (kitchen: Kitchen, id: string, change: Partial<KitchenProperty>): Kitchen => ({
  ...kitchen,
  properties: kitchen.properties.map((property) => (property.id === id ? { ...property, ...change } : property)),
});

export const withoutProperty = (kitchen: Kitchen, id: string): Kitchen => ({
  ...kitchen,
  properties: kitchen.properties.filter((property) => property.id !== id),
});

/** A property as a plan takes it, without what only the list says of it. */
export function asAttribute({ starts: _starts, ...attribute }: KitchenProperty): Attribute {
  return { ...attribute, inFamily: false };
}

/** In what two versions differ, in the order of the page. */
export function differences(one: Kitchen, other: Kitchen): KitchenField[] {
  const flat = ({ serving, ...rest }: Kitchen): Record<KitchenField, unknown> => ({ ...serving, ...rest });
  const [a, b] = [flat(one), flat(other)];
  return kitchenFields.filter((field) => canonicalText(a[field]) !== canonicalText(b[field]));
}
