import { gramsOf, lastDigit } from "../model/grams.ts";
import type { Ledger, LedgerBatch, Weighing } from "../model/ledger.ts";

/** What a ledger cannot say, and is refused with a sentence. Batch and step by their place. */
export type Refusal = { batch: number; step: number } & (
  | { what: "no-mass" }
  /** Something else was noted of a weighing, but not its mass. */
  | { what: "no-grams" }
  /** Liquid before the first weighing is part of what was weighed there. */
  | { what: "added-first" }
  | { what: "tare-above-gross"; grams: string; tare: string }
  /** More than before and what was added, by more than the balance may err, and no reason is named. */
  | { what: "gain"; before: number; after: number; since: string; added: number; tolerance: number }
  /** A thousandth of what it should be, or a thousand times as much: kilograms typed for grams. */
  | { what: "thousandfold"; grams: number; beside: number }
  /** Ten times as much as before: no food takes that up; a reason does not let it stand. */
  | { what: "tenfold"; grams: number; beside: number }
  /** More juice was caught than mass was lost. */
  | { what: "drip-above-loss"; drip: number; lost: number; tolerance: number }
  /** Two batches of one process with one name of a pair. */
  | { what: "pair-twice"; pair: string; other: string }
);

/** No food keeps less than a fiftieth of its mass in one step; a mistyped unit leaves a thousandth. */
const leastKept = 1 / 50;
/** Nor does any take up nine times its own mass in one step: dry grain in water comes to three or four. */
const mostGrown = 10;
/** Raw masses of batches this far apart are not of one unit. */
const farApart = 300;

/** Net mass of a weighing; null where none was taken. A dish of 22.4 g on 1520.0 g leaves 1497.6 g. */
export const massOf = (weighing: Weighing | null | undefined): number | null =>
  weighing && weighing.grams !== "" ? gramsOf([weighing.grams], [weighing.tare]) : null;

/** Grams that went between two weighings, of what was there at the first and what was added since. */
export const lostBetween = (first: Weighing, then: Weighing, added: readonly string[]): number =>
  gramsOf([first.grams, then.tare, ...added], [first.tare, then.grams]);

/** Readings and dishes of both weighings, half a step of the balance each: what they may be off together, in grams. */
function toleranceOf(balanceStep: string, ...weighings: readonly Weighing[]): number {
  const readings = weighings.flatMap(({ grams, tare }) => (tare === "" ? [grams] : [grams, tare]));
  const halves = readings.map((reading) => (balanceStep === "" ? lastDigit(reading) : Number(balanceStep)) / 2);
  // a hair above: tolerance and gain are decimals, and the sum of doubles may fall short of one
  return halves.reduce((total, half) => total + half, 0) * (1 + 1e-9);
}

/**
 * Everything in a ledger that cannot be, in the order of its batches and steps; empty where all of it can.
 *
 * Takes    a ledger whose readings are readings (the schema)
 */
export function refusalsOf(ledger: Ledger): Refusal[] {
  return ledger.batches.flatMap((batch, at) => [
    ...batch.weighings.flatMap((weighing, step): Refusal[] => {
      const found = weighing && refusalOf(ledger, batch, weighing, step);
      return found ? [{ batch: at, step, ...found } as Refusal] : [];
    }),
    ...pairTwice(ledger, at),
  ]);
}

type Without<R> = R extends unknown ? Omit<R, "batch" | "step"> : never;

function refusalOf(ledger: Ledger, batch: LedgerBatch, weighing: Weighing, step: number): Without<Refusal> | null {
  const { grams, tare, drip, added, minutes, celsius } = weighing;
  if (grams === "") return tare + drip + added + minutes + celsius === "" ? null : { what: "no-grams" };
  if (step === 0 && added !== "") return { what: "added-first" };
  const after = gramsOf([grams], [tare]);
  if (after < 0) return { what: "tare-above-gross", grams, tare };
  if (after === 0) return { what: "no-mass" };
  const since = batch.weighings.findLastIndex((each, at) => at < step && massOf(each) !== null);
  const before = batch.weighings[since];
  if (!before) return step === 0 ? unitOf(ledger, batch, after) : null;
  return changeOf(ledger, before, weighing, ledger.steps[since] ?? "");
}

/** What one step cannot do to a mass. */
function changeOf(ledger: Ledger, first: Weighing, then: Weighing, since: string): Without<Refusal> | null {
  const [before, after, added] = [massOf(first) ?? 0, massOf(then) ?? 0, Number(then.added)];
  const there = gramsOf([first.grams, then.added], [first.tare]);
  if (after < there * leastKept) return { what: "thousandfold", grams: after, beside: there };
  if (after >= there * mostGrown)
    return { what: after * leastKept > there ? "thousandfold" : "tenfold", grams: after, beside: there };
  // liquid and juice are readings too
  const errOf = (grams: string): number =>
    grams === "" ? 0 : toleranceOf(ledger.balanceStep, { ...then, grams, tare: "" });
  const tolerance = toleranceOf(ledger.balanceStep, first, then) + errOf(then.added);
  const lost = lostBetween(first, then, [then.added]);
  if (-lost > tolerance && then.gainReason.trim() === "")
    return { what: "gain", before, after, since, added, tolerance };
  const drip = Number(then.drip);
  const caught = tolerance + errOf(then.drip);
  // where the mass grew for a reason nobody says by how much: juice is then held against all that was there
  const most = -lost > tolerance ? there : lost;
  if (drip - most > caught) return { what: "drip-above-loss", drip, lost: most, tolerance: caught };
  return null;
}

/** A raw mass against those of the other batches. */
function unitOf({ batches }: Ledger, batch: LedgerBatch, raw: number): Without<Refusal> | null {
  const others = batches.flatMap((each) => (each === batch ? [] : (massOf(each.weighings[0]) ?? [])));
  const middle = others.toSorted((a, b) => a - b)[Math.floor(others.length / 2)];
  if (middle === undefined || middle <= 0) return null;
  const off = raw * farApart < middle || middle * farApart < raw;
  return off ? { what: "thousandfold", grams: raw, beside: middle } : null;
}

function pairTwice({ batches }: Ledger, at: number): Refusal[] {
  const batch = batches[at];
  if (!batch || batch.pair.trim() === "") return [];
  const other = batches.findIndex((each) => each.product === batch.product && each.pair === batch.pair);
  if (other === at) return [];
  return [{ batch: at, step: 0, what: "pair-twice", pair: batch.pair, other: batches[other]?.name ?? "" }];
}
