import type { StudyRecord } from "../model/record.ts";
import type { Caveat } from "../model/result.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";

/**
 * What a reader must not take from a result, each caveat from a fact. The numbers below are common practice, no source.
 */

/** Fewer independent cooks of a product than this say little about other days. */
const batchesForOtherDays = 3;
/** A plan with less than this chance of finding what it sought is more likely to miss it than not. */
export const powerToFind = 0.5;

/** Caveats that follow from the statistics alone. `standsFor` is empty when nobody wrote down whom the panel stands for. */
export function caveatsOfChoice(statistics: ChoiceStatistics, standsFor: string): Caveat[] {
  const { outcome, judgments, limit, power } = statistics;
  const list: Caveat[] = [];
  if (outcome === "reached") list.push({ what: "nature-unknown" });
  else if (limit && outcome === "within-limit") {
    list.push({ what: "limit-not-nothing", discriminatorShare: limit.discriminatorShare });
  } else if (outcome !== "withheld" && !limit) list.push({ what: "likeness-not-shown" });
  list.push(...caveatsOfPeople(statistics, standsFor));
  if (judgments > 0) list.push({ what: "guessing-model" });
  if (power && power.power < powerToFind) {
    list.push(
      limit
        ? { what: "plan-could-not-show", discriminatorShare: limit.discriminatorShare, power: power.power }
        : { what: "plan-could-not-find", discriminatorShare: power.discriminatorShare, power: power.power },
    );
  }
  return list;
}

/** Of whom the result speaks. */
function caveatsOfPeople({ people, judgments }: ChoiceStatistics, standsFor: string): Caveat[] {
  if (people === 1) return [{ what: "one-person", judgments }];
  const panel: Caveat = { what: "this-panel-only", standsFor };
  return people < judgments ? [{ what: "repeats-pooled", people, judgments }, panel] : [panel];
}

/** What was served: on which tray, and from which batches. */
export type Served = { tray: number; samples: readonly { product: string; batch: string }[] };

/**
 * Caveats that follow from how the study was planned, cooked and served.
 *
 * Takes    served: the counted trays; belowPlan: what to say when there are fewer answers than planned; orders: how many
 *          counted trays each serving order has
 */
export function caveatsOfStudy(
  record: StudyRecord,
  served: readonly Served[],
  belowPlan: Caveat | null,
  orders: readonly number[],
): Caveat[] {
  const { plan } = record;
  const list: Caveat[] = record.keyMatches ? [] : [{ what: "key-mismatch" }];
  for (const product of served.length > 0 ? plan.products : []) {
    const batches = servedBatches(record, served, product.id).length;
    if (batches < batchesForOtherDays) list.push({ what: "few-batches", product: product.name, batches });
  }
  if (plan.looks === "differ") list.push({ what: "looks-differ" });
  if (plan.serverKnowsKey) list.push({ what: "server-knew" });
  if (belowPlan) list.push(belowPlan);
  const [fewest, most] = [Math.min(...orders), Math.max(...orders)];
  // a difference of one is what a number of people that is no multiple of the orders must leave
  if (most - fewest > 1) list.push({ what: "orders-uneven", fewest, most });
  return list;
}

/** Fewer answers than people planned, of a method that asks for a number of them; null when there are enough. */
export const belowPlan = ({ plan }: StudyRecord, answered: number): Caveat | null =>
  answered < plan.people ? { what: "below-plan", planned: plan.people, answered } : null;

/** Batches of a product that were on counted trays: in the order of the plan, then any that the plan does not name. */
export function servedBatches(record: StudyRecord, served: readonly Served[], product: string): string[] {
  const had = new Set(
    served.flatMap(({ samples }) => samples.filter((sample) => sample.product === product).map(({ batch }) => batch)),
  );
  const planned = record.plan.waves.flatMap((wave) => wave.batches[product] ?? []);
  return [...new Set([...planned.filter((batch) => had.has(batch)), ...[...had].sort()])];
}
