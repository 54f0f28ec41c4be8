import { type Ballot, isNamed, nameOf } from "../log/ballots.ts";
import type { StudyState } from "../log/fold.ts";
import type { TrayState } from "../log/trays.ts";
import type { Body } from "../model/event.ts";
import { freeSpares, rivalBallots } from "./day.ts";

/** What hinders a ruling, from what was chosen and what is known by now. A list may change while somebody chooses. */

/** A ballot by tray and tablet, or paper: the same one however the list around it changes. */
export const ballotName = (ballot: Pick<Ballot, "tray" | "paper" | "device" | "events">): string =>
  `${ballot.tray} ${nameOf(ballot)}`;

/** "pick": no ballot chosen; "gone": the chosen one can no longer be voided; "reason": none chosen. */
export function voidHindrance(
  picked: string,
  reason: Body<"ballot-voided">["reason"] | null,
  ballots: readonly Ballot[],
): "pick" | "gone" | "reason" | null {
  if (picked === "") return "pick";
  if (!ballots.some((ballot) => ballotName(ballot) === picked)) return "gone";
  return reason === null ? "reason" : null;
}

/** "pick": no ballot chosen; "gone": the chosen one is no longer one of the two that are to be told apart. */
export function settleHindrance(keep: string | null, tray: TrayState): "pick" | "gone" | null {
  if (keep === null) return "pick";
  return rivalBallots(tray).some((ballot) => isNamed(ballot, keep)) ? null : "gone";
}

export type SpareChoice = {
  reason: Body<"spare-served">["reason"] | null;
  instead: number | null;
  /** The spare tray that was named when the choice was made. It stays, so that it does not change under a finger. */
  offered: number | null;
};

/** A choice with the spare tray that goes with it, as far as it is made. */
export function chooseSpare(state: StudyState, made: Omit<SpareChoice, "offered">): SpareChoice {
  const instead = made.reason === "replaces" ? made.instead : null;
  if (made.reason === null || (made.reason === "replaces" && instead === null)) return { ...made, offered: null };
  const wave = instead === null ? null : (state.trays.get(instead)?.wave ?? null);
  return { ...made, instead, offered: freeSpares(state, wave)[0]?.tray ?? null };
}

/** Does a ballot of this tray count, or will it once it is settled? A spare beside it would be a second answer. */
export const ballotStands = (tray: TrayState | undefined): boolean =>
  tray?.status === "answered" || tray?.status === "contested";

/** "stands": the replaced tray's ballot still counts; "gone": the spare named was served or opened meanwhile. */
export function spareHindrance(
  { reason, instead, offered }: SpareChoice,
  state: StudyState,
): "reason" | "instead" | "stands" | "gone" | null {
  if (reason === null) return "reason";
  if (reason === "replaces" && instead === null) return "instead";
  if (instead !== null && ballotStands(state.trays.get(instead))) return "stands";
  return freeSpares(state).some(({ tray }) => tray === offered) ? null : "gone";
}
