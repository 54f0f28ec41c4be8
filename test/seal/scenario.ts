import { seeded } from "../../src/design/random.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Key } from "../../src/model/key.ts";
import { readyPlan } from "../design/scenario.ts";

/** A key of the ready plan; with a batch name, every batch gets it. The codes are the same for every seed. */
export function keyOf(seed: string, batch?: string): Key {
  const plan = readyPlan();
  const waves = plan.waves.map((wave) => ({
    ...wave,
    batches: Object.fromEntries(Object.entries(wave.batches).map(([id, names]) => [id, batch ? [batch] : names])),
  }));
  const random = { seed, codes: seeded("codes", "test") };
  return makeTrays({ ...plan, waves }, "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee", random).key;
}
