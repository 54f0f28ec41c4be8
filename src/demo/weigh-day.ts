import type { Act } from "./acts.ts";
import { Ballots } from "./ballots.ts";
import { between, chance } from "./chance.ts";
import { current, steamed } from "./kitchen.ts";
import { endActs, lockActs, paperActs } from "./lead.ts";
import { cupsOf, type Lock } from "./lock.ts";
import { plannedSittings } from "./seating.ts";

/** What the portions gained, in percent of their mass: one row a panelist, three of the current process and three of the new one. */
const gains: readonly (readonly (readonly number[])[])[] = [
  [
    [26.9, 23.7, 24.8],
    [20.6, 19.5, 21.7],
  ],
  [
    [22.6, 24.8, 25.0],
    [21.1, 23.0, 23.5],
  ],
  [
    [27.6, 26.9, 26.9],
    [27.3, 25.4, 24.8],
  ],
  [
    [26.5, 22.6, 27.3],
    [19.3, 22.3, 20.8],
  ],
  [
    [24.8, 28.6, 25.1],
    [24.2, 24.3, 27.6],
  ],
  [
    [25.8, 19.9, 24.9],
    [21.1, 18.4, 22.9],
  ],
  [
    [24.4, 24.5, 27.0],
    [23.1, 23.5, 22.9],
  ],
  [
    [25.4, 29.1, 25.0],
    [19.9, 21.8, 20.4],
  ],
];
const products = [current.id, steamed.id];

/** Minutes that a person needs for the two portions of a tray. */
const minutesATurn = 8;

/** Q9 from plan to opened key: portions weighed, chewed for fifteen seconds, spat out and weighed again. */
export function weighDay(lock: Lock, newEventId: () => string): Act[] {
  const { plan, packet } = lock.body;
  const ballots = new Ballots("Q9", packet, newEventId);
  const chewed = plannedSittings(plan, minutesATurn).flatMap((sitting) => ballots.portions(sitting));
  return [
    ...lockActs(lock, newEventId, { drafted: "8:20", locked: "8:41" }),
    ...paperActs(newEventId, "8:45"),
    ...chewed,
    ...weighings(lock, chewed, newEventId),
    ...endActs(lock, newEventId, { closed: "12:10", revealed: "12:12", note: "" }),
  ];
}

/** Each portion three times on the balance: the empty cup and the portion in the morning, the closed cup within two minutes. */
function weighings(lock: Lock, chewed: readonly Act[], newEventId: () => string): Act[] {
  const random = chance("weighings of Q9");
  const spatAt = new Map(
    chewed.flatMap(({ kind, body, at }) =>
      kind === "portion-chewed" && typeof body !== "function" ? [[`${body.tray} ${body.code}`, at] as const] : [],
    ),
  );
  let morning = 9 * 60;
  return portionsOf(lock).flatMap(({ tray, code, percent }): Act[] => {
    const cup = Math.round(between(random, 1180, 1290));
    const { portion, gain } = hundredths(percent, random.below(6));
    morning += 0.4;
    const waits = between(random, 0.6, 1.7);
    const weigh = (stage: "cup" | "portion" | "after", at: number, units: number): Act => ({
      ...{ id: newEventId(), by: "lead", at, kind: "portion-weighed" },
      body: {
        ...{ tray, code, stage, grams: (units / 100).toFixed(2), rinse: stage === "after" ? "10.00" : "" },
        ...{ balanceStep: "0.01", after: [], note: "" },
        waitedSeconds: stage === "after" ? Math.floor(waits * 60) : null,
      },
    });
    const spat = spatAt.get(`${tray} ${code}`) ?? 0;
    return [
      weigh("cup", morning, cup),
      weigh("portion", morning + 0.2, portion),
      weigh("after", spat + waits, cup + portion + gain + 1000),
    ];
  });
}

/** What each portion is to gain: a person's trays in their order take the three gains of each product. */
function portionsOf(lock: Lock): { tray: number; code: string; percent: number }[] {
  return lock.body.seats.flatMap(({ seat, trays }) =>
    trays.flatMap((tray, repeat) =>
      cupsOf(lock, tray).map(({ code, product }) => ({
        ...{ tray, code },
        percent: gains[seat - 1]?.[products.indexOf(product)]?.[repeat] ?? 0,
      })),
    ),
  );
}

/** A portion of about five grams and its gain, in hundredths of a gram, that come nearest to a gain in percent. */
function hundredths(percent: number, skip: number): { portion: number; gain: number } {
  const near = Array.from({ length: 41 }, (_, at) => 480 + at)
    .map((portion) => ({ portion, gain: Math.round((portion * percent) / 100) }))
    .sort((one, other) => offBy(one, percent) - offBy(other, percent));
  return near[skip] ?? { portion: 500, gain: 0 };
}

const offBy = ({ portion, gain }: { portion: number; gain: number }, percent: number): number =>
  Math.abs((100 * gain) / portion - percent);
