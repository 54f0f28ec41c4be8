import type { OpenPart } from "../model/open-part.ts";
import type { Plan } from "../model/plan.ts";
import { alike, isBlank } from "./open-text.ts";

/** What the choice of comparisons still lacks; two products leave nothing to choose. */
export function openComparisons({ comparisons, products }: Pick<Plan, "comparisons" | "products">): OpenPart[] {
  const known = (id: string | null): boolean => products.some((product) => product.id === id);
  if (products.length < 3) return [];
  switch (comparisons.kind) {
    case "all-pairs":
      return [];
    case "reference":
      return known(comparisons.product) ? [] : [{ part: "samples", what: "comparison-reference" }];
    case "planned": {
      const { pairs } = comparisons;
      if (pairs.length === 0) return [{ part: "samples", what: "comparison-pairs" }];
      const names = pairs.map(({ first, second }) => [first, second].sort().join(" "));
      return pairs.flatMap(({ first, second }, pair): OpenPart[] => {
        const sound = known(first) && known(second) && first !== second && names.indexOf(names[pair] ?? "") === pair;
        return sound ? [] : [{ part: "samples", what: "comparison-pair", pair }];
      });
    }
    case "two-factors": {
      const { factors, cells } = comparisons;
      const apart = ([one, other]: readonly [string, string]) => !isBlank(one) && !isBlank(other) && !alike(one, other);
      const worded = factors.every(({ levels }) => apart(levels)) && apart([factors[0].name, factors[1].name]);
      const own = cells.filter(({ product }) => known(product));
      const filled = new Set(own.map(({ first, second }) => `${first} ${second}`)).size;
      const whole = products.length === 4 && own.length === 4 && filled === 4;
      return [
        ...(worded ? [] : [{ part: "samples" as const, what: "factor-words" as const }]),
        ...(whole ? [] : [{ part: "samples" as const, what: "factor-cells" as const }]),
      ];
    }
  }
}
