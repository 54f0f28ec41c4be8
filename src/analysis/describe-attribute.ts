import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { unitOf } from "../model/result-steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import { decimalsFor, points, pText } from "../words/number.ts";
import type { Row, WordTable } from "./describe.ts";
import { byHolm, sharedBy } from "./describe-family.ts";
import { leadingTest } from "./mixed-lead.ts";
import { unevenOf } from "./uneven.ts";

/** The rows and tables of one property of a scale. */

/** Decimals of the values: one on the line, two of steps; elsewhere what suits how far the values lie apart. */
export function decimalsOf({ scale }: ScaleResult, { panelists, form }: AttributeResult): number {
  if (form.kind !== "line") return 2;
  if (scale) return 1;
  const values = panelists.flatMap(({ values }) => values.filter((value) => value !== null));
  return decimalsFor(values.length === 0 ? 0 : Math.max(...values) - Math.min(...values));
}

function adjustedRow(result: ScaleResult, attribute: AttributeResult, { family }: ReportWords): Row[] {
  const size = sharedBy(result, attribute);
  const { pValueAdjusted: p } = attribute;
  if (size < 2 || p === null) return [];
  return [{ id: "pValueAdjusted", label: family.adjustedRow(size), ...family.adjustedValue(p, result.alpha) }];
}

export function rowsOf(result: ScaleResult, attribute: AttributeResult, words: ReportWords): Row[] {
  const { rows, values } = words.scale;
  const { blocks, variances, people, judgments, repeats, leads, means } = attribute;
  const test = leadingTest(attribute);
  const decimals = decimalsOf(result, attribute);
  const unit = unitOf(attribute.form);
  const list: Row[] = [
    { id: "people", label: rows.people, ...values.count(people) },
    {
      id: "judgments",
      label: rows.judgments,
      ...values.marks(judgments, repeats, leads === "blocks" && means.length > 0),
    },
  ];
  if (!blocks || !test) return list;
  list.push(
    { id: "fValue", label: rows.fValue, ...values.fValue(test) },
    { id: "pValue", label: rows.pValue, ...values.p(test.pValue, result.alpha) },
    ...adjustedRow(result, attribute, words),
  );
  if (leads === "mixed") {
    list.push(
      { id: "error", label: rows.error, ...values.mixedError(result.perTray, unevenOf(attribute)) },
      { id: "classical", label: rows.classical, ...values.classical(blocks, result.alpha) },
    );
  } else {
    list.push({ id: "error", label: rows.error, ...values.error(repeats, unevenOf(attribute), result.perTray) });
  }
  if (variances.residual !== null) {
    list.push({
      id: "within",
      label: rows.within(batchesTakenOut(attribute)),
      ...values.points(Math.sqrt(variances.residual), decimals, unit),
    });
  }
  if (variances.panelist !== null) {
    list.push({ id: "between", label: rows.between, ...values.points(Math.sqrt(variances.panelist), decimals, unit) });
  }
  return list;
}

export function meansTable(
  result: ScaleResult,
  attribute: AttributeResult,
  subject: string,
  { scale }: ReportWords,
): WordTable {
  const columns = scale.means.columns(result.confidence);
  const decimals = decimalsOf(result, attribute);
  const { none, range } = scale.means;
  const text = (value: number | null) => (value === null ? none : points(value, decimals));
  // with nothing missing the two means are one
  const adjusted = attribute.blocks !== null && !attribute.blocks.balanced;
  return {
    caption: scale.means.caption(subject),
    columns: [
      columns.product,
      columns.marks,
      columns.mean,
      columns.interval,
      columns.deviation,
      ...(adjusted ? [columns.adjusted] : []),
    ],
    rows: attribute.means.map((mean) => [
      mean.product,
      String(mean.judgments),
      text(mean.estimate),
      // marks that are all equal show no spread, which is not to be sold as certainty
      mean.low === null || mean.high === null || mean.deviation === 0 ? none : range(mean.low, mean.high, decimals),
      text(mean.deviation),
      ...(adjusted ? [text(mean.adjusted)] : []),
    ]),
    note: "",
  };
}

export function contrastsTable(
  result: ScaleResult,
  attribute: AttributeResult,
  subject: string,
  { scale, family }: ReportWords,
): WordTable {
  const { contrasts } = attribute;
  const size = sharedBy(result, attribute);
  const adjuster = adjusterOf(result, attribute, size, { scale, family });
  const columns = scale.contrasts.columns({
    ...{ confidence: result.confidence, adjuster, unit: unitOf(attribute.form) },
    ...{ holm: byHolm(result, attribute), batches: batchesTakenOut(attribute) },
  });
  const decimals = decimalsOf(result, attribute);
  const several = contrasts.length > 1 || size > 1;
  // with repeats two spreads could be meant, so the ratio is left out
  const { residual, panelistProduct } = attribute.variances;
  const deviation =
    residual !== null && panelistProduct === null && attribute.repeats === 1 ? Math.sqrt(residual) : null;
  return {
    caption: scale.contrasts.caption(subject),
    columns: [
      columns.pair,
      columns.difference,
      columns.interval,
      ...(several ? [columns.intervalTogether] : []),
      ...(deviation === null ? [] : [columns.effect]),
      columns.pValue,
      ...(several ? [columns.pValueAdjusted] : []),
    ],
    rows: contrasts.map(({ compared, first, second, difference, pValue, pValueAdjusted, ...ends }) => [
      scale.contrasts.name(compared, first, second),
      points(difference, decimals),
      scale.means.range(ends.low, ends.high, decimals),
      ...(several ? [scale.means.range(ends.lowTogether, ends.highTogether, decimals)] : []),
      ...(deviation === null ? [] : [points(difference / deviation, 2)]),
      pText(pValue, result.alpha),
      ...(several ? [pText(pValueAdjusted, result.alpha)] : []),
    ]),
    note: [
      scale.contrasts.notes[attribute.adjustment],
      ...(contrasts.some(({ compared }) => compared === "interaction") ? [scale.contrasts.interaction] : []),
      ...(size > 1 ? [family.note(result.products.length, size)] : []),
    ]
      .filter(Boolean)
      .join(" "),
  };
}

/** Is the residual spread that within batches, since the leading model holds how batches of a product differ? */
const batchesTakenOut = ({ leads, mixed }: AttributeResult): boolean => leads === "mixed" && mixed?.batches != null;

/** What the adjusted p of comparisons are named after. */
function adjusterOf(
  { products }: ScaleResult,
  { adjustment }: AttributeResult,
  size: number,
  { scale, family }: Pick<ReportWords, "scale" | "family">,
): string {
  const within = scale.contrasts.adjusters[adjustment];
  if (size === 1) return within;
  return products.length === 2 ? family.holm : family.times(within, size);
}
