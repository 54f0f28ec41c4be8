import type { ScaleResult } from "../model/result.ts";
import type { AttributeResult } from "../model/result-scale.ts";
import { type Unit, unitOf } from "../model/result-steps.ts";
import { asksLiking } from "../model/steps.ts";
import type { ReportWords } from "../words/en/report.ts";
import { points } from "../words/number.ts";
import type { Part } from "./describe.ts";

type Check = AttributeResult["checks"][number];

/**
 * The panel's use of the scale, from the first attribute: the lead's short list of questions. Null for liking: taste is no
 * skill, and who likes both alike used the scale as it is meant.
 */
export function panelPart(result: ScaleResult, subject: string, decimals: number, { panel }: ReportWords): Part | null {
  const [first] = result.attributes;
  const checks = first?.checks ?? [];
  const form = first?.form ?? { kind: "line" };
  const unit = unitOf(form);
  if (asksLiking(form)) return null;
  if (checks.length < 2 || result.outcome === "withheld") return null;
  const text = (value: number | null) => (value === null ? panel.none : points(value, decimals));
  return {
    id: "panel",
    heading: panel.heading,
    sentences: [panel.lead(subject), ...answers(checks, result.alpha, { decimals, unit }, panel)],
    table: {
      caption: panel.caption(subject),
      columns: [...panel.columns],
      rows: checks.map(({ panelist, range, agreement, repeatDeviation, separates }) => [
        panelist,
        text(range),
        agreement === null ? panel.none : panel.correlation(agreement),
        text(repeatDeviation),
        separates === null ? panel.none : panel.p(separates.pValue),
      ]),
      note: panel.note,
    },
  };
}

function answers(
  checks: readonly Check[],
  alpha: number,
  { decimals, unit }: { decimals: number; unit: Unit },
  panel: ReportWords["panel"],
): string[] {
  const tested = checks.filter(({ separates }) => separates !== null);
  const compared = checks.filter(({ agreement }) => agreement !== null);
  const repeated = having(checks, "repeatDeviation");
  const used = having(checks, "range");
  const [ownSpread, ownRange] = [middle(repeated), middle(used)];
  return [
    tested.length === 0
      ? panel.separated.unknown
      : panel.separated.some(
          namesOf(tested.filter((check) => (check.separates?.pValue ?? 1) <= alpha)),
          tested.length,
          alpha,
        ),
    compared.length === 0
      ? panel.agreed.unknown
      : panel.agreed.some(namesOf(compared.filter((check) => (check.agreement ?? 0) < 0)), compared.length),
    repeated.length === 0
      ? panel.repeated.unknown
      : panel.repeated.some(
          ownSpread,
          repeated.filter(({ value }) => value > 2 * ownSpread).map(({ panelist }) => panelist),
          decimals,
          unit,
        ),
    used.length === 0
      ? panel.used.unknown
      : panel.used.some(
          used.filter(({ value }) => value < ownRange / 4).map(({ panelist }) => panelist),
          ownRange,
          decimals,
          unit,
        ),
  ];
}

const namesOf = (checks: readonly Check[]): string[] => checks.map(({ panelist }) => panelist);

type Figure = { panelist: string; value: number };

const having = (checks: readonly Check[], figure: "range" | "repeatDeviation"): Figure[] =>
  checks.flatMap((check) => {
    const value = check[figure];
    return value === null ? [] : [{ panelist: check.panelist, value }];
  });

/** Median of the figures. */
function middle(figures: readonly Figure[]): number {
  const sorted = figures.map(({ value }) => value).sort((one, other) => one - other);
  const half = sorted.length / 2;
  const [lower = 0, upper = lower] = [sorted[Math.ceil(half) - 1], sorted[Math.floor(half)]];
  return (lower + upper) / 2;
}
