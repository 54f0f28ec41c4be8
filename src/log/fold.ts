import { type Body, type Fact, type Heads, isAnswerKind, type Kind } from "../model/event.ts";
import { answersOf, type BlindPacket, type BlindTray, questionsOf } from "../model/packet.ts";
import type { Plan } from "../model/plan.ts";
import { leavesOf } from "./leaves.ts";
import { type Look, looksOf, within } from "./looks.ts";

/** A fact of one kind. */
export type FactOf<K extends Kind> = Extract<Fact, { kind: K }>;

type Arrival = "on-time" | "late" | "admitted" | "after-reveal";

/** A kept mark, the last of its question on this device; only what arrived in time, or was admitted, is used. */
export type KeptMark = Body<"mark-kept"> & { device: string; arrival: Arrival };

/** One device's handling of one tray. `answers` and `marks` are empty while only outlines are known. */
export type Ballot = {
  tray: number;
  device: string;
  events: string[];
  openedAt: string | null;
  answered: boolean;
  answeredAt: string | null;
  /** Choices by question. */
  answers: Map<number, Body<"answer-kept">>;
  /** By question. */
  marks: Map<number, KeptMark>;
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

export type TrayStatus = "waiting" | "open" | "answered" | "stopped" | "contested" | "voided" | "replaced";

export type TrayState = BlindTray & {
  status: TrayStatus;
  ballots: Ballot[];
  /** The ballot that counts, once exactly one does. */
  counted: Ballot | null;
  settled: FactOf<"contest-settled"> | null;
  served: FactOf<"spare-served"> | null;
};

export type StudyState = {
  /** The draft that counts while the plan is open, and how many unmerged versions there are. */
  draft: { event: string; plan: Plan } | null;
  draftVersions: number;
  lock: FactOf<"study-locked"> | null;
  close: FactOf<"study-closed"> | null;
  reveal: FactOf<"key-revealed"> | null;
  /** Locks, closes, reveals and looks that lost to one with a lower id, or came after the close: shown, never used. */
  rivals: Fact[];
  /** Looks of the stopping rule, by their number. */
  looks: Look[];
  trays: Map<number, TrayState>;
  /** Answers to trays the plan does not have, or with a code the tray does not carry. */
  offPlan: Fact[];
  papers: FactOf<"paper-printed">[];
  /** Sound, known events, once each. */
  facts: Map<string, Fact>;
};

/**
 * The state of a study from its facts.
 *
 * Takes    facts in any order, repeated or not; of two facts with one id the fuller one counts
 * Returns  the same state for the same set, whatever the order: it reads neither positions nor clocks, only
 *          sequence numbers within a device, references written into events, and ids as a tie-break
 */
export function foldStudy(facts: Iterable<Fact>): StudyState {
  const known = onceEach(facts);
  const sorted = [...known.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const of = <K extends Kind>(kind: K) => sorted.filter((fact): fact is FactOf<K> => fact.kind === kind);

  const [lock = null, ...rivalLocks] = of("study-locked");
  const [close = null, ...rivalCloses] = of("study-closed");
  const [reveal = null, ...rivalReveals] = of("key-revealed");
  const leaves = leavesOf(of("draft-saved"));
  const draft = leaves.at(-1);

  const heads = { close: close?.body.heads ?? null, reveal: reveal?.body.heads ?? null };
  /** Rulings after the reveal change nothing: whoever makes them has seen the key. */
  const ruling = <K extends Kind>(kind: K) => of(kind).filter((fact) => within(fact, heads.reveal));
  const { trays, offPlan } = foldTrays(sorted, lock?.body.packet ?? null, {
    heads,
    voids: ruling("ballot-voided"),
    settlements: ruling("contest-settled"),
    spares: ruling("spare-served"),
    admissions: ruling("late-admitted"),
  });
  const { looks, others } = looksOf(of("look-begun"), of("look-done"), heads.close);
  return {
    draft: draft ? { event: draft.id, plan: draft.body.plan } : null,
    draftVersions: leaves.length,
    lock,
    close,
    reveal,
    rivals: [...rivalLocks, ...rivalCloses, ...rivalReveals, ...others],
    looks,
    trays,
    offPlan,
    papers: of("paper-printed"),
    facts: known,
  };
}

/** Facts by id, once each; of two with one id the fuller one. */
export function onceEach(facts: Iterable<Fact>): Map<string, Fact> {
  const known = new Map<string, Fact>();
  for (const fact of facts) {
    const before = known.get(fact.id);
    if (!before || fuller(fact, before)) known.set(fact.id, fact);
  }
  return known;
}

/** Of two facts with one id: the one with a text; of two texts (a conflict) the one with the lower hash, everywhere. */
const fuller = (fact: Fact, before: Fact): boolean =>
  fact.outline === before.outline ? fact.hash < before.hash : before.outline;

type Rulings = {
  heads: { close: Heads | null; reveal: Heads | null };
  voids: FactOf<"ballot-voided">[];
  settlements: FactOf<"contest-settled">[];
  spares: FactOf<"spare-served">[];
  admissions: FactOf<"late-admitted">[];
};

function foldTrays(sorted: Fact[], packet: BlindPacket | null, rulings: Rulings) {
  const ballots = new Map<string, Ballot>();
  const offPlan: Fact[] = [];
  const planned = packet?.trays ?? [];
  const byNumber = new Map(planned.map((tray) => [tray.tray, tray]));
  const inOrder = sorted.filter(isBallotFact).sort((a, b) => a.seq - b.seq || (a.id < b.id ? -1 : 1));
  for (const fact of inOrder) {
    const tray = byNumber.get(fact.body.tray);
    if (!packet || !tray || !fits(fact, tray, packet)) offPlan.push(fact);
    else addToBallot(ballots, fact, rulings);
  }
  const trays = new Map<number, TrayState>();
  for (const tray of planned) {
    const mine = [...ballots.values()]
      .filter((b) => b.tray === tray.tray)
      .sort((a, b) => (a.device < b.device ? -1 : 1));
    for (const ballot of mine) {
      judgeBallot(ballot, rulings);
      ballot.complete = packet !== null && isComplete(ballot, packet, tray);
    }
    const judged = judgeTray(tray, mine, rulings, packet);
    trays.set(tray.tray, judged);
  }
  takeReplacedOut(trays);
  return { trays, offPlan };
}

/** Is the answer one that this tray's ballot can give? What is not an answer always is. */
function fits(fact: BallotFact, { codes }: BlindTray, packet: BlindPacket): boolean {
  if (fact.kind === "answer-kept") {
    const { question } = fact.body;
    if (packet.line || question < 1 || question > questionsOf(packet, { codes })) return false;
    return fact.outline || answersOf(packet, { codes }).includes(fact.body.choice);
  }
  if (fact.kind !== "mark-kept") return true;
  if (!packet.line) return false;
  const { attributes } = packet.line;
  const { question } = fact.body;
  const place = Math.floor((question - 1) / attributes.length);
  if (fact.outline) return question >= 1 && place < codes.length;
  const { code, attribute } = fact.body;
  return codes[place] === code && attributes[(question - 1) % attributes.length]?.id === attribute;
}

/** A tray that a counted spare was served instead of does not count beside it: one person, one answer. */
function takeReplacedOut(trays: Map<number, TrayState>): void {
  const spares = [...trays.values()].filter((tray) => tray.counted && tray.served?.body.instead != null);
  for (const spare of spares) {
    const replaced = trays.get(spare.served?.body.instead ?? 0);
    if (replaced?.counted) trays.set(replaced.tray, { ...replaced, status: "replaced", counted: null });
  }
}

type BallotFact = FactOf<
  "tray-opened" | "answer-kept" | "mark-kept" | "remark-kept" | "tray-finished" | "tray-stopped"
>;
const isBallotFact = (fact: Fact): fact is BallotFact =>
  fact.kind === "tray-opened" ||
  fact.kind === "answer-kept" ||
  fact.kind === "mark-kept" ||
  fact.kind === "remark-kept" ||
  fact.kind === "tray-finished" ||
  fact.kind === "tray-stopped";

function addToBallot(ballots: Map<string, Ballot>, fact: BallotFact, { heads }: Rulings): void {
  const name = `${fact.body.tray} ${fact.device}`;
  const ballot: Ballot = ballots.get(name) ?? {
    tray: fact.body.tray,
    device: fact.device,
    events: [],
    openedAt: null,
    answered: false,
    answeredAt: null,
    answers: new Map(),
    marks: new Map(),
    questions: new Map(),
    complete: false,
    late: false,
    answerEvents: [],
    finished: false,
    stopped: null,
    voided: null,
    arrival: "on-time",
    admission: null,
  };
  ballots.set(name, ballot);
  ballot.events.push(fact.id);
  if (fact.kind === "tray-opened") ballot.openedAt ??= fact.at;
  if (fact.kind === "tray-finished") ballot.finished = true;
  if (fact.kind === "tray-stopped") ballot.stopped ??= fact.body.reason;
  if (isAnswerFact(fact)) addAnswer(ballot, fact, arrivalOf(fact, heads));
}

const isAnswerFact = (fact: BallotFact): fact is FactOf<"answer-kept" | "mark-kept"> => isAnswerKind(fact.kind);

function arrivalOf(fact: Fact, heads: Rulings["heads"]): Arrival {
  if (!within(fact, heads.reveal)) return "after-reveal";
  return within(fact, heads.close) ? "on-time" : "late";
}

function addAnswer(ballot: Ballot, fact: FactOf<"answer-kept" | "mark-kept">, arrival: Arrival): void {
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
  if (ballot.answered) return;
  ballot.answered = true;
  ballot.answeredAt = fact.at;
  ballot.arrival = arrival;
}

function judgeBallot(ballot: Ballot, rulings: Rulings): void {
  const admitted = rulings.admissions.find((a) => a.body.tray === ballot.tray && a.body.device === ballot.device);
  ballot.late = [...ballot.questions.values()].includes("late");
  if (ballot.late && admitted) {
    const letIn = (arrival: Arrival): Arrival => (arrival === "late" ? "admitted" : arrival);
    ballot.arrival = letIn(ballot.arrival);
    for (const [question, arrival] of ballot.questions) ballot.questions.set(question, letIn(arrival));
    for (const mark of ballot.marks.values()) mark.arrival = letIn(mark.arrival);
    ballot.admission = admitted.body.note;
    ballot.late = false;
  }
  const named = rulings.voids.find((v) => v.body.targets.some((target) => ballot.events.includes(target)));
  if (named) ballot.voided = { reason: named.body.reason, note: named.body.note };
}

const inTime = (arrival: Arrival): boolean => arrival === "on-time" || arrival === "admitted";
const timely = (one: Arrival, other: Arrival): number => Number(inTime(one)) - Number(inTime(other));
const counting = ({ questions }: Ballot): number[] =>
  [...questions].flatMap(([question, arrival]) => (inTime(arrival) ? [question] : []));
const isComplete = (ballot: Ballot, packet: BlindPacket, tray: BlindTray): boolean =>
  counting(ballot).length >= questionsOf(packet, tray);

/**
 * Several tablets that answered different questions of one tray, as when one died or was enrolled again half way: one
 * ballot. Null when two of them answered the same question: that is for the lead to settle.
 */
function joined(ballots: Ballot[], packet: BlindPacket | null, tray: BlindTray): Ballot | null {
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
    marks: new Map(ballots.flatMap(({ marks }) => [...marks]).toSorted(([, a], [, b]) => timely(a.arrival, b.arrival))),
    questions: new Map(ballots.flatMap(({ questions }) => [...questions]).toSorted(([, a], [, b]) => timely(a, b))),
    finished: ballots.some(({ finished }) => finished),
    stopped: ballots.find(({ stopped }) => stopped)?.stopped ?? null,
    late: ballots.some(({ late }) => late),
    admission: ballots.find(({ admission }) => admission !== null)?.admission ?? null,
  };
  return { ...all, complete: isComplete(all, packet, tray) };
}

function judgeTray(tray: BlindTray, ballots: Ballot[], rulings: Rulings, packet: BlindPacket | null): TrayState {
  const answered = ballots.filter((b) => b.answered);
  const standing = answered.filter((b) => !b.voided && inTime(b.arrival));
  const devices = standing.map((b) => b.device);
  // a ruling that did not know of one of the ballots is no ruling any more
  const settled =
    rulings.settlements.find(
      (s) =>
        s.body.tray === tray.tray && devices.every((device) => s.body.among.includes(device)) && devices.length > 1,
    ) ?? null;
  const counted =
    standing.length === 1
      ? standing[0]
      : (joined(standing, packet, tray) ?? standing.find((b) => b.device === settled?.body.keep));
  const served = rulings.spares.find((s) => s.body.tray === tray.tray) ?? null;
  return { ...tray, status: statusOf(ballots, standing, counted), ballots, counted: counted ?? null, settled, served };
}

function statusOf(ballots: Ballot[], standing: Ballot[], counted: Ballot | undefined): TrayStatus {
  if (counted?.complete) return "answered";
  // some marks of a line scale are there: they count, and the tray may still be going on
  if (counted) return counted.stopped ? "stopped" : "open";
  if (standing.length > 1) return "contested";
  if (ballots.some((b) => b.voided)) return "voided";
  if (ballots.some((b) => b.stopped)) return "stopped";
  return ballots.length > 0 ? "open" : "waiting";
}
