import type { Body } from "../model/event.ts";
import { type Act, minutesOf } from "./acts.ts";
import type { Sitting } from "./ballots.ts";
import type { Lock } from "./lock.ts";

/** What the kitchen wrote down while the triangle was tasted: cores, times, trays, and who was late. */

const probe = "Probe 2, checked on 2026-05-11 in ice water: 0.1 °C";
/** Cores of the two batches of each wave: current, then new. The third of the new process was read twice. */
const cores: readonly (readonly [string, string])[] = [
  ["78", "77"],
  ["76", "79"],
  ["77", "71"],
  ["79", "76"],
];
const again = { wave: 3, celsius: "76", note: "Back into the oven for three minutes." };
/** What the first cup of each wave had as it went out: 55 ± 3 °C were planned. */
const servings = ["55.5", "54", "56.5", "55"];

/** Minutes before the wave begins. */
const before = { core: 11, again: 7, heat: 3.5, filled: 3, checked: 1.5 };
/** Minutes from one tray to the next. */
const apart = 0.2;

/**
 * Takes    sittings: who sat down when with which tray; late: the tray of whoever came late, served with wave `wave`
 */
export function triangleKitchen(
  lock: Lock,
  newEventId: () => string,
  sittings: readonly Sitting[],
  late: { tray: number; wave: number; noted: string },
): Act[] {
  const byLead = { by: "lead" as const };
  const { waves } = lock.body.plan;
  const { trays } = lock.body.packet;
  const waveOf = (tray: number): number =>
    tray === late.tray ? late.wave : (trays.find((each) => each.tray === tray)?.wave ?? 1);
  const noted: Act = {
    ...{ ...byLead, id: newEventId(), at: minutesOf(late.noted), kind: "person-noted" },
    body: { tray: late.tray, what: "late", wave: late.wave, after: [], note: "" },
  };
  return [
    noted,
    ...waves.flatMap(({ starts }, at) => {
      const mine = sittings.filter(({ tray }) => waveOf(tray) === at + 1);
      return [
        ...cooking(lock, newEventId, at + 1, minutesOf(starts)),
        ...handling(newEventId, mine, minutesOf(starts)),
        ...serving(newEventId, at + 1, mine[0]),
      ];
    }),
  ];
}

function cooking({ body, opened }: Lock, newEventId: () => string, wave: number, starts: number): Act[] {
  const { products, waves } = body.plan;
  return products.flatMap(({ id }, place): Act[] => {
    const batch = waves[wave - 1]?.batches[id]?.[0];
    const pot = opened.key.pots?.find((each) => each.product === id && each.batch === batch)?.pot ?? "";
    const celsius = cores[wave - 1]?.[place] ?? "";
    const first = newEventId();
    const reading = (own: Partial<Body<"core-read">>): Body<"core-read"> => ({
      ...{ wave, pot, celsius, heldSeconds: 0, restMinutes: 0, probe, after: [], note: "" },
      ...own,
    });
    // the new one is read a minute after the other
    const acts: Act[] = [
      { id: first, by: "lead", at: starts - before.core + place, kind: "core-read", body: reading({}) },
    ];
    if (wave === again.wave && place === 1) {
      const { celsius, note } = again;
      const body = reading({ celsius, note, after: [first] });
      acts.push({ id: newEventId(), by: "lead", at: starts - before.again + place, kind: "core-read", body });
    }
    acts.push({
      ...{ id: newEventId(), by: "lead", at: starts - before.heat + 0.1, kind: "heat-left" },
      body: ({ ago }) => ({ wave, pot, left: ago(0.1), from: "hot", after: [], note: "" }),
    });
    return acts;
  });
}

function handling(newEventId: () => string, sittings: readonly Sitting[], starts: number): Act[] {
  const turn = (tray: number, turn: Body<"tray-handled">["turn"], at: number): Act => ({
    ...{ id: newEventId(), by: "lead", at, kind: "tray-handled" },
    body: { tray, turn, sound: true, after: [], note: "" },
  });
  return sittings.flatMap(({ tray, at }, place) => [
    turn(tray, "filled", starts - before.filled + place * apart),
    turn(tray, "checked", starts - before.checked + place * apart),
    turn(tray, "served", at),
  ]);
}

function serving(newEventId: () => string, wave: number, first: Sitting | undefined): Act[] {
  const celsius = servings[wave - 1];
  if (!first || celsius === undefined) return [];
  const body = { wave, tray: first.tray, celsius, note: "" };
  return [{ id: newEventId(), by: "lead", at: first.at - 0.1, kind: "serving-read", body }];
}
