import type { Body } from "../model/event.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { ProblemData } from "../model/problem.ts";
import { asProblem } from "./as-problem.ts";
import { BallotLog } from "./ballot-log.ts";
import type { Glass } from "./card-check.ts";
import type * as chewRoom from "./chew/chew-room.tsx";
import type * as choiceRoom from "./choice/choice-room.tsx";
import { draftName, draftOf } from "./draft.ts";
import * as flow from "./flow.ts";
import type * as lineRoom from "./line/line-room.tsx";
import { type ChoiceParts, forgetLast, type LateParts, type Taken, type TakeParts } from "./take-tray.ts";
import type { Release } from "./tray-hold.ts";

export type SessionState = {
  step: flow.Step;
  /** The packet under which the tray in hand was opened; a newer one waits until the tablet is at rest. */
  packet: BlindPacket | null;
  /** Something is being written; presses do nothing until it is on disk, or failed. */
  busy: boolean;
  problem: ProblemData | null;
};

export type SessionParts = Omit<TakeParts, "lateBallot" | "choice"> & {
  /** 64 random hex digits. */
  salt: () => string;
  awake: { keep(): void; letGo(): void };
  screen: () => Body<"answer-kept">["screen"];
  glass: () => Glass;
  /** Calls back when the page is hidden; returns the way to stop that. */
  onHidden: (listener: () => void) => () => void;
  /** What only line scales need, what only portions do, and what only choices do; fetched right after the start: no tray waits for it. */
  loadLine: () => Promise<typeof lineRoom>;
  loadChew: () => Promise<typeof chewRoom>;
  loadChoice: () => Promise<typeof choiceRoom>;
  /** Called after something was kept, so that sending starts. */
  onKept: () => void;
};

export const atRest: SessionState = { step: { at: "rest" }, packet: null, busy: false, problem: null };

/**
 * What a session stands on: its state, the one write at a time, drafts, and the tray that is held. A step that follows
 * a kept thing shows only once it is on disk. A failure leaves the screen as it is and says why.
 */
export class SessionBase {
  protected readonly parts: SessionParts;
  protected readonly log: BallotLog;
  /** Counts what overrides a write under way: stopping, covering. Its outcome then moves the screen no more. */
  protected turn = 0;
  /** Drafts on their way to disk. */
  protected saving: Promise<void> = Promise.resolve();
  #state = atRest;
  #listeners = new Set<() => void>();
  #release: Release | null = null;
  #question = { since: 0, before: 0 };
  #late: LateParts | null = null;
  #choice: ChoiceParts | null = null;
  /** The first question of the tray in hand that was not kept when it was opened. */
  protected openQuestion = 1;

  constructor(parts: SessionParts) {
    this.parts = parts;
    this.log = new BallotLog(parts.store, () => parts.clock.instant(), parts.salt);
  }

  get state(): SessionState {
    return this.#state;
  }

  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** The ballot of a line scale, or of portions, and its screen, while such a tray is in hand. */
  get late(): LateParts | null {
    return this.#late;
  }

  /** The screens of a choice, while such a tray is in hand. */
  get choice(): ChoiceParts | null {
    return this.#choice;
  }

  protected took({ packet, step, late, choice, open, release, elapsedMs }: Taken): flow.Step {
    this.#release = release;
    this.#late = late;
    this.#choice = choice;
    this.openQuestion = open;
    this.parts.awake.keep();
    this.#question.before = elapsedMs;
    this.set({ packet });
    return step;
  }

  /** Milliseconds for which the question has been on screen. */
  protected elapsed(): number {
    return Math.max(0, Math.round(this.#question.before + this.parts.clock.monotonic() - this.#question.since));
  }

  /** A press that keeps nothing: shows the step and lays it down as a draft. */
  protected move(step: flow.Step): void {
    if (this.#state.busy) return;
    this.set({ problem: null });
    this.show(step);
    this.saveDraft();
  }

  protected show(step: flow.Step): void {
    const left = this.#state.step;
    const again = left.at === "cannot" ? left.back : left;
    if (step.at === "question" && !(again.at === "question" && again.question === step.question)) {
      this.#question.since = this.parts.clock.monotonic();
      if (left.at === "tasting" || left.at === "question") this.#question.before = 0;
    }
    this.set({ step });
  }

  protected saveDraft(): void {
    const { step, packet } = this.#state;
    const tray = flow.trayOf(step);
    const { clock } = this.parts;
    const draft = draftOf(step, this.elapsed(), clock.instant(), (at) => this.#late?.ballot.draftOf(at));
    if (!packet || !tray || !draft) return;
    const save = () => this.parts.store.saveDraft(draftName(packet.study, tray.tray), draft);
    this.saving = this.saving.then(save).catch((thrown) => this.set({ problem: asProblem(thrown) }));
  }

  /** As `work`, on the tray at the given step; at any other step nothing happens. */
  protected workOn<At extends flow.Step["at"]>(
    at: At,
    job: (packet: BlindPacket, step: Extract<flow.Step, { at: At }>) => Promise<flow.Step | null>,
  ): Promise<void> {
    // as it was when the button was pressed: what is pressed after that must not undo it
    const { step, packet } = this.#state;
    if (!packet || step.at !== at) return Promise.resolve();
    return this.work(() => job(packet, step as Extract<flow.Step, { at: At }>));
  }

  /** One thing at a time: a second press while the first is being written does nothing. */
  protected async work(job: () => Promise<flow.Step | null>): Promise<void> {
    if (this.#state.busy) return;
    const turn = this.turn;
    this.set({ busy: true, problem: null });
    try {
      await this.saving; // a draft must not land after the event that replaces it
      const next = await job();
      this.parts.onKept();
      if (turn === this.turn) this.arrive(next);
    } catch (thrown) {
      if (turn === this.turn) this.set({ busy: false, problem: asProblem(thrown) });
    }
  }

  private arrive(next: flow.Step | null): void {
    const { packet, step: left } = this.#state;
    this.set({ busy: false });
    if (!next) return;
    const tray = flow.trayOf(left);
    if (packet && tray && !flow.inHand(next)) this.putDown(packet, tray);
    this.show(next);
    if (flow.isLateStep(next) || next.at === "question") this.saveDraft();
  }

  protected putDown({ study }: BlindPacket, { tray }: flow.Tray): void {
    this.#release?.();
    this.#release = null;
    this.#late?.ballot.end();
    this.#late = null;
    this.#choice = null;
    this.parts.awake.letGo();
    void forgetLast(this.parts.store, study, tray);
  }

  protected set(change: Partial<SessionState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}
