import { type Method, plannable, shapeOf } from "../model/method.ts";
import type { StudyRecord } from "../model/record.ts";
import type { Caveat, ChoiceResult } from "../model/result.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import type { KindsStatistics } from "../model/result-kinds.ts";
import type { PairStatistics } from "../model/result-pair.ts";
import type { RankStatistics } from "../model/result-rank.ts";

/**
 * What a reader must not take from a result, each caveat from a fact. The numbers below are common practice, no source.
 */

/** Fewer independent cooks of a product than this say little about other days. */
const batchesForOtherDays = 3;
/** A plan with less than this chance of finding what it sought is more likely to miss it than not. */
export const powerToFind = 0.5;

/** From this p on sessions count as different, and this share of "no preference" is frequent (both common practice, no source). */
const sessionsDifferAt = 0.05;
const frequentNone = 0.2;

/** Caveats that follow from the statistics alone. `standsFor` is empty when nobody wrote down whom the panel stands for. */
export function caveatsOfChoice(statistics: ChoiceStatistics, standsFor: string): Caveat[] {
  const { outcome, judgments, limit, power, property, stopping } = statistics;
  const list: Caveat[] = [];
  // a question about a property says what differs, and nothing of anything else
  if (outcome === "reached" && !namesProperty(statistics.method)) list.push({ what: "nature-unknown" });
  else if (limit && outcome === "within-limit") {
    list.push({ what: "limit-not-nothing", discriminatorShare: limit.discriminatorShare });
  } else if (outcome !== "withheld" && outcome !== "reached" && !limit) list.push({ what: "likeness-not-shown" });
  if (property) list.push({ what: "one-property", property: property.name });
  list.push(...caveatsOfPeople(statistics, standsFor, limit ? "likeness-by-spread" : "repeats-pooled"));
  if (judgments > 0) list.push({ what: "guessing-model" });
  if (power && power.power < powerToFind) {
    list.push(
      limit
        ? { what: "plan-could-not-show", discriminatorShare: limit.discriminatorShare, power: power.power }
        : { what: "plan-could-not-find", discriminatorShare: power.discriminatorShare, power: power.power },
    );
  }
  if (stopping?.early) list.push({ what: "stopped-early", judgments, planned: stopping.planned });
  if (stopping && stopping.after > 0) list.push({ what: "after-the-stop", answers: stopping.after });
  return list;
}

const namesProperty = (method: Method): boolean => plannable.some((name) => name === method && shapeOf(name).property);

/** Caveats of a pair that follow from its statistics alone. */
export function caveatsOfPair(statistics: PairStatistics, standsFor: string): Caveat[] {
  const { method, outcome, property, noPreference, counts, power } = statistics;
  const list: Caveat[] = [];
  if (method === "paired-preference" && outcome !== "withheld") list.push({ what: "preference-not-size" });
  if (method === "paired-difference" && outcome !== "withheld" && outcome !== "reached") {
    list.push({ what: "likeness-not-shown" });
  }
  if (property) list.push({ what: "one-property", property: property.name });
  const { first, second, none } = counts;
  const judgments = first + second + none;
  list.push(...caveatsOfPeople({ people: statistics.people, judgments }, standsFor, "people-compared"));
  if (noPreference === "split" && none > 0) list.push({ what: "none-split", none, leftOut: none % 2 });
  if (noPreference !== "split" && none > 0 && none >= frequentNone * judgments) {
    list.push({ what: "none-frequent", none, of: judgments });
  }
  if (power && power.power < powerToFind) {
    const { share, power: chance } = power;
    list.push(
      method === "paired-preference"
        ? { what: "preference-plan-could-not-find", share, power: chance }
        : { what: "plan-could-not-find", discriminatorShare: 2 * share - 1, power: chance },
    );
  }
  return list;
}

/** Caveats of same-different and A-not-A that follow from their statistics alone. */
export function caveatsOfKinds(statistics: KindsStatistics, standsFor: string): Caveat[] {
  const { outcome, judgments, power } = statistics;
  const list: Caveat[] = [];
  if (outcome === "reached") list.push({ what: "nature-unknown" });
  else if (outcome !== "withheld") list.push({ what: "likeness-not-shown" });
  list.push(...caveatsOfPeople(statistics, standsFor, "people-compared"));
  if (judgments > 0) list.push({ what: "leaning-model" });
  if (power && power.power < powerToFind) {
    list.push({ what: "kinds-plan-could-not-find", dPrime: power.dPrime, power: power.power });
  }
  return list;
}

/** Caveats of a ranking that follow from its statistics alone. `liking`: it is in order of liking. */
export function caveatsOfRank(statistics: RankStatistics, standsFor: string, liking = false): Caveat[] {
  const { outcome, test, people, judgments, property, sharing, incomplete, pairs, products } = statistics;
  const list: Caveat[] = [];
  if (outcome === "not-reached") {
    const difference = Math.max(0, ...pairs.flatMap(({ low, high }) => [Math.abs(low), Math.abs(high)]));
    list.push({ what: "widest-rank-difference", difference, most: people * (products.length - 1) });
  }
  if (outcome === "reached" && statistics.page) list.push({ what: "order-as-a-whole" });
  if (test === "ok") list.push({ what: "ranks-no-distance" });
  if (property.trim() !== "" && !liking) list.push({ what: "one-property", property });
  if (people === 1) list.push({ what: "one-person", judgments });
  else list.push({ what: "this-panel-only", standsFor });
  if (incomplete.length > 0) {
    list.push({ what: "rankings-incomplete", panelists: incomplete.map(({ panelist }) => panelist) });
  }
  if (sharing > 0) list.push({ what: "places-shared", people: sharing });
  return list;
}

/** Of whom the result speaks; `several`: what it did with several answers a person. */
function caveatsOfPeople(
  { people, judgments }: { people: number; judgments: number },
  standsFor: string,
  several: "repeats-pooled" | "likeness-by-spread" | "people-compared",
): Caveat[] {
  if (people === 1) return [{ what: "one-person", judgments }];
  const panel: Caveat = { what: "this-panel-only", standsFor };
  return people < judgments ? [{ what: several, people, judgments }, panel] : [panel];
}

/** Caveats of what stands beside the first question's test. */
export function caveatsOfResult({ sessions, questions }: Pick<ChoiceResult, "sessions" | "questions">): Caveat[] {
  const list: Caveat[] = [];
  if (sessions && sessions.pValue <= sessionsDifferAt) list.push({ what: "sessions-differ", pValue: sessions.pValue });
  const exploratory = questions.filter(({ inFamily }) => !inFamily).length;
  if (exploratory > 0) list.push({ what: "exploratory-questions", questions: exploratory });
  return list;
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

/** Further trays of a seat that counts with another one, where one person stands for one answer. */
export const personOnce = (trays: number[]): Caveat[] => (trays.length > 0 ? [{ what: "person-once", trays }] : []);

/** Fewer answers than planned, of a method that asks for a number of them; null when there are enough. */
export function tooFewAnswers({ plan }: StudyRecord, answered: number): Caveat | null {
  const planned = plan.people * plan.repeats;
  return answered < planned ? { what: "below-plan", planned, answered } : null;
}

/** Batches of a product that were on counted trays: in the order of the plan, then any that the plan does not name. */
export function servedBatches(record: StudyRecord, served: readonly Served[], product: string): string[] {
  const had = new Set(
    served.flatMap(({ samples }) => samples.filter((sample) => sample.product === product).map(({ batch }) => batch)),
  );
  // what nobody recorded is no batch
  had.delete("");
  const planned = record.plan.waves.flatMap((wave) => wave.batches[product] ?? []);
  return [...new Set([...planned.filter((batch) => had.has(batch)), ...[...had].sort()])];
}
