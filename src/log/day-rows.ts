import type { KitchenRow } from "../model/kitchen-record.ts";
import type { HoldingVerdict } from "../model/safety-check.ts";
import { type CookingLimit, isCooking, type SafetyLimit } from "../model/safety-limit.ts";
import { limitsOf, type PlanOfPots, type PotDay } from "./day-pots.ts";
import type { PotNames } from "./day-served.ts";
import type { KitchenDay, WaveDay } from "./kitchen-day.ts";

type Row = KitchenRow;

/** Before the key is open nobody can say which product a pot is of. */
export const unnamed: PotNames = () => null;

/**
 * The temperatures and times of a day, wave by wave: pots in the order of their labels, what was read of them, then what
 * cups had as they went out and which trays were served. Entries that were taken back are left out.
 *
 * Takes    nameOf: `unnamed` before the reveal
 */
export function rowsOfDay(day: KitchenDay, plan: PlanOfPots, nameOf: PotNames): Row[] {
  const limits = limitsOf(plan);
  return day.waves.flatMap((wave) => [
    ...wave.pots.flatMap((pot) => rowsOfPot(wave.wave, pot, limits, nameOf)),
    ...wave.servings.map(({ body, at }) => ({
      ...blank(wave.wave),
      ...{ tray: body.tray, what: "serving" as const, celsius: body.celsius, time: at, note: body.note },
    })),
    ...servedRows(wave, day),
  ]);
}

const blank = (wave: number): Row => ({
  ...{ wave, product: null, batch: "", pot: "", tray: null, what: "core", celsius: "", heldSeconds: 0, restMinutes: 0 },
  ...{ time: "", verdict: null, limits: [], latest: true, probe: "", note: "" },
});

function rowsOfPot(wave: number, pot: PotDay, limits: readonly SafetyLimit[], nameOf: PotNames): Row[] {
  const named = nameOf(pot.pot);
  const base = { ...blank(wave), pot: pot.pot, product: named?.product ?? null, batch: named?.batch ?? "" };
  const cooking = limits.filter(isCooking).map(limitOf);
  // a batch that serves several waves is read once: its readings stand with the wave that they were taken for
  const cores = pot.cores.filter(({ entry }) => entry.body.wave === wave);
  return [
    ...cores.map(({ entry: { body, at }, latest, verdict, allowed }): Row => {
      const { celsius, heldSeconds, restMinutes, probe, note } = body;
      return {
        ...base,
        ...{ what: "core", celsius, heldSeconds, restMinutes, probe, note, latest, time: at },
        verdict: allowed ? "allowed" : verdict.verdict,
        limits: cooking,
      };
    }),
    ...pot.holdings.map(
      ({ entry: { body, at }, latest, verdict }): Row => ({
        ...base,
        ...{ what: body.held === "hot" ? "held-hot" : "held-cold", celsius: body.celsius, note: body.note, latest },
        ...{ time: body.read ?? at, verdict: verdict.verdict, limits: holdingLimit(limits, body.held, verdict) },
      }),
    ),
    ...pot.leftEntries.map(
      ({ id, body }): Row => ({
        ...base,
        ...{
          what: body.from === "cold" ? "left-cold" : "left",
          time: body.left,
          note: body.note,
          latest: pot.latestLeft.includes(id),
        },
      }),
    ),
  ];
}

const limitOf = ({ celsius, heldSeconds, restMinutes, source }: CookingLimit): Row["limits"][number] => ({
  ...{ celsius, heldSeconds, restMinutes, source },
});

function holdingLimit(limits: readonly SafetyLimit[], held: "hot" | "cold", verdict: HoldingVerdict): Row["limits"] {
  if (verdict.verdict === "no-limit") return [];
  const kind = held === "hot" ? "hot-holding" : "cold-holding";
  const strictest = limits.find((each) => each.kind === kind && "celsius" in each && each.celsius === verdict.celsius);
  return [{ celsius: verdict.celsius, heldSeconds: 0, restMinutes: 0, source: strictest?.source ?? "" }];
}

function servedRows({ wave, trays }: WaveDay, day: KitchenDay): Row[] {
  return trays.flatMap((tray) => {
    const [first] = day.trays.get(tray)?.turns.served.entries ?? [];
    return first ? [{ ...blank(wave), tray, what: "served" as const, time: first.at, note: first.body.note }] : [];
  });
}
