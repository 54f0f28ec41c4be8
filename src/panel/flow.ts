import { isAnswerKind } from "../model/ballot-event.ts";
import type { Body, Fact } from "../model/event.ts";
import { shapeOf } from "../model/method.ts";
import { type BlindPacket, type BlindTray, isAnswer, questionsOf } from "../model/packet.ts";
import { type Problem, problem } from "../model/problem.ts";
import { readTrayLabel } from "../model/tray.ts";
import type { Portion } from "./chew/chew-flow.ts";
import type { Draft } from "./draft.ts";
import type { Compare, LineStep, Take } from "./line/line-flow.ts";

/** A tray as a panelist has it in hand: its number, and its codes in serving order. */
export type Tray = Pick<BlindTray, "tray" | "codes">;
export type StopReason = Body<"tray-stopped">["reason"];

export type Tasting = {
  at: "tasting";
  tray: Tray;
  /** How many cups were touched, each after tasting its sample. */
  touched: number;
  /** When the pause before the next sample ends, on the monotonic clock; null while none runs. */
  restUntil: number | null;
};
export type Question = {
  at: "question";
  tray: Tray;
  /** Which of the tray's questions it is, from 1. */
  question: number;
  /** One of the answers that the method allows; null until there is one. */
  picked: string | null;
  /** What was touched and is no answer yet: a code without its partner, or the first places of an order. */
  held: string | null;
  guess: boolean;
};
export type Remark = { at: "remark"; tray: Tray; text: string; kept: boolean };

/** Where a tablet stands. Nothing of a person outlives their tray. */
export type Step =
  | { at: "rest" }
  | { at: "consent"; tray: Tray }
  | { at: "clearance"; tray: Tray }
  | { at: "rules"; tray: Tray }
  | Tasting
  | { at: "differ"; tray: Tray; back: Tasting | Compare | Take }
  | Question
  | { at: "cannot"; tray: Tray; back: Question }
  | LateStep
  | Remark
  | { at: "thanks" }
  | { at: "stopped"; tray: Tray; reason: StopReason };

/** The steps of a line scale, and of chewed portions. What they do and show is loaded with the first tray of one. */
export type LateStep = LineStep | Portion;
export const isLateStep = (step: Step): step is LateStep =>
  step.at === "portion" ||
  step.at === "compare" ||
  step.at === "take" ||
  step.at === "chew" ||
  step.at === "mark" ||
  step.at === "no-mark";

/** What is tasted, in this order: the cup with a letter and no code, if there is one, then the codes. */
export const cupsOf = ({ codes }: Tray, { reference }: Pick<BlindPacket, "reference">): string[] =>
  reference ? [reference, ...codes] : codes;

export const freshQuestion = (tray: Tray, question: number): Question => ({
  at: "question",
  tray,
  question,
  picked: null,
  held: null,
  guess: false,
});

/** Can this wait to become an answer? One code; or, of an order, some of the codes, each once. */
export function mayWait({ method }: Pick<BlindPacket, "method">, { codes }: Tray, held: string): boolean {
  if (shapeOf(method).answer !== "order") return codes.includes(held);
  const first = held.split(" ");
  return first.length < codes.length && first.every((code, at) => codes.includes(code) && first.indexOf(code) === at);
}

/** How far a tray got on this tablet, by the events that were kept. */
export type Progress = "fresh" | "cleared" | "begun" | "answered" | "remarked" | "finished" | "stopped";

/**
 * The tray that somebody typed.
 * Throws Problem "tray/no-study", "tray/new-wording", "tray/check-digit" or "tray/unknown"
 */
export function trayNamed(typed: string, packet: BlindPacket | null, wordings: readonly string[]): Tray {
  if (!packet) throw problem("tray/no-study");
  if (!wordings.includes(packet.wording)) throw problem("tray/new-wording", { wording: packet.wording });
  const number = readTrayLabel(typed);
  if (number === null) throw problem("tray/check-digit", { typed });
  const tray = packet.trays.find((one) => one.tray === number);
  if (!tray) throw problem("tray/unknown", { tray: number });
  return { tray: tray.tray, codes: tray.codes };
}

/**
 * How far a tray got. A clearance counts only for the list of allergens it was given for.
 *
 * Takes    facts: this tablet's own events of the study; packet: its list of allergens as it is now, its questions
 */
export function progressOf(facts: Iterable<Fact>, { tray, codes }: Tray, packet: BlindPacket): Progress {
  const seen = new Set<string>();
  const questions = new Set<number>();
  for (const fact of facts) {
    if (!("tray" in fact.body) || fact.body.tray !== tray) continue;
    if (fact.kind === "tray-opened" && fact.body.clearance !== packet.allergens.version) continue;
    if (isAnswerKind(fact.kind) && "question" in fact.body) questions.add(fact.body.question);
    seen.add(fact.kind);
  }
  if (seen.has("tray-finished")) return "finished";
  if (seen.has("tray-stopped")) return "stopped";
  if (seen.has("remark-kept")) return "remarked";
  if (questions.size >= questionsOf(packet, { codes })) return "answered";
  if (questions.size > 0 && seen.has("tray-opened")) return "begun";
  return seen.has("tray-opened") ? "cleared" : "fresh";
}

/** The first question of a tray that is not kept on this tablet, from 1: a kept choice is final. */
export function openQuestion(facts: Iterable<Fact>, { tray }: Tray): number {
  const kept = new Set<number>();
  for (const { kind, body } of facts) if (kind === "answer-kept" && body.tray === tray) kept.add(body.question);
  let open = 1;
  while (kept.has(open)) open += 1;
  return open;
}

/** Why a tray cannot be opened here; null when it can. What this tablet itself knows goes first. */
export function refusal(tray: number, progress: Progress, taken: readonly number[], closed = false): Problem | null {
  if (progress === "finished") return problem("tray/used-here", { tray });
  if (progress === "stopped") return problem("tray/stopped-here", { tray });
  const begun = progress === "begun" || progress === "answered" || progress === "remarked";
  // what was begun may be finished: it counts as late, and the lead can admit it
  if (!begun && closed) return problem("tray/study-closed");
  return !begun && taken.includes(tray) ? problem("tray/used-elsewhere", { tray }) : null;
}

/**
 * The step at which a tray opens: the first one, or the one at which it was left.
 * Takes    now: milliseconds on the monotonic clock; a pause that was cut short begins anew.
 *          open: the first question that is not kept
 */
export function openingStep(
  tray: Tray,
  progress: Progress,
  draft: Draft | null,
  now: number,
  packet: BlindPacket,
  open: number,
): Step {
  if (progress === "answered") {
    return { at: "remark", tray, text: draft?.at === "remark" ? draft.text : "", kept: false };
  }
  if (progress === "remarked") return { at: "remark", tray, text: "", kept: true };
  if (progress !== "cleared" && progress !== "begun") return { at: packet.consent ? "consent" : "clearance", tray };
  if (draft?.at === "question" && draft.question === open) {
    const { question, guess } = draft;
    const picked = draft.picked !== null && isAnswer(packet, tray, draft.picked) ? draft.picked : null;
    const held = draft.held !== null && mayWait(packet, tray, draft.held) ? draft.held : null;
    return { at: "question", tray, question, picked, held, guess };
  }
  if (progress === "begun") return freshQuestion(tray, open);
  if (draft?.at === "tasting" && draft.touched < cupsOf(tray, packet).length) {
    const restUntil = draft.resting ? now + packet.pauseSeconds * 1000 : null;
    return { at: "tasting", tray, touched: draft.touched, restUntil };
  }
  return { at: "rules", tray };
}

/**
 * A cup was touched while tasting: the next sample's turn, or the first open question after the last.
 * A touch while the pause runs changes nothing. Throws Problem "tray/wrong-code" for a cup whose turn it is not.
 */
export function touchCup(
  step: Tasting,
  cup: string,
  now: number,
  packet: Pick<BlindPacket, "pauseSeconds" | "reference">,
  open: number,
): Tasting | Question {
  if (resting(step, now)) return step;
  const cups = cupsOf(step.tray, packet);
  const expected = cups[step.touched] ?? "";
  if (cup !== expected) throw problem("tray/wrong-code", { tapped: cup, expected });
  const touched = step.touched + 1;
  if (touched === cups.length) return freshQuestion(step.tray, open);
  return { ...step, touched, restUntil: packet.pauseSeconds > 0 ? now + packet.pauseSeconds * 1000 : null };
}

export const resting = (step: Pick<Tasting, "restUntil">, now: number): boolean =>
  step.restUntil !== null && now < step.restUntil;

/** Seconds of pause left, in steps of five, so that no second hand hurries anybody. */
export function secondsLeft(restUntil: number, now: number): number {
  return Math.max(0, Math.ceil((restUntil - now) / 5000) * 5);
}

/** The tray number of a step; null where no tray is in hand. */
export const trayOf = (step: Step): Tray | null => ("tray" in step ? step.tray : null);

/** Is a tray in somebody's hands, so that it may be stopped, covered, and must not be disturbed by an update? */
export const inHand = (step: Step): step is Exclude<Step, { at: "rest" | "thanks" | "stopped" }> =>
  step.at !== "rest" && step.at !== "thanks" && step.at !== "stopped";

/** Milliseconds without a touch after which the screen is covered. A pause of the plan is no idleness. */
export function coverAfter(step: Step, pauseSeconds: number): number | null {
  if (step.at === "rest") return null;
  return inHand(step) ? Math.max(5 * 60_000, pauseSeconds * 1000 + 3 * 60_000) : 2 * 60_000;
}

/** Typed characters as a tray label: digits only, at most five, the last one after a dash. */
export function asTyped(text: string): string {
  const digits = text.replace(/\D/g, "").slice(0, 5);
  return digits.length < 2 ? digits : `${digits.slice(0, -1)}-${digits.slice(-1)}`;
}
