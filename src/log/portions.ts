import type { Heads } from "../model/ballot-event.ts";
import type { Fact } from "../model/event.ts";
import type { portionStages } from "../model/kitchen-event.ts";
import type { BlindTray } from "../model/packet.ts";
import { standing } from "./entries.ts";
import { type FactOf, onceEach, within } from "./fact.ts";

/** What the balance showed of chewed portions, from the log: by tray and code, never by product. */

export type PortionStage = (typeof portionStages)[number];

/** One reading as it was typed, and the entry that holds it. */
export type Reading = {
  entry: string;
  device: string;
  seq: number;
  /** A clock: shown, never compared. */
  at: string;
  grams: string;
  rinse: string;
  balanceStep: string;
  /** Of the closed cup, at least, by its writer's own clock; null: not timed. */
  waitedSeconds: number | null;
  note: string;
};

/** The readings of one stage. More than one: they were entered without knowing of each other, and none counts. */
export type StageReadings = Reading[];

export type WeighedPortion = {
  tray: number;
  wave: number;
  spare: boolean;
  code: string;
  /** Place on the tray, from 1. */
  place: number;
} & Record<PortionStage, StageReadings>;

export type Weighings = {
  /** Every portion of the plan, weighed or not, in the order of trays and places. */
  portions: WeighedPortion[];
  /** Readings of trays and codes that the plan does not have: shown, never used. */
  offPlan: (Reading & { tray: number; code: string })[];
  /** How many entries were taken back. */
  voided: number;
};

/**
 * The weighed portions of a study.
 *
 * Takes    facts: in any order, repeated or not; trays: the locked ones; heads: what the reveal saw; null before it.
 *          What is written after the reveal changes nothing: whoever writes it may have seen the key
 * Returns  the same for the same set of facts, whatever the order
 */
export function foldPortions(facts: Iterable<Fact>, trays: readonly BlindTray[], heads: Heads | null): Weighings {
  const known = [...onceEach(facts).values()]
    .filter((fact) => within(fact, heads))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const entries = known.filter((fact): fact is FactOf<"portion-weighed"> => fact.kind === "portion-weighed");
  const voids = new Set(known.flatMap((fact) => (fact.kind === "entry-voided" ? [fact.body.target] : [])));
  const voided = entries.filter(({ id }) => voids.has(id));
  const byStage = new Map<string, FactOf<"portion-weighed">[]>();
  for (const entry of entries.filter(({ id }) => !voids.has(id))) {
    const name = nameOf(entry.body.tray, entry.body.code, entry.body.stage);
    byStage.set(name, [...(byStage.get(name) ?? []), entry]);
  }
  const standingOf = (tray: number, code: string, stage: PortionStage): StageReadings =>
    standing(byStage.get(nameOf(tray, code, stage)) ?? [], voided).map(readingOf);
  const portions = trays.flatMap(({ tray, wave, spare, codes }) =>
    codes.map((code, at) => ({
      ...{ tray, wave, spare, code, place: at + 1 },
      cup: standingOf(tray, code, "cup"),
      portion: standingOf(tray, code, "portion"),
      after: standingOf(tray, code, "after"),
    })),
  );
  const planned = new Set(portions.map(({ tray, code }) => `${tray} ${code}`));
  return {
    portions,
    offPlan: entries
      .filter(({ id, body }) => !voids.has(id) && !planned.has(`${body.tray} ${body.code}`))
      .map((entry) => ({ ...readingOf(entry), tray: entry.body.tray, code: entry.body.code })),
    voided: voided.length,
  };
}

const nameOf = (tray: number, code: string, stage: PortionStage): string => `${tray} ${code} ${stage}`;

function readingOf({ id, device, seq, at, body }: FactOf<"portion-weighed">): Reading {
  const { grams, rinse, balanceStep, waitedSeconds, note } = body;
  return { entry: id, device, seq, at, grams, rinse, balanceStep, waitedSeconds, note };
}

/** The reading of a stage that counts; null where there is none, or where several contradict each other. */
export const countedOf = (readings: StageReadings): Reading | null =>
  readings.length === 1 ? (readings[0] ?? null) : null;
