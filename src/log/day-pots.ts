import type { Plan } from "../model/plan.ts";
import {
  type CoreVerdict,
  checkCore,
  checkHolding,
  checkOut,
  type HoldingVerdict,
  type OutVerdict,
} from "../model/safety-check.ts";
import type { SafetyLimit } from "../model/safety-limit.ts";
import { allowedBelow } from "../model/undercooked.ts";
import type { ServedPot } from "./day-batches.ts";
import type { DayEntries } from "./day-entries.ts";
import type { FactOf } from "./fact.ts";

/** A reading of the core beside the limits. `latest`: nothing follows it, so it has to pass. */
export type CoreRead = {
  entry: FactOf<"core-read">;
  latest: boolean;
  verdict: CoreVerdict;
  /** Who allowed it below a limit of cooking, where the lock lets that person. */
  allowed: FactOf<"cooking-excepted"> | null;
};

export type HoldingRead = { entry: FactOf<"holding-read">; latest: boolean; verdict: HoldingVerdict };

/** not-needed: no limit of cooking applies. apart: readings that did not know of each other disagree. */
export type CoreState = "not-needed" | "not-read" | "met" | "allowed" | "below" | "apart";

/** A pot of one wave: what was read of it. A batch that came in its place inherits nothing. */
export type PotDay = ServedPot & {
  cores: CoreRead[];
  core: CoreState;
  holdings: HoldingRead[];
  /** The same of every wave that the batch serves: what was too cold under one wave is not served with another. */
  heldAnywhere: HoldingRead[];
  /** When it left the heat: the earliest of entries that were written apart, as an instant; null: nobody wrote it down. */
  left: string | null;
  /**
   * Since when nothing but time keeps it safe, for all that was written down; null: nothing says. A later "left the heat" does
   * not take an earlier one's place unless the same device wrote down between them that the core was hot enough again. A
   * reading of holding within its limit starts the time anew if the time was not up before. What was typed wrong is taken back.
   */
  outSince: string | null;
  leftEntries: FactOf<"heat-left">[];
  latestLeft: string[];
};

/** What a plan says that readings are held against. */
export type PlanOfPots = Pick<Plan, "limits" | "uncooked" | "cautionsApplying" | "responsible">;

/** The limits that apply: of food that nothing has to be cooked through, none of cooking. */
export const limitsOf = ({ limits, uncooked }: Pick<Plan, "limits" | "uncooked">): SafetyLimit[] =>
  limits.filter(({ kind }) => !uncooked || kind !== "cooking");

/**
 * What was read of a pot.
 *
 * A reading of the core is one of the batch: it counts in each wave that the batch serves. What is held and when it left the
 * heat is said wave by wave.
 */
export function potDay(served: ServedPot, wave: number, plan: PlanOfPots, entries: DayEntries): PotDay {
  const { pot } = served;
  const limits = limitsOf(plan);
  const cores = coresOf(pot, plan, entries);
  const held = entries.of("holding-read").filter(({ body }) => body.pot === pot);
  const lastHeld = new Set((["hot", "cold"] as const).flatMap((how) => entries.latest(held.filter(is(how)))));
  const heldAnywhere = held.map((entry) => ({
    ...{ entry, latest: lastHeld.has(entry) },
    verdict: checkHolding(limits, entry.body.held, Number(entry.body.celsius)),
  }));
  const left = entries.of("heat-left").filter(({ body }) => body.pot === pot && body.wave === wave);
  const lastLeft = entries.latest(left);
  return {
    ...served,
    cores,
    core: coreState(cores, limits),
    holdings: heldAnywhere.filter(({ entry }) => entry.body.wave === wave),
    heldAnywhere,
    // the earlier one gives less time: the safe side
    left: earliest(lastLeft.map(({ body }) => body.left)),
    outSince: outSinceOf(
      earliest(left.filter((entry) => !heatedSince(entry, left, cores)).map(({ body }) => body.left)),
      heldAnywhere.filter(({ entry, verdict }) => entry.body.wave === wave && verdict.verdict === "met"),
      limits,
    ),
    leftEntries: left,
    latestLeft: lastLeft.map(({ id }) => id),
  };
}

/** Nobody measures the air or how warm the food got: what is not known meets no condition. */
export const verdictOut = (limits: readonly SafetyLimit[], minutes: number): OutVerdict =>
  checkOut(limits, { from: "hot", minutes, airCelsius: null, warmestFoodCelsius: null });

function outSinceOf(left: string | null, kept: readonly HoldingRead[], limits: readonly SafetyLimit[]): string | null {
  const reads = kept.flatMap(({ entry }) => entry.body.read ?? []).sort((a, b) => Date.parse(a) - Date.parse(b));
  // never said to have left: it was held until it was last read
  if (left === null) return reads.at(-1) ?? null;
  return reads.reduce((since, read) => {
    const minutes = (Date.parse(read) - Date.parse(since)) / 60_000;
    return minutes > 0 && verdictOut(limits, minutes).verdict === "met" ? read : since;
  }, left);
}

/** Was a pot hot enough at the core between this entry and a later one, as one device wrote it down? */
const heatedSince = (
  { device, seq }: FactOf<"heat-left">,
  left: readonly FactOf<"heat-left">[],
  cores: readonly CoreRead[],
): boolean =>
  left.some(
    (later) =>
      later.device === device &&
      cores.some(
        ({ entry, verdict }) =>
          verdict.verdict === "met" && entry.device === device && entry.seq > seq && entry.seq < later.seq,
      ),
  );

const is =
  (how: "hot" | "cold") =>
  ({ body }: FactOf<"holding-read">): boolean =>
    body.held === how;

function coresOf(pot: string, plan: PlanOfPots, entries: DayEntries): CoreRead[] {
  const readings = entries.of("core-read").filter(({ body }) => body.pot === pot);
  const last = new Set(entries.latest(readings));
  const exceptions = entries.of("cooking-excepted").filter(({ body }) => isAllowed(plan, body.by));
  return readings.map((entry) => {
    const { celsius, heldSeconds, restMinutes } = entry.body;
    const verdict = checkCore(limitsOf(plan), { celsius: Number(celsius), heldSeconds, restMinutes });
    const allowed = exceptions.find(({ body }) => body.reading === entry.id) ?? null;
    return { entry, latest: last.has(entry), verdict, allowed: verdict.verdict === "below" ? allowed : null };
  });
}

/** May this person let food stay below its limits of cooking? Only whom the lock named, and only where it named somebody. */
export function isAllowed(plan: PlanOfPots, by: string): boolean {
  const named = allowedBelow(plan);
  return named !== null && named.toLowerCase() === by.trim().toLowerCase();
}

function coreState(cores: readonly CoreRead[], limits: readonly SafetyLimit[]): CoreState {
  if (!limits.some(({ kind }) => kind === "cooking")) return "not-needed";
  const last = cores.filter(({ latest }) => latest);
  if (last.length === 0) return "not-read";
  const below = last.filter(({ verdict, allowed }) => verdict.verdict === "below" && !allowed);
  if (below.length === 0) return last.some(({ allowed }) => allowed) ? "allowed" : "met";
  return below.length < last.length ? "apart" : "below";
}

const earliest = (instants: readonly string[]): string | null =>
  instants.reduce<string | null>(
    (first, each) => (first === null || Date.parse(each) < Date.parse(first) ? each : first),
    null,
  );
