import { leftOutOf } from "../model/portion-check.ts";
import { problem } from "../model/problem.ts";
import { type StudyRecord, servedKey } from "../model/record.ts";
import type { ServedPortion } from "../model/served-portion.ts";

const letters = "ABCDEFGHIJKL";

/**
 * Every chewed portion of the counted trays: those of the first product of the plan first, each person's in the order in
 * which they were served.
 *
 * Throws   Problem "analysis/tray-not-in-key", "analysis/code-not-on-tray", "analysis/unknown-product" (the key names one
 *          that the plan lacks), "analysis/mark-counted-twice": the record contradicts itself
 */
export function servedPortions(record: StudyRecord): ServedPortion[] {
  const { plan } = record;
  const planned = {
    grams: plan.serving.portionGrams,
    toleranceGrams: plan.chew.toleranceGrams,
    balanceStep: plan.chew.balanceStep,
  };
  const weighed = new Map(record.weighings.map((each) => [`${each.tray} ${each.code}`, each]));
  const trays = new Map(servedKey(record).map((tray) => [tray.tray, tray.samples]));
  const places = new Map(plan.products.map(({ id }, at) => [id, at]));
  const seen = new Set<string>();
  const portions = record.portions.map(({ tray, seat, wave, code, chewedSeconds, whole }) => {
    const samples = trays.get(tray);
    if (!samples) throw problem("analysis/tray-not-in-key", { tray });
    const at = samples.findIndex((sample) => sample.code === code);
    const sample = samples[at];
    if (!sample) throw problem("analysis/code-not-on-tray", { tray, code });
    if (!places.has(sample.product)) throw problem("analysis/unknown-product", { product: sample.product });
    if (seen.has(`${tray} ${code}`)) throw problem("analysis/mark-counted-twice", { tray, code });
    seen.add(`${tray} ${code}`);
    const readings = weighed.get(`${tray} ${code}`) ?? null;
    const one = (list: readonly string[] | undefined): string => (list?.length === 1 ? (list[0] ?? "") : "");
    return {
      ...{ tray, seat, wave, code, place: at + 1, product: sample.product, batch: sample.batch },
      order: samples.map(({ product }) => letters[places.get(product) ?? -1] ?? "?").join(""),
      seconds: chewedSeconds === null ? null : Math.round(chewedSeconds * 1000) / 1000,
      readings: {
        ...{ gramsIn: one(readings?.portion), gramsOut: one(readings?.after) },
        ...{ cup: one(readings?.cup), rinse: readings?.rinse ?? "" },
      },
      leftOut: leftOutOf(whole, readings, planned),
    };
  });
  const placeOf = ({ product }: { product: string }): number => places.get(product) ?? 0;
  const sorted = portions.toSorted(
    (a, b) => placeOf(a) - placeOf(b) || a.seat - b.seat || a.wave - b.wave || a.tray - b.tray || a.place - b.place,
  );
  const counts = new Map<string, number>();
  return sorted.map((portion) => {
    const name = `${portion.seat} ${portion.product}`;
    counts.set(name, (counts.get(name) ?? 0) + 1);
    return { ...portion, repeat: counts.get(name) ?? 1 };
  });
}
