import { familyOf } from "../analysis/method.ts";
import { mostWithLooks } from "../analysis/stopping-rule.ts";
import type { Attribute, Moment } from "../model/attribute.ts";
import { shapeOf } from "../model/method.ts";
import { sameMoment } from "../model/moments.ts";
import type { OpenPart } from "../model/open-part.ts";
import { leastForVerdict } from "../model/outcome.ts";
import type { Plan, Property } from "../model/plan.ts";
import { asksLiking } from "../model/steps.ts";
import { openForm } from "./open-form.ts";
import { alike, isBlank } from "./open-text.ts";
import { seeksLikeness, sizeTest } from "./size-test.ts";

/** What the method's part of a plan still lacks: the question as it is asked, what is sought, and when to stop. */
export function openMethod(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  if (!isRisk(plan.alpha)) open.push({ part: "method", what: "alpha" });
  if (plan.goal === "similarity" && !seeksLikeness(plan)) open.push({ part: "method", what: "goal" });
  if (plan.method === "line-scale") return [...open, ...openScale(plan.scale.attributes)];
  if (shapeOf(plan.method).answer === "order") return [...open, ...openRanking(plan)];
  if (shapeOf(plan.method).answer === "portions") return open;
  if (shapeOf(plan.method).property) open.push(...openProperties(plan.properties));
  const sought = plan.discriminatorShareSought;
  if (familyOf(plan.method, plan.sides) === "kinds") {
    if (plan.dPrimeSought === null) open.push({ part: "method", what: "distance-sought" });
  } else if (!(sought > 0 && sought <= 1)) open.push({ part: "method", what: "share-sought" });
  return [...open, ...openStopping(plan), ...openNorm(plan)];
}

function openProperties(properties: readonly Property[]): OpenPart[] {
  if (properties.length === 0) return [{ part: "method", what: "properties" }];
  return properties.flatMap(({ name, comparative, definition }, property): OpenPart[] => {
    const lines = { name, comparative, definition } as const;
    const blank = (Object.keys(lines) as (keyof typeof lines)[]).filter((field) => isBlank(lines[field]));
    const twice = properties
      .slice(0, property)
      .some((other) => !isBlank(name) && (alike(other.name, name) || alike(other.comparative, comparative)));
    return [
      ...blank.map((field) => ({ part: "method" as const, what: "property-field" as const, property, name, field })),
      ...(twice ? [{ part: "method" as const, what: "same-property" as const, property, name }] : []),
    ];
  });
}

/** May the study end before everybody has answered? Only where one count of right answers decides. */
export function mayStopEarly(plan: Plan): boolean {
  const { method, sides, properties, repeats } = plan;
  const oneQuestion = !shapeOf(method).property || properties.length <= 1;
  return familyOf(method, sides) === "choice" && oneQuestion && !seeksLikeness(plan) && repeats === 1;
}

function openStopping(plan: Plan): OpenPart[] {
  const { stopping, people } = plan;
  if (stopping.rule === "fixed") return [];
  if (!mayStopEarly(plan) || people > mostWithLooks) return [{ part: "method", what: "stopping" }];
  if (stopping.rule === "sequential") {
    // between guessing and certainty lies what Wald's lines are drawn from
    const share = sizeTest(plan)?.soughtAt ?? 0;
    return share > 0 && share < 1 && isRisk(stopping.beta) ? [] : [{ part: "method", what: "stopping" }];
  }
  const rising = stopping.at.every((at, look) => at > (stopping.at[look - 1] ?? leastForVerdict - 1) && at < people);
  return rising ? [] : [{ part: "method", what: "look-numbers", least: leastForVerdict, people }];
}

/** A plan keeps what was typed for another method or rule: that is no part of this study. */
function openNorm({ method, noPreference, blankNorm }: Plan): OpenPart[] {
  if (blankNorm === null || method !== "paired-preference" || noPreference === "not-offered") return [];
  const { none, of } = blankNorm;
  return none <= of && of >= 1 ? [] : [{ part: "method", what: "blank-norm", none, of }];
}

function openRanking({ ranking, products }: Plan): OpenPart[] {
  const { name, least, most, definition, predicted } = ranking;
  const lines = { name, least, most, definition } as const;
  const open: OpenPart[] = (Object.keys(lines) as (keyof typeof lines)[])
    .filter((field) => isBlank(lines[field]))
    .map((field) => ({ part: "method", what: "ranking-field", field }));
  if (!isBlank(least) && alike(least, most)) open.push({ part: "method", what: "same-ends" });
  const named = products.every(({ id }) => predicted.filter((known) => known === id).length === 1);
  if (predicted.length > 0 && !(named && predicted.length === products.length)) {
    open.push({ part: "method", what: "predicted-order" });
  }
  return open;
}

function openScale(attributes: readonly Attribute[]): OpenPart[] {
  if (attributes.length === 0) return [{ part: "method", what: "attributes" }];
  const open = attributes.flatMap((one, attribute): OpenPart[] => {
    const { name } = one;
    const twice = hasTwice(momentsOf(one)) || attributes.slice(0, attribute).some((other) => sameQuestion(other, one));
    return [
      ...blankFields(one).map((field) => ({
        part: "method" as const,
        what: "attribute-field" as const,
        attribute,
        name,
        field,
      })),
      ...(twice ? [{ part: "method" as const, what: "same-attribute" as const, attribute, name }] : []),
      ...openForm(one, attribute),
    ];
  });
  return [...open, ...openClocks(attributes)];
}

type AttributeField = Extract<OpenPart, { what: "attribute-field" }>["field"];

/** Liking may be asked of the sample as a whole: then it has no word, and nothing to define. */
function blankFields({ name, adjective, definition, lowAnchor, highAnchor, form }: Attribute): AttributeField[] {
  const asked = asksLiking(form) ? { name } : { name, adjective, definition };
  const ends = form.kind === "line" ? { "low-anchor": lowAnchor, "high-anchor": highAnchor } : {};
  return Object.entries({ ...asked, ...ends }).flatMap(([field, typed]) =>
    isBlank(typed) ? [field as AttributeField] : [],
  );
}

function openClocks(attributes: readonly Attribute[]): OpenPart[] {
  const has = (at: Moment["at"]) => (one: Attribute) => momentsOf(one).some((moment) => moment.at === at);
  const attribute = attributes.findIndex(has("chews"));
  if (attribute < 0 || !attributes.some(has("after"))) return [];
  return [{ part: "method", what: "mixed-clocks", attribute, name: attributes[attribute]?.name ?? "" }];
}

const momentsOf = ({ moment, further }: Attribute): Moment[] => [moment, ...further.map(({ moment }) => moment)];
const hasTwice = (moments: readonly Moment[]): boolean =>
  moments.some((one, at) => moments.slice(0, at).some((other) => sameMoment(one, other)));

/** One property at one moment, asked twice. */
const sameQuestion = (one: Attribute, other: Attribute): boolean =>
  !isBlank(one.name) &&
  alike(one.name, other.name) &&
  momentsOf(one).some((moment) => momentsOf(other).some((asked) => sameMoment(moment, asked)));

export const isRisk = (alpha: number): boolean => alpha > 0 && alpha <= 0.5;
