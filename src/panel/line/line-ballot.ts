import type { EventStore } from "../../device/event-store.ts";
import type { Fact } from "../../model/event.ts";
import type { BlindPacket } from "../../model/packet.ts";
import { problem } from "../../model/problem.ts";
import { placeOfStep } from "../../model/steps.ts";
import type { LineMark } from "../../ui/line-mark.ts";
import type { BallotLog } from "../ballot-log.ts";
import { type CardCheck, type Glass, readCardCheck, roomMm, roomPx } from "../card-check.ts";
import type { Clock } from "../clock.ts";
import type { Step, Tray } from "../flow.ts";
import type { SessionParts } from "../session-base.ts";
import { type LineDraft, lineDraftOf, lineStepAt } from "./line-draft.ts";
import * as line from "./line-flow.ts";

/** How long a kept mark stays to be seen. */
const settledMs = 300;

/** What a ballot on the line does through its session. */
export type Hands = {
  parts: Pick<SessionParts, "clock" | "screen" | "glass" | "onHidden">;
  log: BallotLog;
  step(): Step;
  busy(): boolean;
  /** Shows a step and lays it down as a draft. */
  move(step: Step): void;
  /** Shows a step only. */
  show(step: Step): void;
  fail(thrown: unknown): void;
  /** As the session's own: one write at a time; the step that it gives shows once it is on disk. */
  work(job: () => Promise<Step | null>): Promise<void>;
};

/**
 * Can this tablet show the line of the packet at its true length now? Throws the Problem when it cannot; null where
 * nothing is asked on a line.
 */
export async function measured(store: EventStore, packet: BlindPacket, glass: Glass): Promise<CardCheck | null> {
  const lengthMm = packet.line?.lengthMm ?? null;
  if (lengthMm === null) return null;
  const check = await readCardCheck(store);
  if (!check) throw problem("tray/no-card-check", { lengthMm });
  if (check.pixelRatio !== glass.pixelRatio) throw problem("tray/zoomed");
  const room = roomMm(check, glass);
  if (room.now < lengthMm) {
    throw problem("tray/line-too-long", { lengthMm, roomMm: room.now, turnedMm: room.turned });
  }
  return check;
}

/** One tray of rated samples: what each press does, and the chew clock. */
export class LineBallot {
  readonly packet: BlindPacket;
  readonly check: CardCheck | null;
  readonly ask: line.Ask;
  readonly clock: Clock;
  #hands: Hands;
  #cancel = () => {};
  #unwatch: () => void;

  constructor(packet: BlindPacket, check: CardCheck | null, hands: Hands) {
    this.packet = packet;
    this.check = check;
    this.ask = { attributes: packet.line?.attributes ?? [], pauseMs: packet.pauseSeconds * 1000 };
    this.#hands = hands;
    this.clock = hands.parts.clock;
    this.#unwatch = hands.parts.onHidden(() => this.#hidden());
  }

  get lengthPx(): number {
    return (this.packet.line?.lengthMm ?? 0) * (this.check?.pxPerMm ?? 0);
  }

  /** Can the line be shown at its true length as the tablet is held and zoomed now? */
  fit(): "fits" | "turn" | "zoom" {
    const glass = this.#hands.parts.glass();
    if (glass.pixelRatio !== this.check?.pixelRatio) return "zoom";
    return this.lengthPx <= roomPx(glass.widthPx) ? "fits" : "turn";
  }

  /** The tray is put down: nothing of it happens any more. */
  end(): void {
    this.#cancel();
    this.#unwatch();
  }

  /** Where the tray was left; null at the rules. */
  stepAt(tray: Tray, facts: Iterable<Fact>, draft: unknown): line.LineStep | "answered" | null {
    return lineStepAt(this.ask, tray, facts, draft, this.clock.monotonic());
  }

  draftOf(step: line.LineStep): LineDraft {
    return lineDraftOf(step, this.clock.monotonic(), this.clock.instant());
  }

  /** Every code stands on the tray. */
  matches(): void {
    const step = this.#hands.step();
    if (step.at === "compare") this.#hands.move(line.firstSample(this.ask, step.tray));
  }

  /** A code is touched with the first bite. A touch while the pause runs changes nothing. */
  bite(code: string): void {
    const step = this.#hands.step();
    const now = this.clock.monotonic();
    if (step.at !== "take" || this.#hands.busy() || line.pausing(step, now)) return;
    const expected = step.tray.codes[step.sample] ?? "";
    if (code === expected) this.#go(line.bitten(this.ask, step, now));
    else this.#hands.fail(problem("tray/wrong-code", { tapped: code, expected }));
  }

  /** The panelist says that the moment of the question is there. */
  told(): void {
    const step = this.#hands.step();
    if (step.at !== "chew" || this.#hands.busy()) return;
    const asked = line.told(this.ask, step, this.clock.monotonic());
    if (asked) this.#go(asked);
  }

  /** The moment went by unsaid: no answer, with a reason. */
  missed(): void {
    this.told();
    this.cannot();
  }

  mark(mark: LineMark | null): void {
    const step = this.#hands.step();
    if (step.at !== "mark" || step.settled || this.#hands.busy()) return;
    this.#hands.move(line.withAsked(step, { mark, why: null, changed: true }));
  }

  /** A step is chosen, from 1, in place of any other. */
  choose(chosen: number): void {
    const step = this.#hands.step();
    if (step.at !== "mark") return;
    const { form } = this.ask.attributes[step.item] ?? {};
    if (!form || form.kind === "line") return;
    const before = line.askedOf(step).mark;
    const fraction = placeOfStep(chosen, form.labels.length);
    if (before?.fraction === fraction) return;
    const { pointer } = this.#hands.parts.screen();
    this.mark({
      fraction,
      start: before?.start ?? (pointer === "keyboard" ? "key" : "pointer"),
      moves: before ? before.moves + 1 : 0,
      firstMs: before?.firstMs ?? line.elapsedAt(step, this.clock.monotonic()),
      pointer,
    });
  }

  /** "I cannot judge this": asks why. */
  cannot(): void {
    const step = this.#hands.step();
    if (step.at !== "mark" || step.settled) return;
    this.#hands.move({ at: "no-mark", tray: step.tray, back: step, why: line.askedOf(step).why });
  }

  because(why: line.NoMarkReason): void {
    const step = this.#hands.step();
    if (step.at === "no-mark") this.#hands.move({ ...step, why });
  }

  /** To the question before, of the same sample; from the reasons back to the line. */
  back(): void {
    const step = this.#hands.step();
    if (step.at === "no-mark") this.#hands.move(step.back);
    else if (step.at === "mark" && !step.settled)
      this.#hands.move(line.previous(this.ask, step, this.clock.monotonic()));
  }

  /** Keeps the mark, or that there is none and why; the next screen comes once it is on disk. */
  keep(): Promise<void> {
    const step = this.#hands.step();
    if (step.at === "no-mark" && step.why !== null) {
      return this.#keep(line.withAsked(step.back, { mark: null, why: step.why, changed: true }), false);
    }
    if (step.at !== "mark" || step.settled) return Promise.resolve();
    const { mark, why } = line.askedOf(step);
    return mark === null && why === null ? Promise.resolve() : this.#keep(step, mark !== null);
  }

  async #keep(step: line.Marking, lingers: boolean): Promise<void> {
    const { log } = this.#hands;
    await this.#hands.work(async () => {
      const one = line.askedOf(step);
      if (one.kept === 0 || one.changed) await log.marked(this.packet.study, this.#body(step), one.kept + 1);
      const kept = line.withAsked(step, { kept: one.kept + 1, changed: false });
      const shown = this.#hands.step();
      if (lingers && shown.at === "mark") {
        this.#hands.show({ ...kept, hidden: shown.hidden, settled: true });
        await new Promise<void>((done) => this.clock.after(settledMs, done));
      }
      return line.next(this.ask, { ...kept, hidden: this.#wasHidden(step.hidden) }, this.clock.monotonic());
    });
    this.#arm();
  }

  #body(step: line.Marking) {
    const { mark, why, chewedSeconds, hidden } = line.askedOf(step);
    const attribute = this.ask.attributes[step.item];
    const screen = this.#hands.parts.screen();
    return {
      tray: step.tray.tray,
      question: line.questionAt(this.ask, step.sample, step.item),
      code: step.tray.codes[step.sample] ?? "",
      attribute: attribute?.id ?? "",
      mark: mark && { fraction: mark.fraction, start: mark.start, moves: mark.moves, firstMs: mark.firstMs },
      why: mark ? null : why,
      line: attribute?.form.kind === "line" ? this.#lineShown() : null,
      chewedSeconds,
      hidden,
      elapsedMs: line.elapsedAt(step, this.clock.monotonic()),
      screen: { ...screen, pointer: mark?.pointer ?? screen.pointer },
    };
  }

  #lineShown() {
    return { lengthPx: this.lengthPx, lengthMm: this.packet.line?.lengthMm ?? 0 };
  }

  #go(step: line.LineStep): void {
    this.#hands.move(step);
    this.#arm();
  }

  /** While somebody chews: the question comes at its moment, however late the device is to say so. */
  #arm(): void {
    this.#cancel();
    const step = this.#hands.step();
    if (step.at !== "chew" || step.bite === null) return;
    const seconds = line.secondsOf(this.ask.attributes[step.item]);
    if (seconds === null) return;
    const due = step.bite + seconds * 1000;
    this.#cancel = this.clock.after(Math.max(0, due - this.clock.monotonic()), () => {
      const chewing = this.#hands.step();
      const now = this.clock.monotonic();
      if (chewing.at !== "chew") return;
      if (now < due) this.#arm();
      else this.#go(line.appear(this.ask, chewing, chewing.item, now, true));
    });
  }

  #hidden(): void {
    const step = this.#hands.step();
    if (step.at === "chew" || step.at === "mark") this.#hands.show({ ...step, hidden: true });
    if (step.at === "no-mark") this.#hands.show({ ...step, back: { ...step.back, hidden: true } });
  }

  #wasHidden(before: boolean): boolean {
    const step = this.#hands.step();
    if (step.at === "no-mark") return step.back.hidden;
    return step.at === "mark" ? step.hidden : before;
  }
}
