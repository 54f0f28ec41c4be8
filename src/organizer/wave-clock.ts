import type { Block } from "../log/day-blocks.ts";
import type { WaveDay } from "../log/kitchen-day.ts";
import type { OutLimit } from "../model/safety-limit.ts";
import { limitWords } from "../words/en/organizer-limits.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";

/** A start that is so far away is another day's. */
const mostMinutes = 12 * 60;

/**
 * Minutes from now to the planned start of a wave, by this device's clock and time zone; negative once it is past.
 *
 * Takes    starts: as the kitchen wrote it ("11:15", "2:30 pm"); now: an instant
 * Returns  null where that is no time of a clock, or half a day away
 */
export function minutesToStart(starts: string, now: string): number | null {
  const read = /^\s*(\d{1,2})[:.h](\d\d)\s*([ap])?\.?m?\.?\s*$/i.exec(starts);
  if (!read) return null;
  const [, hours = "", past = "", half] = read;
  const hour = half ? (Number(hours) % 12) + (half.toLowerCase() === "p" ? 12 : 0) : Number(hours);
  if (hour > 23 || Number(past) > 59) return null;
  const start = new Date(now);
  start.setHours(hour, Number(past), 0, 0);
  const minutes = (start.getTime() - Date.parse(now)) / 60_000;
  return Math.abs(minutes) < mostMinutes ? minutes : null;
}

/** How long until the planned start, or since, as a phrase; empty where it is not known. */
export function startText(starts: string, now: string): string {
  const minutes = minutesToStart(starts, now);
  if (minutes === null) return "";
  return minutes > 0 ? onDayWords.wave.startsIn(Math.ceil(minutes)) : onDayWords.wave.began(-minutes);
}

/** The window in which the food is at its best, as a sentence; null where the plan has none. */
export function windowText(wave: WaveDay, now: string): string | null {
  const words = onDayWords.wave.best;
  const at = (minutes: number): string => new Date(Date.parse(now) + minutes * 60_000).toISOString();
  switch (wave.window) {
    case "none":
      return null;
    case "unknown":
      return words.unknown;
    case "not-yet":
      return words.before(Math.ceil(wave.opensIn ?? 0));
    case "in":
      return wave.shutsIn === null ? words.always : words.until(at(wave.shutsIn), wave.shutsIn);
    case "past":
      return words.since(at(wave.shutsIn ?? 0));
  }
}

type Waiting = "not-read" | "out-unknown";

/** What only waits for somebody to write it down, each as something to do: no fault, but nothing is served before. */
export function awaited(blocked: readonly Block[]): string[] {
  const pots = (why: Waiting) => blocked.flatMap((block) => (block.why === why ? [block.pot] : []));
  const [cores, left] = [pots("not-read"), pots("out-unknown")];
  const { readCore, writeLeft } = onDayWords.wave;
  return [...(cores.length > 0 ? [readCore(cores)] : []), ...(left.length > 0 ? [writeLeft(left)] : [])];
}

/** Why nothing of a wave may be served: what goes wrong, each a sentence. What is only awaited is none of these. */
export const stops = (blocked: readonly Block[]): string[] =>
  blocked.flatMap((block) => (block.why === "not-read" || block.why === "out-unknown" ? [] : [stopText(block)]));

const out = (limit: OutLimit): string =>
  `${limitWords.text(limit)} (${limitWords.origin(limit.source, limit.checked)})`;

function stopText(block: Exclude<Block, { why: Waiting }>): string {
  const words = onDayWords.block;
  switch (block.why) {
    case "below":
      return words.below(block.pot, block.celsius, limitsText(block.rows));
    case "apart":
      return words.apart(block.pot);
    case "held-past":
      return words.past(block.pot, block.held, block.celsius, onDayWords.degrees(String(block.limit)));
    case "held-without-limit":
      return words.noHolding(block.pot, block.held);
    case "out-past":
      return words.out(block.pot, block.minutes, out(block.limit), block.from, block.by);
    case "out-without-limit":
      return words.outUnknown(block.pot);
    case "halted":
      return words.halted(block.halt);
  }
}

/** Limits of cooking with where they come from: what was not met. */
export const limitsText = (rows: Extract<Block, { why: "below" }>["rows"]): string =>
  rows
    .map((row) => onDayWords.reading.limitAt(limitWords.text(row), limitWords.origin(row.source, row.checked)))
    .join("; ");

/** All in one sentence for whoever wanted to serve; null where nothing stands against it. */
export function whyNotServed(wave: WaveDay | null): string | null {
  if (!wave || wave.blocked.length === 0) return null;
  const words = onDayWords.wave;
  const [first] = stops(wave.blocked);
  return first === undefined ? words.notYet(wave.wave, awaited(wave.blocked)) : `${words.blocked(wave.wave)} ${first}`;
}
