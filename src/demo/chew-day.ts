import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { current, rested, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { chewQuestions } from "./plans-marks.ts";
import { plannedSittings } from "./seating.ts";

const order = [current.id, steamed.id, rested.id];
const questions: string[] = [chewQuestions.first, chewQuestions.later, chewQuestions.end];

type Chew = readonly [first: number, later: number, end: number];
/** Marks in points, one row a panelist: current, new, new + rest, each at the first bite, after 10 s and at the end. */
const marks: readonly (readonly [Chew, Chew, Chew])[] = [
  [
    [58.2, 44.4, 35.4],
    [51.2, 52.6, 46.4],
    [53.1, 59.8, 34.8],
  ],
  [
    [61.4, 47.2, 39.0],
    [52.8, 52.1, 33.0],
    [55.1, 50.9, 47.4],
  ],
  [
    [55.9, 54.4, 43.6],
    [66.1, 59.6, 43.8],
    [80.3, 72.0, 72.2],
  ],
  [
    [45.8, 40.2, 33.5],
    [61.4, 49.4, 40.4],
    [62.9, 53.9, 48.4],
  ],
  [
    [60.9, 57.1, 41.7],
    [60.5, 58.1, 42.8],
    [62.8, 58.5, 53.3],
  ],
  [
    [59.1, 37.2, 14.9],
    [51.3, 39.8, 26.0],
    [46.9, 40.7, 36.9],
  ],
  [
    [53.4, 47.2, 38.5],
    [64.7, 63.7, 54.8],
    [57.0, 52.9, 37.4],
  ],
  [
    [54.0, 51.0, 30.0],
    [52.5, 54.2, 40.0],
    [69.6, 72.7, 49.5],
  ],
  [
    [40.5, 31.2, 19.8],
    [29.8, 35.0, 30.9],
    [44.6, 37.5, 30.0],
  ],
  [
    [45.9, 29.2, 11.1],
    [31.7, 39.6, 35.6],
    [40.7, 33.3, 31.6],
  ],
  [
    [45.3, 32.7, 20.1],
    [50.6, 40.5, 27.1],
    [50.1, 41.6, 36.9],
  ],
  [
    [58.1, 49.3, 32.4],
    [57.2, 55.5, 43.2],
    [63.8, 50.2, 51.6],
  ],
];

/** Minutes for one person: three cups of three questions each. */
const minutesATurn = 9;

/** Q11 from plan to opened key: how juicy three cups were at three moments of one chew. */
export function chewDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q11", packet, newEventId);
  return [
    ...lockActs(lock, newEventId, { drafted: "8:31", locked: "8:55" }),
    ...paperActs(newEventId, "8:58"),
    ...plannedSittings(plan, minutesATurn).flatMap((sitting) => {
      const cups = cupsOf(lock, sitting.tray);
      const product = (code: string) => cups.find((cup) => cup.code === code)?.product ?? "";
      const remark = sitting.tray === 6 ? "The juice was gone early, and then it was only chewing." : undefined;
      return ballots.marks(
        remark === undefined ? sitting : { ...sitting, remark },
        (code, question) => marks[sitting.tray - 1]?.[order.indexOf(product(code))]?.[questions.indexOf(question)] ?? 0,
      );
    }),
    ...endActs(lock, newEventId, { closed: "11:38", revealed: "11:40", note: "" }),
  ];
}
