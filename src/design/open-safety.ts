import { type Caution, cautions } from "../model/attribute.ts";
import type { OpenPart } from "../model/open-part.ts";
import type { Declaration, Plan } from "../model/plan.ts";
import { isCooking } from "../model/safety-limit.ts";
import { isUndercooked } from "../model/undercooked.ts";
import { isBlank } from "./open-text.ts";

/** Safety of a plan: what has to be declared and read, and what still lacks. */

/** Cautions of a plan, in fixed order: those the lead named, and hygiene and choking, which every tasting has. */
export function applyingCautions(plan: Plan): Caution[] {
  const applying = new Set<Caution>(["hygiene", "choking", ...plan.cautionsApplying]);
  return cautions.filter((caution) => applying.has(caution));
}

/**
 * What needs an allergen declaration: each product (by id), and the warm-up, the cleanser and the carrier if there are any.
 */
export function toDeclare(plan: Plan): string[] {
  return [
    ...plan.products.map((product) => product.id),
    ...(plan.serving.warmUp ? ["warm-up"] : []),
    ...(isBlank(plan.serving.cleanser) ? [] : ["cleanser"]),
    ...(plan.carrier === true ? ["carrier"] : []),
  ];
}

/** What of allergens, limits, cautions and consent is still open. */
export function openSafety(plan: Plan): OpenPart[] {
  const open: OpenPart[] = [];
  if (plan.carrier === null) open.push({ part: "safety", what: "carrier" });
  if (plan.carrier === true && isBlank(plan.carrierWhat)) open.push({ part: "safety", what: "carrier-what" });
  const declared = new Set(plan.declarations.filter(saysSomething).map((declaration) => declaration.of));
  for (const of of toDeclare(plan)) {
    if (declared.has(of)) continue;
    const at = plan.products.findIndex(({ id }) => id === of);
    const name = plan.products[at]?.name ?? "";
    open.push({ part: "safety", what: "declaration", of, product: at < 0 ? null : at, name });
  }
  if (!plan.declarationsComplete) open.push({ part: "safety", what: "declarations-complete" });
  if (!cookingIsSaid(plan)) open.push({ part: "safety", what: "cooking-limit" });
  if (isUndercooked(plan) && isBlank(plan.responsible)) open.push({ part: "safety", what: "responsible" });
  for (const caution of applyingCautions(plan)) {
    if (!plan.cautionsRead.includes(caution)) open.push({ part: "safety", what: "caution", caution });
  }
  if (isBlank(plan.served)) open.push({ part: "safety", what: "served" });
  if (isBlank(plan.contact)) open.push({ part: "safety", what: "contact" });
  return open;
}

/** Is it said how hot the core has to get, that nothing is cooked, or that it is undercooked by design? */
const cookingIsSaid = (plan: Plan): boolean => plan.uncooked || isUndercooked(plan) || plan.limits.some(isCooking);

const saysSomething = ({ contains, mayContain, other, none }: Declaration): boolean =>
  none || contains.length > 0 || mayContain.length > 0 || !isBlank(other);
