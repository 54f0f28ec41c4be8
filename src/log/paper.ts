import { type BlindPacket, type BlindTray, isAnswer, questionsOf } from "../model/packet.ts";
import { agree } from "../model/paper-agree.ts";
import { answeredOnPaper, type PaperTyped } from "../model/paper-event.ts";
import { placeOfStep } from "../model/steps.ts";
import { type Arrival, type Ballot, blankBallot, type KeptAnswer, type KeptMark, type Rulings } from "./ballots.ts";
import { type FactOf, within } from "./fact.ts";

/**
 * A ballot on paper, from the typings of all tablets. It counts once two people typed the same: the first one, and a
 * second who typed it anew.
 */

/**
 * `checked` counts; `once`: one person typed it; `differs`: two did, and not the same; `unknown`: outlines do not say;
 * `after-reveal`: nobody typed it before the key was open.
 */
export type PaperState = "once" | "differs" | "unknown" | "checked" | "after-reveal";

type Typing = FactOf<"paper-typed">;
type Full = Extract<Typing, { outline: false }>;
type Pair = { first: Typing; second: Typing };

/** Is this a ballot that the tray's paper can hold? */
export function fitsPaper(fact: Typing, tray: BlindTray, packet: BlindPacket): boolean {
  const of = questionsOf(packet, tray);
  const questions = fact.outline ? fact.body.questions : [...fact.body.choices, ...fact.body.marks].map(questionOf);
  if (new Set(questions).size < questions.length) return false;
  if (questions.some((question) => question < 1 || question > of)) return false;
  if (fact.outline) return true;
  const { choices, marks } = fact.body;
  if (packet.line ? choices.length > 0 : marks.length > 0) return false;
  return (
    choices.every(({ choice }) => choice === null || isAnswer(packet, tray, choice)) &&
    marks.every((mark) => fitsMark(mark, fact.body, tray, packet))
  );
}

const questionOf = ({ question }: { question: number }): number => question;

function fitsMark(
  { question, code, attribute, mm, step, why }: PaperTyped["marks"][number],
  { lineMm }: PaperTyped,
  { codes }: BlindTray,
  { line }: BlindPacket,
): boolean {
  const attributes = line?.attributes ?? [];
  const asked = attributes[(question - 1) % attributes.length];
  if (!asked || asked.id !== attribute || codes[Math.floor((question - 1) / attributes.length)] !== code) return false;
  if ([mm, step, why].filter((one) => one !== null).length !== 1) return false;
  if (asked.form.kind === "line") return step === null && (mm === null || (lineMm !== null && mm <= lineMm));
  return mm === null && (step === null || step <= asked.form.labels.length);
}

/**
 * The paper ballots of a tray: each entry that was voided, and the one that was not. A void belongs to the typings that it
 * names; what two people type anew is another entry, and both of them have to type it, since a typing alone counts for
 * nothing.
 *
 * Takes    typings: of this tray, each of which fits it; `heads` and `voids` of the rulings
 * Returns  one ballot for each void that names typings, and last what no void names
 */
export function paperBallots(
  typings: readonly Typing[],
  packet: BlindPacket,
  { heads, voids }: Pick<Rulings, "heads" | "voids">,
): Ballot[] {
  const entries = new Map<string, Typing[]>([...voids.map(({ id }) => [id, []] as [string, Typing[]]), ["", []]]);
  for (const typing of typings) {
    const named = voids.find(({ body }) => body.targets.includes(typing.id))?.id ?? "";
    entries.get(named)?.push(typing);
  }
  return [...entries.values()].flatMap((entry) => (entry.length === 0 ? [] : [paperBallot(entry, packet, heads)]));
}

/**
 * One entry of a tray's paper ballot.
 *
 * Takes    typings: of this tray, each of which fits it, at least one; heads: what close and reveal saw
 * Returns  the same for the same typings in every order. What stood in time goes before what came late; then the latest
 *          pair that agrees counts, by the order of ids. What was typed after the reveal is no part of it: whoever
 *          typed it could have seen the key
 */
function paperBallot(typings: readonly Typing[], packet: BlindPacket, heads: Rulings["heads"]): Ballot {
  const all = typings.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  const sorted = all.filter((typing) => within(typing, heads.reveal));
  const { pair, arrival } = pairOf(sorted, heads);
  const [earliest] = sorted.length > 0 ? sorted : all;
  const ballot: Ballot = {
    ...blankBallot(earliest?.body.tray ?? 0, (pair?.first ?? earliest)?.device ?? ""),
    events: all.map(({ id }) => id),
    openedAt: earliest?.at ?? null,
    paper: pair ? "checked" : stateOf(sorted),
    typedAfterReveal: sorted.length < all.length,
  };
  if (!pair) return ballot;
  ballot.finished = true;
  ballot.stopped = stoppedOf(pair.first, packet);
  if (ballot.stopped === "not-cleared") return ballot;
  const questions = pair.first.outline ? pair.first.body.questions : answeredOnPaper(pair.first.body);
  ballot.questions = new Map(questions.map((question) => [question, arrival]));
  ballot.answered = questions.length > 0;
  ballot.answeredAt = pair.second.at;
  ballot.answerEvents = [pair.first.id, pair.second.id];
  ballot.arrival = arrival;
  if (!pair.first.outline) fill(ballot, pair.first, packet, arrival);
  return ballot;
}

/** Of typings that the reveal saw. */
function pairOf(sorted: readonly Typing[], heads: Rulings["heads"]) {
  const sights: [Arrival, (typing: Typing) => boolean][] = [
    ["on-time", (typing) => within(typing, heads.close)],
    ["late", () => true],
  ];
  for (const [arrival, sees] of sights) {
    const pair = latestPair(sorted.filter(sees));
    if (pair) return { pair, arrival };
  }
  return { pair: null, arrival: "on-time" as const };
}

/** Takes typings in the order of their ids. Of one person on one tablet the last typing stands. */
function latestPair(sorted: readonly Typing[]): Pair | null {
  const standing = lastOfEach(sorted);
  const pairs = standing
    .filter(({ body }) => body.typing === 1)
    .flatMap((first) =>
      standing
        .filter((second) => second.body.typing === 2 && sameIn(first, second) === true)
        .map((second): Pair => ({ first, second })),
    );
  const ends = ({ first, second }: Pair): string => [first.id, second.id].sort().reverse().join(" ");
  return pairs.sort((a, b) => (ends(a) < ends(b) ? 1 : -1))[0] ?? null;
}

function lastOfEach(sorted: readonly Typing[]): Typing[] {
  const last = new Map<string, Typing>();
  for (const typing of sorted) {
    const name = `${typing.device} ${typing.body.typing}`;
    const before = last.get(name);
    if (!before || typing.seq > before.seq) last.set(name, typing);
  }
  return [...last.values()];
}

/**
 * Do two typings say the same? By what was typed; where only outlines are known, by what the server said, or the tablet
 * that had both. Null where nobody said.
 */
function sameIn(one: Typing, other: Typing): boolean | null {
  if (!one.outline && !other.outline) return agree(one.body, other.body);
  return saidOf(one, other) ?? saidOf(other, one);
}

function saidOf({ outline, body }: Typing, { id }: Typing): boolean | null {
  const compared = outline ? body.compared.find(({ typing }) => typing === id) : undefined;
  return compared?.agrees ?? (body.against === id ? body.agrees : null);
}

/** Without a pair that agrees. */
function stateOf(sorted: readonly Typing[]): PaperState {
  if (sorted.length === 0) return "after-reveal";
  const standing = lastOfEach(sorted);
  const [first, second] = ([1, 2] as const).map((person) => standing.filter(({ body }) => body.typing === person));
  if (!first?.length || !second?.length) return "once";
  return first.some((one) => second.some((other) => sameIn(one, other) === false)) ? "differs" : "unknown";
}

/** An answer counts only if somebody ticked that nothing concerns them, and agreed where they were asked. */
function stoppedOf(typing: Typing, packet: BlindPacket): Ballot["stopped"] {
  if (typing.outline) return typing.body.stopped;
  const { clearance, consent, stopped } = typing.body;
  const cleared = clearance !== null && (packet.consent === null || consent !== null);
  return cleared ? stopped : "not-cleared";
}

/** The answers as the first person typed them; the second one's are the same. */
function fill(ballot: Ballot, { body, device }: Full, packet: BlindPacket, arrival: Arrival): void {
  const { tray, lineMm, choices, marks } = body;
  ballot.answers = new Map(
    choices.flatMap(({ question, choice, guess }): [number, KeptAnswer][] =>
      choice === null ? [] : [[question, { question, choice, guess, screen: null }]],
    ),
  );
  ballot.marks = new Map(
    marks.map(({ question, code, attribute, mm, step, why }): [number, KeptMark] => {
      const form = packet.line?.attributes.find(({ id }) => id === attribute)?.form;
      const onLine = mm !== null && lineMm !== null ? mm / lineMm : null;
      const onSteps = step !== null && form && form.kind !== "line" ? placeOfStep(step, form.labels.length) : null;
      const fraction = onLine ?? onSteps;
      return [
        question,
        {
          ...{ tray, question, code, attribute, why, device, arrival },
          mark: fraction === null ? null : { fraction },
          line: form?.kind === "line" && lineMm !== null ? { lengthMm: lineMm, lengthPx: null } : null,
          ...{ chewedSeconds: null, hidden: false, elapsedMs: null, screen: null },
        },
      ];
    }),
  );
}
