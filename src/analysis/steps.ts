import type { ScaleForm } from "../model/attribute.ts";
import type { KeptMark } from "../model/record.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import type { Distribution, JustRightResult, StepRanks } from "../model/result-steps.ts";
import { asksLiking, stepAt } from "../model/steps.ts";
import { requireCount } from "./check.ts";
import { friedman } from "./friedman.ts";
import { type JustRightRow, justRight } from "./just-right.ts";
import { midranks, rankSumsExact } from "./rank-sums.ts";
import type { ScaleInput, ScaleValue } from "./scale.ts";

/** Points of the line: a fraction of its length times this. */
export const linePoints = 100;

/** How many steps a scale has; null for the line. */
export const stepsOf = (form: ScaleForm): number | null => (form.kind === "line" ? null : form.labels.length);

/** A kept mark as a value: of the line its points with all digits, of steps the number of the step. Null: no answer. */
export function markValue(mark: Pick<KeptMark, "fraction"> | null, form: ScaleForm): number | null {
  if (mark === null || mark.fraction === null) return null;
  const steps = stepsOf(form);
  return steps === null ? mark.fraction * linePoints : stepAt(steps, mark.fraction);
}

/** Ends of what an attribute's values can be; null for lines from elsewhere, whose ends nobody knows. */
export function valueEnds(form: ScaleForm, scale: ScaleInput["scale"]): { low: number; high: number } | null {
  const steps = stepsOf(form);
  return steps === null ? scale && { low: scale.low, high: scale.high } : { low: 1, high: steps };
}

type OfSteps = Pick<AttributeResult, "form" | "distribution" | "ranks" | "justRight">;

/**
 * What only attributes in steps have.
 *
 * Takes    at: the attribute's place; panelists: everybody's means in the order of the products, as the block analysis has them
 * Throws   Problem "analysis/not-a-count" for a value that is no step of its scale
 */
export function stepsFields(
  input: ScaleInput,
  at: number,
  panelists: readonly { values: readonly (number | null)[] }[],
): OfSteps {
  const form = input.attributes[at]?.form ?? { kind: "line" };
  const steps = stepsOf(form);
  if (steps === null) return { form, distribution: null, ranks: null, justRight: null };
  return {
    form,
    distribution: distributionOf(input, at, steps),
    ranks: form.kind === "steps" ? ranksOf(panelists) : null,
    justRight: form.kind === "just-right" ? justRightOf(input, at, steps === 3 ? 3 : 5) : null,
  };
}

function distributionOf({ products, values }: ScaleInput, at: number, steps: number): Distribution {
  return products.map(({ id, name }) => {
    const counts = new Array<number>(steps).fill(0);
    for (const { attribute, product, value } of values) {
      if (attribute !== at || product !== id || value === null) continue;
      requireCount("step", value, 1, steps);
      counts[value - 1] = (counts[value - 1] ?? 0) + 1;
    }
    return { product: name, counts };
  });
}

/** Friedman's test over those with an answer for every product; null where it says nothing. */
function ranksOf(panelists: readonly { values: readonly (number | null)[] }[]): StepRanks | null {
  const people = panelists.flatMap(({ values }) => {
    const given = values.filter((value) => value !== null);
    return given.length < values.length || given.length < 2 ? [] : [midranks(given)];
  });
  if (people.length < 2) return null;
  const found = friedman(people, rankSumsExact(people));
  return found && { people: people.length, ...found };
}

function justRightOf(input: ScaleInput, at: number, steps: 3 | 5): JustRightResult {
  const { products, alpha } = input;
  const liking = input.attributes.findIndex(({ form }) => form !== undefined && asksLiking(form));
  const likings = liking < 0 ? null : valuesByChew(input.values, liking);
  const rows = input.values.flatMap((value): JustRightRow[] => {
    if (value.attribute !== at || value.value === null) return [];
    const { panelist, product, value: step } = value;
    return [{ panelist, product, step, liking: likings?.get(chewOf(value)) ?? null }];
  });
  const ids = products.map(({ id }) => id);
  const names = new Map(products.map(({ id, name }) => [id, name]));
  const cells = new Set(rows.map(({ panelist, product }) => JSON.stringify([panelist, product])));
  return {
    liking: liking < 0 ? null : liking,
    repeated: cells.size < rows.length,
    products: justRight(rows, ids, steps, 1 - alpha).map((one) => ({
      ...one,
      product: names.get(one.product) ?? one.product,
    })),
  };
}

/** What somebody said of one sample belongs together. */
const chewOf = ({ panelist, product, chew }: ScaleValue): string => JSON.stringify([panelist, product, chew]);

const valuesByChew = (values: readonly ScaleValue[], at: number): Map<string, number | null> =>
  new Map(values.flatMap((value) => (value.attribute === at ? [[chewOf(value), value.value] as const] : [])));

/** The middle of a just-right scale is its goal: too little and too much would cancel out, so no means are compared. */
export const withoutMeans = (found: AttributeResult): AttributeResult => ({
  ...found,
  outcome: found.outcome === "no-marks" || found.outcome === "withheld" ? found.outcome : "just-right",
  ...{
    blocks: null,
    mixed: null,
    noMixed: null,
    leads: "blocks" as const,
    terms: [],
    means: [],
    contrasts: [],
    positions: [],
    checks: [],
  },
  variances: { panelist: null, panelistProduct: null, residual: null },
});
