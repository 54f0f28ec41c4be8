import { inEachSession } from "../design/seating.ts";
import type { Plan } from "../model/plan.ts";
import { minutesOf } from "./acts.ts";
import type { Sitting } from "./ballots.ts";

/** Minutes from one person to the next on a tablet, when a wave is served one after the other. */
export const turnMinutes = 5.5;

/** When somebody sits down at a turn (from 0) of a wave (from 1). */
export function turnAt(plan: Pick<Plan, "waves">, wave: number, turn: number): number {
  return minutesOf(plan.waves[wave - 1]?.starts ?? "0:00") + 0.5 + turn * turnMinutes;
}

/** Who sits where when all goes by the plan: tray after tray over the three tablets, turn after turn. */
export function plannedSittings(
  plan: Pick<Plan, "waves" | "repeats" | "repeatsIn">,
  minutesATurn = turnMinutes,
): Sitting[] {
  let tray = 0;
  const each = inEachSession(plan) ? 1 : plan.repeats;
  return plan.waves.flatMap(({ starts, people }) =>
    Array.from({ length: people * each }, (_, seat): Sitting => {
      tray += 1;
      const tablet = ([0, 1, 2] as const)[seat % 3] ?? 0;
      // nobody sits down on the stroke of a minute
      const at = minutesOf(starts) + 0.5 + Math.floor(seat / 3) * minutesATurn + ((tray * 7) % 5) * 0.1;
      return { tray, tablet, at };
    }),
  );
}
