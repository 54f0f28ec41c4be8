import type { haltReasons } from "../model/kitchen-event.ts";
import type { Plan } from "../model/plan.ts";
import type { CookingLimit, OutLimit, SafetyLimit } from "../model/safety-limit.ts";
import { minutesBetween, type OutSince, verdictOut } from "./day-out.ts";
import type { HoldingRead, PotDay } from "./day-pots.ts";

/** Why nothing of a wave may be served now. Temperatures are those typed, in °C; minutes count as `OutSince` says. */
export type Block =
  | { why: "not-read"; pot: string }
  | { why: "below"; pot: string; celsius: string; rows: CookingLimit[] }
  /** Readings that did not know of each other disagree: one that names them all decides. */
  | { why: "apart"; pot: string; of: "core" | "hot" | "cold" }
  | { why: "held-past"; pot: string; held: "hot" | "cold"; celsius: string; limit: number }
  /** It is held, and the plan has no limit for that: nothing says that such food may be served. */
  | { why: "held-without-limit"; pot: string; held: "hot" | "cold" }
  | ({ why: "out-past"; pot: string; minutes: number; limit: OutLimit } & Pick<OutSince, "from" | "by">)
  /** No limit of time has conditions that are known to hold: nothing says that such food may be served. */
  | { why: "out-without-limit"; pot: string }
  /** Ready, and neither when it left the heat nor a reading of its holding that passes is written: no limit of time can be kept. */
  | { why: "out-unknown"; pot: string }
  | { why: "halted"; halt: (typeof haltReasons)[number] };

/** The two clocks of a wave, from the heat on, by what was written down. They are never merged: one warns, one blocks. */
export type Clocks = {
  /** none: the plan names no window; unknown: of some pot nobody wrote down when it left the heat. */
  window: "none" | "unknown" | "not-yet" | "in" | "past";
  /** Minutes until the window opens for the last of the pots, 0 once it has; and until it shuts for the first. Null: unknown. */
  opensIn: number | null;
  shutsIn: number | null;
  /** Minutes until the first pot reaches its limit of safety, 0 or less once it has; null: unknown, or no such limit. */
  safeFor: number | null;
};

/** Minutes that a pot has been away from the heat or the cold. Null: nobody wrote down when it left. */
export const minutesOut = ({ left }: Pick<PotDay, "left">, now: number): number | null =>
  left === null ? null : minutesBetween(left, now);

/**
 * What stands against serving from a pot.
 *
 * Takes    limits: those that apply; timed: does somebody have to write down when it left the heat or the cold? Not for bread,
 *          cheese, fruit and the like; now: milliseconds since 1970
 */
export function blocksOfPot(pot: PotDay, limits: readonly SafetyLimit[], timed: boolean, now: number): Block[] {
  if (limits.length === 0) return [];
  return [...coreBlocks(pot), ...holdingBlocks(pot), ...(timed || pot.out ? outBlocks(pot, limits, now) : [])];
}

function coreBlocks({ pot, core, cores }: PotDay): Block[] {
  if (core === "not-read") return [{ why: "not-read", pot }];
  if (core === "apart") return [{ why: "apart", pot, of: "core" }];
  if (core !== "below") return [];
  const coldest = cores
    .flatMap(({ latest, allowed, verdict, entry }) =>
      latest && !allowed && verdict.verdict === "below" ? [{ celsius: entry.body.celsius, rows: verdict.rows }] : [],
    )
    .sort((a, b) => Number(a.celsius) - Number(b.celsius))
    .slice(0, 1);
  return coldest.map((reading) => ({ why: "below", pot, ...reading }));
}

/** No limit of holding has an exception: a warmer reading later does not undo it, only taking back what was typed wrong. */
function holdingBlocks({ pot, heldAnywhere: holdings }: PotDay): Block[] {
  return (["hot", "cold"] as const).flatMap((held): Block[] => {
    const all = holdings.filter(({ entry }) => entry.body.held === held);
    const last = all.filter(({ latest }) => latest);
    const past = all.flatMap(pastLimit).sort((a, b) => Number(a.celsius) - Number(b.celsius));
    // the reading farthest from the limit: the coldest of hot food, the warmest of cold food
    const worst = past.at(held === "hot" ? 0 : -1);
    if (last.some(({ verdict }) => verdict.verdict === "no-limit")) return [{ why: "held-without-limit", pot, held }];
    if (!worst) return [];
    const before = all.some(({ latest, verdict }) => !latest && verdict.verdict === "past");
    return !before && past.length < last.length
      ? [{ why: "apart", pot, of: held }]
      : [{ why: "held-past", pot, held, celsius: worst.celsius, limit: worst.limit }];
  });
}

const pastLimit = ({ entry, verdict }: HoldingRead) =>
  verdict.verdict === "past" ? [{ celsius: entry.body.celsius, limit: verdict.celsius }] : [];

function outBlocks({ pot, out, core }: PotDay, limits: readonly SafetyLimit[], now: number): Block[] {
  if (!limits.some(({ kind }) => kind === "out")) return [];
  // what is not yet cooked through is not served anyway: its core comes first
  if (out === null)
    return core === "met" || core === "allowed" || core === "not-needed" ? [{ why: "out-unknown", pot }] : [];
  const minutes = minutesBetween(out.since, now);
  const verdict = verdictOut(limits, out, minutes);
  // what is held has a limit of its own: it is not out
  if (verdict.verdict === "no-limit") return out.by === "held" ? [] : [{ why: "out-without-limit", pot }];
  if (verdict.verdict === "met") return [];
  return [{ why: "out-past", pot, minutes, limit: verdict.limit, from: out.from, by: out.by }];
}

/** Both clocks over the pots that a wave is served from. */
export function clocksOf(
  pots: readonly PotDay[],
  { pace }: Pick<Plan, "pace">,
  limits: readonly SafetyLimit[],
  now: number,
): Clocks {
  const known = pots.flatMap((pot) => minutesOut(pot, now) ?? []);
  const whole = known.length === pots.length && known.length > 0;
  const opensIn = whole ? Math.max(0, (pace.windowFrom ?? 0) - Math.min(...known)) : null;
  const shutsIn = known.length > 0 && pace.windowTo !== null ? pace.windowTo - Math.max(...known) : null;
  const safe = pots.flatMap(({ out }) => {
    if (out === null) return [];
    const verdict = verdictOut(limits, out, minutesBetween(out.since, now));
    return verdict.verdict === "no-limit" ? [] : [verdict.minutesLeft];
  });
  const safeFor = safe.length > 0 ? Math.min(...safe) : null;
  const clocks = { opensIn, shutsIn, safeFor };
  if (pace.windowFrom === null && pace.windowTo === null) return { window: "none", ...clocks };
  // one pot past its window is enough, whatever is not known of others
  if (shutsIn !== null && shutsIn < 0) return { window: "past", ...clocks };
  if (opensIn === null) return { window: "unknown", ...clocks };
  return { window: opensIn > 0 ? "not-yet" : "in", ...clocks };
}
