import type { Interval } from "../model/interval.ts";
import type { ChewResult, GainDifference } from "../model/result-chew.ts";
import { type ChewRow, gainOf } from "./chew-portion.ts";
import { chewWarnings } from "./chew-warnings.ts";
import { intervalOf, meanInterval, meanRatio, paired, welch } from "./mean-difference.ts";

/** How portions were planned and are judged. */
export type ChewPlan = {
  /** The product that is an inert portion; null: none. */
  control: string | null;
  /** Smallest difference that matters, in percentage points; null: none was named. */
  matters: number | null;
  plannedSeconds: number | null;
  /** In grams as typed; empty: the last digit of the readings stands for it. */
  balanceStep: string;
  confidence: number;
};

/** A portion with its gain; grams null where only a percentage is known. */
export type Portion = {
  panelist: string;
  product: string;
  percent: number;
  grams: number | null;
  seconds: number | null;
};

/**
 * What chewed and weighed portions say: a person's repeats are averaged, and people are the unit. Of one person alone the
 * portions are, and all that is said is said of that person. No direction is presumed.
 *
 * Takes    rows: each with readings or a gain, none of which `chewRefusalOf` refuses; plan; app: version
 * Returns  gains in grams and percent, differences in percentage points with the interval of the paired t test
 */
export function chewResult(rows: readonly ChewRow[], plan: ChewPlan, app: string): ChewResult {
  const portions = rows.flatMap(portionOf);
  const named = [...new Set(portions.map(({ product }) => product))];
  const products = named.filter((product) => product !== plan.control);
  const people = new Set(portions.map(({ panelist }) => panelist));
  const unit = people.size === 1 ? "portion" : "panelist";
  const panelists = personMeans(portions);
  const others = products.slice(1);
  // several are held against the first: an even share of the risk for each
  const each = 1 - (1 - plan.confidence) / Math.max(1, others.length);
  const found: Omit<ChewResult, "warnings"> = {
    ...{ v: 1, kind: "chew-and-weigh", app, products, control: plan.control, confidence: plan.confidence },
    ...{ matters: plan.matters, plannedSeconds: plan.plannedSeconds, unit, panelists },
    means: named.map((product) => meanOfProduct(product, unit, portions, panelists, plan.confidence)),
    differences: others.map((second) => differenceOf(products[0] ?? "", second, unit, portions, panelists, each)),
  };
  return { ...found, warnings: chewWarnings(rows, portions, plan, found) };
}

function portionOf({ panelist, product, readings, gainPercent, seconds }: ChewRow): Portion[] {
  const gain = readings ? gainOf(readings) : null;
  const percent = gain?.percent ?? gainPercent;
  return percent === null ? [] : [{ panelist, product, percent, grams: gain?.grams ?? null, seconds }];
}

type PersonMean = ChewResult["panelists"][number];

function personMeans(portions: readonly Portion[]): PersonMean[] {
  const groups = new Map<string, Portion[]>();
  for (const portion of portions) {
    const name = JSON.stringify([portion.panelist, portion.product]);
    groups.set(name, [...(groups.get(name) ?? []), portion]);
  }
  return [...groups.values()].map((own) => ({
    ...{ panelist: own[0]?.panelist ?? "", product: own[0]?.product ?? "", portions: own.length },
    gainPercent: meanOf(own.map(({ percent }) => percent)),
    gainGrams: meanOfAll(own.map(({ grams }) => grams)),
    seconds: meanOfAll(own.map(({ seconds }) => seconds)),
  }));
}

const meanOf = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0) / values.length;

/** Mean of values that are all known; null where one is not. */
function meanOfAll(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length < values.length || known.length === 0 ? null : meanOf(known);
}

type Unit = ChewResult["unit"];

/** What counts once: a person's mean of a product, or of one person each portion. */
type Counted = { panelist: string; percent: number; grams: number | null };

const countedOf = (
  product: string,
  unit: Unit,
  portions: readonly Portion[],
  panelists: readonly PersonMean[],
): Counted[] =>
  unit === "portion"
    ? portions.filter((each) => each.product === product)
    : panelists
        .filter((each) => each.product === product)
        .map(({ panelist, gainPercent, gainGrams }) => ({ panelist, percent: gainPercent, grams: gainGrams }));

const nothing = (confidence: number): Interval => ({ estimate: null, low: null, high: null, confidence, kind: "none" });

/** An interval of values that are all known. */
function known(values: readonly (number | null)[], confidence: number): Interval {
  const all = values.filter((value) => value !== null);
  return all.length < values.length || all.length === 0 ? nothing(confidence) : meanInterval(all, confidence);
}

function meanOfProduct(
  product: string,
  unit: Unit,
  portions: readonly Portion[],
  panelists: readonly PersonMean[],
  confidence: number,
): ChewResult["means"][number] {
  const counted = countedOf(product, unit, portions, panelists);
  const own = panelists.filter((each) => each.product === product);
  return {
    ...{ product, panelists: own.length, portions: own.reduce((all, each) => all + each.portions, 0) },
    gainPercent: known(
      counted.map(({ percent }) => percent),
      confidence,
    ),
    gainGrams: known(
      counted.map(({ grams }) => grams),
      confidence,
    ),
    seconds: meanOfAll(own.map(({ seconds }) => seconds)),
  };
}

function differenceOf(
  first: string,
  second: string,
  unit: Unit,
  portions: readonly Portion[],
  panelists: readonly PersonMean[],
  confidence: number,
): GainDifference {
  const [all, others] = [first, second].map((product) => countedOf(product, unit, portions, panelists));
  const pairs = unit === "panelist";
  const [one, other] = pairs ? partners(all ?? [], others ?? []) : [all ?? [], others ?? []];
  const differ = (of: (each: Counted) => number): { test: ReturnType<typeof paired>; interval: Interval } => {
    if (one.length === 0 || other.length === 0) return { test: null, interval: nothing(confidence) };
    const [from, to] = [one.map(of), other.map(of)];
    const test = (pairs ? paired : welch)(from, to);
    return { test, interval: intervalOf(test, meanOf(to) - meanOf(from), confidence) };
  };
  const { test, interval } = differ(({ percent }) => percent);
  const weighed = [...one, ...other].every(({ grams }) => grams !== null);
  return {
    ...{ first, second, units: [one.length, other.length], design: pairs ? "paired" : "independent" },
    percentagePoints: interval,
    grams: weighed ? differ(({ grams }) => grams ?? 0).interval : nothing(confidence),
    test: test && { standardError: test.standardError, df: test.df, tValue: test.tValue, pValue: test.pValue },
    ratio:
      one.length === 0 || other.length === 0
        ? nothing(confidence)
        : meanRatio(
            one.map(({ percent }) => percent),
            other.map(({ percent }) => percent),
            pairs,
            confidence,
          ),
  };
}

/** Means of the people who had both products, in one order. */
function partners(first: readonly Counted[], second: readonly Counted[]): [Counted[], Counted[]] {
  const found = first.flatMap((one) => {
    const other = second.find(({ panelist }) => panelist === one.panelist);
    return other ? [[one, other] as const] : [];
  });
  return [found.map(([one]) => one), found.map(([, other]) => other)];
}
