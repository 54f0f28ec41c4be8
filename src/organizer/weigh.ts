import type { StudyState } from "../log/fold.ts";
import { countedOf, foldPortions, type PortionStage, type WeighedPortion } from "../log/portions.ts";
import type { Body } from "../model/event.ts";
import { readingPattern } from "../model/grams.ts";
import { portionStages } from "../model/kitchen-event.ts";
import {
  type PlannedPortion,
  type PortionReadings,
  type PortionRefusal,
  portionRefusalOf,
} from "../model/portion-check.ts";

/** What the weighing page knows and offers: trays, codes and masses, and nothing of products. */

/** A portion with whether its panelist has chewed it, as far as the log tells. */
export type WeighRow = WeighedPortion & { chewed: boolean };
export type Target = { tray: number; code: string; stage: PortionStage };

/** What the locked plan says of weighing, without products. */
export type WeighPlan = {
  planned: PlannedPortion;
  /** Grams of water that are rinsed with into the cup, as a reading; empty: none. */
  rinse: string;
  balanceStep: string;
  /** For how many seconds a closed cup may wait, as planned. */
  within: number;
};

export function weighPlanOf({ lock }: StudyState, rows: readonly WeighRow[]): WeighPlan | null {
  if (!lock || lock.body.packet.chew === null) return null;
  const { chew, serving } = lock.body.plan;
  const { rinseGrams } = lock.body.packet.chew;
  return {
    planned: {
      grams: serving.portionGrams,
      toleranceGrams: chew.toleranceGrams,
      balanceStep: chew.balanceStep,
      otherCup: usualCup(rows),
    },
    rinse: rinseGrams === null ? "" : String(rinseGrams),
    balanceStep: chew.balanceStep,
    within: chew.weighWithinSeconds,
  };
}

/** Every portion of the study in the order of waves, trays and places; spares after the planned ones of their wave. */
export function weighRows(state: StudyState): WeighRow[] {
  const trays = state.lock?.body.packet.trays ?? [];
  const { portions } = foldPortions(state.facts.values(), trays, state.reveal?.body.heads ?? null);
  const chewed = new Set<string>();
  for (const fact of state.facts.values()) {
    // before the reveal only the place is known; the code under it stands in the packet
    if (fact.kind === "portion-chewed") chewed.add(`${fact.body.tray} ${fact.body.question}`);
  }
  return portions
    .map((portion) => ({ ...portion, chewed: chewed.has(`${portion.tray} ${portion.place}`) }))
    .toSorted((a, b) => a.wave - b.wave || Number(a.spare) - Number(b.spare) || a.tray - b.tray || a.place - b.place);
}

/** Of the empty cups that were weighed the one in the middle; null before there are three: one may be wrong itself. */
function usualCup(rows: readonly WeighRow[]): number | null {
  const cups = rows.flatMap(({ cup }) => (cup.length === 1 ? [Number(cup[0]?.grams)] : [])).sort((a, b) => a - b);
  return cups.length < 3 ? null : (cups[Math.floor(cups.length / 2)] ?? null);
}

export const isWhole = (row: WeighRow): boolean => portionStages.every((stage) => countedOf(row[stage]) !== null);

/**
 * What is to be weighed next. Closed cups first, for their panelist has chewed and time runs; then what contradicts; then
 * cups and portions that are still to be served, of the tray at hand before others.
 *
 * Takes    at: what was entered last; null at the beginning
 * Returns  null when nothing waits: what is left comes back when it was chewed
 */
export function nextTarget(rows: readonly WeighRow[], at: Target | null): Target | null {
  const here = (row: WeighRow): boolean => row.tray === at?.tray;
  const nearFirst = rows.toSorted((a, b) => Number(here(b)) - Number(here(a)));
  const find = (stages: readonly PortionStage[], waits: (row: WeighRow, stage: PortionStage) => boolean) => {
    for (const row of nearFirst) {
      const stage = stages.find((each) => waits(row, each));
      if (stage) return { tray: row.tray, code: row.code, stage };
    }
    return null;
  };
  const missing = (row: WeighRow, stage: PortionStage): boolean => row[stage].length === 0;
  return (
    find(["after"], (row, stage) => row.chewed && missing(row, stage)) ??
    find(portionStages, (row, stage) => row[stage].length > 1) ??
    find(["cup", "portion"], (row, stage) => missing(row, stage) && !row.spare) ??
    // a spare is weighed before it is needed, after all that surely is
    find(["cup", "portion"], missing)
  );
}

/** Of one tray what is missing first; where nothing is, its last cup. */
export function targetOfTray(rows: readonly WeighRow[], tray: number): Target | null {
  const own = rows.filter((row) => row.tray === tray);
  for (const row of own) {
    const stage = portionStages.find((each) => row[each].length !== 1);
    if (stage) return { tray, code: row.code, stage };
  }
  const last = own.at(-1);
  return last ? { tray, code: last.code, stage: "after" } : null;
}

/** A mass as it was typed, with a point; null where it is none. */
export function readGrams(typed: string): string | null {
  const text = typed.trim().replace(",", ".");
  return readingPattern.test(text) ? text : null;
}

/** Readings of a portion that count, with one of them as it is about to be; empty: none. */
export function readingsWith(row: WeighRow, stage: PortionStage, grams: string, rinse: string): PortionReadings {
  const of = (each: PortionStage): string => (each === stage ? grams : (countedOf(row[each])?.grams ?? ""));
  return {
    ...{ cup: of("cup"), portion: of("portion"), after: of("after") },
    rinse: stage === "after" ? rinse : (countedOf(row.after)?.rinse ?? ""),
  };
}

/** `waited`: seconds since this device learned that the portion was chewed; null: it did not time it. */
export type Typed = { grams: string; rinse: string; waited: number | null };

/** The body of an entry, or why it cannot be. `after`: whatever stands there now, which its writer saw. */
export function entryOf(
  row: WeighRow,
  stage: PortionStage,
  { grams, rinse, waited }: Typed,
  { planned, balanceStep }: WeighPlan,
  note = "",
): { body: Body<"portion-weighed">; refusal: null } | { body: null; refusal: PortionRefusal } {
  const refusal = portionRefusalOf(readingsWith(row, stage, grams, rinse), planned);
  if (refusal) return { body: null, refusal };
  const body = {
    ...{ tray: row.tray, code: row.code, stage, grams, rinse: stage === "after" ? rinse : "", balanceStep, note },
    waitedSeconds: stage === "after" ? waitOf(row, waited) : null,
    after: row[stage].map(({ entry }) => entry),
  };
  return { body, refusal: null };
}

/** A number that is set right is no cup that was weighed later: the wait of the first reading stays. */
function waitOf({ after }: WeighRow, waited: number | null): number | null {
  if (after.length === 0) return waited === null ? null : Math.floor(waited);
  const known = after.flatMap((reading) => reading.waitedSeconds ?? []);
  return known.length === 0 ? null : Math.min(...known);
}

/** Entries that can be taken back in one go: the last one, or all that came from one file. */
export type LastEntries = { entries: string[]; target: Target; grams: string; note: string };

/** What this device entered last and still counts; null where there is nothing. */
export function lastOwn(rows: readonly WeighRow[], device: string): LastEntries | null {
  const own = rows
    .flatMap((row) =>
      portionStages.flatMap((stage) =>
        row[stage]
          .filter((reading) => reading.device === device)
          .map((reading) => ({ ...reading, target: { tray: row.tray, code: row.code, stage } })),
      ),
    )
    .sort((a, b) => b.seq - a.seq);
  const [last] = own;
  if (!last) return null;
  // what one file brought was written in one run
  const run = own.filter(({ note, seq }, at) => last.note !== "" && note === last.note && seq === last.seq - at);
  const entries = (run.length > 0 ? run : [last]).map(({ entry }) => entry);
  return { entries, target: last.target, grams: last.grams, note: last.note };
}
