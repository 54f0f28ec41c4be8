import type { Heads } from "../model/ballot-event.ts";
import type { OpenedKey } from "../model/key.ts";
import { problem } from "../model/problem.ts";
import type { Judgment, KeptMark, KeptPortion, StudyRecord } from "../model/record.ts";
import type { KeptMark as FoldedMark } from "./ballots.ts";
import { kitchenOfRecord } from "./day-record.ts";
import { type Around, departuresOfRecord, inTime, type Seated } from "./departures.ts";
import { within } from "./fact.ts";
import { foldStudy, type StudyState } from "./fold.ts";
import type { Look } from "./looks.ts";
import { departuresOfPortions, weighedOfRecord, weighingsOf } from "./portion-record.ts";
import type { TrayState } from "./trays.ts";

export type { Around };

/**
 * The record of a closed and revealed study: what the analysis takes, and nothing that depends on arrival order.
 *
 * Takes    state: of a full log (not of outlines)
 * Throws   Problem "key/not-closed" before the reveal
 */
export function recordOf(state: StudyState, around: Around): StudyRecord {
  const { reveal } = state;
  if (!reveal) throw problem("key/not-closed");
  return recordWith(state, reveal.body.opened, reveal.at, around);
}

/**
 * The record as a look of the stopping rule sees it, and the looks before it: what the rule is asked with. It lives in
 * memory and is never kept.
 *
 * Takes    state: with the full ballots within the look's heads; opened: checked against the locked commitment
 */
export function recordOfLook(state: StudyState, { begun }: Look, opened: OpenedKey): StudyRecord {
  const seen = stateWithin(state, begun.body.heads);
  const looks = state.looks.filter((look) => look.begun.body.look <= begun.body.look);
  return recordWith({ ...seen, looks }, opened, begun.at, { keyMatches: true });
}

function recordWith(state: StudyState, opened: OpenedKey, revealedAt: string, around: Around): StudyRecord {
  const { lock, close } = state;
  if (!lock) throw problem("key/not-closed");
  const kitchen = kitchenOfRecord(state, lock, opened);
  // a tray belongs to the wave with which it was served, and to its session
  const seated = countedTrays(state).map(
    (one): Seated => ({ ...one, tray: { ...one.tray, wave: kitchen.waveOf(one.tray) } }),
  );
  const judgments = seated.flatMap(judgmentOf);
  const marks = seated.flatMap(marksOf);
  const portions = seated.flatMap(portionsOf);
  const weighings = weighingsOf(state);
  const counted = new Set([...judgments, ...marks, ...portions].map(({ tray }) => tray));
  const unanswered = [...state.trays.values()].filter((tray) => !tray.spare && !counted.has(tray.tray));
  return {
    study: lock.stream.id,
    plan: lock.body.plan,
    packet: lock.body.packet,
    opened,
    keyMatches: around.keyMatches,
    commitment: lock.body.sealed.commitment,
    app: lock.body.app,
    lockedAt: lock.at,
    closedAt: close?.at ?? null,
    revealedAt,
    judgments,
    marks,
    portions,
    weighings: weighedOfRecord(weighings),
    looks: looksOfRecord(state, counted),
    masses: massesOf(state),
    notAnswered: unanswered.map((tray) => tray.tray),
    departures: [
      ...departuresOfRecord(state, seated, unanswered, { ...around, kitchen: kitchen.departures }),
      ...departuresOfPortions(state, weighings, portions),
    ],
    otherBatches: kitchen.otherBatches,
    temperatures: kitchen.temperatures,
  };
}

function massesOf({ masses, otherMasses, reveal }: StudyState): StudyRecord["masses"] {
  if (!masses) return null;
  // versions that did not know of each other are both shown: nothing that was weighed is lost
  const versions = [masses, ...otherMasses];
  return {
    sources: versions.flatMap(({ body }) => body.sources).slice(0, 6),
    afterReveal: reveal !== null && versions.some((version) => !within(version, reveal.body.heads)),
  };
}

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
    .map(({ question, choice, guess, screen }) => ({
      ...placeOf(seated),
      ...{ question, choice, guess, paper: screen === null },
    }));
}

const inTimeOf = (arrival: FoldedMark["arrival"] | undefined): boolean =>
  arrival === "on-time" || arrival === "admitted";

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
      lengthMm: line?.lengthMm ?? null,
      lengthPx: line?.lengthPx ?? null,
      pointer: screen?.pointer ?? "paper",
      chewedSeconds,
      hidden,
      elapsedMs,
      paper: screen === null,
    }));
}

/** The chewed portions of a tray that count, in its serving order. */
const portionsOf = (seated: Seated): KeptPortion[] =>
  [...seated.ballot.portions.values()]
    .filter(inTime)
    .sort((a, b) => a.question - b.question)
    .map(({ device, code, question, chewedSeconds, whole, hidden }) => ({
      ...placeOf(seated),
      ...{ device, code, question, chewedSeconds, whole, hidden },
    }));

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
