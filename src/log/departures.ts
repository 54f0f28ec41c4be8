import { isAnswerKind } from "../model/ballot-event.ts";
import { type BlindPacket, questionsOf } from "../model/packet.ts";
import type { Departure, UnansweredReason } from "../model/record.ts";
import { type Ballot, isBallotFact, type KeptMark } from "./ballots.ts";
import type { StudyState } from "./fold.ts";
import { isUnchecked, type TrayState } from "./trays.ts";

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

/** What the kitchen's log says of it. */
type OfKitchen = { kitchen: readonly Departure[] };

/** A tray that counts, with the ballot that does and the seat it speaks for. */
export type Seated = { tray: TrayState; ballot: Ballot; seat: number };

export const inTime = ({ arrival }: Pick<KeptMark, "arrival">): boolean =>
  arrival === "on-time" || arrival === "admitted";

/** What did not go by the plan: of the trays, the seats, the unanswered ones, the kitchen and the study, in this order. */
export function departuresOfRecord(
  state: StudyState,
  seated: readonly Seated[],
  unanswered: readonly TrayState[],
  around: Around & OfKitchen,
): Departure[] {
  const packet = state.lock?.body.packet;
  return [
    ...[...state.trays.values()].flatMap(departuresOf),
    ...(packet ? seated.flatMap((one) => departuresOfQuestions(one, packet)) : []),
    ...departuresOfPaper(seated),
    ...seatsCountedTwice(seated, state.lock?.body.seats ?? []),
    ...departuresOfUnanswered(unanswered),
    ...around.kitchen,
    ...departuresOfStudy(state, around),
  ];
}

/** Screens and card checks are good to about half a millimeter in a hundred; more is another line. */
const lengthTolerance = 0.01;

function departuresOfQuestions({ tray: { tray }, ballot }: Seated, packet: BlindPacket): Departure[] {
  const planned = packet.line;
  const blind = packet.trays.find((one) => one.tray === tray);
  if (!blind) return [];
  const arrivals = [...ballot.questions.values()].map((arrival) => ({ arrival }));
  const missed: Departure[] = [
    { what: "not-reached", tray, questions: questionsOf(packet, blind) - arrivals.length },
    { what: "marks-late", tray, questions: arrivals.length - arrivals.filter(inTime).length },
  ];
  const some = (departure: Departure) => "questions" in departure && departure.questions > 0;
  if (!planned) {
    const hidden = [...ballot.portions.values()].filter((portion) => inTime(portion) && portion.hidden);
    return [...missed, { what: "clock-hidden" as const, tray, questions: hidden.length }].filter(some);
  }
  const marks = [...ballot.marks.values()];
  const counted = marks.filter(inTime);
  const lengths = counted.flatMap(({ line }) => (line ? [line.lengthMm] : []));
  const locked = planned.lengthMm ?? 0;
  const other = lengths.find((mm) => Math.abs(mm - locked) > lengthTolerance * locked);
  const list: Departure[] = [
    { what: "not-judged", tray, questions: counted.filter(({ mark }) => mark === null).length },
    ...missed,
    { what: "clock-hidden", tray, questions: counted.filter(({ hidden }) => hidden).length },
  ];
  return [
    ...list.filter(some),
    ...(other === undefined ? [] : [{ what: "other-length" as const, tray, lengthMm: other }]),
  ];
}

/** Trays that count, wholly or in part, by what was typed in from paper. */
function departuresOfPaper(seated: readonly Seated[]): Departure[] {
  const trays = seated.filter(({ ballot }) => ballot.paper === "checked").map(({ tray }) => tray.tray);
  return trays.length === 0 ? [] : [{ what: "typed-from-paper", trays }];
}

/** Seats of which more trays count than were planned for them: somebody tasted a spare though the first answer counts. */
function seatsCountedTwice(
  seated: readonly Seated[],
  seats: readonly { seat: number; trays: readonly number[] }[],
): Departure[] {
  const spares = seated.filter(({ tray }) => tray.spare);
  return [...new Set(spares.map(({ seat }) => seat))].flatMap((seat) => {
    const counted = seated.filter((one) => one.seat === seat).map(({ tray }) => tray.tray);
    // whoever came without a seat has one spare tray
    const planned = seats.find((one) => one.seat === seat)?.trays.length ?? 1;
    return counted.length > planned ? [{ what: "seat-counted-twice" as const, seat, trays: counted }] : [];
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
    case "unchecked":
      return "not-checked";
    default:
      return ballots.some(({ answered, paper }) => answered || paper === "after-reveal") ? "too-late" : "not-answered";
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
    if (isUnchecked(ballot))
      list.push({ what: "paper-not-checked", tray: number, why: ballot.paper === "once" ? "once" : "differs" });
    if (ballot.typedAfterReveal) list.push({ what: "paper-after-reveal", tray: number });
  }
  const { counted } = tray;
  if (counted?.complete && !counted.finished) list.push({ what: "unfinished", tray: number });
  if (counted && counted.admission !== null)
    list.push({ what: "late-admitted", tray: number, note: counted.admission });
  if (counted?.paper && tray.ballots.some(({ paper, voided }) => paper && voided))
    list.push({ what: "paper-typed-anew", tray: number });
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
    if (fact.kind === "paper-typed" || (isBallotFact(fact) && isAnswerKind(fact.kind)))
      list.push({ what: "off-plan", tray: fact.body.tray });
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
