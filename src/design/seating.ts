import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";

/** Who sits where: planned trays are numbered from 1, wave after wave, within a wave round after round. */
export type Seating = {
  /** A seat is one person, with all of their planned trays in the order of serving. */
  seats: { seat: number; trays: number[] }[];
  /** The wave of each planned tray, from 1. */
  waveOf: number[];
};

type Seated = Pick<Plan, "people" | "repeats" | "repeatsIn" | "waves">;

/** Names of the sessions of a plan, in the order in which they first come up; waves without a name are one session. */
export const sessionsOf = ({ waves }: Pick<Plan, "waves">): string[] => [
  ...new Set(waves.map(({ session }) => session.trim())),
];

/** Has everybody one tray in each session? Otherwise a person sits in one wave, with all of their trays. */
export const inEachSession = ({ repeats, repeatsIn }: Pick<Plan, "repeats" | "repeatsIn">): boolean =>
  repeats > 1 && repeatsIn === "sessions";

/**
 * The seats and waves of the planned trays.
 *
 * Takes    plan: one sitting: the people of its waves add up to the plan's, and each has all trays there; sessions: as many
 *          sessions as repeats, the waves of each add up to the plan's people, and each has one tray in each session
 * Throws   Problem "plan/people-in-waves", "plan/sessions"
 */
export function seating(plan: Seated): Seating {
  if (plan.people < 1) throw problem("plan/people-in-waves", { planned: plan.people, inWaves: 0 });
  return inEachSession(plan) ? oneTrayASession(plan) : allInOneSitting(plan);
}

function allInOneSitting({ people, repeats, waves }: Seated): Seating {
  const inWaves = waves.reduce((sum, wave) => sum + wave.people, 0);
  if (inWaves !== people) throw problem("plan/people-in-waves", { planned: people, inWaves });
  const seats: Seating["seats"] = [];
  const waveOf: number[] = [];
  waves.forEach((wave, at) => {
    const first = waveOf.length + 1;
    for (let person = 0; person < wave.people; person++) {
      const trays = Array.from({ length: repeats }, (_, round) => first + round * wave.people + person);
      seats.push({ seat: seats.length + 1, trays });
    }
    waveOf.push(...Array<number>(wave.people * repeats).fill(at + 1));
  });
  return { seats, waveOf };
}

function oneTrayASession(plan: Seated): Seating {
  const sessions = sessionsOf(plan);
  if (sessions.length !== plan.repeats) {
    throw problem("plan/sessions", { sessions: sessions.length, repeats: plan.repeats });
  }
  const waveOf = plan.waves.flatMap((wave, at) => Array<number>(wave.people).fill(at + 1));
  const inSession = sessions.map((name) =>
    waveOf.flatMap((wave, at) => (plan.waves[wave - 1]?.session.trim() === name ? [at + 1] : [])),
  );
  for (const trays of inSession) {
    if (trays.length !== plan.people) {
      throw problem("plan/people-in-waves", { planned: plan.people, inWaves: trays.length });
    }
  }
  const seats = Array.from({ length: plan.people }, (_, at) => ({
    seat: at + 1,
    trays: inSession.map((trays) => trays[at] ?? 0),
  }));
  return { seats, waveOf };
}
