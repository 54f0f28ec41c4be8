import type { Attribute } from "../model/attribute.ts";
import type { Plan, Scale } from "../model/plan.ts";
import { followingLabels } from "../words/en/organizer-form.ts";
import { scale as scaleWords } from "../words/en/organizer-scale.ts";

/** Changes of a plan's line scale, as functions from one plan to the next. Ids are given, never made here. */

/** As many as a plan may hold. */
export const mostAttributes = 12;

const withScale = (plan: Plan, change: Partial<Scale>): Plan => ({ ...plan, scale: { ...plan.scale, ...change } });

export const withLength = (plan: Plan, lengthMm: number): Plan => withScale(plan, { lengthMm });

const blank = (id: string): Attribute => ({
  ...{ id, name: "", adjective: "", definition: "", lowAnchor: "", highAnchor: "" },
  form: { kind: "line" },
  moment: { at: "first-bite" },
  further: [],
  inFamily: false,
});

export const withAttribute = (plan: Plan, id: string): Plan => withPicked(plan, blank(id));

/** Adds a property that is written already: one of the kitchen's list. */
export const withPicked = (plan: Plan, attribute: Attribute): Plan =>
  withScale(plan, { attributes: [...plan.scale.attributes, attribute] });

export const withoutAttribute = (plan: Plan, id: string): Plan =>
  withScale(plan, { attributes: plan.scale.attributes.filter((attribute) => attribute.id !== id) });

/** Changes a property. End words and labels that nobody has typed follow the word of the question. */
export function changeAttribute(plan: Plan, id: string, change: Partial<Attribute>): Plan {
  const attributes = plan.scale.attributes.map((before) => {
    if (before.id !== id) return before;
    const changed = { ...before, ...change };
    // nothing is tested of "just right", so it takes no share of the risk
    const after = changed.form.kind === "just-right" ? { ...changed, inFamily: false } : changed;
    return change.adjective === undefined ? after : { ...after, ...following(before, after) };
  });
  return withScale(plan, { attributes });
}

function following(before: Attribute, after: Attribute): Partial<Attribute> {
  const { form } = after;
  if (form.kind === "line") return followingEnds(before, after);
  // a line that is given up leaves no ends of its old word behind; those that somebody typed wait for it
  if (before.form.kind === "line") return withoutUsualEnds(before);
  if (form.kind !== "steps" || form.liking) return {};
  return { form: { ...form, labels: followingLabels(form.labels, before.adjective, after.adjective) } };
}

function followingEnds(before: Attribute, after: Attribute): Pick<Attribute, "lowAnchor" | "highAnchor"> {
  const were = scaleWords.ends(before.adjective.trim());
  const are = scaleWords.ends(after.adjective.trim());
  const untouched = (word: string, usual: string) => word.trim() === "" || word === usual;
  return {
    lowAnchor: untouched(after.lowAnchor, were.low) ? are.low : after.lowAnchor,
    highAnchor: untouched(after.highAnchor, were.high) ? are.high : after.highAnchor,
  };
}

function withoutUsualEnds({
  adjective,
  lowAnchor,
  highAnchor,
}: Attribute): Pick<Attribute, "lowAnchor" | "highAnchor"> {
  const { low, high } = scaleWords.ends(adjective.trim());
  return { lowAnchor: lowAnchor === low ? "" : lowAnchor, highAnchor: highAnchor === high ? "" : highAnchor };
}

/** Moves a property up (-1) or down (1); the first one is what the question is about. */
export function moveAttribute(plan: Plan, id: string, by: -1 | 1): Plan {
  const attributes = [...plan.scale.attributes];
  const at = attributes.findIndex((attribute) => attribute.id === id);
  const [moved] = attributes.splice(at, 1);
  if (at < 0 || !moved) return plan;
  attributes.splice(Math.max(0, at + by), 0, moved);
  return withScale(plan, { attributes });
}
