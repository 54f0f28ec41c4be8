import { problem } from "../model/problem.ts";
import type { Departure, Judgment, StudyRecord, UnansweredReason } from "../model/record.ts";
import type { StudyState, TrayState } from "./fold.ts";

/** What is known of a study beside the facts that were read. */
export type Around = {
  /** Does the opened key give the locked commitment? `seal/verify` says so. */
  keyMatches: boolean;
  /** Events that the server kept aside. */
  quarantined?: number;
  /** Events that close and reveal name and the log at hand lacks (`missingFrom`). */
  missing?: number;
  /** Events that this app cannot read. */
  notRead?: number;
};

/**
 * The record of a closed and revealed study: what the analysis takes, and nothing that depends on arrival order.
 *
 * Takes    state: of a full log (not of outlines)
 * Throws   Problem "key/not-closed" before the reveal
 */
export function recordOf(state: StudyState, around: Around): StudyRecord {
  const { lock, close, reveal } = state;
  if (!lock || !reveal) throw problem("key/not-closed");
  const judgments = judgmentsOf(state);
  const counted = new Set(judgments.map((judgment) => judgment.tray));
  const unanswered = [...state.trays.values()].filter((tray) => !tray.spare && !counted.has(tray.tray));
  return {
    study: lock.stream.id,
    plan: lock.body.plan,
    packet: lock.body.packet,
    opened: reveal.body.opened,
    keyMatches: around.keyMatches,
    commitment: lock.body.sealed.commitment,
    app: lock.body.app,
    lockedAt: lock.at,
    closedAt: close?.at ?? null,
    revealedAt: reveal.at,
    judgments,
    notAnswered: unanswered.map((tray) => tray.tray),
    departures: [
      ...[...state.trays.values()].flatMap(departuresOf),
      ...seatsCountedTwice(judgments, state),
      ...departuresOfUnanswered(unanswered),
      ...departuresOfStudy(state, around),
    ],
  };
}

function judgmentsOf({ lock, trays }: StudyState): Judgment[] {
  const seats = new Map(
    (lock?.body.seats ?? []).flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)),
  );
  const lastSeat = Math.max(0, ...seats.values());
  const judgments: Judgment[] = [];
  for (const tray of trays.values()) {
    const answer = tray.counted?.answer;
    if (!tray.counted || !answer || (tray.spare && !tray.served)) continue;
    judgments.push({
      tray: tray.tray,
      // an extra person gets a seat of their own
      seat: seatOf(tray, trays, seats) ?? lastSeat + tray.tray,
      wave: tray.wave,
      device: tray.counted.device,
      choice: answer.choice,
      guess: answer.guess,
    });
  }
  return judgments;
}

/** A spare stands in for the seat it was served instead of, also when that was a spare itself; null for an extra person. */
function seatOf(
  tray: TrayState,
  trays: ReadonlyMap<number, TrayState>,
  seats: ReadonlyMap<number, number>,
): number | null {
  const visited = new Set<number>();
  let at: TrayState | undefined = tray;
  // rulings of two leads may name each other's trays: a circle has no seat
  while (at && !visited.has(at.tray)) {
    const seat = seats.get(at.tray);
    if (seat !== undefined) return seat;
    visited.add(at.tray);
    at = trays.get(at.served?.body.instead ?? 0);
  }
  return null;
}

/** Seats of which more trays count than were planned for them: somebody tasted a spare though the first answer counts. */
function seatsCountedTwice(judgments: readonly Judgment[], { trays }: StudyState): Departure[] {
  const spares = judgments.filter(({ tray }) => trays.get(tray)?.spare);
  return [...new Set(spares.map(({ seat }) => seat))].flatMap((seat) => {
    const counted = judgments.filter((judgment) => judgment.seat === seat).map(({ tray }) => tray);
    return counted.length > 1 ? [{ what: "seat-counted-twice" as const, seat, trays: counted }] : [];
  });
}

function departuresOfUnanswered(trays: readonly TrayState[]): Departure[] {
  const byReason = new Map<UnansweredReason, number[]>();
  for (const tray of trays) {
    const why = reasonOf(tray);
    byReason.set(why, [...(byReason.get(why) ?? []), tray.tray]);
  }
  return [...byReason].map(([why, numbers]) => ({ what: "not-answered", why, trays: numbers }));
}

function reasonOf({ status, ballots }: TrayState): UnansweredReason {
  switch (status) {
    case "waiting":
      return "never-opened";
    case "stopped":
    case "voided":
    case "contested":
    case "replaced":
      return status;
    default:
      return ballots.some(({ answered }) => answered) ? "too-late" : "not-answered";
  }
}

function departuresOf(tray: TrayState): Departure[] {
  const number = tray.tray;
  const list: Departure[] = [];
  for (const ballot of tray.ballots) {
    if (ballot.voided) list.push({ what: "ballot-voided", tray: number, ...ballot.voided });
    if (ballot.arrival === "after-reveal") list.push({ what: "after-reveal", tray: number });
    if (ballot.arrival === "late") list.push({ what: "late-excluded", tray: number });
    if (ballot.stopped) list.push({ what: "stopped", tray: number, reason: ballot.stopped });
    if (ballot.answered && !ballot.finished && ballot === tray.counted) list.push({ what: "unfinished", tray: number });
  }
  if (tray.counted?.arrival === "admitted") {
    list.push({ what: "late-admitted", tray: number, note: tray.counted.admission ?? "" });
  }
  if (tray.settled) list.push({ what: "contest-settled", tray: number, note: tray.settled.body.note });
  if (tray.status === "contested") list.push({ what: "contest-open", tray: number });
  if (tray.served) {
    const { instead, reason, note } = tray.served.body;
    list.push({ what: "spare-served", tray: number, instead, reason, note });
  } else if (tray.spare && tray.counted) list.push({ what: "spare-unexplained", tray: number });
  return list;
}

function departuresOfStudy(state: StudyState, around: Around): Departure[] {
  const { quarantined = 0, missing = 0, notRead = 0 } = around;
  const list: Departure[] = [];
  for (const fact of state.offPlan) {
    if (fact.kind === "answer-kept") list.push({ what: "off-plan", tray: fact.body.tray });
  }
  for (const fact of state.papers) {
    if (fact.body.reprint) list.push({ what: "key-reprinted", paper: fact.body.paper });
  }
  for (const fact of state.rivals) list.push({ what: "rival-event", kind: fact.kind });
  const unsent = state.close?.body.knownUnsent ?? 0;
  if (unsent > 0) list.push({ what: "closed-with-unsent", unsent });
  const note = state.close?.body.note.trim() ?? "";
  if (note !== "") list.push({ what: "close-note", note });
  if (missing > 0) list.push({ what: "records-missing", records: missing });
  if (notRead > 0) list.push({ what: "records-not-read", records: notRead });
  if (quarantined > 0) list.push({ what: "quarantined", events: quarantined });
  return list;
}
