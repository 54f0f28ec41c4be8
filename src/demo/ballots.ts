import type { AskedAttribute, Moment } from "../model/attribute.ts";
import { sha256 } from "../model/canonical.ts";
import type { Body } from "../model/event.ts";
import { secondsAt } from "../model/moments.ts";
import type { BlindPacket } from "../model/packet.ts";
import { placeOfStep } from "../model/steps.ts";
import type { Act, By } from "./acts.ts";
import { between, chance, salt } from "./chance.ts";

type Tablet = Exclude<By, "lead">;

/** One person at one tablet: when they sat down, and what they wrote at the end. */
export type Sitting = { tray: number; tablet: Tablet; at: number; remark?: string };

/** One question about one cup, and its answer in points or as a step. */
type Cup = { code: string; question: number; at: number; attribute: AskedAttribute; value: number };

const screens: Record<Tablet, Body<"answer-kept">["screen"]> = {
  0: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
  1: { widthPx: 1280, heightPx: 800, pixelRatio: 1.5, pointer: "touch" },
  2: { widthPx: 1080, heightPx: 810, pixelRatio: 2, pointer: "touch" },
};
/** Pixels of a millimeter on each tablet's screen, as a check with a card found them. */
const pixelsPerMm: Record<Tablet, number> = { 0: 5.197, 1: 5.874, 2: 5.197 };

/** Writes ballots as tablets do. Durations are drawn; `newEventId` names the events. */
export class Ballots {
  readonly #random;
  readonly #newEventId: () => string;
  readonly #packet: BlindPacket;

  constructor(name: string, packet: BlindPacket, newEventId: () => string) {
    this.#random = chance(`ballots ${name}`);
    this.#packet = packet;
    this.#newEventId = newEventId;
  }

  /** One choice, made once every cup was tasted. */
  choice(sitting: Sitting, choice: string, guess = false): Act[] {
    const { tray, tablet, at } = sitting;
    const answered = at + between(this.#random, 3, 4.2);
    const body = {
      tray,
      question: 1,
      choice,
      guess,
      elapsedMs: Math.round(between(this.#random, 7000, 46_000)),
      screen: screens[tablet],
      salt: salt(this.#random),
    };
    return [
      this.#opened(sitting),
      { id: this.#newEventId(), by: tablet, at: answered, kind: "answer-kept", body },
      ...this.#end(sitting, answered),
    ];
  }

  /**
   * The marks of each cup, in serving order; `value` gives a cup's points, 0 to 100, or its step, from 1, for each
   * question about it.
   */
  marks(sitting: Sitting, value: (code: string, attribute: string) => number): Act[] {
    const codes = this.#packet.trays.find(({ tray }) => tray === sitting.tray)?.codes ?? [];
    let at = sitting.at + 0.8;
    const { attributes } = this.#line();
    const kept = codes.flatMap((code, place) => {
      at += between(this.#random, 1.3, 2.1);
      return attributes.map((attribute, asked): Act => {
        // questions of one chew lie a few seconds apart, samples a minute and more
        const cup = { code, question: place * attributes.length + asked + 1, at: at + asked * 0.2 };
        return this.#mark(sitting, { ...cup, attribute, value: value(code, attribute.id) });
      });
    });
    return [this.#opened(sitting), ...kept, ...this.#end(sitting, kept.at(-1)?.at ?? at)];
  }

  /** Portions of a tray, each chewed for a little more or less than the planned seconds and spat out whole. */
  portions(sitting: Sitting): Act[] {
    const { tray, tablet } = sitting;
    const planned = this.#packet.chew?.seconds ?? 0;
    const codes = this.#packet.trays.find((each) => each.tray === tray)?.codes ?? [];
    let at = sitting.at + 0.8;
    const kept = codes.map((code, place): Act => {
      at += between(this.#random, 1.6, 2.2);
      const chewedSeconds = Math.round(between(this.#random, planned - 0.4, planned + 0.9) * 100) / 100;
      const body = {
        ...{ tray, question: place + 1, code, chewedSeconds, whole: true, hidden: false },
        elapsedMs: Math.round(chewedSeconds * 1000 + between(this.#random, 31_000, 44_000)),
        screen: screens[tablet],
        salt: salt(this.#random),
      };
      return { id: this.#newEventId(), by: tablet, at, kind: "portion-chewed", body };
    });
    return [this.#opened(sitting), ...kept, ...this.#end(sitting, at)];
  }

  /** Somebody for whom something on the list of allergens matters: nothing of it is kept but that they stopped. */
  notCleared({ tray, tablet, at }: Sitting): Act {
    return { id: this.#newEventId(), by: tablet, at, kind: "tray-stopped", body: { tray, reason: "not-cleared" } };
  }

  #mark({ tray, tablet }: Sitting, cup: Cup): Act {
    const { form } = cup.attribute;
    const lengthMm = this.#line().lengthMm ?? 0;
    const fraction = form.kind === "line" ? cup.value / 100 : placeOfStep(cup.value, form.labels.length);
    const firstMs = Math.round(between(this.#random, 900, 4200));
    const body: Body<"mark-kept"> = {
      tray,
      question: cup.question,
      code: cup.code,
      attribute: cup.attribute.id,
      mark: { fraction, start: "pointer", moves: this.#random.below(4), firstMs },
      why: null,
      line: form.kind === "line" ? { lengthPx: Math.round(lengthMm * pixelsPerMm[tablet] * 10) / 10, lengthMm } : null,
      chewedSeconds: this.#chewed(cup.attribute.moment),
      hidden: false,
      elapsedMs: firstMs + Math.round(between(this.#random, 700, 5000)),
      screen: screens[tablet],
      salt: salt(this.#random),
    };
    return { id: this.#newEventId(), by: tablet, at: cup.at, kind: "mark-kept", body };
  }

  /** Seconds from the bite to the question: the planned ones and a little, or until somebody was about to swallow. */
  #chewed(moment: Moment): number | null {
    if (moment.at === "first-bite") return null;
    const least = secondsAt(moment) ?? 19;
    return Math.round(between(this.#random, least, least + (secondsAt(moment) === null ? 12 : 0.3)) * 100) / 100;
  }

  #line(): NonNullable<BlindPacket["line"]> {
    if (!this.#packet.line) throw new Error("no line in this study of the demo");
    return this.#packet.line;
  }

  #opened({ tray, tablet, at }: Sitting): Act {
    const { allergens, consent } = this.#packet;
    const body = { tray, clearance: allergens.version, ...(consent ? { consent: consent.version } : {}) };
    return { id: this.#newEventId(), by: tablet, at, kind: "tray-opened", body };
  }

  #end({ tray, tablet, remark }: Sitting, answered: number): Act[] {
    const finished = answered + (remark === undefined ? 0.15 : 0.7);
    const end: Act = { id: this.#newEventId(), by: tablet, at: finished, kind: "tray-finished", body: { tray } };
    if (remark === undefined) return [end];
    const attachment = { salt: salt(this.#random), text: remark };
    const body = { tray, remark: sha256(`${attachment.salt}\n${remark}`) };
    const at = finished - 0.05;
    return [{ id: this.#newEventId(), by: tablet, at, kind: "remark-kept", body, attachment }, end];
  }
}
