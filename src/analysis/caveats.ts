import type { StudyRecord } from "../model/record.ts";
import type { Caveat, ChoiceStatistics } from "../model/result.ts";
import type { Marked } from "./marking.ts";

/**
 * What a reader must not take from a result, each caveat from a fact. The numbers below are common practice, no source.
 */

/** Fewer independent cooks of a product than this say little about other days. */
const batchesForOtherDays = 3;
/** A plan with less than this chance of finding what it sought is more likely to miss it than not. */
const powerToFind = 0.5;

/** Caveats that follow from the statistics alone. `standsFor` is empty when nobody wrote down whom the panel stands for. */
export function caveatsOfStatistics(statistics: ChoiceStatistics, standsFor: string): Caveat[] {
  const list: Caveat[] = [];
  if (statistics.outcome === "reached") list.push({ what: "nature-unknown" });
  else if (statistics.outcome !== "withheld") list.push({ what: "likeness-not-shown" });
  list.push(...caveatsOfPeople(statistics, standsFor));
  if (statistics.judgments > 0) list.push({ what: "guessing-model" });
  const { power } = statistics;
  if (power && power.power < powerToFind) {
    list.push({ what: "plan-could-not-find", discriminatorShare: power.discriminatorShare, power: power.power });
  }
  return list;
}

/** Of whom the result speaks. */
function caveatsOfPeople({ people, judgments }: ChoiceStatistics, standsFor: string): Caveat[] {
  if (people === 1) return [{ what: "one-person", judgments }];
  const panel: Caveat = { what: "this-panel-only", standsFor };
  return people < judgments ? [{ what: "repeats-pooled", people, judgments }, panel] : [panel];
}

/** Caveats that follow from how the study was planned, cooked and served. */
export function caveatsOfStudy(record: StudyRecord, marked: readonly Marked[], orders: readonly number[]): Caveat[] {
  const { plan } = record;
  const list: Caveat[] = record.keyMatches ? [] : [{ what: "key-mismatch" }];
  for (const product of marked.length > 0 ? plan.products : []) {
    const batches = servedBatches(record, marked, product.id).length;
    if (batches < batchesForOtherDays) list.push({ what: "few-batches", product: product.name, batches });
  }
  if (plan.looks === "differ") list.push({ what: "looks-differ" });
  if (plan.serverKnowsKey) list.push({ what: "server-knew" });
  if (marked.length < plan.people) list.push({ what: "below-plan", planned: plan.people, answered: marked.length });
  const [fewest, most] = [Math.min(...orders), Math.max(...orders)];
  // a difference of one is what a number of people that is no multiple of the orders must leave
  if (most - fewest > 1) list.push({ what: "orders-uneven", fewest, most });
  return list;
}

/** Batches of a product that were on counted trays: in the order of the plan, then any that the plan does not name. */
export function servedBatches(record: StudyRecord, marked: readonly Marked[], product: string): string[] {
  const served = new Set(
    marked.flatMap(({ samples }) => samples.filter((sample) => sample.product === product).map(({ batch }) => batch)),
  );
  const planned = record.plan.waves.flatMap((wave) => wave.batches[product] ?? []);
  return [...new Set([...planned.filter((batch) => served.has(batch)), ...[...served].sort()])];
}
