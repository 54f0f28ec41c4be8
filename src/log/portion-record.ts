import { leftOutOf, type PortionLeftOut, portionOffBy, portionsLeftOut } from "../model/portion-check.ts";
import type { Departure, KeptPortion } from "../model/record.ts";
import type { WeighedPortion } from "../model/record-portions.ts";
import type { StudyState } from "./fold.ts";
import { foldPortions, type Weighings } from "./portions.ts";

/** The weighings of a study with a locked way of chewing; null for any other. */
export function weighingsOf({ lock, reveal, facts }: StudyState): Weighings | null {
  if (!lock || lock.body.packet.chew === null) return null;
  return foldPortions(facts.values(), lock.body.packet.trays, reveal?.body.heads ?? null);
}

/** Portions of which something was weighed, for the record. */
export const weighedOfRecord = (weighings: Weighings | null): WeighedPortion[] =>
  (weighings?.portions ?? []).flatMap(({ tray, code, cup, portion, after }) => {
    if (cup.length + portion.length + after.length === 0) return [];
    const gramsOf = (readings: readonly { grams: string }[]): string[] => readings.map(({ grams }) => grams);
    const rinse = after.length === 1 ? (after[0]?.rinse ?? "") : "";
    return [{ tray, code, cup: gramsOf(cup), portion: gramsOf(portion), after: gramsOf(after), rinse }];
  });

/** What did not go by the plan between mouth and balance. */
export function departuresOfPortions(
  state: StudyState,
  weighings: Weighings | null,
  chewed: readonly KeptPortion[],
): Departure[] {
  if (!weighings || !state.lock) return [];
  const { serving, chew } = state.lock.body.plan;
  const planned = { grams: serving.portionGrams, toleranceGrams: chew.toleranceGrams, balanceStep: chew.balanceStep };
  const weighed = new Map(weighedOfRecord(weighings).map((each) => [`${each.tray} ${each.code}`, each]));
  const left = new Map<PortionLeftOut, { tray: number; code: string }[]>();
  const off: { tray: number; code: string; grams: number }[] = [];
  for (const { tray, code, whole } of chewed) {
    const readings = weighed.get(`${tray} ${code}`) ?? null;
    const why = leftOutOf(whole, readings, planned);
    if (why) left.set(why, [...(left.get(why) ?? []), { tray, code }]);
    const by = why === null ? portionOffBy(readings?.portion[0] ?? "", planned) : 0;
    if (by) off.push({ tray, code, grams: by });
  }
  const chewedCodes = new Set(chewed.map(({ tray, code }) => `${tray} ${code}`));
  const unknown = [...weighed.values()].filter((each) => each.after.length > 0 && !chewedCodes.has(nameOf(each)));
  return [
    ...portionsLeftOut.flatMap((why) => {
      const portions = left.get(why);
      return portions ? [{ what: "portions-left-out" as const, why, portions }] : [];
    }),
    ...(unknown.length > 0 ? [{ what: "weighed-not-chewed" as const, portions: unknown.map(placeOf) }] : []),
    ...off.map((each) => ({ what: "portion-off-mass" as const, ...each })),
    ...(weighings.voided > 0 ? [{ what: "weighings-taken-back" as const, readings: weighings.voided }] : []),
    ...(weighings.offPlan.length > 0
      ? [{ what: "weighings-off-plan" as const, readings: weighings.offPlan.length }]
      : []),
  ];
}

const placeOf = ({ tray, code }: { tray: number; code: string }) => ({ tray, code });
const nameOf = ({ tray, code }: { tray: number; code: string }): string => `${tray} ${code}`;
