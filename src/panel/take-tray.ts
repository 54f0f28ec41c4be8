import type { ComponentChild } from "preact";
import * as z from "zod/mini";
import type { EventStore } from "../device/event-store.ts";
import type { Fact } from "../model/event.ts";
import type { BlindPacket } from "../model/packet.ts";
import { type ProblemData, problem } from "../model/problem.ts";
import { trayNumber } from "../model/schema.ts";
import type * as choiceRoom from "./choice/choice-room.tsx";
import type { Clock } from "./clock.ts";
import { draftName, isStale, openTrayName, readDraft, readOpenTray, savedAtOf } from "./draft.ts";
import * as flow from "./flow.ts";
import type { Release } from "./tray-hold.ts";

export type TakeParts = {
  store: EventStore;
  clock: Clock;
  hold: (study: string, tray: number) => Promise<Release | null>;
  /** Versions of the ballot's wording that this app has words for. */
  wordings: readonly string[];
  /** The ballot of rated samples or of portions, as loaded; throws the Problem when this tablet cannot show its line. */
  lateBallot: (packet: BlindPacket) => Promise<LateParts>;
  /** The screens of a choice, as loaded. */
  choice: (packet: BlindPacket) => Promise<ChoiceParts>;
};

/** The screens of a choice, and the lines before it. */
export type ChoiceParts = typeof choiceRoom;

export type Acts = { problem: ProblemData | null; differ: () => void; stop: () => void };

/** A ballot of steps of its own (a line scale's, or that of chewed portions), the screen of its steps, the lines before it. */
export type LateParts = {
  ballot: {
    end(): void;
    stepAt(tray: flow.Tray, facts: Iterable<Fact>, draft: unknown): flow.LateStep | "answered" | null;
    draftOf(step: flow.LateStep): object;
  };
  Screen(props: Acts & { step: flow.LateStep }): ComponentChild;
  rules: string[];
};

export type Taken = {
  packet: BlindPacket;
  step: flow.Step;
  /** Present for a line scale and for portions. */
  late: LateParts | null;
  /** Present for a choice. */
  choice: ChoiceParts | null;
  /** The first question that is not kept. */
  open: number;
  release: Release;
  /** Milliseconds the question was on screen before. */
  elapsedMs: number;
};

/** The tray that somebody typed, held and at the step where it was left. Throws the Problem when it cannot be opened. */
export async function takeTyped(parts: TakeParts, typed: string): Promise<Taken> {
  const packet = await parts.store.packet();
  if (!packet) throw problem("tray/no-study");
  return take(parts, packet, flow.trayNamed(typed, packet, parts.wordings));
}

/** After a restart: the tray that was open, unless it was left long ago, is finished or is open in another window. */
export async function takeLast(parts: TakeParts): Promise<Taken | null> {
  const { store, clock } = parts;
  const open = readOpenTray(await store.draft(openTrayName));
  const packet = await store.packet();
  const tray = packet?.trays.find((one) => one.tray === open?.tray);
  if (!open || !packet || !tray || packet.study !== open.study) return null;
  const savedAt = savedAtOf(await store.draft(draftName(open.study, open.tray)));
  const limitMs = flow.coverAfter({ at: "rules", tray }, packet.pauseSeconds) ?? 0;
  if (isStale(savedAt ?? open.at, clock.instant(), limitMs)) return null;
  return take(parts, packet, { tray: tray.tray, codes: tray.codes }).catch(() => null);
}

/** Forgets which tray was open, if it is still that one. A name left behind does no harm, so failing is no error. */
export async function forgetLast(store: EventStore, study: string, tray: number): Promise<void> {
  try {
    const open = readOpenTray(await store.draft(openTrayName));
    if (open?.study === study && open.tray === tray) await store.dropDraft(openTrayName);
  } catch {
    // the tray's events say how far it got
  }
}

async function take(parts: TakeParts, packet: BlindPacket, tray: flow.Tray): Promise<Taken> {
  const { store, clock, hold } = parts;
  const { study } = packet;
  const release = await hold(study, tray.tray);
  if (!release) throw problem("tray/open-in-other-tab", { tray: tray.tray });
  let late: LateParts | null = null;
  try {
    // read only now: another window may have finished the tray a moment ago
    const facts = await store.ownFacts({ kind: "study", id: study });
    const progress = flow.progressOf(facts, tray, packet);
    const closed = (await store.meta("closed")) === study;
    const refused = flow.refusal(tray.tray, progress, readTaken(await store.meta("taken")), closed);
    if (refused) throw refused;
    const asks = progress !== "answered" && progress !== "remarked";
    const own = packet.line ?? packet.chew;
    late = asks && own ? await parts.lateBallot(packet) : null;
    const choice = asks && !own ? await parts.choice(packet) : null;
    const left = await store.draft(draftName(study, tray.tray));
    const draft = readDraft(left);
    await store.saveDraft(openTrayName, { study, tray: tray.tray, at: clock.instant() });
    const open = flow.openQuestion(facts, tray);
    const step =
      lateStep(late, progress, tray, facts, left) ??
      flow.openingStep(tray, progress, draft, clock.monotonic(), packet, open);
    const same = draft?.at === "question" && step.at === "question" && draft.question === step.question;
    return { packet, step, late, choice, open, release, elapsedMs: same ? draft.elapsedMs : 0 };
  } catch (thrown) {
    late?.ballot.end();
    release();
    throw thrown;
  }
}

/** Where a tray of steps of its own was left; null for any other, and where nothing of it was begun. */
function lateStep(
  late: LateParts | null,
  progress: flow.Progress,
  tray: flow.Tray,
  facts: Iterable<Fact>,
  draft: unknown,
): flow.Step | null {
  if (!late || (progress !== "cleared" && progress !== "begun")) return null;
  const step = late.ballot.stepAt(tray, facts, draft);
  return step === "answered" ? { at: "remark", tray, text: "", kept: false } : step;
}

function readTaken(value: unknown): number[] {
  const parsed = z.safeParse(z.array(trayNumber), value);
  return parsed.success ? parsed.data : [];
}
