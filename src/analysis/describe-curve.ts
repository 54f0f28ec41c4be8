import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult, CurveResult, DerivedResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import { points } from "../words/number.ts";
import type { CurvePart, Part, WordTable } from "./describe.ts";

export const isOfCurve = (id: Part["id"]): id is CurvePart => /^(curve|change)-\d+$/.test(id);

/** Properties that were marked at several moments of a chew: their curves, and what changed from the first to the last. */
export function curveParts(result: ScaleResult, words: ReportWords): Part[] {
  if (result.outcome === "withheld") return [];
  return result.curves.flatMap((curve, at) => {
    const moments = curve.at.flatMap((place) => result.attributes[place] ?? []);
    if (moments.every(({ judgments }) => judgments === 0)) return [];
    return [shapePart(result, curve, moments, at, words), changePart(result, curve, moments, at, words)];
  });
}

function shapePart(
  result: ScaleResult,
  { attribute, interaction }: CurveResult,
  moments: readonly AttributeResult[],
  at: number,
  { curve: words }: ReportWords,
): Part {
  const { shape, means, when } = words;
  const said = interaction
    ? [
        (interaction.pValue <= result.alpha ? shape.differs : shape.notShown)(interaction),
        shape.people(interaction.people),
      ]
    : [shape.none];
  return {
    id: `curve-${at + 1}`,
    heading: words.heading(attribute),
    sentences: [...said, words.beside],
    table: {
      caption: means.caption(attribute),
      columns: [means.product, ...moments.map(({ moment }) => (moment ? when(moment) : ""))],
      rows: result.products.map((product) => [
        product,
        ...moments.map((one) => {
          const mean = one.means.find((each) => each.product === product);
          if (!mean || mean.estimate === null) return means.none;
          return means.cell(mean.estimate, boundsOf(mean), 1);
        }),
      ]),
      note: means.note(result.confidence, unitOfCurve(moments)),
    },
  };
}

/** The interval of a mean; marks that are all equal show no spread, which is not to be sold as certainty. */
export function boundsOf(mean: AttributeResult["means"][number]): { low: number; high: number } | null {
  const { low, high, deviation } = mean;
  return low === null || high === null || deviation === 0 ? null : { low, high };
}

function changePart(
  result: ScaleResult,
  found: CurveResult,
  moments: readonly AttributeResult[],
  at: number,
  words: ReportWords,
): Part {
  const { curve } = words;
  const [from, to] = [moments[0]?.moment, moments.at(-1)?.moment];
  const means = found.change.means.flatMap(({ product, estimate }) =>
    estimate === null ? [] : [{ product, by: estimate }],
  );
  return {
    id: `change-${at + 1}`,
    heading: curve.changeHeading(found.attribute),
    sentences: [
      ...(from && to && means.length > 0 ? [curve.change.went(from, to, means, unitOfCurve(moments))] : []),
      tested(result, found.change, curve.change, words),
      ...areaSentences(result, found, moments, words),
    ],
    table: contrastsTable(result, found, moments, words),
  };
}

/** All moments of a property have one scale. */
export const unitOfCurve = ([first]: readonly AttributeResult[]) => unitOf(first?.form ?? { kind: "line" });

function areaSentences(
  result: ScaleResult,
  { area, seconds }: CurveResult,
  moments: readonly AttributeResult[],
  words: ReportWords,
): string[] {
  const { curve } = words;
  if (!area || seconds === null) return [curve.area.none];
  const means = area.means.flatMap(({ product, estimate }) => (estimate === null ? [] : [{ product, area: estimate }]));
  return [
    ...(means.length > 0 ? [curve.area.is(seconds, means, unitOfCurve(moments))] : []),
    tested(result, area, curve.area, words),
  ];
}

type Said = Pick<ReportWords["curve"]["change"], "differ" | "notShown" | "noTest">;

function tested(
  { alpha }: ScaleResult,
  { blocks, outcome, means }: DerivedResult,
  said: Said,
  words: ReportWords,
): string {
  if (blocks) return (blocks.pValue <= alpha ? said.differ : said.notShown)(blocks);
  if (outcome === "ok") return "";
  const missing = means.filter(({ judgments }) => judgments === 0).map(({ product }) => product);
  return said.noTest(words.scale.noTest[outcome](missing, true));
}

function contrastsTable(
  result: ScaleResult,
  { attribute, change, area }: CurveResult,
  moments: readonly AttributeResult[],
  { curve }: ReportWords,
): WordTable {
  const { contrasts: words } = curve;
  const rowsOf = (derived: DerivedResult | null, name: typeof words.change, decimals: number) =>
    (derived?.contrasts ?? []).map(({ compared, first, second, difference, pValue, pValueAdjusted, ...ends }) => [
      name(compared, first, second, unitOfCurve(moments)),
      points(difference, decimals),
      words.range(ends.lowTogether, ends.highTogether, decimals),
      words.p(pValue, result.alpha),
      words.p(pValueAdjusted, result.alpha),
    ]);
  return {
    caption: words.caption(attribute),
    columns: words.columns(result.confidence, change.adjustment === "holm"),
    rows: [...rowsOf(change, words.change, 1), ...rowsOf(area, words.area, 0)],
    note: words.note(change.adjustment === "holm"),
  };
}
