import { shuffled } from "../design/random.ts";
import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { chance } from "./chance.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { plannedSittings } from "./seating.ts";

/** A quiet day: everybody came, every tray counts. Clock times as "9:05". */
type Day = {
  name: string;
  drafted: string;
  locked: string;
  printed: string;
  closed: string;
  revealed: string;
  minutesATurn?: number;
};

/** How many trays of each person are answered right, person by person; which of them is drawn. */
export function choiceDay(day: Day, right: readonly number[]): (lock: Lock, newEventId: () => string) => Act[] {
  return (lock, newEventId) => {
    const { name } = day;
    const { plan, packet, seats } = lock.body;
    const ballots = new Ballots(name, packet, newEventId);
    const random = chance(`right answers of ${name}`);
    const rightTrays = new Set(
      shuffled(seats, random).flatMap(({ trays }, person) => shuffled(trays, random).slice(0, right[person] ?? 0)),
    );
    return [
      ...lockActs(lock, newEventId, day),
      ...paperActs(newEventId, day.printed),
      ...plannedSittings(plan, day.minutesATurn).flatMap((sitting) =>
        ballots.choice(sitting, choiceCode(lock, sitting.tray, rightTrays.has(sitting.tray))),
      ),
      ...endActs(lock, newEventId, { ...day, note: "" }),
    ];
  };
}

/** So many people right, one tray each, and the others wrong. */
export const rightOf = (right: number, people: number): number[] =>
  Array.from({ length: people }, (_, at) => (at < right ? 1 : 0));

/** The code that is right to pick on a tray, or the first of those that are wrong. */
function choiceCode(lock: Lock, tray: number, right: boolean): string {
  const cups = cupsOf(lock, tray);
  const wanted = productOf(lock, tray);
  // of a tetrad the answer is the partner of the first cup
  const offered = lock.body.plan.method === "tetrad" ? cups.slice(1) : cups;
  return offered.find(({ product }) => (product === wanted) === right)?.code ?? "";
}

function productOf({ body: { plan }, opened }: Lock, tray: number): string | undefined {
  const key = opened.key.trays.find((each) => each.tray === tray);
  if (plan.method === "tetrad") return key?.samples[0]?.product;
  return key?.reference?.product ?? plan.properties[0]?.expected ?? undefined;
}
