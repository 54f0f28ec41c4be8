import { type Allergen, allergens } from "../model/allergen.ts";
import { canonicalText, sha256 } from "../model/canonical.ts";
import { swallowOf } from "../model/chew-plan.ts";
import { shapeOf } from "../model/method.ts";
import { askedAttributes, inOrderOfMoments } from "../model/moments.ts";
import type { BlindPacket, BlindTray } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { drawsLine } from "../model/steps.ts";
import { consentOf } from "./consent.ts";
import { designMethod } from "./method.ts";
import { applyingCautions } from "./open-safety.ts";

/**
 * The blind packet of a study: all that its tablets ever receive.
 *
 * Takes    plan, study: as locked; trays: the blind half; commitment: of the sealed key
 * Returns  the packet. Allergens are one list over everything served, so that they tell nothing of a tray
 */
export function blindPacketOf(plan: Plan, study: string, trays: BlindTray[], commitment: string): BlindPacket {
  const { cleanser, pauseSeconds, retaste, warmUp } = plan.serving;
  const portions = shapeOf(plan.method).answer === "portions";
  const union = allergenUnion(plan);
  return {
    v: 1,
    study,
    method: plan.method,
    wording: designMethod(plan.method).wording,
    noPreference: plan.method === "paired-preference" && plan.noPreference !== "not-offered",
    reference: shapeOf(plan.method).reference,
    properties: shapeOf(plan.method).property
      ? plan.properties.map(({ id, comparative, definition }) => ({ id, comparative, definition }))
      : [],
    ranking: shapeOf(plan.method).answer === "order" ? rankingOf(plan) : null,
    line: plan.method === "line-scale" ? scaleOf(plan) : null,
    chew: portions ? chewOf(plan) : null,
    palette: plan.palette,
    allergens: { version: sha256(canonicalText(union)), ...union },
    cautions: applyingCautions(plan),
    consent: consentOf(plan),
    swallow: swallowOf(plan),
    cleanser,
    pauseSeconds,
    // a portion that was spat out is not tasted again
    retaste: retaste && !portions,
    warmUp,
    trays,
    commitment,
  };
}

/** What is asked of each sample. Only a property with a line needs to know how long it is. */
const scaleOf = ({ scale: { lengthMm, attributes } }: Plan): BlindPacket["line"] => ({
  lengthMm: drawsLine(attributes) ? lengthMm : null,
  attributes: inOrderOfMoments(askedAttributes(attributes)),
});

/** What samples are put in order of; nothing of what was predicted. */
const rankingOf = ({ ranking: { least, most, definition } }: Plan): BlindPacket["ranking"] => ({
  least,
  most,
  definition,
});

/** How portions are chewed; nothing of balances, of what is inert or of what is looked for. */
const chewOf = ({ chew: { seconds, mouth, waitSeconds, rinseGrams } }: Plan): BlindPacket["chew"] => ({
  seconds,
  mouth,
  waitSeconds: mouth === "rinsed-and-waited" ? waitSeconds : 0,
  rinseGrams,
});

/**
 * Allergens over everything that is served, each in one list only, in the order of the law that the plan page shows
 * too: the order of products, of declarations and of words within them leaves no trace. Declarations of a product
 * that the plan no longer has are left out, as is that of a warm-up or a carrier that is not served.
 */
export function allergenUnion(plan: Plan): Omit<BlindPacket["allergens"], "version"> {
  const products = new Set(plan.products.map((product) => product.id));
  const served = plan.declarations.filter(({ of }) =>
    of === "warm-up"
      ? plan.serving.warmUp
      : of === "carrier"
        ? plan.carrier !== false
        : of === "cleanser" || products.has(of),
  );
  const contains = new Set(served.flatMap((declaration) => declaration.contains));
  const may = new Set(served.flatMap((declaration) => declaration.mayContain));
  const inOrder = (wanted: (allergen: Allergen) => boolean) => allergens.filter(wanted);
  return {
    contains: inOrder((allergen) => contains.has(allergen)),
    mayContain: inOrder((allergen) => may.has(allergen) && !contains.has(allergen)),
    other: [...new Set(served.map(({ other }) => other.trim()).filter((other) => other !== ""))].sort(),
  };
}
