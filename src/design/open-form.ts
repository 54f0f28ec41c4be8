import type { Attribute } from "../model/attribute.ts";
import type { OpenPart } from "../model/open-part.ts";
import { asksLiking } from "../model/steps.ts";
import { alike, isBlank } from "./open-text.ts";

/**
 * What the form of a property still lacks: the ends of a line, the labels of steps, and where "just right" may stand.
 * It leads to an action but says nothing of how much, so no verdict is about it, and no course over the chew.
 */
export function openForm({ name, form, lowAnchor, highAnchor, further }: Attribute, attribute: number): OpenPart[] {
  if (form.kind === "line") {
    const same = !isBlank(lowAnchor) && alike(lowAnchor, highAnchor);
    return same ? [{ part: "method", what: "same-anchors", attribute, name }] : [];
  }
  const { labels } = form;
  const last = labels.length - 1;
  // steps may stand without words between their ends; each one of "just right" says which way it is off
  const open: OpenPart[] = labels.flatMap((label, step) =>
    isBlank(label) && (form.kind === "just-right" || step === 0 || step === last)
      ? [{ part: "method" as const, what: "step-label" as const, attribute, name, step }]
      : [],
  );
  const same = labels.some((label, at) => !isBlank(label) && labels.slice(0, at).some((other) => alike(other, label)));
  if (same) open.push({ part: "method", what: "same-labels", attribute, name });
  if (form.kind !== "just-right") return open;
  if (attribute === 0) open.push({ part: "method", what: "first-just-right", attribute, name });
  if (further.length > 0) open.push({ part: "method", what: "just-right-moments", attribute, name });
  return open;
}

/**
 * Is liking asked on the same tray as how much there is of something? Whoever was just asked for differences likes
 * otherwise. With several samples on a tray it does not help to ask for liking first: the next sample comes after.
 */
export const likingBesideIntensity = (attributes: readonly Pick<Attribute, "form">[]): boolean =>
  attributes.some(({ form }) => asksLiking(form)) &&
  attributes.some(({ form }) => form.kind !== "just-right" && !asksLiking(form));
