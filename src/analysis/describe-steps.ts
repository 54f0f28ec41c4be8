import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { type JustRightResult, unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import type { JustRightFacts, SideFacts } from "../words/en/report-steps.ts";
import type { Part, WordTable } from "./describe.ts";
import { leastShareOfSide } from "./just-right.ts";

type OfProduct = JustRightResult["products"][number];
type Side = "little" | "right" | "much";
export const sides = ["little", "right", "much"] as const satisfies Side[];

const subjectOf = ({ attribute, moment, momentText }: AttributeResult, { scale }: ReportWords): string =>
  scale.subject(attribute, moment, momentText);

/** What the ends of a scale are; empty where nobody said. */
export function endsText(
  { scale: line }: ScaleResult,
  { form, lowAnchor, highAnchor }: AttributeResult,
  { scale, steps }: ReportWords,
): string {
  if (form.kind !== "line") return steps.ends(form.labels.length, lowAnchor, highAnchor);
  return line ? scale.ends(line.low, line.high, lowAnchor, highAnchor, line.lengthMm) : "";
}

/** How often each step was chosen, a row for each step; null for a line. */
export function distributionTable(attribute: AttributeResult, words: ReportWords): WordTable | null {
  const { distribution, form } = attribute;
  if (!distribution || form.kind === "line") return null;
  const { caption, step, name, total, count } = words.steps.distribution;
  const sum = (counts: readonly number[]) => counts.reduce((all, one) => all + one, 0);
  return {
    caption: caption(subjectOf(attribute, words)),
    columns: [step, ...distribution.map(({ product }) => product)],
    rows: [
      ...form.labels.map((label, at) => [
        name(at + 1, label),
        ...distribution.map(({ counts }) => count(counts[at] ?? 0)),
      ]),
      [total, ...distribution.map(({ counts }) => count(sum(counts)))],
    ],
    note: "",
  };
}

/**
 * What the middle of a just-right scale and the steps next to it are called: by the panelist's words, or ours where a file
 * has none.
 */
export function sideLabels({ form }: AttributeResult, { steps }: ReportWords): Record<Side, string> {
  const labels = form.kind === "just-right" ? form.labels : [];
  const middle = (labels.length - 1) / 2;
  const of = (at: number, side: Side): string => labels[at]?.trim() || steps.justRight.sides[side];
  return { little: of(middle - 1, "little"), right: of(middle, "right"), much: of(middle + 1, "much") };
}

/** How many answers lie on each side. */
export function sideCounts({ counts }: OfProduct): [number, number, number] {
  const middle = (counts.length - 1) / 2;
  const sum = (from: number, to: number) => counts.slice(from, to).reduce((all, one) => all + one, 0);
  return [sum(0, middle), counts[middle] ?? 0, sum(middle + 1, counts.length)];
}

/** Just-right scales, each a part of its own: what each product was found to be, and what that did to liking. */
export function justRightParts(result: ScaleResult, words: ReportWords): Part[] {
  return result.attributes.flatMap((attribute, at) => {
    const { justRight, judgments } = attribute;
    if (!justRight || judgments === 0 || result.outcome === "withheld") return [];
    return [justRightPart(result, attribute, justRight, at, words)];
  });
}

function justRightPart(
  result: ScaleResult,
  attribute: AttributeResult,
  found: JustRightResult,
  at: number,
  words: ReportWords,
): Part {
  const { justRight } = words.steps;
  const { attribute: name, moment, momentText } = attribute;
  return {
    id: `right-${at + 1}`,
    heading: justRight.heading(words.scale.heading(name, moment, momentText)),
    sentences: [
      ...found.products.map((product) => justRight.told(factsOf(result, attribute, found, product, words))),
      ...(found.liking === null ? [justRight.noLiking] : []),
      ...(found.repeated ? [justRight.repeated] : []),
    ],
    table: tableOf(result, attribute, found, words),
  };
}

function factsOf(
  result: ScaleResult,
  attribute: AttributeResult,
  { liking }: JustRightResult,
  product: OfProduct,
  words: ReportWords,
): JustRightFacts {
  const labels = sideLabels(attribute, words);
  const [little, right, much] = sideCounts(product);
  const side = (which: "little" | "much", answers: number): SideFacts => {
    const { drop, test, tooFew } = product.drops[which];
    const label = words.steps.justRight.label(labels[which], product.counts.length > 3);
    return { label, answers, tooFew, drop, bounds: test };
  };
  const liked = liking === null ? undefined : result.attributes[liking];
  return {
    ...{ product: product.product, answers: product.judgments, right, confidence: result.confidence },
    sides: [side("little", little), side("much", much)],
    unit: liked ? unitOf(liked.form) : null,
  };
}

function tableOf(
  { confidence }: ScaleResult,
  attribute: AttributeResult,
  found: JustRightResult,
  words: ReportWords,
): WordTable {
  const { table, notes, sides: names } = words.steps.justRight;
  const liking = found.liking !== null;
  const intervals = found.products
    .flatMap(({ drops }) => [drops.little, drops.much])
    .filter(({ test }) => test !== null);
  const marked = found.products.some(({ drops }) => liking && (drops.little.tooFew || drops.much.tooFew));
  return {
    caption: table.caption(subjectOf(attribute, words)),
    columns: table.columns(found.repeated ? null : confidence, liking),
    rows: found.products.flatMap((product) =>
      sides.map((side) => [
        table.name(product.product, names[side]),
        ...shareCells(product, side, words),
        ...(liking ? likingCells(product, side, words) : []),
      ]),
    ),
    note: [
      notes.means,
      ...(found.repeated ? [] : [notes.shares]),
      ...(liking ? [found.repeated ? notes.dropsRepeated : notes.drops(intervals.length)] : []),
      ...(marked ? [notes.tooFew(leastShareOfSide)] : []),
    ].join(" "),
  };
}

function shareCells(product: OfProduct, side: Side, { steps }: ReportWords): string[] {
  const { none, count, share } = steps.justRight.table;
  const { estimate, low, high } = product.shares[side];
  return [
    count(sideCounts(product)[sides.indexOf(side)] ?? 0),
    estimate === null ? none : share(estimate, low === null || high === null ? null : { low, high }),
  ];
}

/** Of the middle the mean liking alone: the sides are held against it. */
function likingCells({ drops }: OfProduct, side: Side, { steps }: ReportWords): string[] {
  const { none, mean, drop, tooFew } = steps.justRight.table;
  if (side === "right") {
    const { meanRight } = drops.little;
    return [meanRight === null ? none : mean(meanRight), none];
  }
  const found = drops[side];
  const by = found.drop === null ? none : drop(found.drop, found.test);
  return [found.meanSide === null ? none : mean(found.meanSide), found.drop !== null && found.tooFew ? tooFew(by) : by];
}

/** The verdict where the question itself was put on a just-right scale; null where it was not. */
export function justRightVerdict(first: AttributeResult | undefined, { steps }: ReportWords): string | null {
  if (!first?.justRight || first.outcome !== "just-right") return null;
  return steps.justRight.verdict(
    first.justRight.products.map((product) => ({
      product: product.product,
      right: sideCounts(product)[1],
      answers: product.judgments,
    })),
  );
}
