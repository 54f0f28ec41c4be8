import type { AskedAttribute, Moment } from "../../model/attribute.ts";
import type { Body } from "../../model/event.ts";
import { secondsAt } from "../../model/moments.ts";
import type { LineMark } from "../../ui/line-mark.ts";
import type { Remark, Tray } from "../flow.ts";

export type NoMarkReason = NonNullable<Body<"mark-kept">["why"]>;

/** A question of the sample at hand that has been on screen, or is. */
export type Asked = {
  mark: LineMark | null;
  why: NoMarkReason | null;
  /** How many times it was kept; a later keeping replaces an earlier one. */
  kept: number;
  /** Does it say something else than what was kept last? */
  changed: boolean;
  /** Seconds from the first bite to its appearance; null for the first bite itself, and where no clock ran. */
  chewedSeconds: number | null;
  /** Was the page hidden in these seconds? */
  hidden: boolean;
  /** Milliseconds on screen before. */
  elapsedMs: number;
};

/** `asked`: by place among the attributes, which stand in the order of the questions; null: not on screen yet. */
type AtSample = { tray: Tray; sample: number; asked: (Asked | null)[] };
/** When the first bite was taken, on the monotonic clock; null where nobody knows (the page was loaded anew). */
type Clocked = { bite: number | null; hidden: boolean };

export type Compare = { at: "compare"; tray: Tray };
export type Take = AtSample & {
  at: "take";
  /** When the pause before this sample ends, on the monotonic clock; null while none runs. */
  restUntil: number | null;
  /** It was begun before, and its clock is lost: another bite starts it anew. */
  again: boolean;
};
export type Chew = AtSample & Clocked & { at: "chew"; item: number };
export type Marking = AtSample &
  Clocked & {
    at: "mark";
    item: number;
    /** When it came on screen this time, on the monotonic clock. */
    since: number;
    /** It came at its moment, out of the chew: announced as such. */
    now: boolean;
    /** It is on disk, and shows for another moment. */
    settled: boolean;
  };
export type NoMark = { at: "no-mark"; tray: Tray; back: Marking; why: NoMarkReason | null };
export type LineStep = Compare | Take | Chew | Marking | NoMark;

/** What a line-scale tray is asked by. */
export type Ask = { attributes: readonly AskedAttribute[]; pauseMs: number };

/** The question's number in the log: sample after sample, within a sample in the order of the attributes; from 1. */
export const questionAt = ({ attributes }: Ask, sample: number, item: number): number =>
  sample * attributes.length + item + 1;

const nothingAsked = ({ attributes }: Ask): null[] => attributes.map(() => null);
/** Seconds after the first bite; null where the panelist says when it is. */
export const secondsOf = (attribute: AskedAttribute | undefined): number | null =>
  attribute ? secondsAt(attribute.moment) : 0;
/** The end of the chew: what is in the mouth must not be gone by then. */
export const isLast = ({ at }: Moment): boolean => at === "before-swallowing";
export const atFirstBite = (attribute: AskedAttribute | undefined): boolean => secondsOf(attribute) === 0;

/** The first sample, after its codes were compared with the tray. */
export const firstSample = (ask: Ask, tray: Tray): Take => ({
  at: "take",
  tray,
  sample: 0,
  asked: nothingAsked(ask),
  restUntil: null,
  again: false,
});

/** The code of the sample was touched with the first bite: the clock runs, and the first open question follows. */
export function bitten(ask: Ask, step: Take, now: number): LineStep {
  const { tray, sample, asked } = step;
  const open = asked.findIndex((one) => one === null || one.kept === 0);
  return reach(ask, { tray, sample, asked, bite: now, hidden: false }, Math.max(0, open), now);
}

/**
 * A question comes: at once when its moment is there or over; else the chew goes on. Only the panelist knows a moment
 * that goes by chews or by swallowing: the chew goes on until they say so, once for all questions of that moment. Without a
 * clock: another bite.
 */
function reach(ask: Ask, at: AtSample & Clocked, item: number, now: number): LineStep {
  const { tray, sample, asked } = at;
  const already = asked[item] ?? null;
  const seconds = secondsOf(ask.attributes[item]);
  if (already !== null || seconds === 0) return appear(ask, at, item, now, false);
  if (at.bite === null) return { at: "take", tray, sample, asked, restUntil: null, again: true };
  if (seconds === null && asked[item - 1] && sameTold(ask, item)) return appear(ask, at, item, now, false);
  if (seconds === null || now < at.bite + seconds * 1000) return { ...at, at: "chew", item };
  return appear(ask, at, item, now, false);
}

const momentText = (attribute: AskedAttribute | undefined): string => JSON.stringify(attribute?.moment);
/** Is this question about the very moment that the one before it was about? */
const sameTold = ({ attributes }: Ask, item: number): boolean =>
  momentText(attributes[item - 1]) === momentText(attributes[item]);

/** The question is on screen from now on. */
export function appear(ask: Ask, at: AtSample & Clocked, item: number, now: number, prompted: boolean): Marking {
  const { tray, sample, bite } = at;
  const timed = !atFirstBite(ask.attributes[item]) && bite !== null;
  const fresh: Asked = {
    mark: null,
    why: null,
    kept: 0,
    changed: false,
    chewedSeconds: timed ? (now - bite) / 1000 : null,
    hidden: timed && at.hidden,
    elapsedMs: 0,
  };
  const asked = at.asked.map((one, place) => (place === item ? (one ?? fresh) : one));
  return { at: "mark", tray, sample, asked, item, bite, hidden: at.hidden, since: now, now: prompted, settled: false };
}

/** The question of a step. */
export function askedOf({ asked, item }: Marking): Asked {
  const one = asked[item];
  if (!one) throw new Error(`question ${item} is not on screen`);
  return one;
}

/** "Now", said by the panelist: the question that waits for it is there. Nothing where the clock says when. */
export function told(ask: Ask, step: Chew, now: number): Marking | null {
  const { tray, sample, asked, bite, hidden, item } = step;
  if (secondsOf(ask.attributes[item]) !== null) return null;
  return appear(ask, { tray, sample, asked, bite, hidden }, item, now, false);
}

export const withAsked = (step: Marking, change: Partial<Asked>): Marking => ({
  ...step,
  asked: step.asked.map((one, place) => (place === step.item && one ? { ...one, ...change } : one)),
});

/** Milliseconds for which the question has been on screen, in all. */
export const elapsedAt = (step: Marking, now: number): number =>
  Math.max(0, Math.round(askedOf(step).elapsedMs + now - step.since));

/** The step with the time it was on screen added up: before it is left or laid down. */
export const timed = (step: Marking, now: number): Marking => ({
  ...withAsked(step, { elapsedMs: elapsedAt(step, now) }),
  since: now,
});

/** The next question of the sample; after its last the next sample, with a pause before it; after that the remark. */
export function next(ask: Ask, step: Marking, now: number): LineStep | Remark {
  const left = timed(step, now);
  const { tray, sample, asked, bite, hidden, item } = left;
  if (item + 1 < ask.attributes.length) return reach(ask, { tray, sample, asked, bite, hidden }, item + 1, now);
  return sampleAfter(ask, tray, sample, now);
}

function sampleAfter(ask: Ask, tray: Tray, sample: number, now: number): Take | Remark {
  if (sample + 1 >= tray.codes.length) return { at: "remark", tray, text: "", kept: false };
  const restUntil = ask.pauseMs > 0 ? now + ask.pauseMs : null;
  return { ...firstSample(ask, tray), sample: sample + 1, restUntil };
}

/** The question before this one, of the same sample; the first one has none. */
export function previous(ask: Ask, step: Marking, now: number): Marking {
  if (step.item === 0) return step;
  const left = timed(step, now);
  return appear(ask, left, left.item - 1, now, false);
}

export const pausing = (step: Take, now: number): boolean => step.restUntil !== null && now < step.restUntil;
