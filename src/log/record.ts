import { problem } from "../model/problem.ts";
import type { Departure, Judgment, StudyRecord } from "../model/record.ts";
import type { StudyState, TrayState } from "./fold.ts";

/**
 * The record of a closed and revealed study: what the analysis takes, and nothing that depends on arrival order.
 *
 * Takes    state: of a full log (not of outlines); keyMatches: does the opened key give the locked commitment
 *          (`seal/verify` says so); quarantined: how many events the server kept aside
 * Throws   Problem "key/not-closed" before the reveal
 */
export function recordOf(state: StudyState, keyMatches: boolean, quarantined = 0): StudyRecord {
  const { lock, close, reveal } = state;
  if (!lock || !reveal) throw problem("key/not-closed");
  const seatOf = new Map(lock.body.seats.flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)));
  // a spare tray stands in for the seat it was served instead of; an extra person gets a seat of their own
  const seats = Math.max(0, ...seatOf.values());
  const trays = [...state.trays.values()];
  const judgments: Judgment[] = [];
  for (const tray of trays) {
    const answer = tray.counted?.answer;
    if (!tray.counted || !answer || (tray.spare && !tray.served)) continue;
    const instead = tray.served?.body.instead;
    const seat = seatOf.get(tray.tray) ?? (instead ? seatOf.get(instead) : undefined) ?? seats + tray.tray;
    judgments.push({
      tray: tray.tray,
      seat,
      wave: tray.wave,
      device: tray.counted.device,
      choice: answer.choice,
      guess: answer.guess,
    });
  }
  const counted = new Set(judgments.map((judgment) => judgment.tray));
  return {
    study: lock.stream.id,
    plan: lock.body.plan,
    packet: lock.body.packet,
    opened: reveal.body.opened,
    keyMatches,
    commitment: lock.body.sealed.commitment,
    app: lock.body.app,
    lockedAt: lock.at,
    closedAt: close?.at ?? null,
    revealedAt: reveal.at,
    judgments,
    notAnswered: trays.filter((tray) => !tray.spare && !counted.has(tray.tray)).map((tray) => tray.tray),
    departures: [...trays.flatMap(departuresOf), ...departuresOfStudy(state, quarantined)],
  };
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

function departuresOfStudy(state: StudyState, quarantined: number): Departure[] {
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
  if (quarantined > 0) list.push({ what: "quarantined", events: quarantined });
  return list;
}
