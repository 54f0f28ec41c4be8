import { leastForVerdict } from "../model/outcome.ts";
import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { PairFacts, ScaleFacts } from "../words/en/report-scale.ts";
import type { AttributeText, FamilyText, Part } from "./describe.ts";
import { contrastsTable, decimalsOf, meansTable, rowsOf } from "./describe-attribute.ts";
import { curveParts } from "./describe-curve.ts";
import { besideText, byHolm, type NamedAttribute, sharedBy, stripParts } from "./describe-family.ts";
import { panelPart } from "./describe-panel.ts";
import { distributionTable, endsText, justRightParts, justRightVerdict } from "./describe-steps.ts";
import { leadingTest } from "./mixed-lead.ts";
import { unevenOf } from "./uneven.ts";

/** What is said of a line scale: the verdict and the size are those of the first property. */
export function scaleWords(result: ScaleResult, words: ReportWords): FamilyText {
  const { scale } = words;
  const attributes = result.attributes.map((attribute, at) => attributeText(result, attribute, at === 0, words));
  const [first] = result.attributes;
  const test = result.outcome === "withheld" || !first ? null : leadingTest(first);
  return {
    verdict: verdictOf(result, first, words),
    size: sizeOf(result, first, words),
    agreed: agreedOf(result, words),
    meaning: test ? scale.pInWords(test, result.alpha) : "",
    chance: null,
    rows: attributes[0]?.rows ?? [],
    attributes,
    parts: [
      ...stripParts(
        result,
        result.attributes.map((attribute) => namedOf(result, attribute, words)),
        words,
      ),
      ...curveParts(result, words),
      ...justRightParts(result, words),
      ...panelParts(result, first, words),
    ],
  };
}

const namedOf = (result: ScaleResult, attribute: AttributeResult, words: ReportWords): NamedAttribute => ({
  attribute,
  subject: factsOf(result, attribute, words).subject,
  heading: words.scale.heading(attribute.attribute, attribute.moment, attribute.momentText),
  decimals: decimalsOf(result, attribute),
});

function panelParts(result: ScaleResult, first: AttributeResult | undefined, words: ReportWords): Part[] {
  const part = first
    ? panelPart(result, factsOf(result, first, words).subject, decimalsOf(result, first), words)
    : null;
  return part ? [part] : [];
}

function verdictOf(result: ScaleResult, first: AttributeResult | undefined, words: ReportWords): string {
  const { verdict } = words.scale;
  if (result.outcome === "withheld") return verdict.withheld;
  if (!first || result.judgments === 0) return verdict.nothing;
  const middle = justRightVerdict(first, words);
  if (middle !== null) return middle;
  const facts = factsOf(result, first, words);
  if (!facts.test) return verdict.noTest(reasonOf(first, words));
  if (result.outcome === "reached" || result.outcome === "not-reached") return verdict[result.outcome](facts);
  return verdict.tooFewPeople(facts);
}

function factsOf(result: ScaleResult, attribute: AttributeResult, { scale }: ReportWords): ScaleFacts {
  const { alpha, products } = result;
  const decimals = decimalsOf(result, attribute);
  const pairs = attribute.contrasts.map((contrast) => turned(contrast, result, attribute, decimals));
  return {
    subject: scale.subject(attribute.attribute, attribute.moment, attribute.momentText),
    products,
    people: attribute.people,
    judgments: attribute.judgments,
    test: leadingTest(attribute),
    family: sharedBy(result, attribute),
    adjusted: attribute.pValueAdjusted,
    pair: clearest(pairs),
    comparisons: pairs.length,
    standOut: pairs.filter(({ pValueAdjusted }) => pValueAdjusted <= alpha),
    alpha,
    planned: result.study !== null,
    leastForVerdict,
  };
}

/** A comparison with what was marked higher first. */
function turned(
  contrast: AttributeResult["contrasts"][number],
  result: ScaleResult,
  attribute: AttributeResult,
  decimals: number,
): PairFacts {
  const { compared, first, second, difference, lowTogether: low, highTogether: high } = contrast;
  const { pValue, pValueAdjusted } = contrast;
  const common = {
    ...{ compared, pValue, pValueAdjusted, decimals, confidence: result.confidence, unit: unitOf(attribute.form) },
    ...{ among: attribute.contrasts.length, family: sharedBy(result, attribute), holm: byHolm(result, attribute) },
  };
  // 0 less a number, so that no minus zero comes out
  return difference < 0 && compared !== "interaction"
    ? { ...common, higher: second, lower: first, by: 0 - difference, low: 0 - high, high: 0 - low }
    : { ...common, higher: first, lower: second, by: difference, low, high };
}

/** The pair that chance explains least; of several, the one that lies farthest apart. */
const clearest = (pairs: readonly PairFacts[]): PairFacts | null =>
  pairs.toSorted(
    (one, other) => one.pValueAdjusted - other.pValueAdjusted || one.pValue - other.pValue || other.by - one.by,
  )[0] ?? null;

function sizeOf(result: ScaleResult, first: AttributeResult | undefined, words: ReportWords): string {
  const { size } = words.scale;
  if (result.outcome === "withheld") return size.withheld;
  if (first?.outcome === "just-right") return words.steps.justRight.size(first.justRight?.liking != null);
  const pair = first ? factsOf(result, first, words).pair : null;
  return pair ? size.pair(pair) : size.none;
}

function agreedOf({ study, outcome, attributes }: ScaleResult, { agreed, scale, steps }: ReportWords): string {
  if (!study) return agreed.noStudy;
  if (attributes[0]?.outcome === "just-right") return steps.justRight.agreed;
  const step = outcome === "reached" || outcome === "not-reached" ? scale.agreed[outcome] : agreed[outcome];
  return step(study.ifYes, study.ifNo);
}

/** Why an attribute has no test. */
function reasonOf({ outcome, means }: AttributeResult, { scale }: ReportWords): string {
  if (outcome === "ok") return "";
  const missing = means.filter(({ judgments }) => judgments === 0).map(({ product }) => product);
  const adjusted = means.flatMap((mean) => (mean.adjusted === null ? [] : [mean.adjusted]));
  const spread = Math.max(...adjusted) - Math.min(...adjusted);
  const size = Math.max(...adjusted.map(Math.abs));
  // what rounding leaves between equal means is no difference
  return scale.noTest[outcome](missing, spread > 64 * Number.EPSILON * size);
}

function attributeText(
  result: ScaleResult,
  attribute: AttributeResult,
  first: boolean,
  words: ReportWords,
): AttributeText {
  const { scale } = words;
  const facts = factsOf(result, attribute, words);
  const { picture } = scale;
  const two = result.products.length === 2;
  return {
    heading: scale.heading(attribute.attribute, attribute.moment, attribute.momentText),
    ends: endsText(result, attribute, words),
    distribution: attribute.judgments > 0 ? distributionTable(attribute, words) : null,
    apart: attribute.outcome === "just-right",
    finding: findingOf(attribute, facts, words),
    beside: first ? "" : besideText(result, attribute, words),
    lead: attribute.outcome === "withheld" ? "" : scale.lead({ ...attribute, uneven: unevenOf(attribute) }),
    rows: rowsOf(result, attribute, words),
    means:
      attribute.means.length > 0 && attribute.judgments > 0
        ? meansTable(result, attribute, facts.subject, words)
        : null,
    contrasts: attribute.contrasts.length > 0 ? contrastsTable(result, attribute, facts.subject, words) : null,
    decimals: decimalsOf(result, attribute),
    picture: {
      caption:
        attribute.contrasts.length === 0
          ? picture.noTest
          : two
            ? picture.two(result.confidence)
            : picture.many(result.confidence, byHolm(result, attribute)),
    },
  };
}

function findingOf(attribute: AttributeResult, { test, pair }: ScaleFacts, words: ReportWords): string {
  const { finding } = words.scale;
  if (!test || !pair || attribute.outcome === "withheld") return finding.noTest(reasonOf(attribute, words));
  if (pair.among > 1) return finding.many(test, pair);
  return pair.by === 0 ? finding.even(pair) : finding.two(pair);
}
