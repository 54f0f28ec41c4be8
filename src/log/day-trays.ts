import type { attendances, trayTurns } from "../model/kitchen-event.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { DayEntries } from "./day-entries.ts";
import type { FactOf } from "./fact.ts";

type TrayTurn = (typeof trayTurns)[number];
type Attendance = (typeof attendances)[number];

/** One thing that is done to a tray: not yet; or done, by whom stands in the entries. `sound`: false while a check says so. */
export type TurnDone = {
  done: boolean;
  sound: boolean;
  /** All entries, and the ids of those that nothing follows: what a further one names in `after`. */
  entries: FactOf<"tray-handled">[];
  latest: string[];
};

export type TrayDay = {
  tray: number;
  spare: boolean;
  /** The wave it was planned for, and the one it is served with; null: two notes, written apart, name different ones. */
  planned: number;
  wave: number | null;
  turns: Record<TrayTurn, TurnDone>;
  person: {
    /** Null: nothing noted, or notes that were written apart and disagree. */
    what: Attendance | null;
    apart: boolean;
    /** A wave that a note names and the plan does not have: nobody knows with which food the tray goes. Null: there is none such. */
    noWave: number | null;
    entries: FactOf<"person-noted">[];
    latest: string[];
  };
};

const only = <T>(values: readonly T[]): T | null => {
  const different = new Set(values);
  const [first] = different;
  return different.size === 1 && first !== undefined ? first : null;
};

function byTray<T extends { body: { tray: number } }>(entries: readonly T[]): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const entry of entries) groups.set(entry.body.tray, [...(groups.get(entry.body.tray) ?? []), entry]);
  return groups;
}

/** Every tray of the packet as the kitchen handled it, by number. `waves`: how many the plan has. */
export function traysOfDay(
  packet: Pick<BlindPacket, "trays">,
  entries: DayEntries,
  waves: number,
): Map<number, TrayDay> {
  const handled = byTray(entries.of("tray-handled"));
  const noted = byTray(entries.of("person-noted"));
  return new Map(
    packet.trays.map(({ tray, wave, spare }) => {
      const turns = handled.get(tray) ?? [];
      const turn = (what: TrayTurn) => turnOf(turns, what, entries);
      const notes = noted.get(tray) ?? [];
      const last = entries.latest(notes);
      const what = only(last.map(({ body }) => body.what));
      const named = last.flatMap(({ body }) => body.wave ?? []);
      const with_ = last.length === 0 ? wave : only(last.map(({ body }) => body.wave ?? wave));
      const day: TrayDay = {
        ...{ tray, spare, planned: wave, wave: with_ },
        turns: { filled: turn("filled"), checked: turn("checked"), served: turn("served") },
        person: {
          ...{ what, apart: last.length > 0 && (what === null || with_ === null) },
          noWave: named.find((each) => each < 1 || each > waves) ?? null,
          ...{ entries: notes, latest: last.map(({ id }) => id) },
        },
      };
      return [tray, day];
    }),
  );
}

function turnOf(all: readonly FactOf<"tray-handled">[], turn: TrayTurn, { latest }: DayEntries): TurnDone {
  const entries = all.filter(({ body }) => body.turn === turn);
  const last = latest(entries);
  return {
    done: entries.length > 0,
    // of two that were written apart the one that found something wrong counts
    sound: last.every(({ body }) => body.sound),
    entries,
    latest: last.map(({ id }) => id),
  };
}
