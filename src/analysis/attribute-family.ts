import type { AttributeResult } from "../model/result-scale.ts";
import { aboveZero } from "./check.ts";
import { holm } from "./holm.ts";
import { leadingTest } from "./mixed-lead.ts";
import { studentQuantile } from "./student.ts";

/** Several attributes of one line scale: those of the family named at lock share its risk, the others are exploratory. */

type Member = Pick<AttributeResult, "inFamily">;

/** How many share the risk: 1 or more. */
export const familySize = (attributes: readonly Member[]): number =>
  Math.max(1, attributes.filter(({ inFamily }) => inFamily).length);

/**
 * The risk at which the comparisons of one attribute are judged together: all of it by itself, and in a family its even
 * share. With that share each attribute's comparisons hold whatever is true of the other attributes; what Holm's steps
 * leave would not, for an attribute that differs may still have two products that do not.
 */
export const riskOfComparisons = (attribute: Member, attributes: readonly Member[], alpha: number): number =>
  attribute.inFamily ? alpha / familySize(attributes) : alpha;

/** Overall p of an attribute, from the test that leads; null where there is none. */
const overallP = (attribute: AttributeResult): number | null => leadingTest(attribute)?.pValue ?? null;

/**
 * Attributes, each tested by itself, judged as a family.
 *
 * Takes    attributes: their comparisons judged together at `riskOfComparisons`; products: how many
 * Returns  overall p after Holm over the family as it was locked: a member without a test counts as p = 1. With two products
 *          the one comparison is that test, and its interval stands at the risk that the steps left; with more, the p of
 *          comparisons are those within the attribute times the family. Null for who is not of the family, whose numbers stay
 * Source   S. Holm 1979; Bonferroni's inequality (both from memory)
 */
export function judgedAsFamily(
  attributes: readonly AttributeResult[],
  { alpha, products }: { alpha: number; products: number },
): AttributeResult[] {
  const family = attributes.filter(({ inFamily }) => inFamily);
  const adjusted = holm(family.map((attribute) => overallP(attribute) ?? 1));
  return attributes.map((attribute) => {
    const pValue = overallP(attribute);
    const at = family.indexOf(attribute);
    if (at < 0 || pValue === null) return { ...attribute, pValueAdjusted: null };
    if (family.length === 1) return { ...attribute, pValueAdjusted: pValue };
    // rounding may leave a hair between two ways to the same number
    const pValueAdjusted = Math.max(pValue, adjusted[at] ?? 1);
    const left = riskLeft({ pValue, pValueAdjusted, alpha, size: family.length });
    const contrasts = attribute.contrasts.map((contrast) =>
      products === 2 ? atRisk(contrast, left, pValueAdjusted) : timesFamily(contrast, family.length),
    );
    return { ...attribute, pValueAdjusted, contrasts };
  });
}

type Contrast = AttributeResult["contrasts"][number];

/** Holm's step at which this p was judged: at it the plain p decides as the adjusted one does at alpha. */
function riskLeft(step: { pValue: number; pValueAdjusted: number; alpha: number; size: number }): number {
  const { pValue, pValueAdjusted, alpha, size } = step;
  return Math.min(alpha, Math.max(alpha / size, (alpha * pValue) / aboveZero(pValueAdjusted)));
}

function atRisk(contrast: Contrast, risk: number, pValueAdjusted: number): Contrast {
  const reach = -studentQuantile(risk / 2, contrast.df) * contrast.standardError;
  const { difference } = contrast;
  return { ...contrast, pValueAdjusted, lowTogether: difference - reach, highTogether: difference + reach };
}

const timesFamily = (contrast: Contrast, size: number): Contrast => ({
  ...contrast,
  pValueAdjusted: Math.min(1, size * contrast.pValueAdjusted),
});
