import type { AttributeResult } from "../model/result-scale.ts";
import type { Uneven } from "../words/en/mixed.ts";

/**
 * In which way not everybody marked everything as often: marks of some products alone, or unequal repeats of what was
 * marked. Both can be; in incomplete blocks marks of some products are the plan.
 */
export function unevenOf({
  panelists,
  repeats,
  judgments,
}: Pick<AttributeResult, "panelists" | "repeats" | "judgments">): Uneven {
  const counts = panelists.map(({ values }) => values.filter((value) => value !== null).length);
  const marked = counts.reduce((sum, count) => sum + count, 0);
  return {
    // who marked nothing leaves no gap in what is compared
    some: panelists.some(({ values }, at) => (counts[at] ?? 0) > 0 && (counts[at] ?? 0) < values.length),
    repeats: judgments < repeats * marked,
  };
}
