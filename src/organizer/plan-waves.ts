import type { Plan, Wave } from "../model/plan.ts";

/** Changes of waves, and lists as people type them. Ids are given, never made here. */

/** A new wave with the people who have no seat yet, as many as there are seats where that was said. */
export function withWave(plan: Plan, id: string): Plan {
  const seated = plan.waves.reduce((sum, wave) => sum + wave.people, 0);
  const people = Math.min(Math.max(0, plan.people - seated), plan.pace.seats ?? plan.people);
  return {
    ...plan,
    waves: [...plan.waves, { id, starts: "", people, session: plan.waves.at(-1)?.session ?? "", batches: {} }],
  };
}

export const changeWave = (plan: Plan, id: string, change: Partial<Wave>): Plan => ({
  ...plan,
  waves: plan.waves.map((wave) => (wave.id === id ? { ...wave, ...change } : wave)),
});

export const withoutWave = (plan: Plan, id: string): Plan => ({
  ...plan,
  waves: plan.waves.filter((wave) => wave.id !== id),
});

/** Batch names as typed, with commas between; blanks and repeats are left out. */
export const readBatches = (typed: string): string[] => [
  ...new Set(
    typed
      .split(",")
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  ),
];

/** Codes as typed, with spaces or commas between: the ones that are codes, and the first that is not. */
export function readCodes(typed: string): { codes: string[]; bad: string | null } {
  const parts = typed.split(/[\s,;]+/).filter((part) => part !== "");
  const isCode = (part: string) => /^[1-9]\d\d$/.test(part);
  return { codes: [...new Set(parts.filter(isCode))], bad: parts.find((part) => !isCode(part)) ?? null };
}
