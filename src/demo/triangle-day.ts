import { shuffled } from "../design/random.ts";
import { type Act, minutesOf } from "./acts.ts";
import { Ballots, type Sitting } from "./ballots.ts";
import { chance } from "./chance.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { type Lock, triangleCode } from "./lock.ts";
import { plannedSittings, turnAt } from "./seating.ts";
import { triangleKitchen } from "./triangle-kitchen.ts";

/** What happened at this tasting. Seats are trays: seat 4 is the person with tray 4. */
const late = { tray: 4, wave: 2, noted: "11:18" };
const notCleared = 5;
const guessedRight = 8;
const dropped = { tray: 11, spare: 25 };
const twice = 19;
const extra = { spare: 26, wave: 3 };
const rightOf24 = 14;

const remarks: Readonly<Record<number, string>> = {
  3: "The middle one seemed softer, but I would not bet on it.",
  17: "The lids are hard to open with one hand.",
  22: "One of them was clearly wetter.",
};

const closeNote = "The clock of Tablet B was 7 minutes slow.";

/**
 * Q1 from plan to opened key: 14 of 24 right, with everything that can happen on a tasting day.
 *
 * Takes    lock: of the triangle plan; newEventId: names for the events
 * Returns  what each device did, in any order
 */
export function triangleDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q1", packet, newEventId);
  const right = rightTrays();
  const seated = sittings(lock);
  const answers = seated.flatMap((sitting) => {
    const choice = triangleCode(lock, sitting.tray, right.has(sitting.tray));
    return ballots.choice(sitting, choice, sitting.tray === guessedRight);
  });
  const again: Sitting = { tray: twice, tablet: 2, at: turnAt(plan, 4, 2) };
  const secondAnswer = ballots.choice(again, triangleCode(lock, twice, !right.has(twice)));
  const concerned = plannedSittings(plan).find(({ tray }) => tray === notCleared);
  return [
    ...lockActs(lock, newEventId, { drafted: "7:41", locked: "8:06" }),
    ...paperActs(newEventId, "8:10"),
    ...triangleKitchen(lock, newEventId, seated, late),
    ...answers,
    ...secondAnswer,
    ...(concerned ? [ballots.notCleared(concerned)] : []),
    ...rulings(answers, newEventId),
    ...endActs(lock, newEventId, { closed: "12:19", revealed: "12:22", note: closeNote }),
  ];
}

/** Everybody who answered, and when: the planned trays but one, and two spares. */
function sittings({ body: { plan } }: Lock): Sitting[] {
  const planned = plannedSittings(plan)
    .filter(({ tray }) => tray !== notCleared)
    .map((sitting) => (sitting.tray === late.tray ? { ...sitting, at: turnAt(plan, late.wave, 2) } : sitting));
  const spares: Sitting[] = [
    { tray: dropped.spare, tablet: 1, at: turnAt(plan, 2, 2) },
    { tray: extra.spare, tablet: 2, at: turnAt(plan, extra.wave, 2) },
  ];
  return [...planned, ...spares].map((sitting) => {
    const remark = remarks[sitting.tray];
    return remark === undefined ? sitting : { ...sitting, remark };
  });
}

/** Fourteen of the trays that count, by lot; among them the one whose panelist said it was a guess. */
function rightTrays(): Set<number> {
  const counted = Array.from({ length: 26 }, (_, at) => at + 1).filter(
    (tray) => tray !== notCleared && tray !== dropped.tray && tray !== guessedRight,
  );
  return new Set([guessedRight, ...shuffled(counted, chance("right answers of Q1")).slice(0, rightOf24 - 1)]);
}

/** What the lead ruled during the day, without seeing an answer. */
function rulings(answers: readonly Act[], newEventId: () => string): Act[] {
  const spoiled = answers.filter(({ body }) => "tray" in body && body.tray === dropped.tray).map(({ id }) => id);
  const fell = "The third cup fell before it was tasted.";
  const again =
    "Tablet A was offline; when nothing seemed to have arrived, the panelist answered once more on Tablet C. The first answer counts.";
  return [
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf("11:41"),
      kind: "ballot-voided",
      body: { tray: dropped.tray, targets: spoiled, reason: "sample-dropped", note: fell },
    },
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf("11:41") + 0.3,
      kind: "spare-served",
      body: { tray: dropped.spare, instead: dropped.tray, reason: "replaces", note: "" },
    },
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf("11:54"),
      kind: "spare-served",
      body: { tray: extra.spare, instead: null, reason: "extra-person", note: "One more colleague took part." },
    },
    {
      id: newEventId(),
      by: "lead",
      at: minutesOf("12:17"),
      kind: "contest-settled",
      body: ({ device }) => ({ tray: twice, keep: device(0), among: [device(0), device(2)].sort(), note: again }),
    },
  ];
}
