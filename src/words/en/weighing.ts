import type { Drawing } from "../../model/ledger.ts";
import type { LedgerWarning, ProtocolWarning } from "../../model/result-ledger.ts";
import { chosenPercent, nbsp, points, pText, shortNumber } from "../number.ts";
import { listed, named } from "./phrases.ts";

/** Bounds of an interval; turned so that it can be read in the direction of its sentence. */
export type Bounds = { low: number; high: number; confidence: number };

/** What one process lost more or less than another, of the raw mass. `bounds` null: chance cannot be told. */
export type LossFacts = {
  first: string;
  second: string;
  points: number;
  bounds: Bounds | null;
  from: string;
  to: string;
};

/** Percentages and their differences: one decimal, or two where the numbers lie within one. */
export const decimalsOf = (span: number): number => (span < 1 ? 2 : 1);
export const within = (bounds: Bounds | null, value: number): number =>
  decimalsOf(bounds ? bounds.high - bounds.low : Math.abs(value));

export const percentOf = (value: number, decimals = 1): string => `${points(value, decimals)}${nbsp}%`;
export const confidenceText = ({ confidence }: Bounds): string => `${chosenPercent(confidence)} interval`;
/** "5.2 to 7.7, 95 % interval". */
export const boundsText = (bounds: Bounds, decimals: number): string =>
  `${points(bounds.low, decimals)} to ${points(bounds.high, decimals)}, ${confidenceText(bounds)}`;

export const ratioText = (ratio: number): string => points(ratio, 3);
/** "lost 21.3 %", "gained 2.2 %": a loss below 0 is a gain, and the other way round. */
export const lostText = (percent: number): string =>
  `${percent < 0 ? "gained" : "lost"} ${percentOf(Math.abs(percent))}`;
export const pointsWord = (text: string): string =>
  `${text} percentage ${text === "1.0" || text === "1" ? "point" : "points"}`;

/** "5.9 degrees of freedom". */
export const degrees = (df: number): string => `${shortNumber(df)} ${df === 1 ? "degree" : "degrees"} of freedom`;

/** Both ends in words where they lie on either side of 0: "from 1.2 less to 0.4 more". */
export const moreOrLess = (value: number, decimals: number): string =>
  `${points(Math.abs(value), decimals)} ${value < 0 ? "less" : "more"}`;

/** Batches that were not weighed alike at a step. */
function protocolText({ step, partly, minutes, celsius }: ProtocolWarning): string {
  const what = partly.map((each) => (each === "minutes" ? "when after the heat" : "at what temperature"));
  const far = [
    minutes && `${points(minutes.least, 1)} and ${points(minutes.most, 1)} minutes after the heat`,
    celsius && `at ${points(celsius.least, 1)} and ${points(celsius.most, 1)}${nbsp}°C in the core`,
  ].filter((each) => each !== null);
  return [
    `At ${named(step)} the batches were not all weighed alike, or it cannot be told: part of the difference may come from that.`,
    ...(what.length > 0 ? [`Some batches say ${what.join(" and ")} they were weighed and others do not.`] : []),
    ...(far.length > 0
      ? [
          `The processes were weighed on average ${far.join(", and ")}; we say so beyond 2 minutes or 5${nbsp}°C, limits of our own choice.`,
        ]
      : []),
  ].join(" ");
}

export const weighingWords = {
  heading: "Weighing ledger",
  batchesOf: (counts: readonly { product: string; batches: number }[]) =>
    `${listed(counts.map(({ product, batches }) => `${batches} ${batches === 1 ? "batch" : "batches"} of ${named(product)}`))}.`,

  /** The first sentence: what was found between two processes. */
  found(facts: LossFacts): string {
    const { first, second, bounds, from, to } = facts;
    const decimals = within(bounds, facts.points);
    const way = facts.points < 0 ? "less" : "more";
    const by = pointsWord(points(Math.abs(facts.points), decimals));
    const begin = `From ${from} to ${to}`;
    if (!bounds)
      return `${begin}, ${named(second)} lost ${by} ${way} of its raw mass than ${named(first)}. There is no interval.`;
    if (bounds.low <= 0 && bounds.high >= 0) {
      const ends = `from ${moreOrLess(bounds.low, decimals)} to ${moreOrLess(bounds.high, decimals)}, ${confidenceText(bounds)}`;
      return `${begin}, it was not shown that ${named(second)} loses more or less of its raw mass than ${named(first)}: the batches differ by ${by} (${ends}). That does not say that they lose the same.`;
    }
    const turned = facts.points < 0 ? { ...bounds, low: -bounds.high, high: -bounds.low } : bounds;
    return `${begin}, ${named(second)} lost ${by} ${way} of its raw mass than ${named(first)} (${boundsText(turned, decimals)}).`;
  },
  /** Of one process alone. */
  alone: (product: string, from: string, to: string, percent: number, bounds: Bounds | null) =>
    `From ${from} to ${to}, ${named(product)} ${bounds ? `lost ${percentOf(percent)}` : lostText(percent)} of its raw mass${bounds ? ` (${boundsText(bounds, 1)})` : ""}.`,
  nothing: "Nothing can be compared yet: a loss takes a raw mass and a later one of the same batch.",
  bothMeans: (first: { product: string; percent: number }, second: { product: string; percent: number }) =>
    first.percent < 0 || second.percent < 0
      ? `${named(first.product)} ${lostText(first.percent)} of its raw mass, ${named(second.product)} ${lostText(second.percent)}.`
      : `${named(first.product)} lost ${percentOf(first.percent)} of its raw mass, ${named(second.product)} ${percentOf(second.percent)}.`,
  ratio({
    first,
    second,
    estimate,
    bounds,
  }: {
    first: string;
    second: string;
    estimate: number;
    bounds: Bounds | null;
  }) {
    const by = `${shortNumber(Math.abs(estimate - 1) * 100)}${nbsp}% ${estimate < 1 ? "less" : "more"}`;
    const ends = bounds ? ` (${ratioText(bounds.low)} to ${ratioText(bounds.high)}, ${confidenceText(bounds)})` : "";
    return `Of the same raw mass ${named(second)} leaves ${ratioText(estimate)} times what ${named(first)} leaves${ends}, that is ${by}.`;
  },
  matters: {
    beyond: (limit: number) =>
      `A difference of ${pointsWord(shortNumber(limit))} was to matter: the whole interval lies beyond it.`,
    within: (limit: number) =>
      `A difference of ${pointsWord(shortNumber(limit))} was to matter: the whole interval is smaller than that.`,
    open: (limit: number) =>
      `A difference of ${pointsWord(shortNumber(limit))} was to matter: the interval holds smaller and larger ones, so this cannot be said.`,
  },
  test: (design: "independent" | "paired", df: number, pValue: number) =>
    `${design === "paired" ? "Paired t test over the pairs of batches" : "Welch’s t test of the batches"}: ${degrees(df)}, p${pValue < 0.0001 ? " is " : `${nbsp}=${nbsp}`}${pText(pValue)}.`,

  tables: {
    means: "Mean losses, in percent",
    meansColumns: ["process", "step", "of the step’s start", "of the raw mass", "batches"],
    differences: "Differences, in percentage points",
    differencesColumns: ["step", "compared", "of the step’s start", "of the raw mass"],
    less: (second: string, first: string) => `${second} less ${first}`,
    batches: "Batches",
    batchesColumns: ["process", "batch", "step", "grams", "lost of the step’s start", "left of the raw mass"],
    withBounds: (value: string, bounds: Bounds | null, decimals: number) =>
      bounds ? `${value} (${points(bounds.low, decimals)} to ${points(bounds.high, decimals)})` : value,
    intervals: (confidence: number) => `In brackets: ${chosenPercent(confidence)} interval.`,
    none: "–",
  },

  /** Why losses are not added: with the numbers of one batch. */
  compounding: (batch: { product: string; batch: string; steps: readonly number[]; total: number; added: number }) =>
    `Losses of steps compound, they are not added: in batch ${batch.batch} of ${named(batch.product)}, ${listed(batch.steps.map((each) => percentOf(each)))} of what each step began with make ${percentOf(batch.total)} of the raw mass, not ${percentOf(batch.added)}.`,
  severalCompared: (products: number) =>
    `${products - 1} processes are held against the first; each interval carries an even share of the risk.`,
  unit: "The batch counts, not the portions in it: another day’s cook is another batch.",
  protocol:
    "When after the heat and at what temperature each batch was weighed is not recorded: a loss depends on both, and a hot weighing is not to be compared with a cooled one.",
  added: `Liquid was added to some batches. Where it is gone again it counts as lost: the loss of a step is the mass before plus the liquid less the mass after, in percent of the mass before; the whole loss is the raw mass plus all liquid less the mass now, in percent of the raw mass. What is left is the mass now, with the liquid that stayed in it, so the two need not make 100${nbsp}%.`,
  notJuiciness: "A loss of mass does not say what people perceive; that takes a panel.",
  drawn: {
    drawn: "",
    "not-drawn": "It was not drawn which raw pieces got which process: the pieces may differ as much as the processes.",
    unknown:
      "Whether it was drawn which raw pieces got which process is not recorded: if somebody chose, the pieces may differ as much as the processes.",
  } satisfies Record<Drawing, string>,
  wasDrawn: "Which raw pieces got which process was drawn.",

  warning(warning: LedgerWarning): string {
    switch (warning.what) {
      case "one-batch":
        return `There is one batch of ${named(warning.product)}: without a second one there is no interval, and nothing is said about other cooks.`;
      case "no-scatter":
        return `At ${named(warning.step)} all batches lost the same to the last digit, so that chance cannot be told: look whether the balance is fine enough.`;
      case "not-weighed":
        return `Batch ${warning.batch} of ${named(warning.product)} was not weighed at ${named(warning.step)} and does not count there.`;
      case "blotted-differs":
        return `At ${named(warning.step)} some batches were blotted and others were not: part of the difference may come from that.`;
      case "protocol-differs":
        return protocolText(warning);
      case "pairs-incomplete":
        return `Not every batch of ${named(warning.first)} and ${named(warning.second)} has its half in the other process: they are taken as independent.`;
      case "coarse": {
        const effect = pointsWord(points(warning.effect, decimalsOf(warning.effect)));
        const of = warning.sought ? `the ${effect} sought` : `the ${effect} found`;
        return `The balance shows steps of ${warning.balanceStep} g. Twice that on ${shortNumber(warning.grams, 2)} g are ${pointsWord(points(warning.points, 2))}, more than a quarter of ${of}: weigh on a finer balance, or more food at once.`;
      }
    }
  },
};
