import type { Body } from "../model/event.ts";
import type { BlindPacket } from "../model/packet.ts";
import type { ProblemData } from "../model/problem.ts";
import { asProblem } from "./as-problem.ts";
import { BallotLog } from "./ballot-log.ts";
import { draftName, draftOf } from "./draft.ts";
import * as flow from "./flow.ts";
import { forgetLast, type Taken, type TakeParts, takeLast, takeTyped } from "./take-tray.ts";
import type { Release } from "./tray-hold.ts";

export type SessionState = {
  step: flow.Step;
  /** The packet under which the tray in hand was opened; a newer one waits until the tablet is at rest. */
  packet: BlindPacket | null;
  /** Something is being written; presses do nothing until it is on disk, or failed. */
  busy: boolean;
  problem: ProblemData | null;
};

export type SessionParts = TakeParts & {
  /** 64 random hex digits. */
  salt: () => string;
  awake: { keep(): void; letGo(): void };
  screen: () => Body<"answer-kept">["screen"];
  /** Called after something was kept, so that sending starts. */
  onKept: () => void;
};

const atRest: SessionState = { step: { at: "rest" }, packet: null, busy: false, problem: null };

/**
 * One tray at a time on one tablet: what a press does, in which order things are kept, and what is shown then.
 * A step that follows a kept thing shows only once it is on disk. A failure leaves the screen as it is and says why.
 */
export class Session {
  #parts: SessionParts;
  #log: BallotLog;
  #state = atRest;
  #listeners = new Set<() => void>();
  #release: Release | null = null;
  #saving: Promise<void> = Promise.resolve();
  /** Counts what overrides a write under way: stopping, covering. Its outcome then moves the screen no more. */
  #turn = 0;
  #question = { since: 0, before: 0 };

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.#log = new BallotLog(parts.store, () => parts.clock.instant(), parts.salt);
  }

  get state(): SessionState {
    return this.#state;
  }

  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  // --- taking a tray

  /** Opens the tray that somebody typed, at the step where it was left. */
  open(typed: string): Promise<void> {
    return this.#work(async () => this.#took(await takeTyped(this.#parts, typed)));
  }

  /** After a restart: the tray that was open stands there again, unless it was left long ago. */
  resume(): Promise<void> {
    return this.#work(async () => {
      const taken = await takeLast(this.#parts);
      return taken ? this.#took(taken) : null;
    });
  }

  /** Somebody begins to mend what went wrong: the sentence has been read. */
  mend(): void {
    if (this.#state.problem) this.#set({ problem: null });
  }

  #took({ packet, step, release, elapsedMs }: Taken): flow.Step {
    this.#release = release;
    this.#parts.awake.keep();
    this.#question.before = elapsedMs;
    this.#set({ packet });
    return step;
  }

  // --- before the question

  /** "None of these concerns me": the clearance is kept, then the rules show. */
  clear(): Promise<void> {
    return this.#workOn("clearance", async ({ study, allergens }, { tray }) => {
      await this.#log.opened(study, tray.tray, allergens.version);
      return { at: "rules", tray };
    });
  }

  begin(): void {
    const { step } = this.#state;
    if (step.at === "rules") this.#move({ at: "tasting", tray: step.tray, touched: 0, restUntil: null });
  }

  touch(code: string): void {
    const { step, packet, busy } = this.#state;
    if (step.at !== "tasting" || !packet || busy) return;
    try {
      const next = flow.touchCode(step, code, this.#parts.clock.monotonic(), packet.pauseSeconds * 1000);
      if (next !== step) this.#move(next);
    } catch (thrown) {
      this.#set({ problem: asProblem(thrown) });
    }
  }

  /** The codes on the tray are others. */
  differ(): void {
    const { step } = this.#state;
    if (step.at === "tasting") this.#move({ at: "differ", tray: step.tray, back: step });
  }

  // --- the question

  pick(code: string): void {
    const { step } = this.#state;
    if (step.at === "question" && step.tray.codes.includes(code)) this.#move({ ...step, picked: code });
  }

  guess(guess: boolean): void {
    const { step } = this.#state;
    if (step.at === "question") this.#move({ ...step, guess });
  }

  cannot(): void {
    const { step } = this.#state;
    if (step.at === "question") this.#move({ at: "cannot", tray: step.tray, back: step });
  }

  back(): void {
    const { step } = this.#state;
    if (step.at === "cannot" || step.at === "differ") this.#move(step.back);
  }

  /** Keeps the answer; the next screen comes once it is on disk. */
  keep(): Promise<void> {
    return this.#workOn("question", async ({ study }, { tray, picked: choice, guess }) => {
      if (choice === null) return null;
      const elapsedMs = this.#elapsed();
      await this.#log.answered(study, tray.tray, { choice, guess, elapsedMs, screen: this.#parts.screen() });
      return { at: "remark", tray, text: "", kept: false };
    });
  }

  // --- after it

  remark(text: string): void {
    const { step } = this.#state;
    if (step.at === "remark" && !step.kept) this.#move({ ...step, text });
  }

  finish(): Promise<void> {
    return this.#workOn("remark", async ({ study }, step) => {
      const text = step.text.trim();
      if (text !== "" && !step.kept) {
        await this.#log.remarked(study, step.tray.tray, text);
        // should finishing fail now, the remark shows as kept
        if (this.#state.step === step) this.#show({ ...step, kept: true });
      }
      await this.#log.finished(study, step.tray.tray);
      return { at: "thanks" };
    });
  }

  /** "Stop: something here concerns me." No reason is asked for or kept. */
  notCleared(): Promise<void> {
    return this.#workOn("clearance", (packet, { tray }) => this.#end(packet, tray, "not-cleared"));
  }

  /** Ends the tray without an answer. */
  endWithoutAnswer(): Promise<void> {
    return this.#workOn("cannot", (packet, { tray }) => this.#end(packet, tray, "cannot-answer"));
  }

  async #end({ study }: BlindPacket, tray: flow.Tray, reason: flow.StopReason): Promise<flow.Step> {
    await this.#log.stopped(study, tray.tray, reason);
    return { at: "stopped", tray, reason };
  }

  /** Stop now: the calm page shows at once, whatever else is going on; the event is written behind it. */
  async stop(): Promise<void> {
    const { step } = this.#state;
    if (!flow.inHand(step)) return;
    this.#turn += 1;
    this.#set({ busy: false, step: { at: "stopped", tray: step.tray, reason: "stopped" } });
    await this.keepStop();
  }

  /** Writes the stop; again, when it failed before. */
  keepStop(): Promise<void> {
    return this.#workOn("stopped", async (packet, { tray, reason }) => {
      await this.#end(packet, tray, reason);
      this.#putDown(packet, tray);
      return null;
    });
  }

  /** The tablet turns to the next person, or covers a tray that nobody touches: nothing is deleted by that. */
  async rest(): Promise<void> {
    if (this.#state.busy) return;
    this.#turn += 1;
    const { step, packet } = this.#state;
    if (step.at === "question") this.#saveDraft(); // with the time it was on screen
    await this.#saving;
    const tray = flow.trayOf(step);
    if (packet && tray) this.#putDown(packet, tray);
    this.#set(atRest);
  }

  // --- inside

  /** Milliseconds for which the question has been on screen. */
  #elapsed(): number {
    return Math.max(0, Math.round(this.#question.before + this.#parts.clock.monotonic() - this.#question.since));
  }

  /** A press that keeps nothing: shows the step and lays it down as a draft. */
  #move(step: flow.Step): void {
    if (this.#state.busy) return;
    this.#set({ problem: null });
    this.#show(step);
    this.#saveDraft();
  }

  #show(step: flow.Step): void {
    const left = this.#state.step.at;
    if (step.at === "question" && left !== "question" && left !== "cannot") {
      this.#question.since = this.#parts.clock.monotonic();
      if (left === "tasting") this.#question.before = 0;
    }
    this.#set({ step });
  }

  #saveDraft(): void {
    const { step, packet } = this.#state;
    const tray = flow.trayOf(step);
    const draft = draftOf(step, this.#elapsed(), this.#parts.clock.instant());
    if (!packet || !tray || !draft) return;
    const save = () => this.#parts.store.saveDraft(draftName(packet.study, tray.tray), draft);
    this.#saving = this.#saving.then(save).catch((thrown) => this.#set({ problem: asProblem(thrown) }));
  }

  /** As `#work`, on the tray at the given step; at any other step nothing happens. */
  #workOn<At extends flow.Step["at"]>(
    at: At,
    job: (packet: BlindPacket, step: Extract<flow.Step, { at: At }>) => Promise<flow.Step | null>,
  ): Promise<void> {
    // as it was when the button was pressed: what is pressed after that must not undo it
    const { step, packet } = this.#state;
    if (!packet || step.at !== at) return Promise.resolve();
    return this.#work(() => job(packet, step as Extract<flow.Step, { at: At }>));
  }

  /** One thing at a time: a second press while the first is being written does nothing. */
  async #work(job: () => Promise<flow.Step | null>): Promise<void> {
    if (this.#state.busy) return;
    const turn = this.#turn;
    this.#set({ busy: true, problem: null });
    try {
      await this.#saving; // a draft must not land after the event that replaces it
      const next = await job();
      this.#parts.onKept();
      if (turn === this.#turn) this.#arrive(next);
    } catch (thrown) {
      if (turn === this.#turn) this.#set({ busy: false, problem: asProblem(thrown) });
    }
  }

  #arrive(next: flow.Step | null): void {
    const { packet, step: left } = this.#state;
    this.#set({ busy: false });
    if (!next) return;
    const tray = flow.trayOf(left);
    if (packet && tray && !flow.inHand(next)) this.#putDown(packet, tray);
    this.#show(next);
  }

  #putDown({ study }: BlindPacket, { tray }: flow.Tray): void {
    this.#release?.();
    this.#release = null;
    this.#parts.awake.letGo();
    void forgetLast(this.#parts.store, study, tray);
  }

  #set(change: Partial<SessionState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}
