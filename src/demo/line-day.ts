import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { current, rested, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { plannedSittings } from "./seating.ts";

const order = [current.id, steamed.id, rested.id];

/** Marks in points, one row a panelist: current, new, new + rest. */
const marks: readonly (readonly [number, number, number])[] = [
  [58.4, 64.0, 67.1],
  [40.6, 40.8, 59.6],
  [51.4, 52.7, 64.1],
  [45.2, 57.4, 61.7],
  [56.9, 63.9, 60.6],
  [53.7, 47.4, 80.3],
  [47.8, 70.0, 54.9],
  [48.7, 75.5, 55.8],
  [28.5, 47.3, 51.9],
  [40.8, 56.0, 51.8],
  [52.8, 72.8, 62.9],
  [31.4, 51.2, 45.5],
];

const remarks: Readonly<Record<number, string>> = {
  6: "The last one stayed juicy long after the ten seconds.",
  9: "I tend to stay at the left with all of them.",
};

/** Q7 from plan to opened key: how juicy each of three cups was ten seconds after the first bite. */
export function lineDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q7", packet, newEventId);
  return [
    ...lockActs(lock, newEventId, { drafted: "8:52", locked: "9:10" }),
    ...paperActs(newEventId, "9:12"),
    ...plannedSittings(plan, 8).flatMap((sitting) => {
      const cups = cupsOf(lock, sitting.tray);
      const product = (code: string) => cups.find((cup) => cup.code === code)?.product ?? "";
      const remark = remarks[sitting.tray];
      return ballots.marks(
        remark === undefined ? sitting : { ...sitting, remark },
        (code) => marks[sitting.tray - 1]?.[order.indexOf(product(code))] ?? 0,
      );
    }),
    ...endActs(lock, newEventId, { closed: "15:19", revealed: "15:21", note: "" }),
  ];
}
