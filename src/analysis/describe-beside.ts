import type { Measured } from "../model/measured.ts";
import type { Result } from "../model/result.ts";
import { unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import { points } from "../words/number.ts";
import type { FamilyText, Part } from "./describe.ts";

/** Masses that stand beside the answers; none where none were noted, or where the key is in doubt. */
export const besideOf = (result: Result): Measured[] =>
  result.outcome === "withheld" ? [] : (result.study?.measured ?? []);

/**
 * The part that puts masses beside perception, each difference with its own interval. No figure combines them, and there is
 * no correlation: a study has a point for each product, and fewer than eight say nothing.
 */
export function besideParts(result: Result, said: FamilyText, words: ReportWords): Part[] {
  const measured = besideOf(result);
  if (measured.length === 0) return [];
  const { beside } = words;
  const gains = measured.some(({ what }) => what === "gain");
  const losses = measured.some(({ what }) => what !== "gain");
  return [
    {
      id: "beside",
      heading: beside.heading,
      sentences: [
        beside.perceived(said.size),
        beside.measured([...new Set(measured.map(({ title }) => title))]),
        beside.apart,
        beside.points(result.study?.products.length ?? 0),
        ...(losses ? [beside.batches] : []),
        ...(gains ? [beside.gain] : []),
        ...(measured.some(({ afterReveal }) => afterReveal) ? [beside.afterReveal] : []),
      ],
      table: {
        caption: beside.caption,
        columns: beside.columns(beside.confidence(confidences(result, measured))),
        rows: [...perceivedRows(result, said, words), ...measured.map((row) => measuredRow(row, words))],
        note: measured.map(beside.means).filter(Boolean).join(" "),
      },
    },
  ];
}

/** Confidence of the intervals in the table, each once. */
const confidences = (result: Result, measured: readonly Measured[]): number[] => [
  ...new Set([
    ...(result.family === "scale" ? [result.confidence] : []),
    ...measured.map(({ difference }) => difference.confidence),
  ]),
];

/** Comparisons of the property that the question is about; other families say theirs in a sentence. */
function perceivedRows(result: Result, said: FamilyText, { beside, scale, family }: ReportWords): string[][] {
  const [attribute] = result.family === "scale" ? result.attributes : [];
  const [text] = said.attributes;
  if (!attribute || !text) return [];
  return attribute.contrasts.map(({ compared, first, second, difference, lowTogether, highTogether }) => [
    beside.row(text.heading, scale.contrasts.name(compared, first, second)),
    beside.scaleUnit(points(difference, text.decimals), unitOf(attribute.form)),
    family.range(lowTogether, highTogether, text.decimals),
    beside.people(attribute.people),
  ]);
}

const measuredRow = (row: Measured, { beside }: ReportWords): string[] => [
  beside.row(beside.measuredHeading(row), beside.between(row.second, row.first)),
  beside.difference(row),
  beside.range(row),
  beside.unitsOf(row),
];
