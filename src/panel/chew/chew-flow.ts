import type { BlindPacket } from "../../model/packet.ts";
import type { Remark, Tray } from "../flow.ts";
import type { Compare } from "../line/line-flow.ts";

/** What was chewed: real seconds by the monotonic clock, null where the clock was lost with its page. */
type Chewed = { seconds: number | null; hidden: boolean };

/**
 * Where a portion stands. mouth: the pause before it, then rinsing or drying; wait: after the rinse; bite: its code is
 * touched with the portion in the mouth; chew: the clock runs (`bite` null: it was lost with the page, and only spitting is
 * left); whole: it is in the cup; lid: it is kept, and the cup is closed.
 */
export type Phase =
  | { phase: "mouth"; until: number | null }
  | { phase: "wait"; until: number }
  | { phase: "bite" }
  | { phase: "chew"; bite: number | null; hidden: boolean; now: boolean }
  | ({ phase: "whole"; since: number; whole: boolean | null } & Chewed)
  | { phase: "lid" };

/** One portion of the tray, by its place from 0. */
export type Portion = { at: "portion"; tray: Tray; sample: number } & Phase;
export type PortionIn<P extends Phase["phase"]> = Extract<Portion, { phase: P }>;
export type ChewStep = Compare | Portion;

/** How the portions of a tray are chewed. */
export type Ask = NonNullable<BlindPacket["chew"]> & { pauseMs: number };

export const portion = (tray: Tray, sample: number, phase: Phase): Portion => ({
  at: "portion",
  tray,
  sample,
  ...phase,
});

/** The mouth is as the plan wants it, or is after a wait. */
export function prepared(ask: Ask, { tray, sample }: Portion, now: number): Portion {
  const waits = ask.mouth === "rinsed-and-waited" && ask.waitSeconds > 0;
  return portion(tray, sample, waits ? { phase: "wait", until: now + ask.waitSeconds * 1000 } : { phase: "bite" });
}

/** Everything is in the cup: the seconds are those between the two touches, however late the word came. */
export function spat({ tray, sample, bite, hidden }: PortionIn<"chew">, now: number): PortionIn<"whole"> {
  const seconds = bite === null ? null : (now - bite) / 1000;
  return { at: "portion", tray, sample, phase: "whole", since: now, whole: null, seconds, hidden };
}

/** The cup is closed: the next portion, after a pause; after the last the remark. */
export function closed(ask: Ask, { tray, sample }: Portion, now: number): Portion | Remark {
  if (sample + 1 >= tray.codes.length) return { at: "remark", tray, text: "", kept: false };
  return portion(tray, sample + 1, { phase: "mouth", until: ask.pauseMs > 0 ? now + ask.pauseMs : null });
}

export const pausing = ({ until }: { until: number | null }, now: number): boolean => until !== null && now < until;

/** When something comes by itself, on the monotonic clock; null where the panelist goes on. */
export function dueOf(ask: Ask, step: ChewStep): number | null {
  if (step.at !== "portion") return null;
  if (step.phase === "mouth" || step.phase === "wait") return step.until;
  return step.phase === "chew" && !step.now && step.bite !== null ? step.bite + ask.seconds * 1000 : null;
}

/** What comes by itself: the pause is over, the wait is over, the moment to spit is there. */
export function come(step: Portion): Portion {
  const { tray, sample } = step;
  if (step.phase === "mouth") return portion(tray, sample, { phase: "mouth", until: null });
  if (step.phase === "wait") return portion(tray, sample, { phase: "bite" });
  return step.phase === "chew" ? { ...step, now: true } : step;
}
