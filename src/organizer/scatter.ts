import { analyse } from "../analysis/analyse.ts";
import { linePoints } from "../analysis/steps.ts";
import { recordOfFile } from "../archive/study-file.ts";
import { deviationAtMost } from "../design/scale-size.ts";
import type { EventStore } from "../device/event-store.ts";
import { knownFacts, knownStudies, knownTexts } from "../device/pull.ts";
import { foldStudy } from "../log/fold.ts";
import type { Moment } from "../model/attribute.ts";
import type { AttributeResult } from "../model/result-scale.ts";

/** How the marks of one property scattered in an opened study, and what the true figure may be at most. */
export type EarlierScatter = {
  study: string;
  title: string;
  attribute: string;
  /** When it was judged; null for a scale without moments. */
  moment: Moment | null;
  people: number;
  deviation: number;
  atMost: number;
  /** The part of it by which people differ in how they see the products; null without repeats. */
  seen: number | null;
};

/**
 * The scatter of every property of the opened line-scale studies that this device holds, latest study first.
 *
 * Takes    app: the version, as results name it
 * Returns  studies of which anything is known in outline only, and properties without a test, are left out
 */
export async function earlierScatters(store: EventStore, app: string): Promise<EarlierScatter[]> {
  const studies: { at: string; scatters: EarlierScatter[] }[] = [];
  for (const study of await knownStudies(store)) {
    const stream = { kind: "study" as const, id: study };
    const { lock, reveal, facts } = foldStudy(await knownFacts(store, stream));
    if (!lock || !reveal || lock.body.plan.method !== "line-scale") continue;
    if ([...facts.values()].some(({ outline }) => outline)) continue;
    const { record } = recordOfFile({ study, events: await knownTexts(store, stream), quarantined: 0 }, study);
    const result = analyse(record, app);
    if (result.family !== "scale") continue;
    const { title } = record.plan;
    const scatters = result.attributes.flatMap((judged) => {
      const { attribute, moment, people } = judged;
      const found = scatterOf(judged);
      return found ? [{ study, title, attribute, moment, people, ...found }] : [];
    });
    studies.push({ at: reveal.at, scatters });
  }
  return studies.sort((a, b) => (a.at < b.at ? 1 : -1)).flatMap(({ scatters }) => scatters);
}

/** A plan reckons in hundredths of a scale from end to end: of nine steps, one is 12.5 points. */
const pointsOfUnit = (form: AttributeResult["form"]): number =>
  form.kind === "line" ? 1 : linePoints / (form.labels.length - 1);

/**
 * Residual deviation of one mark in points, and its upper limit. With repeats, how people differ in what they see in the products is
 * part of it: one tray a person has both in one.
 */
export function scatterOf({
  outcome,
  variances,
  blocks,
  form,
}: AttributeResult): Pick<EarlierScatter, "deviation" | "atMost" | "seen"> | null {
  const { residual, panelistProduct } = variances;
  if (outcome !== "ok" || residual === null || blocks === null) return null;
  const deviation = Math.sqrt(residual + (panelistProduct ?? 0)) * pointsOfUnit(form);
  if (!(deviation > 0)) return null;
  const atMost = deviationAtMost(deviation, Math.max(1, Math.floor(blocks.denominatorDf)));
  return { deviation, atMost, seen: panelistProduct === null ? null : Math.sqrt(panelistProduct) * pointsOfUnit(form) };
}
