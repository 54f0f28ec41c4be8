import type { OpenedKey } from "../model/key.ts";
import type { StudyRecord } from "../model/record.ts";
import { departuresOfDay } from "./day-departures.ts";
import { entriesOf, kitchenFactsOf } from "./day-entries.ts";
import { rowsOfDay } from "./day-rows.ts";
import { batchesServed, namesOfPots } from "./day-served.ts";
import type { FactOf } from "./fact.ts";
import type { StudyState } from "./fold.ts";
import { dayOf } from "./kitchen-day.ts";

type OfKitchen = Pick<StudyRecord, "otherBatches" | "temperatures" | "departures"> & {
  /** The wave of the plan with which a tray was served. */
  waveOf: (tray: { tray: number; wave: number }) => number;
};

/** What the record says of the kitchen's day: batches that were really served, readings with their products, departures. */
export function kitchenOfRecord(state: StudyState, lock: FactOf<"study-locked">, { key }: OpenedKey): OfKitchen {
  // nothing that is used here depends on the time of day
  const day = dayOf(state, 0);
  if (!day) return { otherBatches: [], temperatures: [], departures: [], waveOf: ({ wave }) => wave };
  const facts = kitchenFactsOf(state);
  const changes = entriesOf(facts).of("batch-changed");
  const nameOf = namesOfPots(key.pots ?? [], changes);
  const { others, unknown } = batchesServed(key, lock.body.pots ?? [], day.trays, changes);
  return {
    otherBatches: others,
    temperatures: rowsOfDay(day, lock.body.plan, nameOf),
    departures: [...departuresOfDay(day, lock, facts, nameOf), ...unknown],
    waveOf: ({ tray, wave }) => {
      const moved = day.trays.get(tray)?.wave ?? wave;
      return lock.body.plan.waves[moved - 1] ? moved : wave;
    },
  };
}
