import { decimalsOf, gramsOf } from "../model/grams.ts";
import type { Interval } from "../model/interval.ts";
import type { Ledger, LedgerBatch, Weighing } from "../model/ledger.ts";
import type { LedgerResult, MassDifference, MeanOfBatches, Weighed } from "../model/result-ledger.ts";
import { lostBetween, massOf } from "./ledger-check.ts";
import { ledgerWarnings } from "./ledger-warnings.ts";
import { intervalOf, meanInterval, meanRatio, paired, welch } from "./mean-difference.ts";

/**
 * What a weighing ledger says: losses of each batch, their means by process, and what lies between processes. The batch is
 * the unit: portions of one pan are one cook.
 *
 * Takes    ledger: one that `refusalsOf` finds nothing in; confidence: of the intervals, 0.95; app: version
 * Returns  losses in percent of the step's own start and of the raw mass, differences in percentage points
 * Liquid   what was added counts as lost where it is gone: before + added - after on the mass before, and raw + all that
 *          was added - now on the raw mass; what is left is now on raw
 * Exact    every loss is the exact decimal difference of the readings, to the last bit or two after the division
 */
export function ledgerResult(ledger: Ledger, confidence: number, app: string): LedgerResult {
  const batches = ledger.batches.map((batch) => ({
    product: batch.product,
    pair: batch.pair,
    steps: weighedOf(ledger, batch),
  }));
  const others = ledger.products.map((_, product) => product).slice(1);
  // several are held against the first: an even share of the risk for each
  const each = 1 - (1 - confidence) / Math.max(1, others.length);
  const compared = others.map((second) => comparison(ledger, batches, second, each));
  const found: Omit<LedgerResult, "warnings"> = {
    ...{ v: 1, kind: "ledger", app, confidence },
    ...{ products: ledger.products, steps: ledger.steps, drawn: ledger.drawn, matters: ledger.matters },
    batches: ledger.batches.map(({ product, name, lot, pair }, at) => ({
      ...{ product: ledger.products[product] ?? "", batch: name, lot, pair },
      steps: batches[at]?.steps ?? [],
    })),
    means: meansOf(ledger, batches, confidence),
    differences: compared.flatMap(({ differences }) => differences),
    yieldRatios: compared.flatMap(({ ratio }) => ratio),
  };
  return { ...found, warnings: ledgerWarnings(ledger, found) };
}

/** A batch with its losses worked out. */
type Worked = { product: number; pair: string; steps: Weighed[] };

/** Net mass with as many decimals as its readings have. */
const gramsText = (weighing: Weighing | null): string =>
  weighing === null
    ? ""
    : (massOf(weighing) ?? 0).toFixed(Math.max(decimalsOf(weighing.grams), decimalsOf(weighing.tare)));

const percentOf = (part: number, whole: number): number => (100 * part) / whole;

function weighedOf(ledger: Ledger, batch: LedgerBatch): Weighed[] {
  return ledger.steps.map((step, at): Weighed => {
    const taken = (place: number): Weighing | null =>
      massOf(batch.weighings[place]) === null ? null : (batch.weighings[place] ?? null);
    const [raw, before, now] = [taken(0), at > 0 ? taken(at - 1) : null, taken(at)];
    const [rawGrams, beforeGrams, grams] = [massOf(raw) ?? 0, massOf(before) ?? 0, massOf(now)];
    const lossGrams = before && now ? lostBetween(before, now, [now.added]) : null;
    const drip = now && now.drip !== "" && before ? now.drip : null;
    const uncaught =
      before && now && drip !== null
        ? gramsOf([before.grams, now.tare, now.added], [before.tare, now.grams, drip])
        : null;
    const added = batch.weighings.slice(0, at + 1).map((each) => each?.added ?? "");
    return {
      ...{ step, grams, gramsText: gramsText(now), lossGrams, blotted: now?.blotted ?? "unknown" },
      lossPercent: lossGrams === null ? null : percentOf(lossGrams, beforeGrams),
      yieldPercent: raw && grams !== null ? percentOf(grams, rawGrams) : null,
      totalLossPercent: raw && now && at > 0 ? percentOf(lostBetween(raw, now, added), rawGrams) : null,
      dripLossPercent: drip === null ? null : percentOf(Number(drip), beforeGrams),
      evaporativeLossPercent: uncaught === null ? null : percentOf(uncaught, beforeGrams),
      ...{ added: now?.added ?? "", minutes: now?.minutes ?? "", celsius: now?.celsius ?? "" },
    };
  });
}

/** Which of a batch's numbers is looked at. */
type Of = "lossPercent" | "totalLossPercent" | "yieldPercent";

/** A number of all batches of a process at a step, with the batch's pair. */
const valuesOf = (
  batches: readonly Worked[],
  product: number,
  step: number,
  of: Of,
): { pair: string; value: number }[] =>
  batches.flatMap((batch) => {
    const value = batch.product === product ? (batch.steps[step]?.[of] ?? null) : null;
    return value === null ? [] : [{ pair: batch.pair, value }];
  });

function meansOf(ledger: Ledger, batches: readonly Worked[], confidence: number): LedgerResult["means"] {
  const mean = (product: number, step: number, of: Of): MeanOfBatches => {
    const values = valuesOf(batches, product, step, of).map(({ value }) => value);
    const none: Interval = { estimate: null, low: null, high: null, confidence, kind: "none" };
    return { batches: values.length, percent: values.length === 0 ? none : meanInterval(values, confidence) };
  };
  return ledger.products.flatMap((name, product) =>
    ledger.steps.slice(1).map((step, at) => ({
      ...{ product: name, step },
      loss: mean(product, at + 1, "lossPercent"),
      totalLoss: mean(product, at + 1, "totalLossPercent"),
    })),
  );
}

/** Are all batches of the two processes in pairs, one of each? Otherwise nothing is held together. */
export function inPairs(
  batches: readonly Pick<LedgerBatch, "product" | "pair">[],
  first: number,
  second: number,
): boolean {
  const pairs = (product: number) => batches.filter((each) => each.product === product).map(({ pair }) => pair.trim());
  const [one, other] = [pairs(first), pairs(second)];
  const whole = one.length > 0 && one.length === other.length && !one.includes("");
  return whole && new Set(one).size === one.length && one.every((pair) => other.includes(pair));
}

type Compared = { differences: MassDifference[]; ratio: LedgerResult["yieldRatios"] };

/** One process against the first, step by step. */
function comparison(ledger: Ledger, batches: readonly Worked[], second: number, confidence: number): Compared {
  const pairs = inPairs(batches, 0, second);
  const names = { first: ledger.products[0] ?? "", second: ledger.products[second] ?? "" };
  const both = (step: number, of: Of): [number[], number[]] => {
    const [one, other] = [valuesOf(batches, 0, step, of), valuesOf(batches, second, step, of)];
    if (!pairs) return [one.map(({ value }) => value), other.map(({ value }) => value)];
    const found = one.flatMap(({ pair, value }) => {
      const partner = other.find((each) => each.pair.trim() === pair.trim());
      return partner ? [[value, partner.value] as const] : [];
    });
    return [found.map(([value]) => value), found.map(([, value]) => value)];
  };
  const differences = ledger.steps.slice(1).flatMap((step, at) =>
    (["step", "raw"] as const).map((base): MassDifference => {
      const [one, other] = both(at + 1, base === "step" ? "lossPercent" : "totalLossPercent");
      const test = one.length === 0 || other.length === 0 ? null : (pairs ? paired : welch)(one, other);
      const estimate = one.length === 0 || other.length === 0 ? null : meanOf(other) - meanOf(one);
      return {
        ...{ step, base, ...names, firstBatches: one.length, secondBatches: other.length },
        design: pairs ? "paired" : "independent",
        percentagePoints: intervalOf(test, estimate, confidence),
        test: test && { standardError: test.standardError, df: test.df, tValue: test.tValue, pValue: test.pValue },
      };
    }),
  );
  const last = ledger.steps.length - 1;
  const [one, other] = both(last, "yieldPercent");
  const ratio =
    last < 1 || one.length === 0 || other.length === 0
      ? []
      : [{ step: ledger.steps[last] ?? "", ...names, ratio: meanRatio(one, other, pairs, confidence) }];
  return { differences, ratio };
}

const meanOf = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0) / values.length;
