import type { Plan } from "../model/plan.ts";
import { type Act, type Desk, type WrittenAct, writeActs } from "./acts.ts";
import { lockActs } from "./lead.ts";
import { lineDay } from "./line-day.ts";
import { type Lock, lockDemo } from "./lock.ts";
import { likenessPlan, linePlan, preferencePlan, trianglePlan } from "./plans.ts";
import { preferenceDay } from "./preference-day.ts";
import { triangleDay } from "./triangle-day.ts";

/** One study of the demo. `seated`: do the twelve panelists sit in seats 1 to 12? */
type Scene = {
  name: string;
  plan: () => Plan;
  day: (lock: Lock, newEventId: () => string) => Act[];
  seated: boolean;
};

/** Locked in the afternoon and left for whoever looks at the demo. */
const onlyLocked = (lock: Lock, newEventId: () => string): Act[] =>
  lockActs(lock, newEventId, { drafted: "15:40", locked: "15:58" });

/** The studies in the order in which they were planned; the last one waits to be tasted. */
export const scenes: readonly Scene[] = [
  { name: "Q1", plan: trianglePlan, day: triangleDay, seated: true },
  { name: "Q6", plan: preferencePlan, day: preferenceDay, seated: false },
  { name: "Q7", plan: linePlan, day: lineDay, seated: true },
  { name: "Q10", plan: likenessPlan, day: onlyLocked, seated: false },
];

export type DemoStudy = {
  id: string;
  title: string;
  /** Is its key open? Else it waits, locked. */
  revealed: boolean;
  seated: boolean;
};
export type WrittenStudy = DemoStudy & { acts: WrittenAct[] };

export type Writing = Pick<Desk, "device" | "offsetMinutes"> & {
  newStudyId: () => string;
  newEventId: () => string;
  /** Version of the app that "locked" the plans. */
  app: string;
};

/**
 * Writes the whole demo: what every device would hold had the day taken place.
 *
 * Takes    writing: ids of the enrolled devices, and sources of names
 * Throws   Problem "lock/insecure-origin" where there is no WebCrypto
 */
export async function writeDemo(writing: Writing): Promise<WrittenStudy[]> {
  return Promise.all(
    scenes.map(async ({ name, plan, day, seated }) => {
      const id = writing.newStudyId();
      const planned = plan();
      const acts = day(await lockDemo(name, planned, id, writing.app), writing.newEventId);
      const revealed = acts.some(({ kind }) => kind === "key-revealed");
      return { id, title: planned.title, revealed, seated, acts: writeActs(acts, { ...writing, study: id }) };
    }),
  );
}
