import type { Interval } from "../model/interval.ts";
import type { KindsMethod } from "../model/method.ts";
import type { KindsStatistics } from "../model/result-kinds.ts";
import { farthestKinds, type KindsModel, kindsModel, type Told } from "./kinds-model.ts";
import { highest } from "./maximum.ts";
import { normalQuantile } from "./normal.ts";
import { root } from "./root.ts";

/** So many of a kind of trays were told, of so many. */
export type ToldOf = { told: number; of: number };
type Counts = { unlike: ToldOf; like: ToldOf };
type Distances = Pick<KindsStatistics, "dPrime" | "dPrimeProfile" | "dPrimeStandardError" | "criterion">;

/** Log likelihoods nearer to each other than this are the same: what rounding leaves of them. */
const same = 1e-9;

/**
 * D-prime and the line people draw, by maximum likelihood from the four counts.
 *
 * Takes    pValue: of the exact test, with which the lower bound is kept in step; bounded: one answer a person (of pooled
 *          answers of people who differ only estimates stand)
 * Returns  dPrime: 0 where unlike trays are told as seldom as like ones, or seldomer; null where no finite distance is
 *          the likeliest (every unlike tray told, or no like one, and the other kind not likewise). Lower bound by
 *          profile likelihood at 1 - alpha, above 0 if and only if p <= alpha. Two-sided interval at `confidence`: 0 for
 *          `low` where it is within reach, null for `high` where no distance is too large. Standard error from the
 *          observed information: with as many shares as parameters that is the error of the two shares carried through;
 *          null at 0 and without a finite estimate. criterion: null where it is not finite. Without answers of one kind
 *          nothing has a value but `low`, 0
 */
export function kindsDistances(
  method: KindsMethod,
  counts: Counts,
  test: { alpha: number; pValue: number; confidence: number; bounded: boolean },
): Distances {
  const { alpha, pValue, confidence, bounded } = test;
  const model = kindsModel(method);
  const { dPrime, criterion } = estimateOf(model, counts);
  const none = (level: number): Interval => ({
    estimate: dPrime,
    low: null,
    high: null,
    confidence: level,
    kind: "none",
  });
  if (!bounded) {
    return { dPrime: none(1 - alpha), dPrimeProfile: none(confidence), dPrimeStandardError: null, criterion };
  }
  const profile = profileOf(model, counts);
  const least = profile.low(normalQuantile(1 - alpha));
  const low = pValue <= alpha ? Math.max(least, Number.MIN_VALUE) : 0;
  const z = normalQuantile((1 + confidence) / 2);
  return {
    dPrime: { estimate: dPrime, low, high: null, confidence: 1 - alpha, kind: "lower" },
    dPrimeProfile: { estimate: dPrime, low: profile.low(z), high: profile.high(z), confidence, kind: "two-sided" },
    dPrimeStandardError: standardError(model, counts, dPrime, criterion),
    criterion,
  };
}

const shareOf = ({ told, of }: ToldOf): number => told / of;

function estimateOf(model: KindsModel, { unlike, like }: Counts): { dPrime: number | null; criterion: number | null } {
  if (unlike.of === 0 || like.of === 0) return { dPrime: null, criterion: null };
  const [high, low] = [shareOf(unlike), shareOf(like)];
  if (high <= low) {
    // nothing tells the kinds apart: one share for both
    const both = (unlike.told + like.told) / (unlike.of + like.of);
    return { dPrime: 0, criterion: both > 0 && both < 1 ? model.criterionOf(both) : null };
  }
  const criterion = low > 0 ? model.criterionOf(low) : null;
  if (criterion === null || high === 1) return { dPrime: null, criterion };
  const found = root((dPrime) => gap(model.unlike(dPrime, criterion), high), 0, farthestKinds, 1e-13);
  return { dPrime: found.bracketed ? found.at : null, criterion };
}

/** How far a modeled share lies above the wanted one, by whichever of it and its complement keeps its digits. */
const gap = ({ told, not }: Told, share: number): number =>
  share < 0.5 ? told - share : Math.log((1 - share) / Math.max(Number.MIN_VALUE, not));

function standardError(
  model: KindsModel,
  { unlike, like }: Counts,
  dPrime: number | null,
  criterion: number | null,
): number | null {
  if (dPrime === null || criterion === null || dPrime === 0) return null;
  const slopes = model.slopes(dPrime, criterion);
  const variance = (kind: ToldOf) => (shareOf(kind) * (1 - shareOf(kind))) / kind.of;
  const byLine = variance(like) * (slopes.unlike / slopes.like) ** 2;
  return Math.sqrt(variance(unlike) + byLine) / slopes.unlikeByDistance;
}

/** The largest log likelihood at a distance, over all lines, and where it has fallen by half of z squared. */
function profileOf(model: KindsModel, counts: Counts) {
  const { unlike, like } = counts;
  const at = (dPrime: number) =>
    highest(
      (criterion) => logOf(model.unlike(dPrime, criterion), unlike) + logOf(model.like(criterion), like),
      Math.max(model.leastCriterion, -9),
      dPrime + 13,
    ).value;
  const saturated = ownLog(unlike) + ownLog(like);
  const none = ownLog({ told: unlike.told + like.told, of: unlike.of + like.of });
  const apart = shareOf(unlike) > shareOf(like);
  const best = apart ? saturated : none;
  const far = Math.max(
    unlike.told === unlike.of ? ownLog(like) : Number.NEGATIVE_INFINITY,
    like.told === 0 ? ownLog(unlike) : Number.NEGATIVE_INFINITY,
  );
  const { dPrime } = estimateOf(model, counts);
  const middle = dPrime ?? farthestKinds;
  return {
    low: (z: number) => {
      const off = (distance: number) => Math.max(-1e4, at(distance) - best + (z * z) / 2);
      if (!apart || best - none <= (z * z) / 2 + same) return 0;
      const found = root(off, 0, middle, 1e-10);
      return found.bracketed ? found.at : 0;
    },
    high: (z: number) => {
      if (unlike.of === 0 || like.of === 0 || far - best >= -(z * z) / 2 - same) return null;
      const off = (distance: number) => Math.max(-1e4, at(distance) - best + (z * z) / 2);
      const found = root(off, middle, farthestKinds, 1e-10);
      return found.bracketed ? found.at : null;
    },
  };
}

const times = (count: number, share: number): number => (count === 0 ? 0 : count * Math.log(share));
const logOf = ({ told, not }: Told, kind: ToldOf): number => times(kind.told, told) + times(kind.of - kind.told, not);
/** At the kind's own share: the most it can have. */
const ownLog = (kind: ToldOf): number => logOf({ told: shareOf(kind), not: 1 - shareOf(kind) }, kind);
