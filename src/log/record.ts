import type { Heads } from "../model/event.ts";
import { questionsOf } from "../model/packet.ts";
import { problem } from "../model/problem.ts";
import type { Departure, Judgment, KeptMark, StudyRecord, UnansweredReason } from "../model/record.ts";
import { type Ballot, type KeptMark as FoldedMark, foldStudy, type StudyState, type TrayState } from "./fold.ts";
import { within } from "./looks.ts";

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
  const seated = countedTrays(state);
  const judgments = seated.flatMap(judgmentOf);
  const marks = seated.flatMap(marksOf);
  const counted = new Set([...judgments, ...marks].map(({ tray }) => tray));
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
    marks,
    looks: looksOfRecord(state, counted),
    notAnswered: unanswered.map((tray) => tray.tray),
    departures: [
      ...[...state.trays.values()].flatMap(departuresOf),
      ...seated.flatMap((one) => departuresOfMarks(one, lock.body.packet)),
      ...seatsCountedTwice(seated),
      ...departuresOfUnanswered(unanswered),
      ...departuresOfStudy(state, around),
    ],
  };
}

/** A tray that counts, with the ballot that does and the seat it speaks for. */
type Seated = { tray: TrayState; ballot: Ballot; seat: number };

function countedTrays({ lock, trays }: StudyState): Seated[] {
  const seats = new Map(
    (lock?.body.seats ?? []).flatMap(({ seat, trays }) => trays.map((tray) => [tray, seat] as const)),
  );
  const lastSeat = Math.max(0, ...seats.values());
  return [...trays.values()].flatMap((tray) => {
    if (!tray.counted || (tray.spare && !tray.served)) return [];
    // an extra person gets a seat of their own
    return [{ tray, ballot: tray.counted, seat: seatOf(tray, trays, seats) ?? lastSeat + tray.tray }];
  });
}

/**
 * The answers that count within some heads, whatever came after: what a look sees.
 *
 * Takes    state: of a log with the full ballots within the heads
 */
export function judgmentsWithin(state: StudyState, heads: Heads): Judgment[] {
  return countedTrays(stateWithin(state, heads)).flatMap(judgmentOf);
}

/** How many answers count at the moment: what a stopping rule counts; outlines are enough. */
export const answersCounted = (state: StudyState): number =>
  countedTrays(state).filter(({ ballot }) => ballot.complete).length;

const stateWithin = (state: StudyState, heads: Heads): StudyState =>
  foldStudy([...state.facts.values()].filter((fact) => within(fact, heads)));

/** Each look with those of the counted trays that counted then. */
const looksOfRecord = (state: StudyState, counted: ReadonlySet<number>): StudyRecord["looks"] =>
  state.looks.map(({ begun, done }) => ({
    event: begun.id,
    at: begun.at,
    trays: judgmentsWithin(state, begun.body.heads).flatMap(({ tray }) => (counted.has(tray) ? [tray] : [])),
    said: done?.body.said ?? null,
  }));

const placeOf = ({ tray, ballot, seat }: Seated) => ({
  tray: tray.tray,
  seat,
  wave: tray.wave,
  device: ballot.device,
});

function judgmentOf(seated: Seated): Judgment[] {
  const { answers, questions } = seated.ballot;
  return [...answers.values()]
    .filter(({ question }) => inTimeOf(questions.get(question)))
    .sort((a, b) => a.question - b.question)
    .map(({ question, choice, guess }) => ({ ...placeOf(seated), question, choice, guess }));
}

const inTimeOf = (arrival: FoldedMark["arrival"] | undefined): boolean =>
  arrival === "on-time" || arrival === "admitted";
const inTime = ({ arrival }: FoldedMark): boolean => arrival === "on-time" || arrival === "admitted";

/** The marks of a tray that count, in the order of its questions. */
function marksOf(seated: Seated): KeptMark[] {
  return [...seated.ballot.marks.values()]
    .filter(inTime)
    .sort((a, b) => a.question - b.question)
    .map(({ device, code, attribute, mark, why, line, screen, chewedSeconds, hidden, elapsedMs }) => ({
      ...placeOf(seated),
      device,
      code,
      attribute,
      fraction: mark?.fraction ?? null,
      why,
      ...line,
      pointer: screen.pointer,
      chewedSeconds,
      hidden,
      elapsedMs,
    }));
}

/** Screens and card checks are good to about half a millimeter in a hundred; more is another line. */
const lengthTolerance = 0.01;

function departuresOfMarks({ tray: { tray }, ballot }: Seated, packet: StudyRecord["packet"]): Departure[] {
  const planned = packet.line;
  const blind = packet.trays.find((one) => one.tray === tray);
  if (!planned || !blind) return [];
  const marks = [...ballot.marks.values()];
  const counted = marks.filter(inTime);
  const other = counted.find(
    ({ line }) => Math.abs(line.lengthMm - planned.lengthMm) > lengthTolerance * planned.lengthMm,
  );
  const list: Departure[] = [
    { what: "not-judged", tray, questions: counted.filter(({ mark }) => mark === null).length },
    { what: "not-reached", tray, questions: questionsOf(packet, blind) - marks.length },
    { what: "marks-late", tray, questions: marks.length - counted.length },
    { what: "clock-hidden", tray, questions: counted.filter(({ hidden }) => hidden).length },
  ];
  return [
    ...list.filter((departure) => "questions" in departure && departure.questions > 0),
    ...(other ? [{ what: "other-length" as const, tray, lengthMm: other.line.lengthMm }] : []),
  ];
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
function seatsCountedTwice(seated: readonly Seated[]): Departure[] {
  const spares = seated.filter(({ tray }) => tray.spare);
  return [...new Set(spares.map(({ seat }) => seat))].flatMap((seat) => {
    const counted = seated.filter((one) => one.seat === seat).map(({ tray }) => tray.tray);
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
  }
  const { counted } = tray;
  if (counted?.complete && !counted.finished) list.push({ what: "unfinished", tray: number });
  if (counted && counted.admission !== null)
    list.push({ what: "late-admitted", tray: number, note: counted.admission });
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
    if (fact.kind === "answer-kept" || fact.kind === "mark-kept") list.push({ what: "off-plan", tray: fact.body.tray });
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
