import { leftOutOf, type PortionLeftOut, portionOffBy, portionsLeftOut } from "../model/portion-check.ts";
import type { Departure, KeptPortion } from "../model/record.ts";
import type { WeighedPortion } from "../model/record-portions.ts";
import type { StudyState } from "./fold.ts";
import { countedOf, foldPortions, type Weighings } from "./portions.ts";

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
    const one = countedOf(after);
    const of = { cup: gramsOf(cup), portion: gramsOf(portion), after: gramsOf(after) };
    return [{ tray, code, ...of, rinse: one?.rinse ?? "", waitedSeconds: one?.waitedSeconds ?? null }];
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
  const late: (Place & { waited: number })[] = [];
  const off: { tray: number; code: string; grams: number }[] = [];
  for (const { tray, code, whole } of chewed) {
    const readings = weighed.get(`${tray} ${code}`) ?? null;
    const why = leftOutOf(whole, readings, planned);
    if (why) left.set(why, [...(left.get(why) ?? []), { tray, code }]);
    const waited = readings?.waitedSeconds ?? 0;
    if (why === null && waited > chew.weighWithinSeconds) late.push({ tray, code, waited });
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
    ...lateOnes(late, chew.weighWithinSeconds),
    ...(weighings.voided > 0 ? [{ what: "weighings-taken-back" as const, readings: weighings.voided }] : []),
    ...(weighings.offPlan.length > 0
      ? [{ what: "weighings-off-plan" as const, readings: weighings.offPlan.length }]
      : []),
  ];
}

type Place = { tray: number; code: string };

/** Those that count and waited longer than planned, together: how many, and how long the longest did. */
function lateOnes(late: readonly (Place & { waited: number })[], within: number): Departure[] {
  if (late.length === 0) return [];
  const longest = Math.max(...late.map(({ waited }) => waited));
  return [{ what: "portions-weighed-late", within, longest, portions: late.map(placeOf) }];
}

const placeOf = ({ tray, code }: Place) => ({ tray, code });
const nameOf = ({ tray, code }: Place): string => `${tray} ${code}`;
