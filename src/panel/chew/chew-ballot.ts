import type { Fact } from "../../model/event.ts";
import type { BlindPacket } from "../../model/packet.ts";
import type { Clock } from "../clock.ts";
import type { Tray } from "../flow.ts";
import type { Hands } from "../line/line-ballot.ts";
import { type ChewDraft, chewDraftOf, chewStepAt } from "./chew-draft.ts";
import * as chew from "./chew-flow.ts";

/** One tray of portions that are chewed and spat out: what each press does, and the chew clock. */
export class ChewBallot {
  readonly packet: BlindPacket;
  readonly ask: chew.Ask;
  readonly clock: Clock;
  #hands: Hands;
  #cancel = () => {};
  #unwatch: () => void;

  /** Throws an Error for a packet without portions. */
  constructor(packet: BlindPacket, hands: Hands) {
    if (!packet.chew) throw new Error("no portions to chew");
    this.packet = packet;
    this.ask = { ...packet.chew, pauseMs: packet.pauseSeconds * 1000 };
    this.#hands = hands;
    this.clock = hands.parts.clock;
    this.#unwatch = hands.parts.onHidden(() => this.#hidden());
  }

  /** The tray is put down: nothing of it happens any more. */
  end(): void {
    this.#cancel();
    this.#unwatch();
  }

  /** Where the tray was left; null at the rules. What comes by itself is armed once the step shows. */
  stepAt(tray: Tray, facts: Iterable<Fact>, draft: unknown): chew.ChewStep | "answered" | null {
    const step = chewStepAt(this.ask, tray, facts, draft, this.clock.monotonic());
    if (step !== null && step !== "answered") this.#arm(step);
    return step;
  }

  draftOf(step: chew.ChewStep): ChewDraft {
    return chewDraftOf(step, this.clock.monotonic(), this.clock.instant());
  }

  /** Every code stands on the tray. */
  matches(): void {
    const step = this.#hands.step();
    if (step.at === "compare") this.#go(chew.portion(step.tray, 0, { phase: "mouth", until: null }));
  }

  /** The mouth is rinsed, or dried. */
  prepared(): void {
    const step = this.#at("mouth");
    const now = this.clock.monotonic();
    if (step && !chew.pausing(step, now)) this.#go(chew.prepared(this.ask, step, now));
  }

  /** The code is touched with the portion in the mouth: the clock runs. */
  bite(): void {
    const step = this.#at("bite");
    if (!step) return;
    const bite = this.clock.monotonic();
    this.#go(chew.portion(step.tray, step.sample, { phase: "chew", bite, hidden: false, now: false }));
  }

  /** "It is in the cup", at the word or before it. */
  spat(): void {
    const step = this.#at("chew");
    if (step) this.#go(chew.spat(step, this.clock.monotonic()));
  }

  /** All of it is in the cup, or it is not. */
  say(whole: boolean): void {
    const step = this.#at("whole");
    if (step) this.#go({ ...step, whole });
  }

  /** Keeps the portion, which is final then; what to do with the cup shows once it is on disk. */
  keep(): Promise<void> {
    const step = this.#at("whole");
    if (!step || step.whole === null) return Promise.resolve();
    const { tray, sample, seconds: chewedSeconds, hidden, whole, since } = step;
    return this.#hands.work(async () => {
      await this.#hands.log.chewed(this.packet.study, {
        ...{ tray: tray.tray, question: sample + 1, code: tray.codes[sample] ?? "" },
        ...{ chewedSeconds, whole, hidden },
        elapsedMs: Math.max(0, Math.round(this.clock.monotonic() - since)),
        screen: this.#hands.parts.screen(),
      });
      return chew.portion(tray, sample, { phase: "lid" });
    });
  }

  /** The lid is on. */
  closed(): void {
    const step = this.#at("lid");
    if (step) this.#go(chew.closed(this.ask, step, this.clock.monotonic()));
  }

  #at<P extends chew.Phase["phase"]>(phase: P): chew.PortionIn<P> | null {
    const step = this.#hands.step();
    if (this.#hands.busy() || step.at !== "portion" || step.phase !== phase) return null;
    return step as chew.PortionIn<P>;
  }

  #go(step: ReturnType<typeof chew.closed>): void {
    this.#hands.move(step);
    if (step.at === "portion") this.#arm(step);
    else this.#cancel();
  }

  /** What comes by itself comes at its moment, however late the device is to say so. */
  #arm(armed: chew.ChewStep): void {
    this.#cancel();
    const due = chew.dueOf(this.ask, armed);
    if (due === null) return;
    this.#cancel = this.clock.after(Math.max(0, due - this.clock.monotonic()), () => {
      const step = this.#hands.step();
      if (step.at !== "portion" || chew.dueOf(this.ask, step) !== due) return;
      if (this.clock.monotonic() < due) this.#arm(step);
      else this.#go(chew.come(step));
    });
  }

  #hidden(): void {
    const step = this.#hands.step();
    if (step.at === "portion" && step.phase === "chew") this.#hands.show({ ...step, hidden: true });
  }
}
