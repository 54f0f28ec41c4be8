import type { PotDay } from "../log/day-pots.ts";
import type { TrayDay, TurnDone } from "../log/day-trays.ts";
import type { StudyState } from "../log/fold.ts";
import type { KitchenDay, WaveDay } from "../log/kitchen-day.ts";
import type { Body } from "../model/event.ts";
import type { KitchenKind } from "../model/kitchen-event.ts";
import { potLetters, trayTurns } from "../model/kitchen-event.ts";
import { appendEvent, type Lead } from "./app-context.ts";

export type TrayTurn = (typeof trayTurns)[number];

/** Writes an entry of the kitchen's day into a study. */
export const writeDay = <K extends KitchenKind>(
  lead: Pick<Lead, "store" | "now" | "sendNow">,
  study: string,
  kind: K,
  body: Body<K>,
) => appendEvent<K>(lead, { stream: { kind: "study", id: study }, kind, body });

/** What is done to a tray next; null once it is served. A check that found something wrong has to be done again. */
export function nextTurn({ turns }: TrayDay): TrayTurn | null {
  if (turns.checked.done && !turns.checked.sound && !turns.served.done) return "checked";
  return trayTurns.find((turn) => !turns[turn].done) ?? null;
}

/** When something was last done to a tray, as its writer's clock said; null while it was not. */
export const doneAt = ({ entries, latest }: TurnDone): string | null =>
  entries.find(({ id }) => latest.includes(id))?.at ?? null;

/** The wave that a tray is served with; null where notes that were written apart disagree, or pots have no labels. */
export const waveOfTray = (day: KitchenDay, tray: TrayDay): WaveDay | null =>
  day.waves.find(({ wave }) => wave === (tray.wave ?? tray.planned)) ?? null;

/** Is a tray served, or did its panelist open it? The kitchen's devices know that by outlines, without any answer. */
const isBegun = (state: StudyState, day: KitchenDay, tray: number): boolean =>
  day.trays.get(tray)?.turns.served.done === true || (state.trays.get(tray)?.ballots.length ?? 0) > 0;

/**
 * Trays of a wave that may all go with another one: not begun, not spare, and their people are not known to stay away. One
 * that is filled holds food of this wave: it stays, since what was noted of it would be taken for the other wave's food.
 */
export function traysToMove(state: StudyState, day: KitchenDay, wave: number): { empty: TrayDay[]; filled: TrayDay[] } {
  const open = [...day.trays.values()].filter(
    (tray) => tray.wave === wave && !tray.spare && tray.person.what !== "missing" && !isBegun(state, day, tray.tray),
  );
  const isFilled = ({ turns }: TrayDay) => turns.filled.done;
  return { empty: open.filter((tray) => !isFilled(tray)), filled: open.filter(isFilled) };
}

/** Trays of a pot that keep their food when another batch comes in its place. */
export const begunTrays = (state: StudyState, day: KitchenDay, pot: PotDay | undefined): number[] =>
  (pot?.toServe ?? []).filter((tray) => isBegun(state, day, tray));

/**
 * A label of three letters that no pot of the study has.
 *
 * Takes    taken: labels in use; random: random bytes, as many as are asked for
 * Returns  null when every label is in use
 */
export function freeLabel(taken: ReadonlySet<string>, random: (count: number) => Uint8Array): string | null {
  const all = potLetters.length ** 3;
  if (taken.size >= all) return null;
  for (;;) {
    // 19 letters: bytes of the last, incomplete round of them would favor the first letters
    const fair = [...random(24)].filter((byte) => byte < 256 - (256 % potLetters.length));
    if (fair.length < 3) continue;
    const label = fair
      .slice(0, 3)
      .map((byte) => potLetters[byte % potLetters.length] ?? "")
      .join("");
    if (!taken.has(label)) return label;
  }
}
