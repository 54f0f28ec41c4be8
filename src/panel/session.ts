import { type BlindPacket, isAnswer, questionsOf } from "../model/packet.ts";
import { problem } from "../model/problem.ts";
import { asProblem } from "./as-problem.ts";
import * as flow from "./flow.ts";
import { atRest, SessionBase } from "./session-base.ts";
import { type LateParts, type TakeParts, takeLast, takeTyped } from "./take-tray.ts";

/** One tray at a time on one tablet: what each press does, in which order things are kept, and what is shown then. */
export class Session extends SessionBase {
  // --- taking a tray

  /** Opens the tray that somebody typed, at the step where it was left. */
  open(typed: string): Promise<void> {
    return this.work(async () => this.took(await takeTyped(this.#takeParts(), typed)));
  }

  /** After a restart: the tray that was open stands there again, unless it was left long ago. */
  resume(): Promise<void> {
    return this.work(async () => {
      const taken = await takeLast(this.#takeParts());
      return taken ? this.took(taken) : null;
    });
  }

  #takeParts(): TakeParts {
    return {
      ...this.parts,
      lateBallot: (packet) => this.#lateBallot(packet),
      choice: (packet) => loaded(this.parts.loadChoice, packet),
    };
  }

  async #lateBallot(packet: BlindPacket): Promise<LateParts> {
    const { loadLine, loadChew, store } = this.parts;
    const room = await loaded<Pick<Awaited<ReturnType<typeof loadLine>>, "openRoom">>(
      packet.line ? loadLine : loadChew,
      packet,
    );
    const hands = {
      parts: this.parts,
      log: this.log,
      step: () => this.state.step,
      busy: () => this.state.busy,
      move: (step: flow.Step) => this.move(step),
      show: (step: flow.Step) => this.set({ step }),
      fail: (thrown: unknown) => this.report(thrown),
      work: (job: () => Promise<flow.Step | null>) => this.work(job),
    };
    return room.openRoom(packet, hands, store);
  }

  /** Somebody begins to mend what went wrong: the sentence has been read. */
  mend(): void {
    if (this.state.problem) this.set({ problem: null });
  }

  /** Something failed where nobody waits for it: said on the screen at hand, which stays as it is. */
  report(thrown: unknown): void {
    this.set({ problem: asProblem(thrown) });
  }

  // --- before the question

  /** "I take part", then "None of these concerns me": both are kept with the second, then the rules show. */
  async clear(): Promise<void> {
    const { step } = this.state;
    if (step.at === "consent") return this.move({ at: "clearance", tray: step.tray });
    return this.workOn("clearance", async ({ study, allergens, consent }, { tray }) => {
      await this.log.opened(study, tray.tray, allergens.version, consent?.version);
      return { at: "rules", tray };
    });
  }

  begin(): void {
    const { step } = this.state;
    if (step.at !== "rules") return;
    const { tray } = step;
    this.move(this.late ? { at: "compare", tray } : { at: "tasting", tray, touched: 0, restUntil: null });
  }

  touch(cup: string): void {
    const { step, packet, busy } = this.state;
    if (step.at !== "tasting" || !packet || busy) return;
    try {
      const next = flow.touchCup(step, cup, this.parts.clock.monotonic(), packet, this.openQuestion);
      if (next !== step) this.move(next);
    } catch (thrown) {
      this.set({ problem: asProblem(thrown) });
    }
  }

  /** The codes on the tray are others. */
  differ(): void {
    const { step } = this.state;
    if (step.at === "tasting" || step.at === "compare" || step.at === "take")
      this.move({ at: "differ", tray: step.tray, back: step });
  }

  // --- the question

  /** An answer, or none any more. `held`: what waits to become one, where a touch alone is none. */
  pick(picked: string | null, held: string | null = null): void {
    const { step, packet } = this.state;
    if (step.at !== "question" || !packet) return;
    const allowed = picked === null || isAnswer(packet, step.tray, picked);
    if (allowed && (held === null || flow.mayWait(packet, step.tray, held))) this.move({ ...step, picked, held });
  }

  guess(guess: boolean): void {
    const { step } = this.state;
    if (step.at === "question") this.move({ ...step, guess });
  }

  cannot(): void {
    const { step } = this.state;
    if (step.at === "question") this.move({ at: "cannot", tray: step.tray, back: step });
  }

  back(): void {
    const { step } = this.state;
    if (step.at === "cannot" || step.at === "differ") this.move(step.back);
  }

  /** Keeps the answer, which is final then; the next question, or the remark, comes once it is on disk. */
  keep(): Promise<void> {
    return this.workOn("question", async (packet, { tray, question, picked: choice, guess }) => {
      if (choice === null) return null;
      const answer = { question, choice, guess, elapsedMs: this.elapsed(), screen: this.parts.screen() };
      await this.log.answered(packet.study, { tray: tray.tray, ...answer });
      if (question < questionsOf(packet, tray)) return flow.freshQuestion(tray, question + 1);
      return { at: "remark", tray, text: "", kept: false };
    });
  }

  // --- after it

  remark(text: string): void {
    const { step } = this.state;
    if (step.at === "remark" && !step.kept) this.move({ ...step, text });
  }

  finish(): Promise<void> {
    return this.workOn("remark", async ({ study }, step) => {
      const text = step.text.trim();
      if (text !== "" && !step.kept) {
        await this.log.remarked(study, step.tray.tray, text);
        // should finishing fail now, the remark shows as kept
        if (this.state.step === step) this.show({ ...step, kept: true });
      }
      await this.log.finished(study, step.tray.tray);
      return { at: "thanks" };
    });
  }

  /** "Stop: something here concerns me", or "I would rather not". No reason is asked for or kept, nor which of the two. */
  notCleared(): Promise<void> {
    return this.workOn(this.state.step.at === "consent" ? "consent" : "clearance", (packet, { tray }) =>
      this.#end(packet, tray, "not-cleared"),
    );
  }

  /** Ends the tray without an answer. */
  endWithoutAnswer(): Promise<void> {
    return this.workOn("cannot", (packet, { tray }) => this.#end(packet, tray, "cannot-answer"));
  }

  async #end({ study }: BlindPacket, tray: flow.Tray, reason: flow.StopReason): Promise<flow.Step> {
    await this.log.stopped(study, tray.tray, reason);
    return { at: "stopped", tray, reason };
  }

  /** Stop now: the calm page shows at once, whatever else is going on; the event is written behind it. */
  async stop(): Promise<void> {
    const { step } = this.state;
    if (!flow.inHand(step)) return;
    this.turn += 1;
    this.set({ busy: false, step: { at: "stopped", tray: step.tray, reason: "stopped" } });
    await this.keepStop();
  }

  /** Writes the stop; again, when it failed before. */
  keepStop(): Promise<void> {
    return this.workOn("stopped", async (packet, { tray, reason }) => {
      await this.#end(packet, tray, reason);
      this.putDown(packet, tray);
      return null;
    });
  }

  /** The tablet turns to the next person, or covers a tray that nobody touches: nothing is deleted by that. */
  async rest(): Promise<void> {
    if (this.state.busy) return;
    this.turn += 1;
    const { turn } = this;
    const { step, packet } = this.state;
    if (step.at === "question" || step.at === "mark") this.saveDraft(); // with the time it was on screen
    this.set({ busy: true }); // nothing may begin now that would end on a covered screen
    await this.saving;
    if (turn !== this.turn) return; // the tray was stopped meanwhile: the calm page stays
    const tray = flow.trayOf(step);
    if (packet && tray) this.putDown(packet, tray);
    this.set(atRest);
  }
}

/** What is loaded by itself for one kind of ballot. Throws Problem "tray/new-wording" when it cannot be had. */
async function loaded<Room>(load: () => Promise<Room>, { wording }: BlindPacket): Promise<Room> {
  return load().catch(() => {
    throw problem("tray/new-wording", { wording });
  });
}
