import { shapeOf } from "../model/method.ts";
import type { OpenPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";

/** What a plan of chewed and weighed portions still lacks; empty for every other method. */

/** Trays that one person alone needs: fewer portions of each product give no bounds worth the name. */
export const leastTraysOfOne = 3;

const isChewed = ({ method }: Pick<Plan, "method">): boolean => shapeOf(method).answer === "portions";

/** Products that are compared: all but the inert control, which shows saliva alone. */
const compared = ({ products, chew }: Plan): number => products.filter(({ id }) => id !== chew.control).length;

export function openChew(plan: Plan): OpenPart[] {
  const { chew, products, serving } = plan;
  if (!isChewed(plan)) return [];
  return [
    ...(chew.balanceStep === "" || !(Number(chew.balanceStep) > 0)
      ? [{ part: "method", what: "balance-step" } as const]
      : []),
    ...(chew.control !== null && !products.some(({ id }) => id === chew.control)
      ? [{ part: "samples", what: "control" } as const]
      : []),
    ...(products.length >= 2 && compared(plan) < 2 ? [{ part: "samples", what: "beside-control" } as const] : []),
    ...(serving.portionGrams === null ? [{ part: "samples", what: "portion" } as const] : []),
    ...(serving.portionGrams !== null && chew.toleranceGrams >= serving.portionGrams
      ? [{ part: "method", what: "tolerance", portion: serving.portionGrams } as const]
      : []),
  ];
}
