import type { Plan } from "../model/plan.ts";
import { type Act, type Desk, minutesOf, type WrittenAct, writeActs } from "./acts.ts";
import { chewDay } from "./chew-day.ts";
import { choiceDay, rightOf } from "./choice-day.ts";
import { claimActs, demoClaim } from "./claim.ts";
import { current, steamed } from "./kitchen.ts";
import { lockActs } from "./lead.ts";
import { demoLedger } from "./ledger.ts";
import { likingDay } from "./liking-day.ts";
import { lineDay } from "./line-day.ts";
import { type Lock, lockDemo } from "./lock.ts";
import {
  alternativePlan,
  differencePlan,
  duoTrioPlan,
  likenessPlan,
  preferencePlan,
  tetradPlan,
  trianglePlan,
} from "./plans-choice.ts";
import { chewPlan, likingPlan, linePlan, rankingPlan } from "./plans-marks.ts";
import { weighPlan } from "./plans-portions.ts";
import { preferenceDay } from "./preference-day.ts";
import { rankingDay } from "./ranking-day.ts";
import { triangleDay } from "./triangle-day.ts";
import { weighDay } from "./weigh-day.ts";

/** One study of the demo. `seated`: do the twelve panelists sit in seats 1 to 12? */
type Scene = {
  name: string;
  plan: () => Plan;
  day: (lock: Lock, newEventId: () => string) => Act[];
  /** Days after the first of them. */
  after: number;
  seated: boolean;
};

const minutesOfDay = 24 * 60;

/** Locked in the afternoon and left for whoever looks at the demo. */
const onlyLocked = (lock: Lock, newEventId: () => string): Act[] =>
  lockActs(lock, newEventId, { drafted: "15:40", locked: "15:58" });

/** The studies in the order in which they were planned; the last one waits to be tasted. */
export const scenes: readonly Scene[] = [
  { name: "Q1", plan: trianglePlan, day: triangleDay, after: 0, seated: true },
  { name: "Q6", plan: preferencePlan, day: preferenceDay, after: 0, seated: false },
  { name: "Q7", plan: linePlan, day: lineDay, after: 0, seated: true },
  {
    name: "Q2",
    plan: duoTrioPlan,
    after: 1,
    day: choiceDay(
      { name: "Q2", drafted: "8:50", locked: "9:12", printed: "9:15", closed: "11:28", revealed: "11:31" },
      [3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0],
    ),
    seated: true,
  },
  {
    name: "Q3",
    plan: tetradPlan,
    after: 1,
    day: choiceDay(
      { name: "Q3", drafted: "12:40", locked: "12:58", printed: "13:01", closed: "15:03", revealed: "15:05" },
      rightOf(10, 18),
    ),
    seated: false,
  },
  {
    name: "Q4",
    plan: differencePlan,
    after: 2,
    day: choiceDay(
      {
        ...{ name: "Q4", drafted: "9:20", locked: "9:41", printed: "9:44", closed: "11:20", revealed: "11:22" },
        minutesATurn: 4.2,
      },
      rightOf(18, 24),
    ),
    seated: false,
  },
  {
    name: "Q5",
    plan: alternativePlan,
    after: 2,
    day: choiceDay(
      { name: "Q5", drafted: "13:30", locked: "13:47", printed: "13:50", closed: "16:55", revealed: "16:58" },
      rightOf(13, 24),
    ),
    seated: false,
  },
  { name: "Q11", plan: chewPlan, day: chewDay, after: 3, seated: true },
  { name: "Q8", plan: rankingPlan, day: rankingDay, after: 3, seated: true },
  { name: "Q12", plan: likingPlan, day: likingDay, after: 4, seated: false },
  { name: "Q9", plan: weighPlan, day: weighDay, after: 4, seated: true },
  { name: "Q10", plan: likenessPlan, day: onlyLocked, after: 4, seated: false },
];

export type DemoStudy = {
  id: string;
  title: string;
  /** Is its key open? Else it waits, locked. */
  revealed: boolean;
  seated: boolean;
};
export type WrittenStudy = DemoStudy & { acts: WrittenAct[] };
export type WrittenClaim = { title: string; acts: WrittenAct[] };

export type Writing = Pick<Desk, "device" | "offsetMinutes"> & {
  newStudyId: () => string;
  newEventId: () => string;
  /** The id of the claim that the studies speak to. */
  claim: string;
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
    scenes.map(async ({ name, plan, day, after, seated }) => {
      const id = writing.newStudyId();
      const planned = plan();
      const told = day(await lockDemo(name, planned, id, writing.app), writing.newEventId);
      const beside = name === "Q7" ? [massesAct(writing)] : [];
      const acts = [...told, ...beside].map((act) => ({ ...act, at: act.at + after * minutesOfDay }));
      const revealed = acts.some(({ kind }) => kind === "key-revealed");
      return {
        id,
        title: planned.title,
        revealed,
        seated,
        acts: writeActs(acts, { ...writing, stream: { kind: "study", id } }),
      };
    }),
  );
}

/** Two days after the tasting the ledger of the claim is put beside its answers. */
const massesAct = ({ claim, newEventId }: Writing): Act => ({
  ...{ id: newEventId(), by: "lead", at: minutesOf("17:25") + 2 * minutesOfDay, kind: "masses-noted" },
  body: {
    ...{ base: null, merged: [] },
    sources: [
      {
        ...{ kind: "ledger", claim, title: "Weighing ledger, four batches of each process", ledger: demoLedger },
        products: [current, steamed].map(({ id, name }) => ({ named: name, product: id })),
      },
    ],
  },
});

/**
 * Writes the claim that the studies of the demo speak to.
 *
 * Takes    studies: as `writeDemo` gave them, in the order of the scenes
 */
export function writeClaim(studies: readonly DemoStudy[], writing: Writing): WrittenClaim {
  const idOf = (name: string): string => studies[scenes.findIndex((scene) => scene.name === name)]?.id ?? "";
  const questions = {
    juicier: differencePlan().properties[0]?.id ?? "",
    juiciness: linePlan().scale.attributes[0]?.id ?? "",
  };
  const claim = demoClaim(idOf, questions);
  const known = ["Q4", "Q6", "Q7"].map(idOf).sort();
  const acts = claimActs(claim, known, writing.newEventId, 2);
  return {
    title: claim.title,
    acts: writeActs(acts, { ...writing, stream: { kind: "claim", id: writing.claim } }),
  };
}
