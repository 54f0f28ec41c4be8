import { leastForVerdict } from "../model/outcome.ts";
import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { IntervalKind } from "../words/en/report-family.ts";
import { points } from "../words/number.ts";
import { familySize } from "./attribute-family.ts";
import type { Part, StripPart } from "./describe.ts";
import { stepsOf } from "./steps.ts";

/** What one attribute's test comes to, beside the others of a study. */
type Standing = "shown" | "not-shown" | "no-verdict" | "no-test" | "exploratory";

function standingOf({ alpha }: ScaleResult, attribute: AttributeResult): Standing {
  const { inFamily, pValueAdjusted, people } = attribute;
  if (!inFamily) return "exploratory";
  if (pValueAdjusted === null) return "no-test";
  if (people < leastForVerdict) return "no-verdict";
  return pValueAdjusted <= alpha ? "shown" : "not-shown";
}

/** How many properties share the risk with this one: 1 where it is alone, or exploratory. */
export const sharedBy = ({ attributes }: ScaleResult, { inFamily }: AttributeResult): number =>
  inFamily ? familySize(attributes) : 1;

/** Do its intervals stand at the risk that Holm's steps left each, so that together they have no one level? */
export const byHolm = (result: ScaleResult, attribute: AttributeResult): boolean =>
  attribute.adjustment === "holm" || (result.products.length === 2 && sharedBy(result, attribute) > 1);

/** What the intervals of properties side by side are. */
export function intervalsOf(result: ScaleResult, strip: readonly NamedAttribute[]): IntervalKind {
  if (strip.some(({ attribute }) => byHolm(result, attribute))) return "holm";
  return result.products.length > 2 ? "together" : "own";
}

/** Beside what was found of a property that is not the question's: does it count, and what does that come to? */
export function besideText(result: ScaleResult, attribute: AttributeResult, { scale, family }: ReportWords): string {
  const standing = standingOf(result, attribute);
  const { pValueAdjusted: p } = attribute;
  if (standing === "exploratory" || result.outcome === "withheld") return scale.beside;
  if (p === null || standing === "no-test") return family.counts["no-test"];
  return standing === "no-verdict" ? family.counts["no-verdict"] : family.counts[standing](p, result.alpha);
}

type Naming = { subject: string; heading: string; decimals: number };
/** An attribute under its names, as the report has them. */
export type NamedAttribute = { attribute: AttributeResult } & Naming;

/** Properties drawn on one axis: those of one scale. A just-right scale has no differences to draw. */
export function stripsOf(named: readonly NamedAttribute[]): NamedAttribute[][] {
  const strips = new Map<number | null, NamedAttribute[]>();
  for (const one of named) {
    const { form } = one.attribute;
    if (form.kind === "just-right") continue;
    const steps = stepsOf(form);
    strips.set(steps, [...(strips.get(steps) ?? []), one]);
  }
  return [...strips.values()];
}

export const isStrip = (id: Part["id"]): id is StripPart => /^strip-\d+$/.test(id);

/** All properties' differences side by side; nothing where there is one property, or the key is in doubt. */
export function stripParts(result: ScaleResult, named: readonly NamedAttribute[], words: ReportWords): Part[] {
  // of values from elsewhere nobody here knows whether their properties have one unit
  const strips = stripsOf(named);
  const compared = strips.flat();
  if (compared.length < 2 || result.outcome === "withheld" || result.scale === null) return [];
  return strips.map((strip, at) => ({
    id: `strip-${at + 1}`,
    heading: words.family.heading(strips.length > 1 ? stepsIn(strip) : undefined),
    sentences: at === 0 ? sentencesOf(result, compared, words) : [],
    table: stripTable(result, strip, words),
  }));
}

/** How many steps the scale of a strip has; null for the line. */
const stepsIn = ([first]: readonly NamedAttribute[]) => (first ? stepsOf(first.attribute.form) : null);

function sentencesOf(result: ScaleResult, named: readonly NamedAttribute[], { family }: ReportWords): string[] {
  const subjects = (standing: Standing): string[] =>
    named.filter(({ attribute }) => standingOf(result, attribute) === standing).map(({ subject }) => subject);
  const size = familySize(result.attributes);
  const [shown, notShown, exploratory] = [subjects("shown"), subjects("not-shown"), subjects("exploratory")];
  const holm = named.some(({ attribute }) => byHolm(result, attribute));
  const together = result.products.length > 2 ? family.pairs(size, holm) : family.steps(result.alpha);
  return [
    ...(size > 1 ? [family.share(size, result.alpha)] : []),
    ...(size > 1 && shown.length > 0 ? [family.shown(shown)] : []),
    ...(size > 1 && notShown.length > 0 ? [family.notShown(notShown)] : []),
    ...(exploratory.length > 0 ? [family.exploratory(exploratory)] : []),
    ...(size > 1 ? [together] : []),
  ];
}

function stripTable(result: ScaleResult, strip: readonly NamedAttribute[], words: ReportWords): Part["table"] {
  const { family } = words;
  return {
    caption: family.caption,
    columns: family.columns(
      result.confidence,
      result.products.length,
      strip[0] ? unitOf(strip[0].attribute.form) : "points",
      intervalsOf(result, strip),
    ),
    rows: strip.flatMap((named) => rowsOf(result, named, words)),
    note: "",
  };
}

function rowsOf(result: ScaleResult, { attribute, subject, decimals }: NamedAttribute, words: ReportWords): string[][] {
  const { family, scale } = words;
  const { alpha, products } = result;
  const standing = standingOf(result, attribute);
  const several = products.length > 2;
  const of = { none: family.none, own: family.p(attribute.pValueAdjusted, alpha) };
  if (attribute.contrasts.length === 0) {
    return [[subject, of.none, of.none, ...(several ? [of.none] : []), of.none, family.noTest]];
  }
  return attribute.contrasts.map((contrast) => {
    const { compared, first, second, difference, lowTogether, highTogether, pValueAdjusted } = contrast;
    return [
      family.row(subject, scale.contrasts.name(compared, first, second)),
      points(difference, decimals),
      family.range(lowTogether, highTogether, decimals),
      ...(several ? [of.own] : []),
      family.p(pValueAdjusted, alpha),
      foundOf(standing, several, pValueAdjusted <= alpha, family),
    ];
  });
}

/** A comparison is judged only where its property differs as a whole; of two products it is that test. */
function foundOf(
  standing: Standing,
  several: boolean,
  passes: boolean,
  { found, noTest }: ReportWords["family"],
): string {
  if (standing === "no-test") return noTest;
  if (standing !== "shown") return found[several && standing === "not-shown" ? "not-judged" : standing];
  return passes ? found.shown : found["not-shown"];
}
