import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { current, held, rested, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { plannedSittings } from "./seating.ts";

const order = [current.id, steamed.id, rested.id, held.id];

/** Ranks, one row a panelist: current, new, new + rest, new + held; 1 = least juicy. */
const ranks: readonly string[] = [
  ...["1342", "2341", "4231", "2431", "2341", "1234"],
  ...["2413", "1234", "1423", "2341", "1342", "1342"],
];

const remarks: Readonly<Record<number, string>> = {
  3: "The first was the driest for me, by far.",
  7: "Two of them I could only put in an order by tasting again.",
};

/** Minutes for one person: four cups on one tray, tasted until they stand in order. */
const minutesATurn = 7.5;

/** Q8 from plan to opened key: rank sums 20, 36, 39 and 25. */
export function rankingDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q8", packet, newEventId);
  return [
    ...lockActs(lock, newEventId, { drafted: "12:06", locked: "12:28" }),
    ...paperActs(newEventId, "12:31"),
    ...plannedSittings(plan, minutesATurn).flatMap((sitting) => {
      const own = ranks[sitting.tray - 1] ?? "";
      const rankOf = (product: string): number => Number(own[order.indexOf(product)]);
      const cups = cupsOf(lock, sitting.tray).toSorted((one, other) => rankOf(one.product) - rankOf(other.product));
      const remark = remarks[sitting.tray];
      return ballots.choice(
        remark === undefined ? sitting : { ...sitting, remark },
        cups.map(({ code }) => code).join(" "),
      );
    }),
    ...endActs(lock, newEventId, { closed: "14:21", revealed: "14:24", note: "" }),
  ];
}
