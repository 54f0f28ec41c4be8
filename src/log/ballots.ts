import type { ScaleForm } from "../model/attribute.ts";
import { type Heads, isAnswerKind } from "../model/ballot-event.ts";
import type { Body, Fact } from "../model/event.ts";
import { type BlindPacket, type BlindTray, isAnswer, questionsOf } from "../model/packet.ts";
import { stepAt } from "../model/steps.ts";
import { type FactOf, within } from "./fact.ts";
import type { PaperState } from "./paper.ts";

/** One device's handling of a tray, from its events and what the lead ruled on them. */

export type Arrival = "on-time" | "late" | "admitted" | "after-reveal";

type Screen = Body<"answer-kept">["screen"];

/** A kept choice; without a screen it was made on paper. */
export type KeptAnswer = Pick<Body<"answer-kept">, "question" | "choice" | "guess"> & { screen: Screen | null };

type MarkOnScreen = Body<"mark-kept">;

/**
 * A kept mark, the last of its question on this device; only what arrived in time, or was admitted, is used. One that
 * was made on paper has neither screen nor times, and a line without pixels.
 */
export type KeptMark = Pick<
  MarkOnScreen,
  "tray" | "question" | "code" | "attribute" | "why" | "chewedSeconds" | "hidden"
> & {
  mark: { fraction: number } | null;
  line: { lengthMm: number; lengthPx: number | null } | null;
  elapsedMs: number | null;
  screen: Screen | null;
  device: string;
  arrival: Arrival;
};

/** A chewed portion, the first of its place on this device: nobody chews one twice. */
export type ChewedPortion = Body<"portion-chewed"> & { device: string; arrival: Arrival };

/**
 * One device's handling of one tray, or the tray's ballot on paper. `answers`, `marks` and `portions` are empty while only
 * outlines are known.
 */
export type Ballot = {
  tray: number;
  /** Of a ballot on paper: where it was typed in, the first person's typing that counts. */
  device: string;
  /** How far a ballot on paper is typed in and checked; null for one that was given on a tablet. */
  paper: PaperState | null;
  /** Of a ballot on paper: something of it was typed after the reveal, and is left out. */
  typedAfterReveal: boolean;
  events: string[];
  openedAt: string | null;
  answered: boolean;
  answeredAt: string | null;
  /** Choices by question. */
  answers: Map<number, KeptAnswer>;
  /** By question. */
  marks: Map<number, KeptMark>;
  /** By question. */
  portions: Map<number, ChewedPortion>;
  /** When each question's first kept answer arrived; known from outlines too. */
  questions: Map<number, Arrival>;
  /** Are answers there, in time or admitted, to all that the tray asks? */
  complete: boolean;
  /** Did some answer come after the close, and is not admitted? */
  late: boolean;
  answerEvents: string[];
  finished: boolean;
  stopped: Body<"tray-stopped">["reason"] | null;
  voided: { reason: Body<"ballot-voided">["reason"]; note: string } | null;
  /**
   * Of its first answer. on-time: within the close's heads (or not closed yet); admitted and late: beyond them;
   * after-reveal: beyond the reveal's.
   */
  arrival: Arrival;
  /** Why a late ballot was admitted, when it was. */
  admission: string | null;
};

/** What the lead ruled, and what close and reveal saw. */
export type Rulings = {
  heads: { close: Heads | null; reveal: Heads | null };
  voids: FactOf<"ballot-voided">[];
  settlements: FactOf<"contest-settled">[];
  spares: FactOf<"spare-served">[];
  admissions: FactOf<"late-admitted">[];
};

/** Is the answer one that this tray's ballot can give? What is not an answer always is. */
export function fits(fact: BallotFact, { codes }: BlindTray, packet: BlindPacket): boolean {
  if (fact.kind === "answer-kept") {
    const { question } = fact.body;
    if (packet.line || packet.chew || question < 1 || question > questionsOf(packet, { codes })) return false;
    return fact.outline || isAnswer(packet, { codes }, fact.body.choice);
  }
  if (fact.kind === "portion-chewed") {
    const { question } = fact.body;
    if (!packet.chew || question < 1 || question > codes.length) return false;
    return fact.outline || codes[question - 1] === fact.body.code;
  }
  if (fact.kind !== "mark-kept") return true;
  if (!packet.line) return false;
  const { attributes } = packet.line;
  const { question } = fact.body;
  const place = Math.floor((question - 1) / attributes.length);
  if (fact.outline) return question >= 1 && place < codes.length;
  const asked = attributes[(question - 1) % attributes.length];
  return codes[place] === fact.body.code && asked?.id === fact.body.attribute && fitsForm(fact.body, asked.form);
}

/** A line says how long it was shown; of steps, one was chosen, and nothing lies between two of them. */
function fitsForm({ line, mark }: Body<"mark-kept">, form: ScaleForm): boolean {
  if (form.kind === "line") return line !== null;
  return line === null && (mark === null || stepAt(form.labels.length, mark.fraction) !== null);
}

export type BallotFact = FactOf<
  "tray-opened" | "answer-kept" | "mark-kept" | "portion-chewed" | "remark-kept" | "tray-finished" | "tray-stopped"
>;
export const isBallotFact = (fact: Fact): fact is BallotFact =>
  fact.kind === "tray-opened" ||
  fact.kind === "answer-kept" ||
  fact.kind === "mark-kept" ||
  fact.kind === "portion-chewed" ||
  fact.kind === "remark-kept" ||
  fact.kind === "tray-finished" ||
  fact.kind === "tray-stopped";

/** A ballot of which nothing is known yet. */
export const blankBallot = (tray: number, device: string): Ballot => ({
  ...{ tray, device, paper: null, typedAfterReveal: false, events: [] },
  ...{ openedAt: null, answered: false, answeredAt: null },
  ...{ answers: new Map(), marks: new Map(), portions: new Map(), questions: new Map() },
  ...{ complete: false, late: false, answerEvents: [], finished: false },
  ...{ stopped: null, voided: null, arrival: "on-time", admission: null },
});

/** The name by which a ruling keeps or admits a ballot: its tablet, or of one on paper the first of its events. */
export const nameOf = ({ paper, device, events }: Pick<Ballot, "paper" | "device" | "events">): string =>
  paper ? (events[0] ?? device) : device;

/** Is it the ballot that a ruling names? A ballot on paper is named by any of its typings. */
export const isNamed = ({ paper, device, events }: Ballot, name: string): boolean =>
  paper ? events.includes(name) : device === name;

export function addToBallot(ballots: Map<string, Ballot>, fact: BallotFact, { heads }: Rulings): void {
  const name = `${fact.body.tray} ${fact.device}`;
  const ballot = ballots.get(name) ?? blankBallot(fact.body.tray, fact.device);
  ballots.set(name, ballot);
  ballot.events.push(fact.id);
  if (fact.kind === "tray-opened") ballot.openedAt ??= fact.at;
  if (fact.kind === "tray-finished") ballot.finished = true;
  if (fact.kind === "tray-stopped") ballot.stopped ??= fact.body.reason;
  if (isAnswerFact(fact)) addAnswer(ballot, fact, arrivalOf(fact, heads));
}

type AnswerFact = FactOf<"answer-kept" | "mark-kept" | "portion-chewed">;
const isAnswerFact = (fact: BallotFact): fact is AnswerFact => isAnswerKind(fact.kind);

function arrivalOf(fact: Fact, heads: Rulings["heads"]): Arrival {
  if (!within(fact, heads.reveal)) return "after-reveal";
  return within(fact, heads.close) ? "on-time" : "late";
}

function addAnswer(ballot: Ballot, fact: AnswerFact, arrival: Arrival): void {
  ballot.answerEvents.push(fact.id);
  if (!ballot.questions.has(fact.body.question)) ballot.questions.set(fact.body.question, arrival);
  // a mark may be moved until the next sample: the last one in time counts, and a later one does not undo it
  const before = ballot.marks.get(fact.body.question);
  if (fact.kind === "mark-kept" && !fact.outline && (!before || before.arrival === arrival)) {
    ballot.marks.set(fact.body.question, { ...fact.body, device: fact.device, arrival });
  }
  // a kept choice is final: the device's first one counts
  if (fact.kind === "answer-kept" && !fact.outline && !ballot.answers.has(fact.body.question)) {
    ballot.answers.set(fact.body.question, fact.body);
  }
  if (fact.kind === "portion-chewed" && !fact.outline && !ballot.portions.has(fact.body.question)) {
    ballot.portions.set(fact.body.question, { ...fact.body, device: fact.device, arrival });
  }
  if (ballot.answered) return;
  ballot.answered = true;
  ballot.answeredAt = fact.at;
  ballot.arrival = arrival;
}

export function judgeBallot(ballot: Ballot, rulings: Rulings): void {
  const admitted = rulings.admissions.find((a) => a.body.tray === ballot.tray && isNamed(ballot, a.body.device));
  ballot.late = [...ballot.questions.values()].includes("late");
  if (ballot.late && admitted) {
    const letIn = (arrival: Arrival): Arrival => (arrival === "late" ? "admitted" : arrival);
    ballot.arrival = letIn(ballot.arrival);
    for (const [question, arrival] of ballot.questions) ballot.questions.set(question, letIn(arrival));
    for (const kept of [...ballot.marks.values(), ...ballot.portions.values()]) kept.arrival = letIn(kept.arrival);
    ballot.admission = admitted.body.note;
    ballot.late = false;
  }
  const named = rulings.voids.find((v) => v.body.targets.some((target) => ballot.events.includes(target)));
  if (named) ballot.voided = { reason: named.body.reason, note: named.body.note };
}

export const inTime = (arrival: Arrival): boolean => arrival === "on-time" || arrival === "admitted";
const timely = (one: Arrival, other: Arrival): number => Number(inTime(one)) - Number(inTime(other));
const inTimeLast = <K extends { arrival: Arrival }>(kept: [number, K][]): Map<number, K> =>
  new Map(kept.toSorted(([, a], [, b]) => timely(a.arrival, b.arrival)));
const counting = ({ questions }: Ballot): number[] =>
  [...questions].flatMap(([question, arrival]) => (inTime(arrival) ? [question] : []));
export const isComplete = (ballot: Ballot, packet: BlindPacket, tray: BlindTray): boolean =>
  counting(ballot).length >= questionsOf(packet, tray);

/**
 * Several tablets that answered different questions of one tray, as when one died or was enrolled again half way: one
 * ballot. Null when two of them answered the same question: that is for the lead to settle.
 */
export function joined(ballots: Ballot[], packet: BlindPacket | null, tray: BlindTray): Ballot | null {
  const [first] = ballots;
  const answered = ballots.flatMap(counting);
  if (!first || !packet || new Set(answered).size < answered.length) return null;
  const all: Ballot = {
    ...first,
    events: ballots.flatMap(({ events }) => events),
    answerEvents: ballots.flatMap(({ answerEvents }) => answerEvents),
    // no two are in time for one question; one that came too late must not stand in its place
    answers: new Map(
      ballots.flatMap(({ answers, questions }) => [...answers].filter(([at]) => inTime(questions.get(at) ?? "late"))),
    ),
    // what is in time goes last, and so stands where another tablet answered the same question too late
    marks: inTimeLast(ballots.flatMap(({ marks }) => [...marks])),
    portions: inTimeLast(ballots.flatMap(({ portions }) => [...portions])),
    questions: new Map(ballots.flatMap(({ questions }) => [...questions]).toSorted(([, a], [, b]) => timely(a, b))),
    finished: ballots.some(({ finished }) => finished),
    paper: ballots.find(({ paper }) => paper)?.paper ?? null,
    stopped: ballots.find(({ stopped }) => stopped)?.stopped ?? null,
    late: ballots.some(({ late }) => late),
    admission: ballots.find(({ admission }) => admission !== null)?.admission ?? null,
  };
  return { ...all, complete: isComplete(all, packet, tray) };
}
