import { type Ballot, nameOf } from "../log/ballots.ts";
import type { StudyState } from "../log/fold.ts";
import type { PaperState } from "../log/paper.ts";
import type { TrayState, TrayStatus } from "../log/trays.ts";
import type { Heads } from "../model/ballot-event.ts";
import type { Body } from "../model/event.ts";
import type { DeviceInfo } from "../model/http.ts";
import { questionsOf } from "../model/packet.ts";
import { isLongAgo } from "./device-checks.ts";

/** Planned trays that are answered, of all planned; spares are counted beside them once they are answered. */
export function progressOf(state: StudyState): { answered: number; planned: number; spares: number } {
  const trays = [...state.trays.values()];
  const answered = (tray: TrayState) => tray.status === "answered";
  return {
    answered: trays.filter((tray) => !tray.spare && answered(tray)).length,
    planned: trays.filter((tray) => !tray.spare).length,
    spares: trays.filter((tray) => tray.spare && answered(tray)).length,
  };
}

/** One line of the tasting day. It says that something happened, by which tablet and when, never what. */
export type DayRow = {
  tray: number;
  spare: boolean;
  status: TrayStatus | "late" | "spare";
  ballots: { device: string; at: string | null; late: boolean; paper: PaperState | null; voided: boolean }[];
  /** Its ballot on paper was typed in anew after an entry of it was voided. */
  typedAnew: boolean;
  /** Of a tray with several questions that is going on: how many are kept, and how many there are. */
  kept: { questions: number; of: number } | null;
  /** The tray it stands in for, when it is a spare that was served. */
  instead: number | null;
};

/** Wave by wave, the trays of it; an untouched spare has the status "spare". */
export function dayRows(state: StudyState): { wave: number; rows: DayRow[] }[] {
  const waves = new Map<number, DayRow[]>();
  for (const tray of state.trays.values()) {
    const rows = waves.get(tray.wave) ?? [];
    waves.set(tray.wave, rows);
    rows.push({
      tray: tray.tray,
      spare: tray.spare,
      status: rowStatus(tray),
      ballots: tray.ballots.map((ballot) => ({
        device: ballot.device,
        at: ballot.answeredAt ?? ballot.openedAt,
        late: ballot.late,
        paper: ballot.paper,
        voided: ballot.voided !== null,
      })),
      typedAnew: [true, false].every((gone) =>
        tray.ballots.some(({ paper, voided }) => paper !== null && (voided !== null) === gone),
      ),
      kept: keptOf(tray, state),
      instead: tray.served?.body.instead ?? null,
    });
  }
  return [...waves].sort(([a], [b]) => a - b).map(([wave, rows]) => ({ wave, rows }));
}

/** Counts of outlines, never what they say. Null where one question is all, or nothing is kept yet. */
function keptOf(tray: TrayState, { lock }: StudyState): DayRow["kept"] {
  const of = lock ? questionsOf(lock.body.packet, tray) : 1;
  const questions = tray.counted?.questions.size ?? 0;
  return of > 1 && questions > 0 && questions < of ? { questions, of } : null;
}

function rowStatus(tray: TrayState): DayRow["status"] {
  if (tray.status === "open" && tray.ballots.some((b) => b.answered && b.late)) return "late";
  if (tray.spare && tray.status === "waiting" && !tray.served) return "spare";
  return tray.status;
}

/** Ballots that can be voided: those with something in them that are not void yet. */
export function voidable(state: StudyState): Ballot[] {
  return [...state.trays.values()].flatMap((tray) => tray.ballots.filter((ballot) => ballot.voided === null));
}

/** The body of a void: it names every event of the ballot, so that it means the same wherever it arrives first. */
export const voidBody = (
  ballot: Ballot,
  reason: Body<"ballot-voided">["reason"],
  note: string,
): Body<"ballot-voided"> => ({ tray: ballot.tray, targets: [...ballot.events], reason, note });

/** Spare trays that were neither served nor touched, in the order of their numbers; those of `wave` come first. */
export function freeSpares(state: StudyState, wave: number | null = null): TrayState[] {
  const free = [...state.trays.values()].filter((tray) => tray.spare && !tray.served && tray.ballots.length === 0);
  const away = (tray: TrayState) => (wave === null || tray.wave === wave ? 0 : 1);
  return free.sort((a, b) => away(a) - away(b) || a.tray - b.tray);
}

/** Trays that were answered twice, on tablets or on paper, and nobody has ruled on. */
export const contestedTrays = (state: StudyState): TrayState[] =>
  [...state.trays.values()].filter((tray) => tray.status === "contested");

/** The ballots a ruling on a contested tray is about: answered, not void, not late. */
export const rivalBallots = (tray: TrayState): Ballot[] =>
  tray.ballots.filter((b) => b.answered && !b.voided && (b.arrival === "on-time" || b.arrival === "admitted"));

/** The body of a ruling. `among` names every ballot known to be there, so that one more contests anew. */
export const settleBody = (tray: TrayState, keep: string, note: string): Body<"contest-settled"> => ({
  tray: tray.tray,
  keep,
  among: rivalBallots(tray).map(nameOf),
  note,
});

/** Ballots that came in after the close and are not admitted. */
export const lateBallots = (state: StudyState): Ballot[] =>
  [...state.trays.values()].flatMap((tray) => tray.ballots.filter((b) => b.late && b.voided === null));

/** A tablet that said, when it was last heard, that it holds something unsent. */
export type Holding = { name: string; unsent: number; lastSeen: string | null };

/** Tablets of this study that are known to hold unsent records, by name: what a close has to say first. */
export function holdings(devices: DeviceInfo[], study: string): Holding[] {
  return tabletsOf(devices, study)
    .filter((device) => (device.status?.unsent ?? 0) > 0)
    .map(({ name, status, lastSeen }) => ({ name, unsent: status?.unsent ?? 0, lastSeen }));
}

/**
 * Tablets of this study that may hold answers although none is known: not heard of for a minute, or with a tray that
 * was opened there and is not all answered yet.
 */
export function mayHold(devices: DeviceInfo[], study: string, state: StudyState, now: string): MayHold[] {
  const openOn = new Map<string, number[]>();
  for (const { tray, ballots } of state.trays.values()) {
    for (const { device, complete, stopped, finished, paper } of ballots) {
      if (!complete && !stopped && !finished && !paper) openOn.set(device, [...(openOn.get(device) ?? []), tray]);
    }
  }
  return tabletsOf(devices, study)
    .filter((device) => (device.status?.unsent ?? 0) === 0)
    .map(({ id, name, lastSeen }) => ({ name, lastSeen, trays: openOn.get(id) ?? [] }))
    .filter(({ lastSeen, trays }) => trays.length > 0 || lastSeen === null || isLongAgo(lastSeen, now));
}
export type MayHold = { name: string; lastSeen: string | null; trays: number[] };

/** Tablets set to this study, withdrawn ones too while they hold something. */
export const tabletsOf = (devices: DeviceInfo[], study: string): DeviceInfo[] =>
  devices.filter((d) => d.role === "panel" && d.study === study && (!d.revoked || (d.status?.unsent ?? 0) > 0));

/**
 * The body of a close: what it saw, and how many records are known to be missing. Heads are gapless: nothing that was
 * withheld can slip in behind them later and count.
 */
export const closeBody = (heads: Heads, holding: Holding[], note: string): Body<"study-closed"> => ({
  heads,
  knownUnsent: holding.reduce((sum, { unsent }) => sum + unsent, 0),
  note,
});

/** Whole minutes from one instant to another, never less than none. */
export const minutesBetween = (from: string, to: string): number =>
  Math.max(0, Math.floor((Date.parse(to) - Date.parse(from)) / 60_000));
