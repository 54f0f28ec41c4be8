import { checkHolding, checkOut, type OutVerdict } from "../model/safety-check.ts";
import type { SafetyLimit } from "../model/safety-limit.ts";
import type { FactOf } from "./fact.ts";

/**
 * Since when food of a pot may be out of temperature. `by`: what says so, that it left what kept it hot or cold, or the last
 * reading that it was kept so. Time is a control only while no temperature is.
 */
export type OutSince = { since: string; from: "hot" | "cold"; by: "left" | "held" };

type Left = FactOf<"heat-left">;
type Held = FactOf<"holding-read">;
/** A reading of the core that met its limits. */
type Hot = Pick<FactOf<"core-read">, "device" | "seq">;

/** Nobody measures the air or how warm the food got: what is not known meets no condition. */
export function verdictOut(limits: readonly SafetyLimit[], { from }: Pick<OutSince, "from">, minutes: number) {
  return checkOut(limits, { from, minutes, airCelsius: null, warmestFoodCelsius: null }) satisfies OutVerdict;
}

export const minutesBetween = (since: string, now: number): number => (now - Date.parse(since)) / 60_000;

/**
 * Since when a pot may be out of temperature.
 *
 * A holding reading that passes starts the time anew, and so does leaving what it was held in. A second entry of leaving does
 * not: the earlier one gives less time. Neither does anything that was written once the time since it left had run out: what
 * was past its limit stays past, until the same device wrote down that the core was hot enough again, and then that it left
 * the heat. What is kept hot or cold all along and was not read for so long only has to be read again: that it still passes
 * shows that it was kept.
 *
 * Takes    left, held: of the pot in one wave; hot: cores of the pot that met their limits; limits: those that apply
 * Returns  null where nothing that tells it is written
 */
export function outSince(
  left: readonly Left[],
  held: readonly Held[],
  hot: readonly Hot[],
  limits: readonly SafetyLimit[],
): OutSince | null {
  const moments = [
    ...left
      .filter((entry) => !heatedSince(entry, left, hot))
      .map(({ body }): OutSince => ({ since: body.left, from: body.from, by: "left" })),
    // a reading of which nobody said when it was taken tells nothing about time
    ...held
      .filter((entry) => passes(entry, limits) && !heatedSince(entry, left, hot))
      .flatMap(({ body }): OutSince[] => (body.read ? [{ since: body.read, from: body.held, by: "held" }] : [])),
  ].sort((a, b) => Date.parse(a.since) - Date.parse(b.since));
  let out: OutSince | null = null;
  for (const next of moments) {
    const kept = out?.by === "held" && next.by === "held" && out.from === next.from;
    if (out && !kept && isPast(limits, out, next.since)) break;
    if (out === null || next.by === "held" || out.by === "held") out = next;
  }
  return out;
}

const isPast = (limits: readonly SafetyLimit[], out: OutSince, then: string): boolean =>
  verdictOut(limits, out, minutesBetween(out.since, Date.parse(then))).verdict === "past";

const passes = ({ body: { held, celsius } }: Held, limits: readonly SafetyLimit[]): boolean =>
  checkHolding(limits, held, Number(celsius)).verdict === "met";

/** Was a pot hot enough at the core between this entry and a later one of leaving the heat, as one device wrote it down? */
const heatedSince = ({ device, seq }: Left | Held, left: readonly Left[], hot: readonly Hot[]): boolean =>
  left.some(
    (later) =>
      later.device === device &&
      later.body.from === "hot" &&
      hot.some((core) => core.device === device && core.seq > seq && core.seq < later.seq),
  );
