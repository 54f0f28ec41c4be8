import type { Plan } from "../model/plan.ts";
import { type CoreVerdict, checkCore, checkHolding, type HoldingVerdict } from "../model/safety-check.ts";
import type { SafetyLimit } from "../model/safety-limit.ts";
import { allowedBelow } from "../model/undercooked.ts";
import type { ServedPot } from "./day-batches.ts";
import type { DayEntries } from "./day-entries.ts";
import { type OutSince, outSince } from "./day-out.ts";
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
  /** When it left the heat or the cold: the earliest of entries that were written apart, as an instant; null: nobody wrote it down. */
  left: string | null;
  /** Since when it may be out of temperature; null: nothing that tells it is written. What was typed wrong is taken back. */
  out: OutSince | null;
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
  const left = inWave(entries.of("heat-left"), wave).filter(({ body }) => body.pot === pot);
  const hot = cores.filter(({ verdict }) => verdict.verdict === "met").map(({ entry }) => entry);
  const lastLeft = entries.latest(left);
  return {
    ...served,
    cores,
    core: coreState(cores, limits),
    holdings: heldAnywhere.filter(({ entry }) => entry.body.wave === wave),
    heldAnywhere,
    // the earlier one gives less time: the safe side
    left: earliest(lastLeft.map(({ body }) => body.left)),
    out: outSince(left, inWave(held, wave), hot, limits),
    leftEntries: left,
    latestLeft: lastLeft.map(({ id }) => id),
  };
}

const inWave = <T extends { body: { wave: number } }>(entries: readonly T[], wave: number): T[] =>
  entries.filter(({ body }) => body.wave === wave);

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
