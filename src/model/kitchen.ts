import * as z from "zod/mini";
import { knownAttribute } from "./attribute.ts";
import { panelTypes, plan } from "./plan.ts";
import { safetyLimit, usualLimits } from "./safety-limit.ts";

/**
 * The one stream that holds what a kitchen usually does. A server is one kitchen's, so its id is the same everywhere:
 * two leads who begin offline write into one stream.
 */
export const kitchenId = "5d6f1c52-0f0e-4b7a-9c3e-6a1f0b7e2d10";

/** A property of the kitchen's own list; `starts`: a new study begins with it. */
export const kitchenProperty = z.strictObject({ ...knownAttribute.shape, starts: z.boolean() });
export type KitchenProperty = z.infer<typeof kitchenProperty>;

/**
 * What this kitchen usually does: what a new study begins with. A study copies it when it begins; later changes here
 * change no study. Nothing of it reaches a tablet but what a locked plan took over.
 */
export const kitchen = z.strictObject({
  serving: plan.shape.serving,
  palette: plan.shape.palette,
  place: plan.shape.place,
  cautionsApplying: plan.shape.cautionsApplying,
  avoidCodes: plan.shape.avoidCodes,
  alpha: plan.shape.alpha,
  panelType: z.enum(panelTypes),
  standsFor: plan.shape.standsFor,
  contact: plan.shape.contact,
  /** The kitchen's table of limits. A plan takes over what applies to its food. */
  limits: z._default(z.array(safetyLimit).check(z.maxLength(60)), usualLimits()),
  properties: z.array(kitchenProperty).check(z.maxLength(60)),
});
export type Kitchen = z.infer<typeof kitchen>;
