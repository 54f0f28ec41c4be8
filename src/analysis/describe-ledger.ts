import type { Interval } from "../model/interval.ts";
import type { LedgerResult, MassDifference } from "../model/result-ledger.ts";
import { type Bounds, decimalsOf, percentOf, weighingWords as words } from "../words/en/weighing.ts";
import { points } from "../words/number.ts";
import type { WordTable } from "./describe.ts";

/** A result of weighings in words, top to bottom: what was found first. */
export type WeighingText = { heading: string; found: string[]; tables: WordTable[]; notShown: string[] };

/** The report of a ledger in words. */
export function describeLedger(result: LedgerResult): WeighingText {
  const { batches, products } = result;
  const counts = products.map((product) => ({
    product,
    batches: batches.filter((each) => each.product === product).length,
  }));
  return {
    heading: `${words.heading}: ${words.batchesOf(counts)}${result.drawn === "drawn" ? ` ${words.wasDrawn}` : ""}`,
    found: [...foundIn(result), ...(result.batches.some(hasAdded) ? [words.added] : [])],
    tables: [
      meansTable(result),
      ...(result.products.length > 1 ? [differencesTable(result)] : []),
      batchesTable(result),
    ],
    notShown: [
      words.drawn[result.drawn],
      ...result.warnings.map(words.warning),
      result.products.length > 2 ? words.severalCompared(result.products.length) : "",
      result.batches.some(saysProtocol) ? "" : words.protocol,
      words.unit,
      words.notJuiciness,
    ].filter((sentence) => sentence !== ""),
  };
}

type Batch = LedgerResult["batches"][number];
const hasAdded = ({ steps }: Batch): boolean => steps.some(({ added }) => Number(added) > 0);
const saysProtocol = ({ steps }: Batch): boolean =>
  steps.some(({ minutes, celsius }) => minutes !== "" || celsius !== "");

export const boundsOf = ({ low, high, confidence }: Interval): Bounds | null =>
  low === null || high === null ? null : { low, high, confidence };

const totalAt = (result: LedgerResult, product: string, step: string): Interval | undefined =>
  result.means.find((mean) => mean.product === product && mean.step === step)?.totalLoss.percent;

/** The last step at which there is something to say: of two processes, a difference; of one, its loss. */
function foundIn(result: LedgerResult): string[] {
  const [from = ""] = result.steps;
  const [first = ""] = result.products;
  const leads = result.products.slice(1).flatMap((second) => {
    const totals = result.differences.filter((each) => each.second === second && each.base === "raw");
    return totals.findLast(({ percentagePoints }) => percentagePoints.estimate !== null) ?? [];
  });
  if (leads.length > 0) return leads.flatMap((lead) => comparedText(result, lead, from));
  const mean = result.means.findLast((each) => each.product === first && each.totalLoss.percent.estimate !== null);
  const estimate = mean?.totalLoss.percent.estimate ?? null;
  if (!mean || estimate === null) return [words.nothing];
  return [words.alone(first, from, mean.step, estimate, boundsOf(mean.totalLoss.percent))];
}

function comparedText(result: LedgerResult, lead: MassDifference, from: string): string[] {
  const { first, second, step, percentagePoints, design, test } = lead;
  const bounds = boundsOf(percentagePoints);
  const [one, other] = [first, second].map((product) => totalAt(result, product, step)?.estimate ?? null);
  const ratio = result.yieldRatios.find((each) => each.second === second && each.step === step)?.ratio;
  return [
    words.found({ first, second, points: percentagePoints.estimate ?? 0, bounds, from, to: step }),
    ...(one == null || other == null
      ? []
      : [words.bothMeans({ product: first, percent: one }, { product: second, percent: other })]),
    ...(ratio?.estimate == null
      ? []
      : [words.ratio({ first, second, estimate: ratio.estimate, bounds: boundsOf(ratio) })]),
    ...(result.matters === null || !bounds ? [] : [words.matters[reachOf(bounds, result.matters)](result.matters)]),
    ...(test ? [words.test(design, test.df, test.pValue)] : []),
  ];
}

/** Where an interval lies against the smallest difference that matters, in either direction. */
export function reachOf({ low, high }: Bounds, matters: number): "beyond" | "within" | "open" {
  if (low >= matters || high <= -matters) return "beyond";
  return low > -matters && high < matters ? "within" : "open";
}

/** A number with its bounds, as a cell. */
export function cellOf(interval: Interval | undefined): string {
  if (interval?.estimate == null) return words.tables.none;
  const bounds = boundsOf(interval);
  const decimals = decimalsOf(bounds ? bounds.high - bounds.low : Number.POSITIVE_INFINITY);
  return words.tables.withBounds(points(interval.estimate, decimals), bounds, decimals);
}

/** What the brackets of a table hold; nothing where no cell has any. */
export function bracketsOf(intervals: readonly Interval[]): string {
  const bracketed = intervals.find((interval) => boundsOf(interval) !== null);
  return bracketed ? words.tables.intervals(bracketed.confidence) : "";
}

function meansTable(result: LedgerResult): WordTable {
  return {
    caption: words.tables.means,
    columns: words.tables.meansColumns,
    rows: result.means.map(({ product, step, loss, totalLoss }) => [
      ...[product, step, cellOf(loss.percent), cellOf(totalLoss.percent), String(totalLoss.batches)],
    ]),
    note: bracketsOf(result.means.flatMap(({ loss, totalLoss }) => [loss.percent, totalLoss.percent])),
  };
}

function differencesTable(result: LedgerResult): WordTable {
  const totals = result.differences.filter(({ base }) => base === "raw");
  const own = ({ step, second }: MassDifference) =>
    result.differences.find((each) => each.base === "step" && each.step === step && each.second === second);
  return {
    caption: words.tables.differences,
    columns: words.tables.differencesColumns,
    rows: totals.map((total) => [
      total.step,
      words.tables.less(total.second, total.first),
      cellOf(own(total)?.percentagePoints),
      cellOf(total.percentagePoints),
    ]),
    note: bracketsOf(result.differences.map(({ percentagePoints }) => percentagePoints)),
  };
}

function batchesTable(result: LedgerResult): WordTable {
  const percent = (value: number | null): string => (value === null ? words.tables.none : percentOf(value));
  return {
    caption: words.tables.batches,
    columns: words.tables.batchesColumns,
    rows: result.batches.flatMap(({ product, batch, steps }) =>
      steps.map(({ step, gramsText, lossPercent, yieldPercent }) => [
        ...[product, batch, step, gramsText || words.tables.none, percent(lossPercent)],
        percent(yieldPercent),
      ]),
    ),
    note: compounding(result),
  };
}

/** The first batch that was weighed at every step shows why losses are not added; one with added liquid does not. */
function compounding({ batches }: LedgerResult): string {
  const whole = ({ steps }: Batch) => steps.length > 2 && steps.every(({ grams }) => grams !== null);
  const batch = batches.find((each) => whole(each) && !hasAdded(each));
  if (!batch) return "";
  const steps = batch.steps.slice(1).map(({ lossPercent }) => lossPercent ?? 0);
  const added = steps.reduce((total, percent) => total + percent, 0);
  const total = batch.steps.at(-1)?.totalLossPercent ?? 0;
  return words.compounding({ product: batch.product, batch: batch.batch, steps, total, added });
}
