import { gramsOf, lastDigit } from "./grams.ts";

/** Readings of one portion in grams, as typed; empty: not taken yet. `rinse`: water that came back in the cup. */
export type PortionReadings = { cup: string; portion: string; after: string; rinse: string };

/**
 * What was planned of a portion. `grams` null: no mass was planned. `otherCup`: what another empty cup of the study weighs,
 * where that is asked.
 */
export type PlannedPortion = {
  grams: number | null;
  toleranceGrams: number;
  /** Step of the balance in grams; empty or left out: the last digit of each reading stands for it. */
  balanceStep?: string;
  otherCup?: number | null;
};

/** What readings of a portion cannot be. */
export type PortionRefusal =
  | { what: "no-portion" }
  /** Of an empty cup, which is weighed again without the tare that hides it now. */
  | { what: "no-cup" }
  /** Kilograms or milligrams where grams belong. */
  | { what: "thousandfold"; grams: number; beside: number }
  /** Cup and rinse water weigh more than the closed cup afterwards. */
  | { what: "cup-above-after"; after: number; cup: string; rinse: string }
  /** Many times the portion came back. */
  | { what: "too-much"; portion: number; back: number };

/** The step of the balance behind a reading. */
export const stepOf = (reading: string, balanceStep: string): number =>
  balanceStep === "" ? lastDigit(reading) : gramsOf([balanceStep]);

/**
 * What came back in a closed cup is below nothing only beyond this: each reading is rounded by half a step, and a portion
 * may be gone. The hair more is for a step that no double holds. One rule for the weighing page, a study's record and the
 * terminal.
 */
export const isBelowNothing = (back: number, readings: readonly string[], balanceStep: string): boolean =>
  back < -readings.reduce((all, each) => all + (each === "" ? 0 : stepOf(each, balanceStep) / 2), 0) * (1 + 1e-9);

/** A factor of a thousand is a unit; three hundred is no portion cut too large. */
const unitFactor = 300;
/** More than six times a portion is no saliva of seconds (common practice, no source). */
export const mostTimes = 6;

/**
 * What of a portion's readings cannot be; null where all can. It is asked before a reading is kept.
 */
export function portionRefusalOf(
  { cup, portion, after, rinse }: PortionReadings,
  planned: PlannedPortion,
): PortionRefusal | null {
  const own = portion === "" ? null : gramsOf([portion]);
  if (own !== null && own <= 0) return { what: "no-portion" };
  if (own !== null && planned.grams !== null && apart(own, planned.grams))
    return { what: "thousandfold", grams: own, beside: planned.grams };
  const empty = cup === "" ? 0 : gramsOf([cup]);
  if (cup !== "" && empty <= 0) return { what: "no-cup" };
  const other = planned.otherCup ?? 0;
  if (empty > 0 && other > 0 && apart(empty, other)) return { what: "thousandfold", grams: empty, beside: other };
  if (cup === "" || after === "") return null;
  const back = gramsOf([after], [cup, rinse]);
  const closed = gramsOf([after]);
  if (empty > 0 && closed > 0 && apart(closed, empty)) return { what: "thousandfold", grams: closed, beside: empty };
  if (isBelowNothing(back, [after, cup, rinse], planned.balanceStep ?? ""))
    return { what: "cup-above-after", after: closed, cup, rinse };
  const portionGrams = own ?? planned.grams;
  return portionGrams !== null && back > portionGrams * mostTimes
    ? { what: "too-much", portion: portionGrams, back }
    : null;
}

const apart = (one: number, other: number): boolean => one >= other * unitFactor || other >= one * unitFactor;

/**
 * By how many grams a portion lies outside of what was planned; 0 within, null where no mass was planned. It is said and
 * stands in the report; the portion counts.
 */
export function portionOffBy(portion: string, { grams, toleranceGrams }: PlannedPortion): number | null {
  if (grams === null || portion === "") return null;
  const off = gramsOf([portion]) - grams;
  // a double that lies a hair outside is no portion outside
  return Math.abs(off) > toleranceGrams * (1 + 1e-9) ? off : 0;
}

/**
 * What the balance showed of one portion: readings that stand, as typed. None: not weighed; several of one stage contradict
 * each other, and nobody ruled.
 */
export type StandingReadings = { cup: readonly string[]; portion: readonly string[]; after: readonly string[] };

/**
 * Why a chewed portion does not count. swallowed: not all of it was spat out; not-weighed: a reading is missing;
 * contradicted: two readings of one stage stand; impossible: readings that cannot be.
 */
export const portionsLeftOut = ["swallowed", "not-weighed", "contradicted", "impossible"] as const;
export type PortionLeftOut = (typeof portionsLeftOut)[number];

/** Why a chewed portion does not count; null where it does. `readings` null: nothing of it was weighed. */
export function leftOutOf(
  whole: boolean,
  readings: (StandingReadings & { rinse: string }) | null,
  planned: PlannedPortion,
): PortionLeftOut | null {
  if (!whole) return "swallowed";
  if (!readings) return "not-weighed";
  const stages = [readings.cup, readings.portion, readings.after];
  if (stages.some(({ length }) => length > 1)) return "contradicted";
  if (stages.some(({ length }) => length === 0)) return "not-weighed";
  const [[cup = ""] = [], [portion = ""] = [], [after = ""] = []] = stages;
  return portionRefusalOf({ cup, portion, after, rinse: readings.rinse }, planned) ? "impossible" : null;
}
